"""Which characters a font can set: what it maps but to blank glyphs, and what needs no glyph.

Many free fonts map an accented letter to an empty glyph. Such a letter would vanish from the
page without a word; it is taken for missing, so that another face sets it and the reader is told.
"""

import unicodedata
from string import ascii_letters, digits

import uharfbuzz as hb

from letterfit.errors import FontError
from letterfit.lettering.fonts.drawing import bitmap_box, contours

MOST_CHARACTERS = 300_000
"""Unicode 17 has 159,801 assigned characters and 137,468 for private use."""

EMPTY_BY_NATURE = frozenset("\u115f\u1160\u2800\u3164\uffa0\ufffc\U0001d159")
"""Letters and signs that show nothing: fillers, the empty braille cell, a null note head."""

LOOKED_AT_CLOSELY = frozenset(ascii_letters + digits)
"""Their outlines are drawn; of other characters a glyph's stated box is believed unless it is
empty, because a font may have ten thousands."""

SYMBOL_PAGE = 0xF000
"""Where symbol fonts keep their characters (OpenType 1.9.1, "cmap", encoding 3, 0)."""


def mapped_characters(font: hb.Font, name: str) -> frozenset[str]:
    """The characters that a font maps to a glyph.

    Args:
        font: HarfBuzz's font.
        name: What to call it in an error.

    Raises:
        FontError: When it claims more characters than there are.
    """
    codes = font.face.unicodes
    if len(codes) > MOST_CHARACTERS:
        raise FontError(
            f"{name} claims {len(codes)} characters, more than there are",
            advice="give another file of this font",
        )
    mapped = {chr(code) for code in codes if not 0xD800 <= code < 0xE000}
    if not mapped & LOOKED_AT_CLOSELY and SYMBOL_PAGE + ord("A") in codes:
        # HarfBuzz finds the letters of a symbol font, but lists them by their private numbers.
        mapped |= {chr(code) for code in range(0x20, 0x100) if font.get_nominal_glyph(code)}
    return frozenset(mapped)


def blank_characters(font: hb.Font, mapped: frozenset[str]) -> frozenset[str]:
    """The characters among these that should show something, and whose glyph has no ink."""
    if font.face.has_color_svg or font.face.has_color_layers:
        return frozenset()  # outlines are not where such a font has its ink
    seen: dict[int, bool] = {}
    blank = set()
    for char in sorted(filter(is_visible, mapped)):
        glyph = font.get_nominal_glyph(ord(char))
        if glyph not in seen:
            close = char in LOOKED_AT_CLOSELY
            seen[glyph] = not glyph or _is_blank(font, glyph, close=close)
        if seen[glyph]:
            blank.add(char)
    return frozenset(blank)


def is_visible(char: str) -> bool:
    r"""Whether a character shows something: a letter, digit, sign or private character.

    >>> is_visible("A"), is_visible("\u00ad"), is_visible(" ")
    (True, False, False)
    """
    category = unicodedata.category(char)
    return (category[0] in "LNPS" or category == "Co") and char not in EMPTY_BY_NATURE


def is_always_covered(char: str) -> bool:
    r"""Whether a character needs no glyph of its own: HarfBuzz makes it out of another, or of none.

    Spaces of all widths come from the space; the default ignorable characters (Unicode 17,
    DerivedCoreProperties.txt) are invisible, all but a few fillers that HarfBuzz draws.

    >>> is_always_covered("\u00ad"), is_always_covered("A")
    (True, False)
    """
    code = ord(char)
    return code > 0x7F and any(first <= code <= last for first, last in _ALWAYS_COVERED)


_ALWAYS_COVERED = (
    (0x00A0, 0x00A0),  # no-break space
    (0x00AD, 0x00AD),  # soft hyphen
    (0x034F, 0x034F),  # combining grapheme joiner
    (0x061C, 0x061C),  # Arabic letter mark
    (0x17B4, 0x17B5),  # Khmer inherent vowels
    (0x180B, 0x180F),  # Mongolian variation selectors
    (0x2000, 0x200F),  # spaces; zero-width space, joiners, direction marks
    (0x202A, 0x202F),  # embeddings; narrow no-break space
    (0x205F, 0x206F),  # mathematical space; word joiner and other format characters
    (0xFE00, 0xFE0F),  # variation selectors
    (0xFEFF, 0xFEFF),  # zero-width no-break space
    (0xFFF0, 0xFFF8),  # unassigned, reserved for format characters
    (0x1D173, 0x1D17A),  # musical format controls
    (0xE0000, 0xE0FFF),  # tags and variation selectors
)


def _is_blank(font: hb.Font, glyph: int, *, close: bool) -> bool:
    """Whether a glyph has neither outlines that enclose something nor a picture."""
    if not close and bitmap_box(font, glyph) is not None:
        return False
    return not contours(font, glyph) and (
        not font.face.has_color_png or bitmap_box(font, glyph) is None
    )
