"""A fitted table in text: a row for each text with its lines, then the one size if asked for."""

import math
from collections.abc import Iterator, Sequence

from letterfit.counting import counted, does
from letterfit.output.numbers import points_down_or_none
from letterfit.output.plain import one_line
from letterfit.output.terminal.marks import finding_mark, finding_told
from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.table.model import CommonSize, FittedRow, FittedTable

COLUMNS = (
    Column(),
    Column(head="id", wraps=True),
    Column(head="outline, mm"),
    Column(head="words", right=True),
    Column(head="lines as set", wraps=True),
    Column(head="verdict", wraps=True),
)

MOST_IDS = 12
"""Ids named one by one; of more, the rest is counted."""


def table_to_text(table: FittedTable, *, width: int = 80, colour: bool = False) -> str:
    """A fitted table as terminal text.

    Args:
        table: The table.
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        Lines of at most `width` cells, a line feed at the end.

    >>> import letterfit as lf
    >>> row = lf.TextRow(id="1.1", text="Ahoy!", outline=lf.Ellipse(half_width=12, half_height=6))
    >>> print(table_to_text(lf.fit_table([row])), end="")
    ✓ The text fits at 7.5 pt.
    <BLANKLINE>
         id   outline, mm  words  lines as set  verdict
      ✓  1.1  ellipse          1  AHOY!         fits, 4.66 mm clear
              24.0 x 12.0
    """
    sheet = Sheet(width=width, colour=colour)
    sheet.line(_verdict(table))
    if table.common is not None:
        for line in _common(table.common, table):
            sheet.line(line, indent=2)
    sheet.line()
    sheet.table(COLUMNS, [_row(row, table) for row in table.rows])
    for row in table.rows:
        for finding in row.fitted.findings:
            told = f" {one_line(row.row.id)}: {finding_told(finding)}"
            sheet.line(finding_mark(finding), told, indent=2)
    if not all(row.fits for row in table.rows) or table.common is not None:
        sheet.line()
        least = f"The least legible size is {table.least_size_pt:g} pt: common practice and advice."
        sheet.line(Cell(least, "quiet"))
    return sheet.text()


def _verdict(table: FittedTable) -> Cell:
    rows, over = len(table.rows), sum(not row.fits for row in table.rows)
    size = f"{table.size_pt:g} pt"
    if over:
        told = f"✗ {over} of {counted(rows, 'text')} {does(over)} not fit at {size}."
        return Cell(told, "fails")
    if not table.fits:
        lost = sum(row.loses for row in table.rows)
        return Cell(f"✗ {counted(lost, 'text')} of {rows} with letters that no font has.", "fails")
    return Cell(f"✓ {f'All {rows} texts fit' if rows > 1 else 'The text fits'} at {size}.", "fits")


def _common(common: CommonSize, table: FittedTable) -> Iterator[str]:
    """The one size, what binds it, and which rows it leaves out."""
    whom = "all but those left out" if common.left_out else "all"
    if common.size_pt is None:
        yield f"→ No text fits at any size from {table.least_size_pt:g} pt up."
    elif not common.bound_by:
        yield f"→ One size for {whom}: {common.size_pt:g} pt, as asked."
    else:
        verb = "binds" if len(common.bound_by) == 1 else "bind"
        named = f"{_names(common.bound_by)} {verb}: without, it would be {common.without_pt:g} pt"
        yield f"→ One size for {whom}: {common.size_pt:g} pt, not {table.asked_pt:g}. {named}."
    if common.left_out:
        yield f"→ Left out, for want of fewer words or a larger outline: {_names(common.left_out)}."


def _names(ids: Sequence[str]) -> str:
    more = len(ids) - MOST_IDS
    named = ", ".join(map(one_line, ids[:MOST_IDS]))
    return f"{named} and {more:,} more" if more > 0 else named


def _row(row: FittedRow, table: FittedTable) -> tuple[Cell | str, ...]:
    fitted = row.fitted
    outline = fitted.outline
    return (
        Cell("✓", "fits") if row.fits else Cell("✗", "fails"),
        one_line(row.row.id),
        f"{outline.kind}\n{2 * outline.half_width:.1f} x {2 * outline.half_height:.1f}",
        str(fitted.words),
        "\n".join(one_line(line.text) for line in fitted.lines) or "none",
        _told(row, table),
    )


def _told(row: FittedRow, table: FittedTable) -> str:
    over = row.fitted.overflow
    if over is None:
        air = row.fitted.clearance_mm
        return "fits" if math.isinf(air) else f"fits, {air:.2f} mm clear"
    size = points_down_or_none(row.largest_size_pt)
    if size is None:
        ways = f"fits at no legible size (least {table.least_size_pt:g} pt), but in"
    else:
        ways = f"fits at {size:g} pt, or in"
    need = over.outline
    sides = (math.ceil(round(20 * side, 6)) / 10 for side in (need.half_width, need.half_height))
    wider, higher = sides
    return f"{counted(over.words, 'word')} over; {ways} {wider:.1f} x {higher:.1f} mm"
