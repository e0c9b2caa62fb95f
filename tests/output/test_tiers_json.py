"""Tier advice as JSON keeps to its published schema, and the schema is no rubber stamp."""

import json
from functools import cache

import pytest

import letterfit as lf
from tests.output import schemas

SCHEMA = json.loads(lf.tiers_schema())
LONG = (
    "WENNA: The tide turned an hour ago, and nobody has come to ask why the gate is shut, so I "
    "shall keep it shut until somebody does.\n"
)
SCRIPT = f"PAGE 1\nTIERS: 2 / 2\n\nPanel 1.\n{LONG}\nPanel 2.\n\nPanel 3.\n\nPanel 4.\n"


@cache
def advices() -> tuple[lf.TierAdvice, ...]:
    """A page that is kept, one that is changed, one for which no grid is found."""
    page = lf.preflight(lf.parse_script(SCRIPT), paper=lf.Paper.named("a5")).pages[0]
    heights = (1.0, page.panels[0].figure_height_mm + 2, 500.0)
    return tuple(lf.tier_advice(page, limits=lf.TierLimits(figure_mm=mm)) for mm in heights)


def test_the_schema_is_closed_and_described() -> None:
    """By JSON Schema's own meta-schema (draft 2020-12); all that is described is required."""
    assert schemas.faults(SCHEMA) == []
    for one in schemas.objects(SCHEMA):
        assert set(one["required"]) == set(one["properties"])


def test_every_outcome_is_valid() -> None:
    """A page that is kept, one that is changed, one for which no grid is found."""
    document = json.loads(lf.tiers_to_json(advices()))
    assert [page["outcome"] for page in document["pages"]] == ["kept", "advised", "not found"]
    assert schemas.errors(document, SCHEMA) == []
    assert schemas.errors(json.loads(lf.tiers_to_json([])), SCHEMA) == []


@pytest.mark.parametrize("key", ["label", "outcome", "tiers", "panels", "change_percent"])
def test_a_page_that_lacks_something_is_refused(key: str) -> None:
    """A planted fault is caught."""
    planted = json.loads(lf.tiers_to_json(advices()))
    del planted["pages"][0][key]
    assert schemas.errors(planted, SCHEMA)
