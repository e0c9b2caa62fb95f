"""Lines of glyphs kept while a page is drawn, so that they can be set as text.

The page is drawn as for SVG, but where a line's outlines would stand there is a reference to the
line, "@7", followed by the outlines of those glyphs alone whose font may not be embedded.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.fit.model import Line
from letterfit.geometry import Point
from letterfit.lettering.breaks.breaks import SHY
from letterfit.lettering.words import Glyph, SetLine
from letterfit.output.pdf.permits import Permits
from letterfit.output.plain import one_line
from letterfit.output.svg.elements import tag
from letterfit.output.svg.glyphs import PER_MM, Glyphs, GlyphSource


@dataclass(frozen=True, slots=True)
class Spot:
    """A glyph on the page.

    Args:
        face: The name of its face.
        glyph_id: Its number there.
        x: Its origin on the page in whole micrometres, y downwards.
        y: The same.
        em: The size of its em in micrometres.
        turned: Whether it is rotated by 90 degrees clockwise about its origin.
        at: The character of the line's text that it begins with; -1 where nobody knows.
    """

    face: str
    glyph_id: int
    x: int
    y: int
    em: float
    turned: bool
    at: int = -1


@dataclass(frozen=True, slots=True)
class Run:
    """A line on the page.

    Args:
        text: What it reads; empty where nobody said.
        spots: Those of its glyphs that are set as text.
        whole: Whether these are all its glyphs.
        vertical: Whether it is a column.
    """

    text: str
    spots: tuple[Spot, ...]
    whole: bool = True
    vertical: bool = False


class Runs(Glyphs):
    """Keeps lines instead of drawing them.

    Args:
        source: Where the outlines come from of glyphs that are drawn all the same.
        permits: Which faces are embedded.
    """

    def __init__(self, source: GlyphSource, permits: Permits) -> None:
        super().__init__(source)
        self._permits = permits
        self.kept: list[Run] = []

    def stack_line(self, line: Line, origin: Point) -> str:
        """As `Glyphs.stack_line`: a reference to a line and what it reads."""
        return self._reference(line.glyphs, origin, text=line.text, vertical=line.vertical)

    def line(self, glyphs: Sequence[Glyph], origin: Point) -> str:
        """As `Glyphs.line`: a reference to a line of which only the glyphs are known."""
        return self._reference(glyphs, origin)

    def set_line(self, line: SetLine, origin: Point) -> str:
        """As `Glyphs.set_line`, a reference."""
        return self._reference(line.glyphs, origin, text=line.text)

    def _reference(
        self, glyphs: Sequence[Glyph], origin: Point, *, text: str = "", vertical: bool = False
    ) -> str:
        """A reference to a line of some text, soft hyphens not counted."""
        if not glyphs:
            return ""
        drawn = [glyph for glyph in glyphs if not self._embeds(glyph)]
        bare = text.replace(SHY, "")
        reads = one_line(bare)
        known = len(reads) == len(bare)
        spots = tuple(
            Spot(
                face=self._permits.named(glyph.face),
                glyph_id=glyph.glyph_id,
                x=round((origin.x + glyph.x_mm) * PER_MM),
                y=round((origin.y + glyph.y_mm) * PER_MM),
                em=glyph.em_mm * PER_MM,
                turned=glyph.turned,
                at=glyph.at if known else -1,
            )
            for glyph in glyphs
            if self._embeds(glyph)
        )
        self.kept.append(Run(reads, spots, whole=not drawn, vertical=vertical))
        return tag("path", {"d": f"@{len(self.kept) - 1}" + self.path(drawn, origin)})

    def _embeds(self, glyph: Glyph) -> bool:
        return self._permits.embeds(self._permits.named(glyph.face))
