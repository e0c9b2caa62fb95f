"""Typefaces as JSON: the keys are stable, the values those of the facts."""

import json
from pathlib import Path

from letterfit.lettering.fonts.facts import bundled_families, font_facts
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.output.fonts_json import fonts_to_json
from tests.box_font import box_font

VARIABLE = Path(__file__).parents[1] / "data" / "variable" / "Grandstander-wght-latin.woff2"

KEYS = [
    "family",
    "styles",
    "contents",
    "cap_height_em",
    "x_height_em",
    "capital_width_em",
    "characters",
    "languages",
    "nearly",
    "missing_punctuation",
    "fallback",
    "licence",
    "embedding",
    "findings",
]


def test_keys_are_those_that_programs_rely_on() -> None:
    """The same for every typeface; schema 1."""
    tree = json.loads(fonts_to_json(bundled_families()))
    assert tree["schema"] == 1
    assert [list(one) for one in tree["typefaces"]] == [KEYS] * 5


def test_a_variable_font_tells_its_axes_and_instances() -> None:
    """Tag, name and range; each instance's place."""
    (one,) = json.loads(fonts_to_json([font_facts(open_typeface(VARIABLE))]))["typefaces"]
    (face,) = one["contents"]
    assert face["axes"] == [
        {"tag": "wght", "name": "Weight", "low": 100.0, "default": 100.0, "high": 900.0}
    ]
    assert {"name": "SemiBold", "axes": {"wght": 600.0}} in face["instances"]
    assert one["nearly"]["fr"] == "Ÿ"
    assert one["licence"]["url"] == "https://scripts.sil.org/OFL"


def test_the_same_font_gives_the_same_bytes() -> None:
    """Nothing depends on the order of sets."""
    first, second = (fonts_to_json([font_facts(open_typeface(box_font()))]) for _ in range(2))
    assert first == second
    assert first.endswith("}\n")
