"""Records to rows: outlines made, every kind of bad cell refused by its row's name."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import TableError
from letterfit.families import FAMILIES
from letterfit.outline import Ellipse, RoundedRect, Superellipse
from letterfit.table.records import Record
from letterfit.table.rows import LONGEST_ID, rows_of

GOOD = {"id": "a", "text": "Ahoy!", "outline": "ellipse", "width": "20", "height": "10"}


def record(line: int = 2, **cells: object) -> Record:
    """A good row but for the cells given; None leaves one out."""
    kept = {name: cell for name, cell in {**GOOD, **cells}.items() if cell is not None}
    return Record(place=f"line {line}", cells=kept)


@pytest.mark.parametrize("name", FAMILIES)
def test_an_outline_is_no_wider_and_no_higher_than_asked(name: str) -> None:
    """Width and height are whole sides, of every family."""
    (row,) = rows_of([record(outline=f" {name.upper()} ")])
    assert 19.5 <= 2 * row.outline.half_width <= 20
    assert 9.5 <= 2 * row.outline.half_height <= 10


def test_an_exponent_and_a_radius_make_their_own_outlines() -> None:
    """A superellipse's exponent, a rounded box's radius in mm."""
    (fuller,) = rows_of([record(outline="superellipse", exponent="3.5")])
    (boxed,) = rows_of([record(outline="rounded", radius=2)])
    assert fuller.outline == Superellipse(half_width=10, half_height=5, exponent=3.5)
    assert boxed.outline == RoundedRect(half_width=10, half_height=5, radius=2)


def test_numbers_may_have_a_decimal_comma_where_no_comma_parts_cells() -> None:
    """32,5 in a file parted by semicolons; in one parted by commas it is a fault."""
    (row,) = rows_of([replace(record(width="32,5"), decimal_comma=True)])
    assert row.outline == Ellipse(half_width=16.25, half_height=5)
    with pytest.raises(TableError, match="width '32,5' is no number"):
        rows_of([record(width="32,5")])


def test_a_language_is_kept_for_its_row() -> None:
    """A BCP 47 tag; a row without one has none."""
    rows = rows_of([record(language=" pt-BR "), record(3, id="b")])
    assert [row.language for row in rows] == ["pt-BR", None]


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"id": None}, "no id"),
        ({"id": " "}, "the id ' ' is no text"),
        ({"id": True}, "the id True is no text"),
        ({"id": "x" * (LONGEST_ID + 1)}, "an id of 201 characters"),
        ({"text": None, "width": None}, "no text, width"),
        ({"text": 5}, "the text 5 is no text"),
        ({"text": "\n "}, "the text is empty"),
        ({"text": "a" * 5_001}, "a text of 5,001 characters"),
        ({"outline": "oval"}, "no outline is called 'oval'; outlines are ellipse,"),
        ({"outline": ["ellipse"]}, "no outline is called of several"),
        ({"width": "nan"}, "width 'nan' is no number"),
        ({"width": "20mm"}, "width '20mm' is no number"),
        ({"width": "\u0662\u0660"}, "is no number"),
        ({"width": "1_0"}, "width '1_0' is no number"),
        ({"width": True}, "width True is no number"),
        ({"width": float("inf")}, "width inf is no number"),
        ({"width": 10**400}, "is no number"),
        ({"width": "0"}, "width '0' is no length from 0.1 to 10,000 mm"),
        ({"height": "-10"}, "height '-10' is no length"),
        ({"height": "1e5"}, "height '1e5' is no length"),
        ({"exponent": "3"}, "an exponent goes with superellipse, not with ellipse"),
        ({"radius": "3"}, "a radius goes with rounded, not with ellipse"),
        ({"outline": "rounded", "radius": "6"}, "a corner radius of 6.0 mm does not go into"),
        ({"outline": "superellipse", "exponent": "0.5"}, "exponent 0.5 makes no convex curve"),
        ({"language": "french please"}, "'french please' is no language tag"),
    ],
)
def test_each_kind_of_bad_cell_is_named(cells: dict[str, object], said: str) -> None:
    """One row at fault, in one line, with its place."""
    with pytest.raises(TableError) as caught:
        rows_of([record(7, **cells)])
    told = str(caught.value)
    assert "1 row cannot be used: line 7: " in told
    assert said in told


def test_all_rows_at_fault_are_named_at_once() -> None:
    """An id given again is told with the place where it stood first."""
    rows = [record(2), record(3, width="x", id="b"), record(4), record(5, text=None, id="c")]
    with pytest.raises(TableError) as caught:
        rows_of(rows, source="t.csv")
    assert str(caught.value) == (
        "t.csv: 3 rows cannot be used: line 3: width 'x' is no number; "
        "line 4: the id 'a' again, as in line 2; line 5: no text"
    )


def test_no_rows_are_no_table() -> None:
    """A file of column names alone."""
    with pytest.raises(TableError, match="the table has no rows"):
        rows_of([])


@given(cell=st.text() | st.integers() | st.floats() | st.booleans())
def test_any_cell_is_a_side_or_a_fault(cell: object) -> None:
    """No other exception, whatever stands there."""
    try:
        (row,) = rows_of([record(width=cell)])
    except TableError:
        return
    assert 0.05 <= row.outline.half_width <= 5_000
