"""A trial before a font is used: that its substitutions come to an end.

A font may replace one glyph by two, those by four, and so on until memory runs out. HarfBuzz stops
that at a bound, but far beyond what any text needs.
"""

import uharfbuzz as hb

from letterfit.errors import FontError
from letterfit.lettering.coverage import is_visible
from letterfit.lettering.face import Engine

TRIED = 500
"""Characters that are tried; the letters of most scripts are among the first."""

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
    text = "".join(sorted(filter(is_visible, known.chars))[:TRIED])
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.direction, buffer.script, buffer.language = "ltr", "Latn", "en"
    try:
        hb.shape(known.font, buffer)
        explodes = len(buffer) > MOST_GLYPHS_EACH * len(text)
    except MemoryError:
        explodes = True
    if explodes:
        raise FontError(
            "the font replaces glyphs without end",
            advice="give another file of this font",
            source=source,
        )
