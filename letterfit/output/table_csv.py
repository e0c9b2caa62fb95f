"""A fitted table as CSV: a row for each text, safe to open in a spreadsheet."""

import csv
import io
import math

from letterfit.output import numbers
from letterfit.output.plain import plain
from letterfit.table import FittedRow, FittedTable

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

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet may take for a formula at the start of a cell (OWASP, CSV Injection)."""


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
    file = io.StringIO(newline="")
    writer = csv.writer(file, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows(_cells(row) for row in table.rows)
    return file.getvalue()


def _cells(row: FittedRow) -> tuple[str, ...]:
    fitted, over = row.fitted, row.fitted.overflow
    outline = fitted.outline
    smallest = None if over is None else over.outline
    return (
        words_cell(row.row.id),
        words_cell(row.row.text),
        outline.kind,
        _number(numbers.mm(2 * outline.half_width)),
        _number(numbers.mm(2 * outline.half_height)),
        "yes" if row.fits else "no",
        _number(numbers.points(fitted.size_pt)),
        words_cell("\n".join(line.text for line in fitted.lines)),
        str(fitted.words),
        str(0 if over is None else over.words),
        _number(numbers.points_down_or_none(row.largest_size_pt)),
        _number(None if smallest is None else _up(2 * smallest.half_width)),
        _number(None if smallest is None else _up(2 * smallest.half_height)),
        _number(numbers.mm_or_none(fitted.clearance_mm)),
    )


def words_cell(text: str) -> str:
    """Words as a spreadsheet shows them: never a formula.

    >>> words_cell("=1+1"), words_cell("-- wait!"), words_cell("Hold. -- No!")
    ("'=1+1", "'-- wait!", 'Hold. -- No!')
    """
    safe = plain(text)
    return f"'{safe}" if safe.startswith(FORMULA_STARTS) else safe


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:g}" if value < 1e5 else f"{value:.3f}"


def _up(mm: float) -> float:
    """A length rounded up to a micrometre: an outline so large still holds the words."""
    return math.ceil(round(mm * 1000, 6)) / 1000
