"""Lettering: typefaces, and texts measured in them; the only place that calls HarfBuzz."""

from letterfit.lettering.breaks.prices import BreakPrices
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.fonts.bundled import STYLES, Style
from letterfit.lettering.fonts.choice import FontChoice
from letterfit.lettering.fonts.embedding import Embedding, embedding
from letterfit.lettering.fonts.face import Face, glyph_path, units_per_em
from letterfit.lettering.fonts.facts import FontFacts, bundled_families, font_facts
from letterfit.lettering.fonts.typeface import Typeface, TypefaceSource, open_typeface
from letterfit.lettering.measuring import measure, measure_ink
from letterfit.lettering.settings import CASES, Case, Lettering
from letterfit.lettering.style.habits import Habits
from letterfit.lettering.words import Glyph, SetLine, Words

__all__ = [
    "CASES",
    "STYLES",
    "BreakPrices",
    "BreakRules",
    "Case",
    "Embedding",
    "Face",
    "FontChoice",
    "FontFacts",
    "Glyph",
    "Habits",
    "Lettering",
    "SetLine",
    "Style",
    "Typeface",
    "TypefaceSource",
    "Words",
    "bundled_families",
    "embedding",
    "font_facts",
    "glyph_path",
    "measure",
    "measure_ink",
    "open_typeface",
    "units_per_em",
]
