"""The report as JSON: schema 1 as published, rounded once, the same bytes every time."""

import copy
import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.geometry import Point, Rect
from letterfit.output.report_json import to_json
from letterfit.output.report_schema import report_schema
from letterfit.report.model import PanelOverflow
from tests.output import reports

Path = tuple[str | int, ...]

SCHEMA = json.loads(report_schema())
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def parsed(report: object) -> Any:  # noqa: ANN401 - JSON is any value
    """A report's JSON read back, NaN and infinity refused."""
    return json.loads(to_json(report), parse_constant=refuse)  # type: ignore[arg-type]


def refuse(constant: str) -> None:
    """What the reader does with NaN and Infinity, which RFC 8259 does not know."""
    pytest.fail(f"{constant} is no JSON")


def errors(document: object) -> list[str]:
    """Every complaint of the JSON Schema."""
    return [f"{e.json_path}: {e.message}" for e in VALIDATOR.iter_errors(document)]


NASTY = parsed(reports.nasty())


def objects(value: object, path: Path = ()) -> Iterator[tuple[Path, dict[str, object]]]:
    """Every object of a document with its path."""
    if isinstance(value, dict):
        yield path, value
        for key, inner in value.items():
            yield from objects(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from objects(inner, (*path, index))


def kinds_of_objects() -> list[Path]:
    """One path for each kind of object: list positions are not told apart, outlines' kinds are."""
    found: dict[object, Path] = {}
    for path, value in objects(NASTY):
        kind = (tuple("*" if isinstance(p, int) else p for p in path), tuple(value))
        found.setdefault(kind, path)
    return list(found.values())


def at(document: Any, path: Path) -> Any:  # noqa: ANN401 - JSON is any value
    """The value at a path."""
    for step in path:
        document = document[step]
    return document


@pytest.mark.parametrize("make", [reports.small, reports.nasty, reports.long])
def test_every_report_is_valid_against_the_schema(make: Callable[[], object]) -> None:
    """A small, a hostile and a long report all satisfy the published schema."""
    assert errors(parsed(make())) == []


def test_the_schema_itself_is_valid() -> None:
    """The schema is one: checked against the draft 2020-12 metaschema that jsonschema ships."""
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"


OPTIONAL = {"figures", "figure_bound_mm", "proof", "joined", "overhang", "placing", "width_mm"} | {
    "pace",
    "words_per_tier",
    "balloons_per_panel",
    "panels_per_tier",
    "panels_per_page",
    "house",
}
"""Keys that readers of schema 1 must do without: it had them not at first."""


@pytest.mark.parametrize("path", kinds_of_objects(), ids=str)
def test_no_key_may_be_missing_or_added(path: Path) -> None:
    """Take any key from any kind of object, or add one: the schema notices."""
    for key in at(NASTY, path).keys() - OPTIONAL:
        document = copy.deepcopy(NASTY)
        del at(document, path)[key]
        assert not VALIDATOR.is_valid(document), f"{key} of {path} can be left out"
    document = copy.deepcopy(NASTY)
    at(document, path)["surprise"] = 1
    assert not VALIDATOR.is_valid(document), f"{path} takes any key"


PANEL: Path = ("pages", 0, "panels", 0)
FAILING: Path = ("pages", 0, "panels", 1)
BALLOON: Path = (*PANEL, "balloons", 0)

FAULTS: dict[str, tuple[Path, object]] = {
    "another version": (("schema",), 2),
    "a reading unheard of": (("reading",), "ttb"),
    "words as text": ((*PANEL, "words"), "11"),
    "words below nought": ((*PANEL, "words"), -1),
    "half a word": ((*BALLOON, "words"), 1.5),
    "a verdict unheard of": ((*PANEL, "verdict"), "tight"),
    "placed, yet over": (
        (*PANEL, "overflow"),
        {"area_mm2": 1, "words": 1, "size_pt": 1, "height_mm": 1},
    ),
    "placed nowhere": ((*BALLOON, "outline", "x"), None),
    "not placed, yet somewhere": ((*FAILING, "balloons", 0, "outline", "x"), 12.5),
    "not placed, yet with a tail": (
        (*FAILING, "balloons", 0, "tail"),
        NASTY["pages"][0]["panels"][0]["balloons"][2]["tail"],
    ),
    "not placed for no reason": ((*FAILING, "reason"), ""),
    "fits, yet over": (
        (*BALLOON, "overflow"),
        NASTY["pages"][1]["panels"][0]["balloons"][0]["overflow"],
    ),
    "does not fit, yet not over": ((*BALLOON, "fits"), False),
    "an outline turned inside out": ((*BALLOON, "outline", "half_width"), -3.0),
    "an outline of another kind": ((*BALLOON, "outline", "kind"), "ellipse"),
    "a flat panel": ((*PANEL, "rect"), [8.0, 16.0, 150.0, 0.0]),
    "a rectangle of three numbers": ((*PANEL, "rect"), [8.0, 16.0, 150.0]),
    "a point of three numbers": ((*PANEL, "balloons", 2, "tail", "tip"), [1.0, 2.0, 3.0]),
    "more figure than panel": ((*PANEL, "figure_share"), 1.5),
    "more than nothing stands clear": ((*PANEL, "figure_bound_mm"), -1.0),
    "a proof of no known name": ((*FAILING, "proof", "name"), "guess"),
    "a proof about nothing": ((*FAILING, "proof", "balloons"), []),
    "placed, yet proved impossible": ((*PANEL, "proof"), NASTY["pages"][0]["panels"][1]["proof"]),
    "not placed, yet joined": ((*FAILING, "balloons", 1, "joined"), True),
    "not placed, yet hanging over": ((*FAILING, "balloons", 1, "overhang"), 1.5),
    "hanging over by less than nothing": ((*BALLOON, "overhang"), -1.0),
    "neighbours glued": (("placing", "same_speaker"), "glued"),
    "a line before the first": ((*PANEL, "line"), 0),
    "a severity unheard of": (("findings", 0, "severity"), "fatal"),
    "a code in capitals": (("findings", 0, "code"), "LOST LINE"),
    "a finding without words": (("findings", 0, "message"), ""),
    "type of no size": (("lettering", "size_pt"), 0),
    "a house rule about nothing": (("limits", "house"), ["words"]),
    "a tier without words": (("limits", "words_per_tier"), 0),
    "a median as text": (("pace", "words_per_panel", "median"), "9"),
    "a silence of no panels": (
        ("pace", "longest_silence"),
        {"first": "1", "last": "1", "panels": 0},
    ),
    "captions with a name": (
        ("pace", "voices", 0),
        NASTY["pace"]["voices"][0] | {"voice": "captions", "speaker": "WENNA"},
    ),
    "a speaker without a name": (("pace", "voices", 0, "speaker"), None),
    "more than all the words": (("pace", "voices", 0, "words_percent"), 101),
    "half a silent panel": (("pages", 0, "pace", "silent_panels"), 0.5),
    "a page of three numbers": (("pages", 0, "numbers"), [104, 105, 106]),
}


@pytest.mark.parametrize(("path", "value"), FAULTS.values(), ids=FAULTS)
def test_a_planted_fault_is_caught(path: Path, value: object) -> None:
    """One wrong value in a valid report makes it invalid."""
    document = copy.deepcopy(NASTY)
    at(document, path[:-1])[path[-1]] = value
    assert not VALIDATOR.is_valid(document)


def test_the_same_report_gives_the_same_bytes() -> None:
    """Nothing but the report decides the characters, and they end with a line feed."""
    first, second = to_json(reports.nasty()), to_json(reports.nasty())
    assert first.encode("utf-8") == second.encode("utf-8")
    assert first.endswith("}\n")


def test_lengths_are_rounded_to_a_micrometre() -> None:
    """A half-width of 16.00049 mm leaves as 16.0 mm and a clearance of 1.2345678 as 1.235."""
    balloon = parsed(reports.small())["pages"][0]["panels"][0]["balloons"][0]
    assert balloon["outline"]["half_width"] == 16.0
    assert balloon["clearance_mm"] == 1.235


def test_lines_stand_on_the_page_when_placed_and_in_the_outline_when_not() -> None:
    """A placed line's place is the balloon's centre plus its own; an unplaced one's its own."""
    pages = parsed(reports.nasty())["pages"]
    placed = pages[0]["panels"][0]["balloons"][2]
    unplaced = pages[1]["panels"][1]["balloons"][0]
    assert placed["outline"]["x"] + -0.75 * len("SHUT?") == placed["lines"][0]["x"]
    assert unplaced["lines"][0]["x"] == -0.75 * len("WAIT.")
    assert unplaced["outline"]["x"] is None


def test_a_text_without_ink_has_no_clearance() -> None:
    """An infinite clearance is no number of JSON: it is null."""
    panel = reports.small().pages[0].panels[0]
    bare = replace(
        panel.balloons[0], fitted=replace(reports.fitted("."), clearance_mm=float("inf"))
    )
    report = reports.report(reports.page(1, replace(panel, balloons=(bare,))))
    assert parsed(report)["pages"][0]["panels"][0]["balloons"][0]["clearance_mm"] is None
    assert errors(parsed(report)) == []


def test_a_spread_keeps_both_its_numbers_and_its_width() -> None:
    """A spread is named by both pages, counted by the first, and two pages wide."""
    spread = NASTY["pages"][0]
    assert (spread["number"], spread["numbers"]) == (104, [104, 105])
    assert spread["label"] == "104-105"
    assert spread["trim"] == [336.55, 260.35]
    assert spread["tiers"] == [
        {"height_mm": 100.0, "figure_height_mm": 0.0, "panels": ["104-105.1", "104-105.2"]}
    ]


def test_a_link_names_the_balloon_it_leads_to() -> None:
    """A tail that goes on to the same speaker's next balloon says which, by its id."""
    spots = (Point(30, 32), Point(30, 60))
    link = replace(reports.tail_down(spots[0]), to=1)
    pair = [
        reports.balloon("1.1.1", "HOLD.", at=spots[0], tail=link),
        reports.balloon("1.1.2", "HOLD IT.", at=spots[1]),
    ]
    whole = reports.panel("1.1", reports.PAPER.live, *pair)
    document = parsed(reports.report(reports.page(1, whole)))
    assert errors(document) == []
    assert document["pages"][0]["panels"][0]["balloons"][0]["tail"]["to"] == "1.1.2"


def test_hostile_text_is_kept_as_typed_but_for_what_cannot_be_printed() -> None:
    """Brackets, markup and East Asian letters stay; an escape and half a surrogate are replaced."""
    text = NASTY["pages"][0]["panels"][0]["balloons"][0]["text"]
    assert text == reports.NASTY.replace("\x1b", "\ufffd").replace("\ud800", "\ufffd")
    assert "\x1b" not in to_json(reports.nasty())


@given(x=st.floats(-5000, 5000), y=st.floats(-5000, 5000), clearance=st.floats(0, 50))
def test_any_placed_balloon_is_valid_and_rounded(x: float, y: float, clearance: float) -> None:
    """Whatever the place, the JSON is valid and no length keeps more than three decimals."""
    page = reports.small().pages[0]
    said = reports.balloon("1.1.1", "HOLD.", at=Point(x, y))
    said = replace(said, fitted=replace(said.fitted, clearance_mm=clearance))
    panels = (replace(page.panels[0], balloons=(said,)), *page.panels[1:])
    document = parsed(reports.report(replace(page, panels=panels)))
    assert errors(document) == []
    balloon = document["pages"][0]["panels"][0]["balloons"][0]
    for value in (balloon["outline"]["x"], balloon["outline"]["y"], balloon["clearance_mm"]):
        assert value == round(value, 3)
        assert str(value) != "-0.0"


def test_proofs_name_their_balloons_and_bounds_are_rounded_up() -> None:
    """A proof is told by ids and figures; a height that no layout exceeds is still no less."""
    placed, failing = NASTY["pages"][0]["panels"]
    assert failing["proof"] == {
        "name": "area",
        "balloons": ["104-105.2.1", "104-105.2.2", "104-105.2.3"],
        "needs": 15412.346,
        "holds": 15000.0,
        "cells": 0,
    }
    assert (failing["figure_bound_mm"], placed["proof"]) == (0.0, None)
    assert placed["figure_bound_mm"] == 81.001
    assert NASTY["pages"][1]["panels"][0]["figure_bound_mm"] is None


def test_joints_and_overhangs_are_told_of_each_balloon() -> None:
    """Joined to the one before it, and how far over the border: false and 0 for all others."""
    spot = Point(40, 40)
    first = reports.balloon("1.1.1", "HOLD.", at=spot)
    second = replace(reports.balloon("1.1.2", "NOW.", at=Point(50, 52)), joined=True)
    panel = reports.panel("1.1", Rect(8, 34, 150, 90), replace(first, overhang_mm=1.5), second)
    document = parsed(reports.report(reports.page(1, panel)))
    told = document["pages"][0]["panels"][0]["balloons"]
    assert [(one["joined"], one["overhang"]) for one in told] == [(False, 1.5), (True, 0.0)]
    assert errors(document) == []


def test_what_would_let_a_panel_be_placed_is_told_in_full() -> None:
    """Words, size, height and width, each null where it helps nothing."""
    over = PanelOverflow(area_mm2=0, words=None, size_pt=6.5, height_mm=None, width_mm=71.0)
    panel = reports.failing("1.1", Rect(8, 34, 60, 40), overflow=over)
    document = parsed(reports.report(reports.page(1, panel)))
    told = document["pages"][0]["panels"][0]["overflow"]
    assert told == {
        "area_mm2": 0.0,
        "words": None,
        "size_pt": 6.5,
        "height_mm": None,
        "width_mm": 71.0,
    }
    assert errors(document) == []


def test_pace_is_told_of_the_script_and_of_each_page() -> None:
    """Three panels of a small script: six words said, two told, the third silent."""
    document = parsed(reports.small())
    (page,) = document["pages"]
    assert page["pace"] == {
        "panels": 3,
        "words": 8,
        "balloons": 2,
        "silent_panels": 1,
        "mean_coverage_percent": 4.0,  # panels of one size: (10 + 2 + 0) / 3
        "words_per_balloon": {"median": 4.0, "most": 6.0},
        "words_per_panel": {"median": 2.0, "most": 6.0},
        "words_per_tier": {"median": 2.0, "most": 6.0},
        "balloons_per_panel": {"median": 1.0, "most": 1.0},
        "panels_per_tier": {"median": 1.0, "most": 1.0},
        "tiers": [
            {"panels": 1, "words": 6, "balloons": 1, "silent_panels": 0},
            {"panels": 1, "words": 2, "balloons": 1, "silent_panels": 0},
            {"panels": 1, "words": 0, "balloons": 0, "silent_panels": 1},
        ],
    }
    pace = document["pace"]
    assert pace["longest_silence"] == {"first": "1.3", "last": "1.3", "panels": 1}
    assert pace["words_per_page"] == {"median": 8.0, "most": 8.0}
    said, told = pace["voices"]
    assert (said["voice"], said["speaker"], said["words_percent"]) == ("speaker", "WENNA", 75.0)
    assert (told["voice"], told["speaker"], told["area_mm2"]) == ("captions", None, 288.0)


def test_a_script_of_nothing_has_a_pace_of_nothing() -> None:
    """No median, no voice, and still valid."""
    document = parsed(reports.report())
    assert errors(document) == []
    assert (document["pace"]["words_per_page"], document["pace"]["voices"]) == (None, [])
