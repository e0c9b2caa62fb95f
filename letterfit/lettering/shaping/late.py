"""A text measured by a book of pairs, whose glyphs are placed when somebody asks for them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from letterfit.lettering.breaks.pieces import Stretch
from letterfit.lettering.shaping.cutting import TextSetter
from letterfit.lettering.shaping.pair_book import PairBook, Pens
from letterfit.lettering.shaping.runs import Run
from letterfit.lettering.shaping.shaping import Shaped, Source, shape
from letterfit.lettering.words import Ints, SetLine
from letterfit.outline import Floats


@dataclass(frozen=True, eq=False)
class LateText:
    """A text that is shaped when it is first asked for, once for all sizes.

    Args:
        book: The pairs of its face.
        text: The text.
        crossbars: Where its I's with crossbars stand.
        pens: Where its letters stand.
    """

    book: PairBook
    text: str
    crossbars: tuple[int, ...]
    pens: Pens

    @cached_property
    def shaped(self) -> Shaped:
        """The text as shaped."""
        book = self.book
        return shape(
            Source(
                text=self.text,
                runs=(Run(0, len(self.text), book.face, "Latn"),),
                language=book.language,
                family=book.face.family,
                crossbar=book.crossbar,
                crossbars=self.crossbars,
            )
        )


@dataclass(frozen=True, slots=True, eq=False)
class LateSetter:
    """Sets stretches of a text that is shaped when the first of them is asked for.

    Args:
        late: The text.
        em_mm: The type size.
    """

    late: LateText
    em_mm: float

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """The stretches as set, each from its own left end."""
        lines = TextSetter(self.late.shaped, self.em_mm).set_lines(stretches)
        starts, ends = self.late.pens.spans(*np.array(stretches).reshape(-1, 2).T)
        widths = (ends - starts) * (self.em_mm / self.late.book.engine.upem)
        return [
            replace(line, width_mm=width)
            for line, width in zip(lines, widths.tolist(), strict=True)
        ]

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """The ink boxes of all stretches, each from its own left end, and how many each has."""
        return TextSetter(self.late.shaped, self.em_mm).ink(stretches)

    def scaled(self, factor: float) -> "LateSetter":
        """The same at `factor` times the size."""
        return replace(self, em_mm=self.em_mm * factor)
