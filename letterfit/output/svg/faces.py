"""Where glyph outlines come from: the lettering's own typeface first, then the bundled families."""

from collections.abc import Callable, Iterator
from functools import cache, lru_cache

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import BUNDLED, SYMBOLS
from letterfit.lettering.fonts.face import Face, glyph_path, units_per_em
from letterfit.lettering.fonts.typeface import Typeface, open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.output.svg.glyphs import KNOWN_GLYPHS, GlyphSource
from letterfit.output.svg.labels import label_typeface


def face_source(lettering: Lettering | None) -> Callable[[str], Face]:
    """Finds a face by the name a glyph carries.

    Args:
        lettering: How the text was lettered; None looks among the bundled families alone.

    Returns:
        A function from face name to face. It raises FontError for a face that is nowhere to be
        found.
    """

    @cache
    def face_named(name: str) -> Face:
        for typeface in _typefaces(lettering):
            try:
                return typeface.face(name)
            except FontError:
                continue
        raise FontError(
            f"no face is called {name!r} among the bundled ones",
            advice="pass the lettering that the text was set with",
        )

    return face_named


def glyph_source(lettering: Lettering | None) -> GlyphSource:
    """Finds a glyph's outline by the name of its face and its number.

    Args:
        lettering: How the text was lettered; None looks among the bundled families alone.

    Returns:
        A function from face name and glyph number to path data and units per em. It raises
        FontError for a face that is nowhere to be found.
    """
    face_named = face_source(lettering)

    def outline(name: str, glyph_id: int) -> tuple[str, float]:
        return _drawn(face_named(name), glyph_id)

    return outline


@lru_cache(maxsize=KNOWN_GLYPHS)
def _drawn(face: Face, glyph_id: int) -> tuple[str, float]:
    """A glyph's path data and its font's units per em, kept from page to page."""
    return glyph_path(face, glyph_id), float(units_per_em(face))


def _typefaces(lettering: Lettering | None) -> Iterator[Typeface]:
    if lettering is not None:
        yield lettering.typeface
    yield from (open_typeface(name) for name in BUNDLED if name != SYMBOLS)
    yield label_typeface()
