"""A trial before a font is used: that its substitutions come to an end.

A font may replace one glyph by two, those by four, and so on until memory runs out. HarfBuzz stops
that at a bound, but far beyond what any text needs.
"""

import uharfbuzz as hb

from letterfit.errors import FontError
from letterfit.lettering.fonts.coverage import is_visible
from letterfit.lettering.fonts.face import Engine
from letterfit.lettering.fonts.latin_text import latin_buffer

TRIED = 500
"""Characters that are tried at a time; all that the font has are tried."""

MOST_GLYPHS_EACH = 16
"""Glyphs that one character may become; scripts that split a vowel make three or four."""


def check_substitution(known: Engine, *, source: str) -> None:
    """Complain about a font that makes far more glyphs than there are characters.

    Args:
        known: The opened font.
        source: What to call it in an error.

    Raises:
        FontError: When it does.
    """
    chars = sorted(filter(is_visible, known.chars))
    for first in range(0, len(chars), TRIED):
        if _explodes(known.font, "".join(chars[first : first + TRIED])):
            raise FontError(
                "the font replaces glyphs without end",
                advice="give another file of this font",
                source=source,
            )


def _explodes(font: hb.Font, text: str) -> bool:
    """Whether far more glyphs come out than characters went in."""
    buffer = latin_buffer(text)
    try:
        hb.shape(font, buffer)
    except MemoryError:
        return True
    return len(buffer) > MOST_GLYPHS_EACH * len(text)
