"""One fitted balloon in text: its stack inside a drawn outline, then its measures."""

import math
from collections.abc import Iterator

from letterfit.counting import counted
from letterfit.fit.model import FittedBalloon
from letterfit.outline import CaptionBox, Outline
from letterfit.output.balloon_json import LEAST_SIZE_PT
from letterfit.output.numbers import points_down_or_none
from letterfit.output.plain import one_line
from letterfit.output.terminal.columns import columns_grid
from letterfit.output.terminal.marks import finding_line
from letterfit.output.terminal.sheet import Cell, Sheet, cells
from letterfit.place.figure import half_chord

NOUNS = {
    "caption": "caption box",
    "rounded": "rounded box",
    "squared": "squared box",
    "cloud": "thought cloud",
    "burst": "shout burst",
    "whisper": "dashed balloon",
}
"""What outlines are called in text; others by their kind."""


def balloon_to_text(
    fitted: FittedBalloon,
    *,
    width: int = 80,
    colour: bool = False,
    least_size_pt: float = LEAST_SIZE_PT,
) -> str:
    """A fitted balloon as terminal text: a drawing of the stack, then its measures.

    Args:
        fitted: The balloon.
        width: Cells in a line.
        colour: Whether to colour with escape codes.
        least_size_pt: The least legible type size: no smaller one is offered as a remedy.

    Returns:
        Lines of at most `width` cells, a line feed at the end.

    >>> import letterfit as lf
    >>> print(balloon_to_text(lf.fit_balloon("Hold on.")), end="")
        .--------.
      (  HOLD ON.  )
        '--------'
    <BLANKLINE>
    ✓ Fits: 2 words in 1 line at 7.5 pt.
      ellipse 15.2 x 6.3 mm, 75 mm²; letters keep 1.20 mm from it
    """
    sheet = Sheet(width=width, colour=colour)
    for row in drawing(fitted, width=width):
        sheet.line(row)
    sheet.line()
    for told in balloon_told(fitted, least_size_pt=least_size_pt):
        sheet.line(*told, indent=2)
    return sheet.text()


def balloon_told(
    fitted: FittedBalloon, *, least_size_pt: float = LEAST_SIZE_PT
) -> Iterator[tuple[Cell | str, ...]]:
    """A balloon's measures and what was found of its text, line by line.

    Args:
        fitted: The balloon.
        least_size_pt: The least legible type size.
    """
    for cell in _measures(fitted, least_size_pt=least_size_pt):
        yield (cell,)
    yield from map(finding_line, fitted.findings)


