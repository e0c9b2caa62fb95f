"""A laid page as SVG: panels in groups, and the same page when it is read back."""

from xml.etree import ElementTree as ET

import pytest
from hypothesis import given

import letterfit as lf
from letterfit.paper.laying import lay_page
from letterfit.script.model import ScriptPage, ScriptPanel
from tests.output.svg import raster
from tests.paper.shapes import SHAPES

SCRIPT = lf.parse_script("PAGE 4-5\n\nPanel 1.\n\nPanel 2.\n\nPanel 3.\n")
(SPREAD,) = lf.plan_script(
    SCRIPT, plans=lf.Plans(pages=((4, lf.parse_tiers("1~[top-left 0.3x0.3] @2 / 1")),))
)


def ids(root: ET.Element) -> list[str]:
    """All ids of a document."""
    return [element.attrib["id"] for element in root.iter() if "id" in element.attrib]


def test_groups_are_named_as_in_a_lettered_page() -> None:
    """Guides, tiers and panels, one inside the other; no text and nothing filled."""
    root = raster.parse(lf.page_plan_to_svg(SPREAD))
    assert ids(root) == ["guides", "tier-1", "panel-4-5.1", "panel-4-5.2", "tier-2", "panel-4-5.3"]
    tier = root.find(".//*[@id='tier-1']")
    assert tier is not None
    assert tier.find("*[@id='panel-4-5.2']") is not None
    drawn = [e for e in root.iter() if e.tag.endswith("rect")]
    assert {e.get("fill") for e in drawn} == {"none"}
    assert {e.tag.rpartition("}")[2] for e in root.iter()} == {"svg", "title", "g", "rect"}


def test_a_panel_that_bleeds_is_drawn_as_far_as_the_bleed() -> None:
    """The file is as large as the trim; what hangs over is there for the artist."""
    root = raster.parse(lf.page_plan_to_svg(SPREAD))
    panel = root.find(".//*[@id='panel-4-5.1']")
    assert panel is not None
    rect = next(e for e in panel if e.tag.endswith("rect"))
    assert float(rect.attrib["x"]) == pytest.approx(-SPREAD.plan.paper.bleed, abs=1e-3)


@given(shape=SHAPES)
def test_a_laid_page_reads_back(shape: lf.PageShape) -> None:
    """The reader of drawn pages finds the panels on the trimmed page, to 0.01 mm."""
    paper = lf.Paper.named("a3")
    try:
        tiers, special = lay_page(shape, paper)
    except lf.PageError:
        return
    panels = tuple(ScriptPanel(number=n, line=n) for n in range(1, shape.panel_count + 1))
    page = lf.LaidPage(
        label="1",
        page=ScriptPage(numbers=(1,), line=1, panels=panels),
        plan=lf.PagePlan(paper=paper, tiers=tiers, special=special),
    )
    svg = lf.page_plan_to_svg(page)
    assert len(ids(raster.parse(svg))) == len(set(ids(raster.parse(svg))))
    drawn = {p.name: p.outline for p in lf.parse_drawn_page(svg.encode()).panels}
    for number, rect in enumerate(page.plan.panels, start=1):
        outline = drawn[f"panel-1.{number}"]
        low, high = outline.min(axis=0), outline.max(axis=0)
        assert low.tolist() == pytest.approx([rect.x, rect.y], abs=0.01)
        assert high.tolist() == pytest.approx([rect.right, rect.bottom], abs=0.01)
