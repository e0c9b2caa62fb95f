"""Which characters a font can set."""

import pytest
import uharfbuzz as hb
from fontTools.ttLib.tables._c_m_a_p import CmapSubtable

from letterfit.lettering.fonts.coverage import EMPTY_BY_NATURE, blank_characters, is_visible
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import CHARACTERS, box_font
from tests.lettering.hostile_fonts import blank_font, opened, saved


@pytest.mark.parametrize("char", "Aé5!—♫水\ue000")
def test_letters_digits_signs_and_private_characters_show(char: str) -> None:
    """A glyph without ink would lose them."""
    assert is_visible(char)


@pytest.mark.parametrize(
    "char", [" ", "\u00a0", "\u00ad", "\u200b", "\ufe0f", *sorted(EMPTY_BY_NATURE)]
)
def test_spaces_controls_and_fillers_show_nothing(char: str) -> None:
    """They are set without ink."""
    assert not is_visible(char)


def test_blank_glyphs_are_found_by_their_outline() -> None:
    """Those that were emptied, and no other."""
    font = hb.Font(hb.Face(blank_font("AÉe,".replace("É", ""))))
    assert blank_characters(font, frozenset(CHARACTERS)) == {"A", "e", ","}
    assert blank_characters(hb.Font(hb.Face(box_font())), frozenset(CHARACTERS)) == frozenset()


def test_a_symbol_font_sets_the_letters_it_lists_by_private_numbers() -> None:
    """Encoding 3, 0 keeps A at U+F041 (OpenType 1.9.1, "cmap")."""
    font = opened()
    table = CmapSubtable.newSubtable(4)
    table.platformID, table.platEncID, table.language = 3, 0, 0
    table.cmap = {0xF000 + code: name for code, name in font.getBestCmap().items() if code < 0x100}
    font["cmap"].tables = [table]
    face = open_typeface(saved(font))
    words = measure("ABC", Lettering(typeface=face))
    assert not words.findings
    assert words.pieces[0].glyphs[0].face == "Box Regular"
