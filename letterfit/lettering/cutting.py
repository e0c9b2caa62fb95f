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
    """The origin in em of each chosen glyph, from its line's left end, y downwards."""
    pens = shaped.pens
    origins: Floats = shaped.offsets[chosen]
    if not any(run.rtl for run in shaped.runs):
        origins[:, 0] += pens[chosen] - np.repeat(pens[low], high - low)
        return origins
    at = 0
    for first, last in zip(low.tolist(), high.tolist(), strict=True):
        origins[at : at + last - first, 0] += _both_ways(shaped, first, last)
        at += last - first
    return origins


def _both_ways(shaped: Shaped, first: int, last: int) -> Floats:
    """Where the pens of a line's glyphs stand when runs of both directions meet.

    Runs follow each other in the direction of the text, the glyphs of each run in its own: right
    for one level of embedding, which is what a number in a right-to-left line needs.
    """
    pens = shaped.pens
    found = np.zeros(last - first)
    for run, (begin, end) in zip(shaped.runs, pairwise(shaped.bounds), strict=True):
        a, b = max(begin, first), min(end, last)
        if a >= b:
            continue
        left = pens[last] - pens[b] if shaped.rtl else pens[a] - pens[first]
        own = pens[b] - pens[a + 1 : b + 1] if run.rtl else pens[a:b] - pens[a]
        found[a - first : b - first] = left + own
    return found


def _glyphs(shaped: Shaped, chosen: Ints, origins: Floats, em_mm: float) -> tuple[Glyph, ...]:
    names: list[str] = []
    for run, (begin, end) in zip(shaped.runs, pairwise(shaped.bounds), strict=True):
        names += [run.face.name] * (end - begin)
    xs, ys = origins.T.tolist()
    picked = [names[k] for k in chosen.tolist()]
    ids = shaped.glyph_ids[chosen].tolist()
    return tuple(map(_glyph, zip(picked, ids, xs, ys, repeat(em_mm), repeat(False), strict=False)))


_TWICE = np.array([0, 1, 0, 1])
"""From an origin (x, y) to what is added to a box (left, top, right, bottom)."""

_glyph = partial(tuple.__new__, Glyph)
"""A glyph from its six values; what `Glyph._make` does, without the check of their number."""
