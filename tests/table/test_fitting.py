"""Tables fitted: each row as it would be alone, and one size that is the largest for all."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.balloons import fit_into
from letterfit.errors import TableError
from letterfit.families import FAMILIES
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import Ellipse
from letterfit.report.limits import Limits
from letterfit.table.fitting import fit_table
from letterfit.table.model import LEAST_SIZE_PT, TextRow

TEXTS = (
    "Ahoy, the lock!",
    "The tide turned an hour ago, and nobody has come to ask why the gate is shut.",
    "*Nobody* opens that gate before the water is level. Nobody.",
    "Open it, or I ram it -- your choice!",
    "Wenna... no.",
)


def row(name: str, text: str, *, half_width: float, outline: str = "ellipse") -> TextRow:
    """A text in an outline 1.8 times as wide as high."""
    shape = FAMILIES[outline].within(half_width, half_width / 1.8)
    return TextRow(id=name, text=text, outline=shape)


TABLES = st.lists(
    st.builds(
        row,
        st.just("?"),
        st.sampled_from(TEXTS),
        half_width=st.floats(6, 20),
        outline=st.sampled_from(["ellipse", "rounded", "caption", "cloud"]),
    ),
    min_size=1,
    max_size=5,
).map(lambda rows: [replace(one, id=f"r{n}") for n, one in enumerate(rows)])


def test_the_least_size_is_the_report_s() -> None:
    """One default for both; common practice, no source."""
    assert Limits().least_size_pt == LEAST_SIZE_PT


@settings(max_examples=25)
@given(rows=TABLES)
def test_every_row_is_set_as_it_would_be_alone(rows: list[TextRow]) -> None:
    """A table is many calls of `fit_into`, no more."""
    for one in fit_table(rows).rows:
        assert one.fitted == fit_into(one.row.text, outline=one.row.outline)


@settings(max_examples=25)
@given(rows=TABLES)
def test_the_common_size_is_the_largest_for_all(rows: list[TextRow]) -> None:
    """Set anew at it every row fits that is not left out; 1 % more and the binding ones do not."""
    table = fit_table(rows, common=True)
    common = table.common
    assert common is not None
    left_out = set(common.left_out)
    assert {one.row.id for one in table.rows if not one.fits} == left_out
    for one in table.rows:
        at_least = fit_into(one.row.text, Lettering(size_pt=6.0), outline=one.row.outline)
        assert at_least.fits == (one.row.id not in left_out)
        if common.size_pt is not None and one.row.id not in left_out:
            at = Lettering(size_pt=common.size_pt)
            assert fit_into(one.row.text, at, outline=one.row.outline).fits
        if common.size_pt is not None and one.row.id in common.bound_by:
            over = Lettering(size_pt=1.01 * common.size_pt)
            assert not fit_into(one.row.text, over, outline=one.row.outline).fits
    if common.size_pt not in (None, 7.5):
        assert common.bound_by


@settings(max_examples=15)
@given(rows=TABLES, data=st.data())
def test_the_order_of_rows_does_not_matter(rows: list[TextRow], data: st.DataObject) -> None:
    """Each row comes out the same, wherever it stands."""
    other = data.draw(st.permutations(rows))
    found = [fit_table(one, common=True) for one in (rows, other)]
    by_id = [{one.row.id: one for one in table.rows} for table in found]
    assert by_id[0] == by_id[1]
    assert [one.row for one in found[1].rows] == other


def test_rows_are_set_at_the_common_size() -> None:
    """Each line as it is when the text is lettered at that size from the start."""
    rows = [row("tight", TEXTS[1], half_width=15), row("roomy", TEXTS[2], half_width=16)]
    table = fit_table(rows, common=True)
    assert table.size_pt < 7.5
    for one in table.rows:
        alone = fit_into(one.row.text, Lettering(size_pt=table.size_pt), outline=one.row.outline)
        assert one.fitted.size_pt == alone.size_pt
        assert [line.text for line in one.fitted.lines] == [line.text for line in alone.lines]
        widths = [[line.width_mm for line in f.lines] for f in (one.fitted, alone)]
        assert widths[0] == pytest.approx(widths[1], rel=1e-9)


def test_the_common_size_holds_without_the_row_that_binds() -> None:
    """Taken out, the others get the size that was foretold."""
    rows = [
        row("tight", TEXTS[1], half_width=15),
        row("tighter", TEXTS[1], half_width=14.5),
        row("roomy", TEXTS[0], half_width=15),
    ]
    first = fit_table(rows, common=True).common
    assert first is not None
    assert first.bound_by == ("tighter",)
    rest = fit_table([rows[0], rows[2]], common=True).common
    assert rest is not None
    assert rest.size_pt == first.without_pt


def test_a_row_is_helped_down_to_the_least_size_and_no_further() -> None:
    """With a lower least size the same row is no longer left out (the limit is advice)."""
    tight = row("a", TEXTS[1], half_width=12)
    strict, loose = (fit_table([tight], common=True, least_size_pt=least) for least in (6.0, 4.0))
    assert strict.common is not None
    assert (strict.common.size_pt, strict.common.left_out) == (None, ("a",))
    assert strict.rows[0].largest_size_pt is None
    assert strict.size_pt == 7.5
    assert loose.common is not None
    assert loose.common.size_pt is not None
    assert 4 <= loose.common.size_pt < 6
    assert loose.fits


def test_a_size_under_the_least_is_set_when_it_is_asked_for() -> None:
    """The limit is advice: what fits at the size asked for is not left out."""
    table = fit_table([row("a", TEXTS[0], half_width=12)], Lettering(size_pt=5), common=True)
    assert table.fits
    assert table.size_pt == 5


def test_a_row_s_own_language_is_its_own() -> None:
    """Turkish has a dotted capital I (Unicode 17, SpecialCasing.txt); others take the table's."""
    shape = Ellipse(half_width=15, half_height=8)
    rows = [
        TextRow(id="tr", text="bir iki", outline=shape, language="tr"),
        TextRow(id="en", text="bir iki", outline=shape),
    ]
    texts = [one.fitted.text for one in fit_table(rows).rows]
    assert texts == ["BİR İKİ", "BIR IKI"]
    assert [one.fitted.text for one in fit_table(rows[1:], language="tr").rows] == ["BİR İKİ"]


