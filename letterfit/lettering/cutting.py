"""Cutting: lines and pieces out of a shaped text, in mm, with their ink and their glyphs."""

from collections.abc import Sequence
from functools import partial
from itertools import pairwise, repeat

import numpy as np

from letterfit.lettering.shaping import Ints, Shaped
from letterfit.lettering.words import Glyph, SetLine
from letterfit.outline import Floats


def cut_lines(
    shaped: Shaped, stretches: Sequence[tuple[int, int]], *, text: str, em_mm: float
) -> list[SetLine]:
    """Cut stretches of characters out of a shaped text.

    All glyphs of all stretches are placed in one go, then handed out.

    Args:
        shaped: The text as shaped.
        stretches: Offsets (start, end) in the text; they may overlap.
        text: The text.
        em_mm: The size.

    Returns:
        One line for each stretch, exact where neither of its ends is unsafe.
    """
    low = shaped.glyphs_before([start for start, _ in stretches])
    high = shaped.glyphs_before([end for _, end in stretches])
    ends = np.cumsum(high - low)
    begins = ends - (high - low)
    chosen = np.arange(ends[-1]) + np.repeat(low - begins, high - low)
    origins = _origins(shaped, low, high, chosen)
    inks = shaped.inks[chosen]
    inked = ~np.isnan(inks[:, 0])
    boxes = (inks[inked] + origins[inked][:, _TWICE]) * em_mm
    rows = np.concatenate([[0], np.cumsum(inked)])
    glyphs = _glyphs(shaped, chosen, origins * em_mm, em_mm)
    return [
        SetLine(text[start:end], width, boxes[top:bottom], glyphs[begin:stop])
        for (start, end), width, begin, stop, top, bottom in zip(
            stretches,
            ((shaped.pens[high] - shaped.pens[low]) * em_mm).tolist(),
            begins.tolist(),
            ends.tolist(),
            rows[begins].tolist(),
            rows[ends].tolist(),
            strict=True,
        )
    ]


def _origins(shaped: Shaped, low: Ints, high: Ints, chosen: Ints) -> Floats:
    """The origin in em of each chosen glyph, from its line's left end, y downwards.

    In a right-to-left run the glyphs are mirrored within what the line has of the run: the first
    character stands rightmost.
    """
    pens = shaped.pens
    origins: Floats = shaped.offsets[chosen]
    origins[:, 0] += pens[chosen] - np.repeat(pens[low], high - low)
    at = 0
    for first, last in zip(low, high, strict=True) if any(run.rtl for run in shaped.runs) else ():
        for run, (begin, end) in zip(shaped.runs, pairwise(shaped.bounds), strict=True):
            a, b = max(begin, first), min(end, last)
            if run.rtl and a < b:
                mirrored = pens[a] + pens[b] - pens[a + 1 : b + 1] - pens[first]
                own = slice(at + a - first, at + b - first)
                origins[own, 0] = mirrored + shaped.offsets[a:b, 0]
        at += last - first
    return origins


def _glyphs(shaped: Shaped, chosen: Ints, origins: Floats, em_mm: float) -> tuple[Glyph, ...]:
    names: list[str] = []
    for run, (begin, end) in zip(shaped.runs, pairwise(shaped.bounds), strict=True):
        names += [run.face.name] * (end - begin)
    xs, ys = origins.T.tolist()
    picked = [names[k] for k in chosen.tolist()]
    ids = shaped.glyph_ids[chosen].tolist()
    return tuple(map(_glyph, zip(picked, ids, xs, ys, repeat(em_mm), strict=False)))


_TWICE = np.array([0, 1, 0, 1])
"""From an origin (x, y) to what is added to a box (left, top, right, bottom)."""

_glyph = partial(tuple.__new__, Glyph)
"""A glyph from its five values; what `Glyph._make` does, without the check of their number."""
