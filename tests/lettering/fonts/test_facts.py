"""Facts of typefaces, against what was measured and what the fonts' own files say."""

import hashlib
import io
import json

import pytest
from fontTools.ttLib import TTFont

from letterfit.lettering.fonts.bundled import BUNDLED, fonts_folder
from letterfit.lettering.fonts.coverage import blank_characters
from letterfit.lettering.fonts.embedding import Licence
from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.facts import bundled_families, font_facts
from letterfit.lettering.fonts.fontfile import FontFile
from letterfit.lettering.fonts.typeface import open_typeface
from tests.box_font import CHARACTERS, box_font


def test_facts_of_the_box_font_are_known() -> None:
    """25 capitals of 600 and the I of 300."""
    facts = font_facts(open_typeface(box_font()))
    assert facts.cap_height_em == pytest.approx(0.7)
    assert facts.x_height_em == pytest.approx(0.5)
    assert facts.capital_width_em == pytest.approx((25 * 0.6 + 0.3) / 26)
    assert facts.languages == ("ceb", "en", "id", "ms", "so", "sw", "uz", "xh", "zu")
    assert facts.licence == Licence(text="", url="", copyright="")
    assert facts.missing_punctuation == "–‘“”„«»¿¡"
    assert facts.characters == len(CHARACTERS) + 2  # both Unicode hyphens are set by "-"
    assert facts.fallback[0] == "Letterfit Symbols"


def test_the_default_is_the_narrowest_family_of_four_styles() -> None:
    """That is why it is the default."""
    facts = bundled_families()
    full = [family for family in facts if len(family.styles) == 4]
    assert min(full, key=lambda f: f.capital_width_em).family == facts[0].family == "Grandstander"


def test_all_bundled_fonts_are_under_the_open_font_license() -> None:
    """Said by the fonts themselves, by the licence beside each, and by the list of sources."""
    assert all("SIL Open Font License" in facts.licence.text for facts in bundled_families())
    sources = json.loads((fonts_folder() / "SOURCES.json").read_text(encoding="utf-8"))
    listed = {entry["file"] for entry in sources if entry["file"].endswith(".ttf")}
    paths = {family.path_of(style) for family in BUNDLED.values() for style in family.styles}
    assert paths <= listed
    for path in paths:
        assert (fonts_folder() / path).with_name("OFL.txt").is_file()


def test_the_bundled_files_are_those_that_were_taken() -> None:
    """Every file of the list is there with the checksum and the size it came with, and no other."""
    sources = json.loads((fonts_folder() / "SOURCES.json").read_text(encoding="utf-8"))
    for entry in sources:
        content = (fonts_folder() / entry["file"]).read_bytes()
        assert hashlib.sha256(content).hexdigest() == entry["sha256"], entry["file"]
        assert len(content) == entry["bytes"]
    fonts = {str(path.relative_to(fonts_folder())) for path in fonts_folder().glob("*/*.ttf")}
    assert fonts == {entry["file"] for entry in sources if entry["file"].endswith(".ttf")}


def test_the_bundled_fonts_may_be_embedded_and_have_no_blank_letters() -> None:
    """By fontTools' reading of fsType, and by every glyph's outline."""
    for family in BUNDLED.values():
        for style in family.styles:
            file = FontFile(family.path_of(style))
            assert TTFont(io.BytesIO(file.read()))["OS/2"].fsType == 0
            known = engine(Face("face", family.name, style, file))
            mapped = frozenset(known.chars) - set(known.spelling)
            assert blank_characters(known.font, mapped) == set()


def test_languages_are_covered_as_the_fonts_makers_say() -> None:
    """Greek in Comic Relief alone, Cyrillic in two families, Vietnamese in two."""
    spoken = {facts.family: set(facts.languages) for facts in bundled_families()}
    assert {name for name, tags in spoken.items() if "el" in tags} == {"Comic Relief"}
    assert {name for name, tags in spoken.items() if "ru" in tags} == {
        "Balsamiq Sans",
        "Comic Relief",
    }
    assert {name for name, tags in spoken.items() if "vi" in tags} == {"Grandstander", "Bangers"}
    assert all({"en", "fr", "de", "es", "it", "pt", "nl"} <= tags for tags in spoken.values())
