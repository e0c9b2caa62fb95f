"""Two joined balloons in text: both drawings, the second lower and aside, then their measures."""

import math
from collections.abc import Iterator

from letterfit.counting import counted
from letterfit.fit.joined import JoinedBalloon
from letterfit.output.terminal.balloon import drawing
from letterfit.output.terminal.marks import finding_line
from letterfit.output.terminal.sheet import Cell, Sheet, cells


def joined_to_text(joined: JoinedBalloon, *, width: int = 80, colour: bool = False) -> str:
    """Joined balloons as terminal text: a drawing of both stacks, then their measures.

    Args:
        joined: The balloons.
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        Lines of at most `width` cells, a line feed at the end.

    >>> import letterfit as lf
    >>> print(joined_to_text(lf.fit_joined(("Hold on.", "The tide turned."))), end="")
        .--------.
      (  HOLD ON.  )
        '--------'
            .----------.
           (  THE TIDE  )
           (  TURNED.   )
            '----------'
    <BLANKLINE>
    ✓ Fits: 5 words in 1 line and 2 lines at 7.5 pt.
      two joined balloons, 22.2 x 14.8 mm, 191 mm²
      neck 5.7 mm; letters keep 1.20 mm from the outline
    """
    sheet = Sheet(width=width, colour=colour)
    for row in _drawn(joined, width=width):
        sheet.line(row)
    sheet.line()
    for told in joined_told(joined):
        sheet.line(*told, indent=2)
    return sheet.text()


def joined_told(joined: JoinedBalloon) -> Iterator[tuple[Cell | str, ...]]:
    """The measures of joined balloons and what was found of their text, line by line."""
    column = "column" if joined.upper.vertical else "line"
    stacks = " and ".join(counted(len(part.lines), column) for part, _ in joined.parts)
    fits = f"✓ Fits: {counted(joined.words, 'word')} in {stacks} at {joined.size_pt:g} pt."
    yield (Cell(fits, "fits"),)
    yield (f"  two joined balloons, {joined_size_text(joined)}",)
    yield (f"  {_distances(joined)}",)
    yield from map(finding_line, joined.findings)


def joined_size_text(joined: JoinedBalloon) -> str:
    """The width, height and area of the union."""
    outline = joined.outline
    size = f"{2 * outline.half_width:.1f} x {2 * outline.half_height:.1f} mm"
    return f"{size}, {joined.area_mm2:.0f} mm²"


def _distances(joined: JoinedBalloon) -> str:
    neck = f"neck {joined.outline.neck_mm:.1f} mm"
    if math.isinf(joined.clearance_mm):
        return neck
    return f"{neck}; letters keep {joined.clearance_mm:.2f} mm from the outline"


def _drawn(joined: JoinedBalloon, *, width: int) -> list[str]:
    """Both drawings under each other, moved apart as their centres are where there is room."""
    upper, lower = (drawing(part, width=width) for part, _ in joined.parts)
    widths = [max(map(cells, rows)) for rows in (upper, lower)]
    share = joined.outline.dx / (2 * joined.outline.half_width)
    start = round((widths[0] - widths[1]) / 2 + share * max(widths))
    indents = [max(-start, 0), max(start, 0)]
    return [
        " " * min(indent, max(width - wide, 0)) + row
        for indent, wide, rows in zip(indents, widths, (upper, lower), strict=True)
        for row in rows
    ]