def test_what_is_lost_is_no_fit() -> None:
    """A character that no font has (one for private use): the row fits, the table does not."""
    table = fit_table([row("a", "Ahoy \ue000!", half_width=20)])
    assert table.rows[0].loses
    assert not table.fits


def test_all_rows_that_cannot_be_set_are_named() -> None:
    """Empty, over 1,000 words, an outline of a kilometre: each in its place, at once."""
    huge = Ellipse(half_width=5e5, half_height=5e5)
    rows = [
        replace(row("a", "\u200b", half_width=10), place="line 2"),
        row("b", "Ahoy!", half_width=10),
        row("c", "no " * 1_001, half_width=10),
        TextRow(id="d", text="Ahoy!", outline=huge),
        row("e", "a" * 5_001, half_width=10),
    ]
    with pytest.raises(TableError) as caught:
        fit_table(rows)
    told = str(caught.value)
    assert told.startswith("4 rows cannot be used: line 2: there is no text")
    assert all(f"row {n}: " in told for n in (3, 4, 5))


def test_an_id_stands_once() -> None:
    """A result that two rows share could not be told apart."""
    same = row("a", "Ahoy!", half_width=10)
    with pytest.raises(TableError, match="row 2: the id 'a' again"):
        fit_table([same, same])


@pytest.mark.parametrize("least", [0, -1, math.nan, math.inf])
def test_a_least_size_is_a_size(least: float) -> None:
    """No size of nought, less or no number."""
    with pytest.raises(TableError, match="least size"):
        fit_table([], least_size_pt=least)


def test_no_rows_are_a_table_that_fits() -> None:
    """A library user may have none to fit."""
    table = fit_table([], common=True)
    assert table.fits
    assert table.common is not None
    assert table.common.size_pt is None


def test_a_text_scaled_is_the_text_measured_at_that_size() -> None:
    """What the common size rests on: shaping is linear in the size (no hints are used)."""
    large, small = (measure(TEXTS[1], Lettering(size_pt=size)) for size in (7.5, 6.74))
    scaled = large.scaled(6.74 / 7.5)
    assert scaled.ends == pytest.approx(small.ends, rel=1e-12)


def test_progress_is_told_row_by_row() -> None:
    """And telling it changes nothing."""
    rows = [row(str(n), text, half_width=14) for n, text in enumerate(TEXTS)]
    told: list[tuple[int, int]] = []
    table = fit_table(rows, common=True, progress=lambda done, of: told.append((done, of)))
    assert told == [(n, len(rows)) for n in range(1, len(rows) + 1)]
    assert table == fit_table(rows, common=True)
