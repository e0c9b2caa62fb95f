"""A fitted table as CSV: RFC 4180, sizes that hold, and nothing that a spreadsheet would run."""

import csv
import io

from letterfit.balloons import fit_into
from letterfit.lettering.settings import Lettering
from letterfit.outline import Ellipse
from letterfit.output.table_csv import COLUMNS, table_to_csv
from letterfit.table.fitting import fit_table
from letterfit.table.model import TextRow

ROWS = (
    TextRow(id="=1+1", text="-- No!", outline=Ellipse(half_width=12, half_height=7)),
    TextRow(
        id="b",
        text='The tide, "Wenna", turned an hour ago, and nobody has come.',
        outline=Ellipse(half_width=13, half_height=7.5),
    ),
)


def read(text: str) -> list[dict[str, str]]:
    """The rows as Python's csv module reads them."""
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_every_row_has_a_cell_for_each_column() -> None:
    """As Python's csv module reads it."""
    found = read(table_to_csv(fit_table(ROWS)))
    assert len(found) == len(ROWS)
    assert all(list(row) == list(COLUMNS) and None not in row.values() for row in found)


def test_what_does_not_fit_says_what_would_do() -> None:
    """Set anew at the size, or in the outline, the text fits; what there is none of is empty."""
    _, over = read(table_to_csv(fit_table(ROWS)))
    assert over["fits"] == "no"
    assert int(over["words_over"]) > 0
    size = Lettering(size_pt=float(over["largest_size_pt"]))
    assert fit_into(ROWS[1].text, size, outline=ROWS[1].outline).fits
    a, b = float(over["smallest_width"]) / 2, float(over["smallest_height"]) / 2
    assert fit_into(ROWS[1].text, outline=Ellipse(half_width=a, half_height=b)).fits
    first, _ = read(table_to_csv(fit_table(ROWS)))
    assert (first["fits"], first["smallest_width"], first["words_over"]) == ("yes", "", "0")


def test_lines_stand_under_each_other() -> None:
    """As they are set."""
    table = fit_table(ROWS, common=True)
    _, told = read(table_to_csv(table))
    assert told["lines"].split("\n") == [line.text for line in table.rows[1].fitted.lines]


def test_no_cell_of_words_is_a_formula() -> None:
    """An id, a text and lines that begin as one have an apostrophe before them."""
    first, _ = read(table_to_csv(fit_table(ROWS)))
    assert (first["id"], first["text"], first["lines"]) == ("'=1+1", "'-- No!", "'-- NO!")
