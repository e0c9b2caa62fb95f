"""Lines and pieces of a text measured by a book of pairs, with their ink and their glyphs."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from letterfit.lettering.breaks.pieces import Stretch
from letterfit.lettering.shaping.pair_book import Pens
from letterfit.lettering.words import Glyph, Ints, SetLine
from letterfit.outline import Floats


@dataclass(frozen=True, slots=True, eq=False)
class PairSetter:
    """Sets stretches of a text whose letters stand by pairs.

    Args:
        text: The text.
        pens: Where its letters stand.
        em_mm: The type size.
    """

    text: str
    pens: Pens
    em_mm: float

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """The stretches as set, each from its own left end; they may overlap."""
        if not stretches:
            return []
        pens, book = self.pens, self.pens.book
        bounds = np.array(stretches)
        starts, ends = pens.spans(*bounds.T)
        widths = ((ends - starts) * (self.em_mm / book.engine.upem)).tolist()
        chosen, lefts, sizes = self._inked(bounds)
        boxes = self._boxes(chosen, lefts)
        ids = book.ids.take(pens.codes.take(chosen)).tolist()
        ats = (chosen - np.repeat(bounds[:, 0], sizes)).tolist()
        name, em = book.face.name, self.em_mm
        glyphs = [
            Glyph(name, number, left, 0.0, em, at=at)
            for number, left, at in zip(ids, lefts.tolist(), ats, strict=True)
        ]
        found = []
        ranges = pairwise([0, *np.cumsum(sizes).tolist()])
        for (start, end), width, (first, last) in zip(stretches, widths, ranges, strict=True):
            text, own = self.text[start:end], tuple(glyphs[first:last])
            found.append(SetLine(text, width, boxes[first:last], own))
        return found

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """The ink boxes of all stretches, each from its own left end, and how many each has."""
        chosen, lefts, sizes = self._inked(np.array(stretches).reshape(-1, 2))
        return self._boxes(chosen, lefts), sizes

    def scaled(self, factor: float) -> "PairSetter":
        """The same at `factor` times the size."""
        return replace(self, em_mm=self.em_mm * factor)

    def _inked(self, bounds: Ints) -> tuple[Ints, Floats, Ints]:
        """The letters of stretches that have ink, where they stand in theirs, and how many."""
        pens = self.pens
        starts, ends = bounds[:, 0], bounds[:, 1]
        lengths = ends - starts
        last = lengths.cumsum()
        chosen = np.arange(last[-1] if len(last) else 0)
        chosen += (starts - last + lengths).repeat(lengths)
        lefts = pens.before.take(chosen)
        lefts -= pens.before.take(starts).repeat(lengths)
        lefts *= self.em_mm / pens.book.engine.upem
        inked = pens.book.inked.take(pens.codes.take(chosen))
        if inked.all():
            return chosen, lefts, lengths
        counts = np.concatenate([[0], inked.cumsum()])
        return chosen[inked], lefts[inked], counts[last] - counts[last - lengths]

    def _boxes(self, chosen: Ints, lefts: Floats) -> Floats:
        boxes: Floats = self.pens.book.inks.take(self.pens.codes.take(chosen), axis=0)
        boxes *= self.em_mm
        boxes[:, ::2] += lefts[:, None]
        return boxes
