"""A script as neutral JSON."""

import json

from letterfit.output.script_json import script_to_json
from letterfit.script.parse import parse_script

TEXT = "L’ÉCLUSE\n\nPAGES 2-3 (1 panel)\nPanel 4.1. Wide.\n2. ODILE (OFF): « Ohé\u202f! »\n"


def test_the_form_of_a_script() -> None:
    """Keys in their order, a number as typed, an index only where one was typed."""
    tree = json.loads(script_to_json(parse_script(TEXT + "SFX: KRRK\n")))
    assert list(tree) == ["language", "title", "pages"]
    (page,) = tree["pages"]
    assert page == {
        "numbers": [2, 3],
        "spread": True,
        "stated_panel_count": 1,
        "panels": page["panels"],
        "note": None,
    }
    (panel,) = page["panels"]
    assert list(panel) == ["number", "description", "elements"]
    assert panel["number"] == "4.1"
    assert panel["elements"] == [
        {
            "kind": "dialogue",
            "speaker": "ODILE",
            "modifiers": ["OFF"],
            "text": "« Ohé\u202f! »",
            "index": 2,
        },
        {"kind": "sfx", "speaker": None, "modifiers": [], "text": "KRRK"},
    ]


def test_letters_are_written_as_they_are_and_no_title_leaves_no_key() -> None:
    """The text is UTF-8 without escapes, ends in a line feed and is the same every time."""
    script = parse_script(TEXT)
    text = script_to_json(script)
    assert "L’ÉCLUSE" in text
    assert text.endswith("}\n")
    assert text == script_to_json(parse_script(TEXT))
    assert "title" not in json.loads(script_to_json(parse_script("PAGE 1\nPanel 1\n")))
