"""CSV as letterfit writes it: RFC 4180, numbers as numbers, and no cell that a spreadsheet runs."""

import csv
import io
from collections.abc import Iterable, Sequence

from letterfit.output.plain import plain

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""What a spreadsheet may take for a formula at the start of a cell (OWASP, CSV Injection)."""

Cell = str | float | None


def csv_text(columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    r"""Rows as CSV (RFC 4180): commas, CR LF after each row, quotes where needed.

    Args:
        columns: The names of the columns; trusted.
        rows: The cells: words, which never become a formula; numbers, which stay numbers even
            where they are negative; None for an empty cell.

    >>> csv_text(("id", "x_mm"), [("=1+1", -3.175), ("a, b", None)])
    'id,x_mm\r\n\'=1+1,-3.175\r\n"a, b",\r\n'
    """
    file = io.StringIO(newline="")
    writer = csv.writer(file, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([_cell(value) for value in row] for row in rows)
    return file.getvalue()


def words_cell(text: str) -> str:
    """Words as a spreadsheet shows them: never a formula.

    >>> words_cell("=1+1"), words_cell("-- wait!"), words_cell("Hold. -- No!")
    ("'=1+1", "'-- wait!", 'Hold. -- No!')
    """
    safe = plain(text)
    return f"'{safe}" if safe.startswith(FORMULA_STARTS) else safe


def _cell(value: Cell) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return words_cell(value)
    return f"{value:g}" if abs(value) < 1e3 else f"{value:.3f}".rstrip("0").rstrip(".")
