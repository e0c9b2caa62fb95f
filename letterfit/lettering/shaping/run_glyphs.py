"""One run as shaped: its glyphs, where their pens stand, and where it may be cut."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate, pairwise
from typing import TypeVar

import uharfbuzz as hb

from letterfit.lettering.shaping.runs import Run
from letterfit.lettering.vertical.shaping import Stood

T = TypeVar("T")

GlyphValue = tuple[int, tuple[int, int, int, int]]
"""A glyph's number, and x offset, y offset, x advance, y advance in font units, y upwards."""

CURSIVE = frozenset({"Adlm", "Arab", "Mand", "Mong", "Nkoo", "Phag", "Rohg", "Syrc"})
"""Scripts whose letters join: tracking would tear them apart (CSS Text 3, section 8.2)."""


@dataclass(frozen=True, eq=False)
class RunGlyphs:
    """One run as shaped; its glyphs in the order of the characters they come from.

    Args:
        run: The run.
        buffer: What HarfBuzz made of it; None in vertical text.
        origin: The offset in the text that its clusters count from.
        positions: Where it puts each of the g glyphs.
        pens: The g + 1 sums of the advances before each glyph, font units; tracking included.
        upem: Font units per em.
        start: Where the run starts, in em.
        tracking: What was added after each letter, in em.
        stood: In vertical text, where the glyphs stand; pens are then in em.
    """

    run: Run
    buffer: hb.Buffer | None
    origin: int
    positions: Sequence[hb.GlyphPosition]
    pens: Sequence[float]
    upem: int
    start: float
    tracking: float = 0.0
    stood: Stood | None = None

    @cached_property
    def infos(self) -> Sequence[hb.GlyphInfo]:
        """What HarfBuzz says of each glyph."""
        if self.stood is not None or self.buffer is None:
            return self.stood.infos if self.stood else ()
        return in_order(self.buffer.glyph_infos, self.run)

    @cached_property
    def clusters(self) -> list[int]:
        """The offset in the text that each glyph begins at, ascending."""
        return [info.cluster + self.origin for info in self.infos]

    def pen(self, offset: int) -> float:
        """Where the glyphs of the character at that offset begin, in em."""
        return self.start + self.pens[bisect_left(self.clusters, offset)] / self.upem

    def is_unsafe(self, cut: int) -> bool:
        """Whether HarfBuzz flags a cut inside the run, or it falls inside a glyph."""
        k = bisect_left(self.clusters, cut)
        whole = k < len(self.clusters) and self.clusters[k] == cut
        return not whole or bool(int(self.infos[k].flags) & _UNSAFE)

    def tracked(self, tracking: float) -> "RunGlyphs":
        """The run with so much space after each of its letters, in em, unless they join."""
        if self.run.script in CURSIVE:
            return self
        advances = (after - before for before, after in pairwise(self.pens))
        spaced = _tracked(advances, self.clusters, space=tracking * self.upem)
        pens = list(accumulate(spaced, initial=0))
        return replace(self, pens=pens, tracking=tracking)

    def values(self) -> Iterator[GlyphValue]:
        """Each glyph's number and place."""
        for info, position in zip(self.infos, self.positions, strict=True):
            yield info.codepoint, position.position


def in_order(glyphs: list[T], run: Run) -> list[T]:
    """Glyphs in the order of the text: HarfBuzz gives them from left to right."""
    return glyphs[::-1] if run.rtl else glyphs


def _tracked(
    advances: Iterable[float], clusters: Sequence[int], *, space: float
) -> Iterator[float]:
    """The advances with a space added after the last glyph of every cluster that has a width."""
    begun = False
    for advance, here, following in zip(advances, clusters, [*clusters[1:], None], strict=True):
        begun = begun or advance != 0
        ends = here != following
        yield advance + space if ends and begun else advance
        begun = begun and not ends


_UNSAFE = int(hb.GlyphFlags.UNSAFE_TO_BREAK)
