"""How a document asks for a face: by the family, weight and style that the font gives itself."""

from dataclasses import dataclass
from functools import lru_cache

import uharfbuzz as hb

from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.naming import name_of

TYPOGRAPHIC_FAMILY, FAMILY = 16, 1
"""Name identifiers (OpenType 1.9.1, "name"): 1 splits a family of many weights, 16 does not."""

LIGHTEST, HEAVIEST = 1, 1000
"""Weights that can be asked for (CSS Fonts 4, section 2.2)."""


@dataclass(frozen=True, slots=True)
class FontRequest:
    """What to ask for (CSS Fonts 4, section 2).

    Args:
        family: The family's name, as the font itself has it.
        weight: 1 to 1000; 400 is regular, 700 bold.
        italic: Whether it is an italic, or slanted.
        width: In percent; 100 is neither condensed nor extended.
    """

    family: str
    weight: int = 400
    italic: bool = False
    width: float = 100.0


@lru_cache(maxsize=128)
def font_request(face: Face) -> FontRequest:
    """What a document asks for to get this very face.

    Args:
        face: The face; of a variable font, at its place on the axes.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> font_request(open_typeface("Comic Neue").styled("bold italic"))
    FontRequest(family='Comic Neue', weight=700, italic=True, width=100.0)
    """
    font = engine(face).font
    weight = round(font.get_style_value(hb.StyleTag.WEIGHT))
    slanted = font.get_style_value(hb.StyleTag.ITALIC) or font.get_style_value(
        hb.StyleTag.SLANT_ANGLE
    )
    return FontRequest(
        family=name_of(font.face, TYPOGRAPHIC_FAMILY, FAMILY) or face.family,
        weight=min(max(weight, LIGHTEST), HEAVIEST),
        italic=bool(slanted) or "italic" in face.style,
        width=round(font.get_style_value(hb.StyleTag.WIDTH), 2),
    )
