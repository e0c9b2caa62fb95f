"""Plans in TOML: both forms, and every slip told by its key and line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.paper.notation import write_tiers
from letterfit.paper.read_plans import parse_plans
from letterfit.paper.shapes import TierShape

WHOLE = """\
# The gate book.
paper = "b5-jis"
gutter = 2.5

[all]
tiers = "2 / 2 / 2"

[page.3]
tiers = "3 / 2:1 @1.5 / 4"
gutter = 4

[[page.4.tiers]]
panels = 3
height = 1.2

[[page.4.tiers]]
widths = [2, 1]
"""


def test_everything_a_plan_can_say_is_read() -> None:
    """Paper, gutters, the short form, the long form, and the lines they stand on."""
    plans = parse_plans(WHOLE, source="plan.toml")
    assert plans.paper is not None
    assert (plans.paper.name, plans.gutter_mm, plans.source) == ("b5-jis", 2.5, "plan.toml")
    assert plans.every_page is not None
    assert (write_tiers(plans.every_page), plans.every_page.gutter_mm) == ("2 / 2 / 2", 2.5)
    third, fourth = plans.shape(3), plans.shape(4)
    assert third is not None
    assert fourth is not None
    assert (write_tiers(third), third.gutter_mm, third.line) == ("3 / 2:1 @1.5 / 4", 4, 9)
    assert fourth.tiers == (TierShape((1, 1, 1), 1.2), TierShape((2, 1)))
    assert plans.shape(5) is None


def test_a_gutter_for_all_pages_needs_no_tiers() -> None:
    """[all] may state only a gutter; every page without one of its own has it then."""
    plans = parse_plans('gutter = 9\n[all]\ngutter = 3\n[page.1]\ntiers = "3 / 2:1"')
    first = plans.shape(1)
    assert first is not None
    assert (plans.every_page, plans.gutter_mm, first.gutter_mm) == (None, 3, 3)


def test_a_byte_order_mark_and_carriage_returns_are_forgiven() -> None:
    """A file saved by any editor is the same plan."""
    assert parse_plans("\ufeff" + WHOLE.replace("\n", "\r\n")) == parse_plans(WHOLE)


@pytest.mark.parametrize(
    ("text", "says", "line"),
    [
        ('[all]\ntier = "2/2"', "'tier'", 2),
        ('[every]\ntiers = "2"', "'every'", 1),
        ('\n\n[page.3]\ntiers = "2"\nheigth = 2', "'heigth'", 5),
        ('[page.one]\ntiers = "2"', "page.one", 1),
        ('[page.3]\ntiers = "2 / x"', "'x'", 2),
        ("[page.3]\ntiers = 2", "no tiers", 2),
        ("[page.3]\ntiers = []", "no tiers", 2),
        ("[page.3]", "no tiers", 1),
        ("[[page.3.tiers]]\npanels = 2\nwidth = 1", "'width'", 3),
        ("[[page.3.tiers]]\npanels = 2\nwidths = [1]", "2 panels with 1", 1),
        ("[[page.3.tiers]]\npanels = 0", "panels = 0", 1),
        ("[[page.3.tiers]]\npanels = true", "panels = true", 1),
        ("[[page.3.tiers]]\npanels = 2\nheight = 0", "height of 0", 1),
        ("[[page.3.tiers]]\npanels = 2\nheight = nan", "height of nan", 1),
        ("[[page.3.tiers]]\npanels = 2\nheight = true", "height", 1),
        ("[[page.3.tiers]]\nheight = 2", "without a number of panels", 1),
        ('[[page.3.tiers]]\nwidths = "2:1"\npanels = 2', "no list", 1),
        ("[[page.3.tiers]]\nwidths = [1, 'a']", "no number", 1),
        (f"[[page.3.tiers]]\npanels = 2\nheight = 1{'0' * 400}", "too large", 1),
        ("paper = 'b5-jsi'", "'b5-jsi'", 1),
        ("paper = 5", "not a name", 1),
        ("gutter = -1", "gutter", 1),
        ("gutter = nan", "gutter", 1),
        ("all = 3", "not a table", 1),
        ('[page.3]\ntiers = "2"\n[page."3-4"]\ntiers = "2"', "already", 3),
        ("[page.3\ntiers", "not TOML", 1),
        ("x = ", "not TOML", 1),
        (f"x = {'9' * 5000}", "5004 characters", 1),
        (f"x = {'[' * 900}\n" + f"{'[' * 900}\n" * 50, "nested", None),
        ("#" * 300_000, "200000 characters", None),
    ],
)
def test_a_slip_is_told_by_key_and_line(text: str, says: str, line: int | None) -> None:
    """Every unknown key, bad number and broken table is one line that says where."""
    with pytest.raises(PageError) as caught:
        parse_plans(text, source="plan.toml")
    assert says in caught.value.what
    assert caught.value.source == "plan.toml"
    assert caught.value.advice
    if line is not None:
        assert caught.value.line == line


@given(st.text(alphabet='[]{}="\n.,:/@ pageltirs0123', max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Whatever the file holds, there are plans or one clear complaint."""
    complaint = ""
    try:
        parse_plans(text)
    except PageError as error:
        complaint = str(error)
    assert "\n" not in complaint


@pytest.mark.parametrize("text", ["a." * 40_000 + "a = 1", f"[{'a.' * 40_000}a]"])
def test_a_flood_of_dotted_keys_is_refused_at_once(text: str) -> None:
    """A line of thousands of keys, which would keep tomllib for minutes, is told by its line."""
    with pytest.raises(PageError, match="a line of 8000") as caught:
        parse_plans(text)
    assert caught.value.line == 1
