"""Measures as JSON: whole, finite, and differences that add up."""

import json
from dataclasses import replace

import letterfit as lf
from tests.existing import pages

PAGE = lf.measure_page(lf.parse_drawn_page(pages.in_mm().encode(), source="lock.svg"))


def test_a_page_is_written_whole() -> None:
    """Every panel with its balloons, what told them, and the findings."""
    value = json.loads(lf.measures_to_json(PAGE))
    page = value["page"]
    assert (value["schema"], page["source"], page["origin"]) == (1, "lock.svg", "existing")
    assert page["trim"] == [170.0, 260.0]
    assert [panel["told_by"] for panel in page["panels"]] == ["name"] * 3
    assert page["panels"][0]["rect"] == [10.0, 12.0, 72.0, 110.0]
    assert page["panels"][0]["balloons"][0]["words"] == 6
    assert page["findings"][0]["code"] == "other-typeface"
    assert [tier["panels"] for tier in page["tiers"]] == [2, 1]


def test_differences_are_the_seconds_less_the_firsts() -> None:
    """As they are shown: rounded figures add up."""
    other = replace(PAGE, panels=PAGE.panels[:2])
    value = json.loads(lf.comparison_to_json(lf.compare_pages(PAGE, other)))
    first, second = value["pages"]
    told = value["differences"]
    assert told["words"] == second["words"] - first["words"] == -4
    assert told["panels"][0]["coverage_points"] == 0
    assert told["panels"][2] is None
    points = round(second["coverage_percent"] - first["coverage_percent"], 1)
    assert told["coverage_points"] == points
    room = second["figure_height_mm"] - first["figure_height_mm"]
    assert told["figure_height_mm"] == round(room, 3)


def test_no_clearance_is_written_where_there_is_no_ink() -> None:
    """An empty balloon: infinity is no JSON."""
    root = pages.rect(pages.MM, (10, 10, 90, 90), 'class="panel"')
    root += pages.rect(pages.MM, (20, 20, 30, 10), 'class="balloon"')
    page = lf.parse_drawn_page(f"<svg {pages.sheet(pages.MM, 'mm')}>{root}</svg>".encode())
    text = lf.measures_to_json(lf.measure_page(page))
    assert json.loads(text)["page"]["panels"][0]["balloons"][0]["clearance_mm"] is None


def test_the_same_measures_give_the_same_characters() -> None:
    """Nothing else decides."""
    assert lf.measures_to_json(PAGE) == lf.measures_to_json(PAGE)
