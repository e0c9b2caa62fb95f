"""A fitted table as CSV: a row for each text, safe to open in a spreadsheet."""

import math

from letterfit.output import numbers
from letterfit.output.csv_text import Cell, csv_text
from letterfit.table.model import FittedRow, FittedTable

COLUMNS = (
    "id",
    "text",
    "outline",
    "width",
    "height",
    "fits",
    "size_pt",
    "lines",
    "words",
    "words_over",
    "largest_size_pt",
    "smallest_width",
    "smallest_height",
    "clearance_mm",
)


def table_to_csv(table: FittedTable) -> str:
    """A fitted table as CSV (RFC 4180): commas, CR LF after each row, quotes where needed.

    Args:
        table: The table.

    Returns:
        A row of column names and a row for each text: lengths in mm, whole sides, sizes in points.
        Lines stand under each other in their cell. What there is none of is an empty cell. A cell
        of words that begins as a formula does has an apostrophe before it.

    >>> import letterfit as lf
    >>> row = lf.TextRow(id="1.1", text="Ahoy!", outline=lf.Ellipse(half_width=12, half_height=6))
    >>> table_to_csv(lf.fit_table([row])).splitlines()[1]
    '1.1,Ahoy!,ellipse,24,12,yes,7.5,AHOY!,1,0,7.5,,,4.66'
    """
    return csv_text(COLUMNS, map(_cells, table.rows))


def _cells(row: FittedRow) -> tuple[Cell, ...]:
    fitted, over = row.fitted, row.fitted.overflow
    outline = fitted.outline
    smallest = None if over is None else over.outline
    return (
        row.row.id,
        row.row.text,
        outline.kind,
        numbers.mm(2 * outline.half_width),
        numbers.mm(2 * outline.half_height),
        "yes" if row.fits else "no",
        numbers.points(fitted.size_pt),
        "\n".join(line.text for line in fitted.lines),
        fitted.words,
        0 if over is None else over.words,
        numbers.points_down_or_none(row.largest_size_pt),
        None if smallest is None else _up(2 * smallest.half_width),
        None if smallest is None else _up(2 * smallest.half_height),
        numbers.mm_or_none(fitted.clearance_mm),
    )


def _up(mm: float) -> float:
    """A length rounded up to a micrometre: an outline so large still holds the words."""
    return math.ceil(round(mm * 1000, 6)) / 1000