def drawing(fitted: FittedBalloon, *, width: int) -> list[str]:
    """The stack, centred, with the outline's own sides beside each line where there is room.

    A cell stands for as many mm as a letter takes in the line whose letters are narrowest, so that
    the drawn outline holds every drawn line.
    """
    if fitted.vertical:
        return _columns(fitted, width=width)
    texts = [one_line(line.text) for line in fitted.lines]
    advances = [line.width_mm for line in fitted.lines]
    pairs = zip(advances, map(cells, texts), strict=True)
    scale = min((mm / count for mm, count in pairs if mm and count), default=0.0)
    if not scale:
        return texts
    outline, count = fitted.outline, len(texts)
    half = max(math.ceil(outline.half_width / scale), *(cells(t) // 2 + 2 for t in texts)) + 1
    if 2 * half + 4 > width:
        return texts
    pitch = _pitch(fitted)
    rows = [_edge(outline, -(count / 2 + 0.25) * pitch, half=half, scale=scale)]
    for number, text in enumerate(texts):
        y = (number - (count - 1) / 2) * pitch
        inside = max(_even(2 * half_chord(outline, y) / scale), _even(cells(text) + 2))
        rows.append(_between(text, inside, half=half, box=isinstance(outline, CaptionBox)))
    rows.append(_edge(outline, (count / 2 + 0.25) * pitch, half=half, scale=scale))
    return rows


def _columns(fitted: FittedBalloon, *, width: int) -> list[str]:
    """The same of columns: a square of two cells for each character."""
    grid = columns_grid(fitted.lines)
    if grid is None:
        return [one_line(line.text) for line in fitted.lines]
    outline, count = fitted.outline, len(grid.rows)
    widest = cells(grid.rows[0])
    half = max(math.ceil(outline.half_width / grid.cell_mm), widest // 2 + 2) + 1
    if 2 * half + 4 > width:
        return [one_line(line.text) for line in fitted.lines]
    box = isinstance(outline, CaptionBox)
    drawn = [_edge(outline, -(count / 2 + 0.5) * grid.row_mm, half=half, scale=grid.cell_mm)]
    for number, row in enumerate(grid.rows):
        y = (number - (count - 1) / 2) * grid.row_mm
        text = _trimmed(row)
        inside = max(_even(2 * half_chord(outline, y) / grid.cell_mm), _even(cells(text) + 2))
        drawn.append(_between(text, inside, half=half, box=box))
    drawn.append(_edge(outline, (count / 2 + 0.5) * grid.row_mm, half=half, scale=grid.cell_mm))
    return drawn


def _trimmed(row: str) -> str:
    """A row without the spaces that both its ends have."""
    spare = min(len(row) - len(row.lstrip(" ")), len(row) - len(row.rstrip(" ")))
    return row[spare : len(row) - spare]


def _pitch(fitted: FittedBalloon) -> float:
    """From line to line in mm; for a single line, half the outline's height serves."""
    baselines = [line.baseline_mm for line in fitted.lines]
    return baselines[1] - baselines[0] if len(baselines) > 1 else fitted.outline.half_height


def _edge(outline: Outline, y: float, *, half: int, scale: float) -> str:
    """The outline's upper or lower side, as wide as it is at y (a little inside its end)."""
    level = max(-0.92, min(0.92, y / outline.half_height)) * outline.half_height
    dashes = _even(2 * half_chord(outline, level) / scale)
    ends = ".." if y < 0 else "''"
    return " " * (half - dashes // 2 + 1) + ends[0] + "-" * dashes + ends[1]


def _between(text: str, inside: int, *, half: int, box: bool) -> str:
    left, right = "||" if box else "()"
    free = inside - cells(text)
    before = free // 2
    start = half - inside // 2 + 1
    return " " * start + left + " " * before + text + " " * (free - before) + right


def _even(count: float) -> int:
    """A number of cells rounded to an even one, so that every row has the same middle."""
    return 2 * math.ceil(round(count) / 2)


def _measures(fitted: FittedBalloon, *, least_size_pt: float) -> list[Cell]:
    lines, words = len(fitted.lines), fitted.words
    stack = counted(lines, "column" if fitted.vertical else "line")
    text = f"{counted(words, 'word')} in {stack} at {fitted.size_pt:g} pt"
    size = Cell(f"  {size_text(fitted.outline)}{_distance(fitted)}")
    over = fitted.overflow
    if over is None:
        return [Cell(f"✓ Fits: {text}.", "fits"), size]
    ways = [f"the smallest of its kind that holds it: {size_text(over.outline)}"]
    size_pt = points_down_or_none(over.size_pt)
    if size_pt is not None and size_pt >= least_size_pt:
        ways.insert(0, f"it fits at {size_pt:g} pt")
    else:
        why = f"it fits at no legible size: the least is {least_size_pt:g} pt"
        ways.insert(0, f"{why} (common practice; advice)")
    left = f"{over.words} of {counted(words, 'word')} left over at {fitted.size_pt:g} pt"
    advice = "; ".join(ways)
    return [
        Cell(f"✗ Does not fit: {left}.", "fails"),
        size,
        Cell(f"→ {advice[0].upper()}{advice[1:]}."),
    ]


def size_text(outline: Outline) -> str:
    """An outline's kind, width, height and area.

    >>> from letterfit.outline import CaptionBox
    >>> size_text(CaptionBox(half_width=20, half_height=4))
    'caption box 40.0 x 8.0 mm, 320 mm²'
    """
    width, height = 2 * outline.half_width, 2 * outline.half_height
    return f"{_noun(outline)} {width:.1f} x {height:.1f} mm, {outline.area_mm2:.0f} mm²"


def _noun(outline: Outline) -> str:
    return NOUNS.get(outline.kind, outline.kind)


def _distance(fitted: FittedBalloon) -> str:
    if not fitted.lines or math.isinf(fitted.clearance_mm):
        return ""
    return f"; letters keep {fitted.clearance_mm:.2f} mm from it"
