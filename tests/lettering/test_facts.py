"""Facts of typefaces, against what was measured and what the fonts' own files say."""

import json

import pytest

from letterfit.lettering import bundled_families, font_facts, open_typeface
from letterfit.lettering.bundled import BUNDLED, fonts_folder
from tests.box_font import box_font


def test_facts_of_the_box_font_are_known() -> None:
    """25 capitals of 600 and the I of 300."""
    facts = font_facts(open_typeface(box_font()))
    assert facts.cap_height_em == pytest.approx(0.7)
    assert facts.x_height_em == pytest.approx(0.5)
    assert facts.capital_width_em == pytest.approx((25 * 0.6 + 0.3) / 26)
    assert facts.languages == ("en",)
    assert facts.licence == ""


def test_the_default_is_the_narrowest_family_of_four_styles() -> None:
    """That is why it is the default."""
    facts = bundled_families()
    full = [family for family in facts if len(family.styles) == 4]
    assert min(full, key=lambda f: f.capital_width_em).family == facts[0].family == "Grandstander"


def test_all_bundled_fonts_are_under_the_open_font_license() -> None:
    """Said by the fonts themselves, by the licence beside each, and by the list of sources."""
    assert all("SIL Open Font License" in facts.licence for facts in bundled_families())
    sources = json.loads((fonts_folder() / "SOURCES.json").read_text(encoding="utf-8"))
    listed = {entry["file"] for entry in sources if entry["file"].endswith(".ttf")}
    paths = {family.path_of(style) for family in BUNDLED.values() for style in family.styles}
    assert paths <= listed
    for path in paths:
        assert (fonts_folder() / path).with_name("OFL.txt").is_file()


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
