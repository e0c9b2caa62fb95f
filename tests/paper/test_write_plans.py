"""Plans written as TOML: what is read back is what was written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.paper.model import Plans
from letterfit.paper.read_plans import parse_plans
from letterfit.paper.shapes import PageShape
from letterfit.paper.sheet import Paper
from letterfit.paper.write_plans import plans_to_toml
from tests.paper.shapes import SHAPES, alike

GUTTERS = st.one_of(st.none(), st.integers(0, 80).map(lambda n: n / 10))
PAPERS = st.sampled_from(
    [None, Paper.named("us-comic"), Paper.named("b5-jis"), Paper.named("170 x 260.5mm")]
)


@given(
    paper=PAPERS,
    gutter=GUTTERS,
    every=st.one_of(st.none(), SHAPES),
    pages=st.dictionaries(st.integers(1, 500), SHAPES, max_size=4),
)
def test_plans_read_back(
    paper: Paper | None,
    gutter: float | None,
    every: PageShape | None,
    pages: dict[int, PageShape],
) -> None:
    """Paper, gutter, the plan for all pages and each page's own are those that were written."""
    plans = Plans(
        paper=paper, gutter_mm=gutter, every_page=every, pages=tuple(sorted(pages.items()))
    )
    again = parse_plans(plans_to_toml(plans))
    assert (again.paper, again.gutter_mm) == (paper, gutter)
    assert (again.every_page is None) == (every is None)
    if again.every_page is not None and every is not None:
        assert alike(again.every_page.tiers, every.tiers)
    assert [number for number, _ in again.pages] == sorted(pages)
    assert all(alike(shape.tiers, pages[number].tiers) for number, shape in again.pages)


def test_nothing_planned_is_an_empty_file() -> None:
    """Plans of nothing are a TOML file of nothing."""
    assert plans_to_toml(Plans()) == "\n"
    assert parse_plans("\n") == Plans()


@pytest.mark.parametrize("name", ["newsprint", "a5", 'x"\n[all]\ntiers = "9', "170 x 260 mm"])
def test_a_paper_by_a_name_of_its_own_is_written_as_its_size(name: str) -> None:
    """Plans of JSON may call a paper anything; the name of another one would be another page."""
    read = parse_plans(plans_to_toml(Plans(paper=Paper(name=name, trim=(170.5, 260.125)))))
    assert read.paper == Paper(trim=(170.5, 260.125), name=read.paper.name if read.paper else "")
    assert read.every_page is None
