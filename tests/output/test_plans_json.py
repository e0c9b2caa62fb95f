"""Plans as JSON: valid by the published schema, and read back to the last digit."""

import copy
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import letterfit as lf
from letterfit.errors import PageError
from letterfit.paper.shapes import Cell, PanelShape
from tests import readme
from tests.output import schemas
from tests.paper.shapes import SHAPES

SCHEMA = json.loads(lf.plans_schema())
GUTTERS = st.one_of(st.none(), st.floats(0, 100))
PAPERS = st.one_of(
    st.sampled_from([None, lf.Paper.named("us-comic"), lf.Paper.named("b5-jis")]),
    st.builds(
        lambda width, height, bleed, gutter: lf.Paper(
            trim=(width, height), bleed=bleed, gutter_mm=gutter
        ),
        st.floats(100, 400),
        st.floats(100, 400),
        st.floats(0, 20),
        st.floats(0, 20),
    ),
)
FULL = lf.Plans(
    paper=lf.Paper.named("a5"),
    gutter_mm=2.5,
    every_page=lf.parse_tiers("2 / 2 / 2"),
    pages=((3, lf.parse_tiers("1~[top-left 0.3x0.25] @2 / 2:(1/1)")),),
)
DOCUMENT = json.loads(lf.plans_to_json(FULL))


def settled(plans: lf.Plans) -> lf.Plans:
    """The plans with plain cells left unsaid and no lines: what two equal plans may differ in."""
    every = plans.every_page
    return lf.Plans(
        paper=plans.paper,
        gutter_mm=plans.gutter_mm,
        every_page=None if every is None else _shape(every),
        pages=tuple((number, _shape(shape)) for number, shape in plans.pages),
    )


def _shape(shape: lf.PageShape) -> lf.PageShape:
    return lf.PageShape(tiers=tuple(map(_tier, shape.tiers)), gutter_mm=shape.gutter_mm)


def _tier(tier: lf.TierShape) -> lf.TierShape:
    cells = tuple(map(_cell, tier.cells))
    plain = all(cell == PanelShape() for cell in cells)
    return lf.TierShape(tier.widths, tier.height, () if plain else cells)


def _cell(cell: Cell) -> Cell:
    return cell if isinstance(cell, PanelShape) else lf.StackShape(tuple(map(_tier, cell.tiers)))


@given(
    paper=PAPERS,
    gutter=GUTTERS,
    every=st.one_of(st.none(), SHAPES),
    pages=st.dictionaries(st.integers(0, 500), SHAPES, max_size=3),
    own=GUTTERS,
)
def test_plans_read_back(
    paper: lf.Paper | None,
    gutter: float | None,
    every: lf.PageShape | None,
    pages: dict[int, lf.PageShape],
    own: float | None,
) -> None:
    """Paper, gutters and shapes are those that were written, and the document is valid."""
    shapes = {n: lf.PageShape(tiers=shape.tiers, gutter_mm=own) for n, shape in pages.items()}
    plans = lf.Plans(
        paper=paper, gutter_mm=gutter, every_page=every, pages=tuple(sorted(shapes.items()))
    )
    text = lf.plans_to_json(plans)
    assert schemas.errors(json.loads(text), SCHEMA) == []
    assert settled(lf.parse_plans(text)) == settled(plans)


def test_the_schema_is_closed_and_described() -> None:
    """By JSON Schema's own meta-schema (draft 2020-12); every property says what it is."""
    assert schemas.faults(SCHEMA) == []


def test_toml_and_json_hold_the_same_plans() -> None:
    """Through either the pages are laid alike."""
    again = lf.parse_plans(lf.plans_to_toml(FULL))
    assert json.loads(lf.plans_to_json(again))["pages"][0]["tiers"] == DOCUMENT["pages"][0]["tiers"]


CHANGES: dict[str, tuple[tuple[str | int, ...], object]] = {
    "another schema": (("schema",), 2),
    "a gutter in words": (("gutter_mm",), "wide"),
    "a gutter under 0": (("pages", 0, "gutter_mm"), -1),
    "a page in words": (("pages", 0, "page"), "three"),
    "tiers of nothing": (("pages", 0, "tiers"), []),
    "a height of 0": (("pages", 0, "tiers", 0, "height"), 0),
    "a bleed in words": (("pages", 0, "tiers", 0, "places", 0, "bleeds"), "yes"),
    "a corner nowhere": (
        ("pages", 0, "tiers", 0, "places", 0, "insets", 0, "corner"),
        "middle",
    ),
    "an inset as wide as its host": (
        ("pages", 0, "tiers", 0, "places", 0, "insets", 0, "width"),
        1,
    ),
    "a stack that bleeds": (("pages", 0, "tiers", 1, "places", 1, "bleeds"), True),
    "a key nobody knows": (("pages", 0, "figure"), 54),
    "a paper of one side": (("paper", "trim"), [148]),
}


@pytest.mark.parametrize(("path", "value"), CHANGES.values(), ids=CHANGES)
def test_schema_and_reader_refuse_the_same(path: tuple[str | int, ...], value: object) -> None:
    """A planted fault is caught by both."""
    planted: Any = copy.deepcopy(DOCUMENT)
    inner = planted
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    assert schemas.errors(planted, SCHEMA)
    with pytest.raises(PageError):
        lf.parse_plans(json.dumps(planted))


def test_the_example_of_the_readme_is_valid_and_read() -> None:
    """Its page has a bleed, a stack and an inset."""
    (example,) = readme.blocks("json")
    assert schemas.errors(json.loads(example), SCHEMA) == []
    assert lf.parse_plans(example).pages[0][1].panel_count == 5


def test_short_forms_are_valid_and_read() -> None:
    """What is left out, a paper by its name, and tiers in the notation."""
    short = {"paper": "a5", "pages": [{"page": 1, "tiers": "2:(1/1)"}]}
    assert schemas.errors(short, SCHEMA) == []
    assert schemas.errors({}, SCHEMA) == []
    assert lf.parse_plans(json.dumps(short)).pages[0][1].panel_count == 3
    assert settled(lf.parse_plans("{}")) == lf.Plans()
