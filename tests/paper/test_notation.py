"""The notation of tiers: what it reads, what it refuses, and the way back."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.paper.notation import parse_tiers, write_tiers
from letterfit.paper.shapes import PageShape, TierShape
from tests.paper.shapes import SHAPES, alike

RATIOS = st.integers(2, 400).map(lambda n: n / 8)
TIERS = st.one_of(
    st.builds(lambda n, h: TierShape((1.0,) * n, h), st.integers(1, 6), RATIOS),
    st.builds(TierShape, st.lists(RATIOS, min_size=2, max_size=5).map(tuple), RATIOS),
)


def test_counts_widths_and_heights_are_read() -> None:
    """A count makes equal panels, colons part widths, @ gives the height."""
    shape = parse_tiers(" 3/ 2:1 @1.5 /4", line=7)
    assert [tier.widths for tier in shape.tiers] == [(1, 1, 1), (2, 1), (1, 1, 1, 1)]
    assert [tier.height for tier in shape.tiers] == [1, 1.5, 1]
    assert (shape.panel_count, shape.line) == (9, 7)


@given(st.lists(TIERS, min_size=1, max_size=6))
def test_notation_reads_back_what_it_wrote(tiers: list[TierShape]) -> None:
    """Written and read again, panels, proportions and heights are the same."""
    again = parse_tiers(write_tiers(PageShape(tiers=tuple(tiers))))
    assert [len(tier.widths) for tier in again.tiers] == [len(tier.widths) for tier in tiers]
    for tier, back in zip(tiers, again.tiers, strict=True):
        assert back.height == tier.height
        # Equal widths are written as a count: only the proportion is kept.
        assert [w / sum(back.widths) for w in back.widths] == pytest.approx(
            [w / sum(tier.widths) for w in tier.widths]
        )


@pytest.mark.parametrize(
    ("typed", "quoted"),
    [
        ("", "empty"),
        ("3//4", "'/4' after '3/'"),
        ("3/", "no panels after '3/'"),
        ("three", "'three'"),
        ("3 @ /2", "'3 @'"),
        ("2::1", "':1' after '2:'"),
        ("0", "tier of 0"),
        ("2.5", "tier of 2.5"),
        ("65", "tier of 65"),
        ("3 @0", "height of 0"),
        ("2:0", "width of 0"),
        ("1.2.3:1", "'1.2.3'"),
        ("3 @-1", "'-1' after '3 @'"),
        ("3 @nan", "'nan' after '3 @'"),
        ("2:1e9", "'e9' after '2:1'"),
        ("2:(1/1", "no panels after '2:(1/1'"),
        ("2:1)", "')' after '2:1'"),
        ("2:()", "')' after '2:('"),
        ("(" * 9 + "1" + ")" * 9, "nested too deeply"),
        ("3[top-left 0.3x0.3]", "inset in a tier of several"),
        ("1[middle 0.3x0.3]", "'middle 0.3x0.3' is no inset"),
        ("1[mid-left 0.3x0.3]", "is no inset"),
        ("1[top-left 1.3x0.3]", "inset of 1.3"),
        ("1[top-left 0x0.3]", "inset of 0"),
        ("1[top-left", "'[top-left' after '1'"),
        ("1[]", "'' is no inset"),
        ("[top-left 0.3x0.3]", "'[top-left 0.3x0.3]' is no tier"),
        ("~", "'~' is no tier"),
        (":".join(["1"] * 70), "after"),
        ("３", "'３'"),
        ("1/" * 5000, "10000 characters"),
    ],
)
def test_what_is_not_in_the_notation_is_told(typed: str, quoted: str) -> None:
    """The message quotes the tier at fault, names the line, and shows how to write it."""
    with pytest.raises(PageError) as caught:
        parse_tiers(typed, line=12, source="gate.txt")
    assert quoted in caught.value.what
    assert (caught.value.line, caught.value.source) == (12, "gate.txt")
    assert caught.value.advice


@given(st.text(alphabet="0123456789:/@. x\t", max_size=40))
def test_any_line_is_read_or_refused(text: str) -> None:
    """Whatever is typed, there is a shape with panels or one clear complaint."""
    panels, complaint = 0, ""
    try:
        panels = parse_tiers(text).panel_count
    except PageError as error:
        complaint = str(error)
    assert "\n" not in complaint
    assert bool(panels) != bool(complaint)


@given(SHAPES)
def test_stacks_bleeds_and_insets_read_back(shape: PageShape) -> None:
    """Whatever nests in whatever: written and read again it is the same, ratios to six decimals."""
    again = parse_tiers(write_tiers(shape))
    assert alike(again.tiers, shape.tiers)
    assert again.panel_count == shape.panel_count


@given(st.text(alphabet="0123./:@~()[]x top-left", max_size=60))
def test_any_text_is_a_plan_or_is_refused(text: str) -> None:
    """Nothing typed ends in anything but a shape, which reads back, or one clear complaint."""
    shape = PageShape(tiers=(TierShape((1.0,)),))
    with suppress(PageError):
        shape = parse_tiers(text)
    assert parse_tiers(write_tiers(shape)).panel_count == shape.panel_count
