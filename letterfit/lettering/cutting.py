"""Cutting: lines and pieces out of a shaped text, in mm, with their ink and their glyphs."""

from collections.abc import Sequence
from functools import partial
from itertools import repeat

import numpy as np

from letterfit.lettering.shaping import Ints, Shaped
from letterfit.lettering.words import Glyph, SetLine
from letterfit.outline import Floats


def cut_lines(
    shaped: Shaped, stretches: Sequence[tuple[int, int]], *, text: str, em_mm: float
) -> list[SetLine]:
    """Cut stretches out of a shaped text.

    Args:
        shaped: The text as shaped.
        stretches: Offsets (start, end) in the text; ascending, none overlapping another.
        text: The text.
        em_mm: The size.

    Returns:
        One line for each stretch, exact where neither of its ends is unsafe.
    """
    first = shaped.glyphs_before([start for start, _ in stretches])
    last = shaped.glyphs_before([end for _, end in stretches])
    span = slice(int(first[0]), int(last[-1]))  # the glyphs of all stretches, and those between
    lefts = shaped.pens[first]
    widths = ((shaped.pens[last] - lefts) * em_mm).tolist()
    owner = np.searchsorted(first, np.arange(span.start, span.stop), side="right") - 1
    origins = _origins(shaped, first, last)
    origins[:, 0] -= lefts[owner]
    inks = shaped.inks[span]
    inked = ~np.isnan(inks[:, 0])
    boxes = (inks[inked] + origins[inked][:, [0, 1, 0, 1]]) * em_mm
    rows = np.concatenate([[0], np.cumsum(inked)])
    glyphs = _glyphs(shaped, span, origins * em_mm, em_mm)
    lows, highs = first - span.start, last - span.start
    return [
        SetLine(text[start:end], width, boxes[top:bottom], glyphs[low:high])
        for (start, end), width, low, high, top, bottom in zip(
            stretches,
            widths,
            lows.tolist(),
            highs.tolist(),
            rows[lows].tolist(),
            rows[highs].tolist(),
            strict=True,
        )
    ]


def _origins(shaped: Shaped, first: Ints, last: Ints) -> Floats:
    """The origin in em of each glyph of the stretches: x from the left end of the text, y down.

    In a right-to-left run the glyphs of one stretch are mirrored within what the stretch has of
    the run: the first character stands rightmost.
    """
    pens, base = shaped.pens, int(first[0])
    origins: Floats = shaped.offsets[base : int(last[-1])].copy()
    origins[:, 0] += pens[base : int(last[-1])]
    for run, begin, end in zip(shaped.runs, shaped.bounds, shaped.bounds[1:], strict=False):
        if not run.rtl:
            continue
        for low, high in zip(np.maximum(first, begin), np.minimum(last, end), strict=True):
            if low < high:
                mirrored = pens[low] + pens[high] - pens[low + 1 : high + 1]
                origins[low - base : high - base, 0] = mirrored + shaped.offsets[low:high, 0]
    return origins


def _glyphs(shaped: Shaped, span: slice, origins: Floats, em_mm: float) -> tuple[Glyph, ...]:
    names: list[str] = []
    for run, begin, end in zip(shaped.runs, shaped.bounds, shaped.bounds[1:], strict=False):
        names += [run.face.name] * (end - begin)
    xs, ys = origins.T.tolist()
    ids = shaped.glyph_ids[span].tolist()
    return tuple(map(_glyph, zip(names[span], ids, xs, ys, repeat(em_mm), strict=False)))


_glyph = partial(tuple.__new__, Glyph)
"""A glyph from its five values; what `Glyph._make` does, without the check of their number."""
