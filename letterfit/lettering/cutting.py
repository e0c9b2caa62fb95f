"""Cutting: lines and pieces out of a shaped text, in mm, with their ink and their glyphs."""

from collections.abc import Sequence
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
    lefts = shaped.pens[first]
    widths = ((shaped.pens[last] - lefts) * em_mm).tolist()
    origins = _origins(shaped, first, last)
    owner = np.searchsorted(first, np.arange(len(shaped.glyph_ids)), side="right") - 1
    origins[:, 0] -= lefts[owner]
    inked = ~np.isnan(shaped.inks[:, 0])
    boxes = (shaped.inks[inked] + origins[inked][:, [0, 1, 0, 1]]) * em_mm
    rows = np.concatenate([[0], np.cumsum(inked)])
    glyphs = _glyphs(shaped, origins * em_mm, em_mm)
    return [
        SetLine(text[start:end], width, boxes[top:bottom], tuple(glyphs[low:high]))
        for (start, end), width, low, high, top, bottom in zip(
            stretches,
            widths,
            first.tolist(),
            last.tolist(),
            rows[first].tolist(),
            rows[last].tolist(),
            strict=True,
        )
    ]


def _origins(shaped: Shaped, first: Ints, last: Ints) -> Floats:
    """Each glyph's origin in em: x from the left end of the text, y downwards.

    In a right-to-left run the glyphs of one stretch are mirrored within what the stretch has of
    the run: the first character stands rightmost.
    """
    pens = shaped.pens
    origins: Floats = shaped.offsets.copy()
    origins[:, 0] += pens[:-1]
    for run, begin, end in zip(shaped.runs, shaped.bounds, shaped.bounds[1:], strict=False):
        if not run.rtl:
            continue
        for low, high in zip(np.maximum(first, begin), np.minimum(last, end), strict=True):
            if low < high:
                own = slice(low, high)
                mirrored = pens[low] + pens[high] - pens[low + 1 : high + 1]
                origins[own, 0] = mirrored + shaped.offsets[own, 0]
    return origins


def _glyphs(shaped: Shaped, origins: Floats, em_mm: float) -> list[Glyph]:
    names: list[str] = []
    for run, begin, end in zip(shaped.runs, shaped.bounds, shaped.bounds[1:], strict=False):
        names += [run.face.name] * (end - begin)
    xs, ys = origins.T.tolist()
    return list(map(Glyph, names, shaped.glyph_ids.tolist(), xs, ys, repeat(em_mm)))
