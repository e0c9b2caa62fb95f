"""Laid pages as JSON: valid, complete, and the same places as the report's."""

import json
from typing import Any

import pytest
from hypothesis import given

import letterfit as lf
from letterfit.paper.laying import lay_page
from tests.output import schemas
from tests.paper.shapes import SHAPES

SCHEMA = json.loads(lf.page_plans_schema())
SCRIPT = lf.parse_script(
    "PAGE 1\n\nPanel 1.\nWENNA: Shut it.\n\nPanel 2.\n\nPanel 3.\n\nPAGE 2-3\n\n"
    "Panel 1.\n\nPanel 2.\n\nPAGE 4\n",
    source="gate.txt",
)
PLANS = lf.Plans(pages=((1, lf.parse_tiers("1~[top-left 0.3x0.3] @2 / 1")),))
PAGES = lf.plan_script(SCRIPT, plans=PLANS)
DOCUMENT: dict[str, Any] = json.loads(lf.page_plans_to_json(PAGES))


def test_the_schema_is_closed_and_described() -> None:
    """By JSON Schema's own meta-schema (draft 2020-12); all that is described is required."""
    assert schemas.faults(SCHEMA) == []
    for one in schemas.objects(SCHEMA):
        assert set(one["required"]) == set(one["properties"])


def test_pages_spreads_and_empty_pages_are_valid() -> None:
    """A bleed, an inset, a fold, a page without panels, no page at all."""
    assert schemas.errors(DOCUMENT, SCHEMA) == []
    assert schemas.errors(json.loads(lf.page_plans_to_json([])), SCHEMA) == []
    first, spread, empty = DOCUMENT["pages"]
    assert (first["paper"]["spine"], spread["paper"]["pages"]) == (None, 2)
    assert spread["paper"]["spine"] is not None
    assert (empty["tiers"], empty["plan"]) == ([], None)


def test_hosts_and_insets_name_each_other() -> None:
    """By id, in reading order; the host bleeds, the inset does not."""
    host, inset, other = DOCUMENT["pages"][0]["panels"]
    assert (host["id"], host["insets"], host["host"]) == ("1.1", ["1.2"], None)
    assert (inset["insets"], inset["host"], inset["bleed"]) == ([], "1.1", None)
    assert host["bleed"][0] < 0
    assert (other["tier"], other["bleed"]) == (2, None)
    assert [tier["panels"] for tier in DOCUMENT["pages"][0]["tiers"]] == [["1.1", "1.2"], ["1.3"]]


def test_places_are_those_of_the_report() -> None:
    """The report's JSON has the same ids and rectangles for the same plans."""
    report = json.loads(lf.to_json(lf.preflight(SCRIPT, plans=PLANS)))
    for laid, lettered in zip(DOCUMENT["pages"], report["pages"], strict=True):
        mine = [(p["id"], p["line"], p["rect"], p["bleed"]) for p in laid["panels"]]
        theirs = [(p["id"], p["line"], p["rect"], p["bleed"]) for p in lettered["panels"]]
        assert mine == theirs


@given(shape=SHAPES)
def test_any_page_that_can_be_laid_is_valid(shape: lf.PageShape) -> None:
    """A plan without a script has names by number."""
    paper = lf.Paper.named("a3")
    try:
        tiers, special = lay_page(shape, paper)
    except lf.PageError:
        return
    plan = lf.PagePlan(paper=paper, tiers=tiers, shape=shape, special=special)
    document = json.loads(lf.page_plan_to_json(plan, label="7"))
    assert schemas.errors(document, SCHEMA) == []
    ids = [panel["id"] for panel in document["pages"][0]["panels"]]
    assert ids == [f"7.{number}" for number in range(1, shape.panel_count + 1)]


@pytest.mark.parametrize("key", ["id", "rect", "bleed", "insets", "host", "tier"])
def test_a_panel_that_lacks_something_is_refused(key: str) -> None:
    """The schema is no rubber stamp."""
    planted = json.loads(lf.page_plans_to_json(PAGES))
    del planted["pages"][0]["panels"][0][key]
    assert schemas.errors(planted, SCHEMA)
