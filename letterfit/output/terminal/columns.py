"""Columns of vertical text in a terminal: one square of two cells for each character.

What a terminal cannot turn stands upright; brackets, dashes and the like have Unicode's vertical
forms, which are drawn turned already.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.fit.model import Line
from letterfit.lettering.vertical.stances import narrow, stances
from letterfit.output.plain import one_line
from letterfit.output.terminal.sheet import cells

FORMS = str.maketrans(
    "「」『』（）【】〔〕〈〉《》［］｛｝()[]{}ー—―–…‥〜～~、。",
    "﹁﹂﹃﹄︵︶︻︼︹︺︿﹀︽︾﹇﹈︷︸︵︶﹇﹈︷︸︱︱︱︱︙︰︴︴︴︑︒",
)
"""Unicode 17, blocks Vertical Forms and CJK Compatibility Forms."""

SQUARE = 2
"""Cells of a wide character."""

STEP = 3
"""Cells from column to column."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Columns in rows of a terminal.

    Args:
        rows: Each row, of the same number of cells; the middle of them all is the outline's.
        row_mm: What a row stands for.
        cell_mm: What a cell stands for.
    """

    rows: tuple[str, ...]
    row_mm: float
    cell_mm: float


def columns_grid(lines: Sequence[Line]) -> Grid | None:
    """The columns as they stand to each other, the first at the right; None without any ink."""
    columns = [_squares(one_line(line.text)) for line in lines]
    steps = [
        line.width_mm / len(column)
        for line, column in zip(lines, columns, strict=True)
        if column and line.width_mm > 0
    ]
    if not steps:
        return None
    row_mm = min(steps)
    half = max(max(-line.baseline_mm, line.baseline_mm + line.width_mm) for line in lines)
    count = max(2 * round(half / row_mm), *map(len, columns), 1)
    rows = [[" " * SQUARE] * len(columns) for _ in range(count)]
    for place, (line, column) in enumerate(zip(lines, columns, strict=True)):
        first = round(line.baseline_mm / row_mm + count / 2)
        first = max(0, min(first, count - len(column)))
        for row, square in enumerate(column, first):
            rows[row][len(columns) - 1 - place] = square
    gap = " " * (STEP - SQUARE)
    pitch = lines[0].x_mm - lines[1].x_mm if len(lines) > 1 else row_mm * STEP / SQUARE
    return Grid(tuple(gap.join(row) for row in rows), row_mm, pitch / STEP)


def _squares(text: str) -> list[str]:
    """What stands in each square of a column, two cells wide: a character, or a cell of two."""
    found: list[str] = []
    for start, end, stance in stances(text):
        part = text[start:end]
        if stance == "together" and cells(narrow(part)) <= SQUARE:
            found.append(narrow(part))
        else:
            for char in part.translate(FORMS):
                if found and not cells(char):
                    found[-1] += char
                else:
                    found.append(char)
    return [square + " " * (SQUARE - cells(square)) for square in found]
