"""A chosen stack and outline made into a balloon, its clearance measured as a true distance."""

import numpy as np

from letterfit.errors import OutlineError
from letterfit.fit.ink import Stack
from letterfit.fit.model import FittedBalloon, Line, Overflow
from letterfit.fit.stack import baselines
from letterfit.lettering.words import SetLine, Words
from letterfit.outline import Floats, Outline
from letterfit.separation import clearance

TOLERANCE = 1e-9
"""Air missing by this much, in mm, is rounding."""


def balloon(words: Words, stack: Stack, outline: Outline, *, air: float) -> FittedBalloon:
    """The text set as `stack` in an outline that is grown, if rounding asks for it, to keep `air`.

    Raises:
        OutlineError: When the outline is too small for the stack by more than rounding.
    """
    lines, points = set_lines(words, stack)
    room = clearance(outline, points)
    for _ in range(3):
        if room >= air:
            break
        if room < air - 1e-6 * outline.half_height:
            raise OutlineError("the stack does not fit the outline", advice="grow the outline")
        # A support function grows by at least b (k - 1) when the outline grows by k.
        outline = outline.scaled(1 + 1.5 * (air - room) / _least_radius(outline) + 1e-15)
        room = clearance(outline, points)
    return fitted(words, lines, outline, clearance_mm=room)


def fitted(
    words: Words,
    lines: tuple[Line, ...],
    outline: Outline,
    *,
    clearance_mm: float,
    overflow: Overflow | None = None,
) -> FittedBalloon:
    """The value the fit returns."""
    return FittedBalloon(
        text=words.text,
        lines=lines,
        outline=outline,
        clearance_mm=clearance_mm,
        words=words.count,
        size_pt=words.size_pt,
        overflow=overflow,
    )


def set_lines(words: Words, stack: Stack) -> tuple[tuple[Line, ...], Floats]:
    """The lines of a stack about the outline's centre, and the corners of their ink, (q, 2) mm."""
    rows = baselines(
        len(stack) - 1, leading_mm=words.leading_mm, cap_height_mm=words.cap_height_mm
    ).tolist()
    lines, points = [], [np.empty((0, 2))]
    for first, end, baseline in zip(stack, stack[1:], rows, strict=False):
        line = words.line(first, end - 1)
        lines.append(_line(line, baseline))
        points.append(line.corners() + np.array([-line.width_mm / 2, baseline]))
    return tuple(lines), np.concatenate(points)


def _line(line: SetLine, baseline: float) -> Line:
    return Line(line.text, -line.width_mm / 2, baseline, line.width_mm, line.glyphs)


def _least_radius(outline: Outline) -> float:
    return min(outline.half_width, outline.half_height)
