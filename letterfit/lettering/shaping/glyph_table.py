"""The glyphs of a shaped text as arrays, to be placed many at a time."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, chain, pairwise

import numpy as np
import numpy.typing as npt

from letterfit.lettering.fonts.face import engine
from letterfit.lettering.shaping.run_glyphs import RunGlyphs
from letterfit.lettering.vertical.placing import placed
from letterfit.lettering.words import Ints
from letterfit.outline import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """The glyphs of a shaped text as arrays, in the order of its characters.

    Args:
        bounds: Shape (r + 1,): where each run's glyphs begin, and the end.
        glyph_ids: Shape (g,).
        clusters: Shape (g,), ascending: the offset in the text that each glyph begins at.
        pens: Shape (g + 1,), em: the sum of the advances before each glyph.
        offsets: Shape (g, 2), em: x and y (downwards) of each glyph's origin from its pen.
        inks: Shape (g, 4), em: each glyph's ink box from its origin, NaN without ink.
        sizes: Shape (g,): each glyph's em over the text's; None where all are 1.
        turned: Shape (g,): whether a glyph is drawn rotated clockwise; None where none is.
    """

    bounds: tuple[int, ...]
    glyph_ids: Ints
    clusters: Ints
    pens: Floats
    offsets: Floats
    inks: Floats
    sizes: Floats | None = None
    turned: npt.NDArray[np.bool_] | None = None

    @property
    def inked(self) -> npt.NDArray[np.bool_]:
        """Shape (g,): whether a glyph has ink."""
        return ~np.isnan(self.inks[:, 0])

    def glyphs_before(self, offsets: Sequence[int]) -> Ints:
        """How many glyphs begin before each offset of the text."""
        found: Ints = np.searchsorted(self.clusters, offsets)
        return found


def line_table(runs: Sequence[RunGlyphs], width: float) -> Table:
    """The glyphs of horizontal text.

    Args:
        runs: Its runs.
        width: The sum of all advances, em.
    """
    sizes = [len(run.infos) for run in runs]
    bounds = tuple(accumulate(sizes, initial=0))
    glyphs = [info.codepoint for run in runs for info in run.infos]
    glyph_ids = np.array(glyphs, dtype=np.int64)
    flat = chain.from_iterable(p.position for run in runs for p in run.positions)
    places = np.fromiter(flat, dtype=np.float64, count=4 * len(glyphs)).reshape(-1, 4)
    places /= np.repeat([run.upem for run in runs], sizes)[:, None]
    pens = [np.array(run.pens[:-1]) / run.upem + run.start for run in runs]
    inks = [
        engine(run.run.face).inks(glyph_ids[begin:end])
        for run, (begin, end) in zip(runs, pairwise(bounds), strict=True)
    ]
    clusters = list(chain.from_iterable(run.clusters for run in runs))
    return Table(
        bounds=bounds,
        glyph_ids=glyph_ids,
        clusters=np.array(clusters, dtype=np.int64),
        pens=np.concatenate([*pens, [width]]),
        offsets=places[:, :2] * (1.0, -1.0),
        inks=np.concatenate(inks),
    )


def column_table(runs: Sequence[RunGlyphs], width: float) -> Table:
    """The same of vertical text, whose runs say how their glyphs stand."""
    found = placed([(run.run, run.stood) for run in runs if run.stood])
    clusters = list(chain.from_iterable(run.clusters for run in runs))
    pens = [np.array(run.pens[:-1]) + run.start for run in runs]
    return Table(
        bounds=found.bounds,
        glyph_ids=found.glyph_ids,
        clusters=np.array(clusters, dtype=np.int64),
        pens=np.concatenate([*pens, [width]]),
        offsets=found.offsets,
        inks=found.inks,
        sizes=found.sizes,
        turned=found.turned,
    )
