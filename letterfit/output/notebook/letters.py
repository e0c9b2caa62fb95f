"""Letters for a drawing in a notebook: the lettering's own, or others that stand in for them.

A balloon knows its letters by the names of their faces. Bundled faces are found by name; of a
user's own font the balloon holds no more than the name, and a notebook has nothing else to ask. Its
lines are then set in whatever the reader's machine has, each as long as it is, and the words under
the drawing say so.
"""

from collections.abc import Callable, Mapping, Sequence
from html import escape

from letterfit.errors import FontError
from letterfit.fit.model import Line
from letterfit.geometry import Point
from letterfit.lettering.settings import Lettering
from letterfit.output.html.shared_glyphs import SharedGlyphs
from letterfit.output.plain import one_line
from letterfit.output.svg.elements import Attributes, Names, tag
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.glyphs import NAMELESS, Glyphs

END = "</svg>\n"

OTHERS = (
    "The letters drawn are not those of your font: they only show how long the lines are. The "
    "functions that write SVG take the lettering and draw its own."
)


class StandIns(Glyphs):
    """Draws lines as text in any font at hand, each as long as it was measured."""

    def stack(
        self,
        lines: Sequence[Line],
        centre: Point,
        *,
        colour: str,
        names: Mapping[str, str] = NAMELESS,
    ) -> str:
        """A group with a text for each line of a stack, about its outline's centre in mm."""
        drawn = [_text(line, centre) for line in lines if line.glyphs]
        look = {"class": "lettering", "fill": colour, "font-family": "sans-serif"}
        return tag("g", {**names, **look}, drawn) if drawn else ""


def _text(line: Line, centre: Point) -> str:
    place: Attributes = {
        "x": centre.x + line.x_mm,
        "y": centre.y + line.baseline_mm,
        "font-size": line.glyphs[0].em_mm,
        "textLength": line.width_mm,
        "lengthAdjust": "spacingAndGlyphs",
    }
    if line.vertical:
        place |= {"style": "writing-mode:vertical-rl"}
    said = escape(one_line(line.text), quote=False)
    return f"{tag('text', place).removesuffix('/>')}>{said}</text>"


def lettered(
    draw: Callable[[Glyphs], str], *, lettering: Lettering | None = None
) -> tuple[str, list[str]]:
    """A drawing, and what must be said of its letters.

    Args:
        draw: Makes a whole SVG file with what draws its letters.
        lettering: How it was lettered, where that is known.

    Returns:
        The drawing, every letter's shape in it once: a notebook keeps what it shows.
    """
    source = glyph_source(lettering)
    shared = SharedGlyphs(source, Names())
    try:
        svg = draw(shared)
    except FontError:
        return draw(StandIns(source)), [OTHERS]
    return f"{svg.removesuffix(END)}{shared.shapes()}\n{END}", []
