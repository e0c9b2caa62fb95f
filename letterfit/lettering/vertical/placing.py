"""Placing the glyphs of a column, in the text's own frame: x down the page, y to its left.

The frame's baseline lies half an em under the column's centre line (to its left on the page), so
that a column is as high as an em, as a line is as high as its capitals. What stands upright has
HarfBuzz's origin on the centre line; what is turned has the middle of its face's em there, dots and
dashes the middle of their ink, and so has what shares a cell. Lengths are in em.
"""

from collections.abc import Sequence
from itertools import accumulate, chain, pairwise
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from letterfit.lettering.fonts.face import engine
from letterfit.lettering.shaping.runs import Run
from letterfit.lettering.vertical.metrics import vertical_metrics
from letterfit.lettering.vertical.shaping import Stood
from letterfit.lettering.words import Ints
from letterfit.outline import Floats

Bools = npt.NDArray[np.bool_]


class Places(NamedTuple):
    """Where the g glyphs of a column stand.

    Args:
        bounds: Where each run's glyphs begin, and the end.
        glyph_ids: Shape (g,).
        offsets: Shape (g, 2), em: origin from the pen.
        inks: Shape (g, 4), em: ink from the origin; NaN without ink.
        sizes: Shape (g,): the size of each glyph's em over that of the text.
        turned: Shape (g,): whether it is drawn rotated by 90 degrees clockwise.
    """

    bounds: tuple[int, ...]
    glyph_ids: Ints
    offsets: Floats
    inks: Floats
    sizes: Floats
    turned: Bools


def placed(column: Sequence[tuple[Run, Stood]]) -> Places:
    """Place the glyphs of all runs of a column in one go."""
    counts = [len(stood.infos) for _, stood in column]
    bounds = tuple(accumulate(counts, initial=0))
    ids = np.array([i.codepoint for _, stood in column for i in stood.infos], dtype=np.int64)
    across, up, advance, own = _shaped(column, counts, ids)
    turned = np.repeat([run.stance in {"turned", "stroke"} for run, _ in column], counts)
    strokes = np.repeat([run.stance == "stroke" for run, _ in column], counts)
    middles = np.repeat([vertical_metrics(run.face).middle for run, _ in column], counts)
    drawn = (own[:, 1] + own[:, 3]) / -2 + up
    middles = np.where(strokes & ~np.isnan(drawn), drawn, middles)
    lying = np.stack([across, middles - up - 0.5], axis=-1)
    standing = np.stack([-up, -across - 0.5], axis=-1)
    places = Places(
        bounds=bounds,
        glyph_ids=ids,
        offsets=np.where(turned[:, None], lying, standing),
        inks=np.where(turned[:, None], own, _upright(own)),
        sizes=np.ones(len(ids)),
        turned=turned,
    )
    for (run, _), (begin, end) in zip(column, pairwise(bounds), strict=True):
        if run.stance == "together":
            part = slice(begin, end)
            pens = np.concatenate([[0.0], np.cumsum(advance[part])[:-1]]) + across[part]
            _share(places, part, pens, middles[part] - up[part])
    return places


def _shaped(
    column: Sequence[tuple[Run, Stood]], counts: list[int], ids: Ints
) -> tuple[Floats, Floats, Floats, Floats]:
    """X offset, y offset (upwards), x advance, and ink as horizontal text has it, in em."""
    flat = chain.from_iterable(p.position for _, stood in column for p in stood.positions)
    places = np.fromiter(flat, dtype=np.float64, count=4 * len(ids)).reshape(-1, 4)
    places /= np.repeat([engine(run.face).upem for run, _ in column], counts)[:, None]
    if any(stood.rises for _, stood in column):
        rises = (stood.rises or [0.0] * len(stood.infos) for _, stood in column)
        places[:, 1] += list(chain.from_iterable(rises))
    inks = np.empty((len(ids), 4))
    faces = {face: k for k, face in enumerate(dict.fromkeys(run.face for run, _ in column))}
    of_glyph = np.repeat([faces[run.face] for run, _ in column], counts)
    for face, k in faces.items():
        inks[of_glyph == k] = engine(face).inks(ids[of_glyph == k])
    return places[:, 0], places[:, 1], places[:, 2], inks


def _upright(inks: Floats) -> Floats:
    """Ink boxes of the page in the text's own frame."""
    left, top, right, bottom = inks.T
    return np.stack([top, -right, bottom, -left], axis=-1)


def _share(places: Places, part: slice, pens: Floats, drops: Floats) -> None:
    """Put the glyphs of a cell side by side, their ink in its middle, smaller if need be.

    Args:
        places: What is changed.
        part: The cell's glyphs.
        pens: Where each glyph's origin lies to the right of the first pen.
        drops: How far each origin lies under the middle of the cell.
    """
    inks = places.inks[part]
    lefts, rights = pens - inks[:, 3], pens - inks[:, 1]
    inked = ~np.isnan(lefts)
    begin, end = (lefts[inked].min(), rights[inked].max()) if inked.any() else (0.0, 0.0)
    size = 1.0 / max(1.0, float(end - begin))
    to_right = (pens - (begin + end) / 2) * size
    places.offsets[part] = np.stack([0.5 + drops * size, -to_right - 0.5], axis=-1)
    places.inks[part] = inks * size
    places.sizes[part] = size
