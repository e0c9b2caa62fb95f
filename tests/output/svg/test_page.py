"""A page's SVG: well formed, self-contained, at print size, with every panel and balloon named."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import numpy as np
import pytest
import resvg_py

from letterfit.geometry import MM_PER_INCH, Rect
from letterfit.output.svg import style
from letterfit.output.svg.page import to_svg
from letterfit.output.svg.panel import shelves
from letterfit.report.model import PageReport
from tests.output import reports
from tests.output.svg import raster

PAGES = [*reports.small().pages, *reports.nasty().pages, reports.long(1).pages[0]]
IDS = ["small", "spread", "tight", "long"]


def ids(root: ET.Element) -> list[str]:
    """All ids of a document."""
    return [element.attrib["id"] for element in root.iter() if "id" in element.attrib]


@pytest.mark.parametrize("page", PAGES, ids=IDS)
def test_a_page_is_well_formed_and_its_ids_are_unique(page: PageReport) -> None:
    """Two strict parsers read it (expat, resvg's own), hostile text and all; no id comes twice."""
    svg = to_svg(page)
    root = raster.parse(svg)
    assert resvg_py.svg_to_bytes(svg_string=svg, dpi=25, skip_system_fonts=True)
    assert len(ids(root)) == len(set(ids(root)))


@pytest.mark.parametrize("page", PAGES, ids=IDS)
def test_a_page_refers_to_nothing_outside_and_runs_nothing(page: PageReport) -> None:
    """No script, no event, no link, no font, no image; a reference stays within the file."""
    root = raster.parse(to_svg(page))
    names = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert names <= {"svg", "title", "g", "rect", "path", "circle", "ellipse", "clipPath"}
    for element in root.iter():
        for key, value in element.attrib.items():
            assert not key.startswith("on")
            assert "href" not in key
            for target in re.findall(r"url\(([^)]*)\)", value):
                assert target[0] == "#"
                assert target[1:] in ids(root)


@pytest.mark.parametrize("page", PAGES, ids=IDS)
def test_a_page_is_as_large_as_its_paper(page: PageReport) -> None:
    """Width and height are the trimmed page's in mm, and so is the view box."""
    root = raster.parse(to_svg(page))
    width, height = page.plan.paper.trim
    assert float(root.attrib["width"].removesuffix("mm")) == pytest.approx(width, abs=5e-4)
    assert float(root.attrib["height"].removesuffix("mm")) == pytest.approx(height, abs=5e-4)
    assert [float(v) for v in root.attrib["viewBox"].split()] == pytest.approx(
        [0, 0, width, height]
    )


def test_tiers_panels_and_balloons_are_groups_of_that_name() -> None:
    """A reader of the file finds tier, panel and balloon by id, one inside the other."""
    root = raster.parse(to_svg(PAGES[1]))
    tier = root.find(".//*[@id='tier-1']")
    assert tier is not None
    panel = tier.find("*[@id='panel-104-105.1']")
    assert panel is not None
    assert panel.find("*[@id='balloon-104-105.1.2']") is not None


def test_the_same_page_gives_the_same_bytes() -> None:
    """Nothing but the page decides the characters."""
    assert to_svg(PAGES[1]) == to_svg(PAGES[1])


def test_how_a_balloon_is_spoken_is_how_it_is_drawn() -> None:
    """A whisper is dashed, a thought has bubbles and no tail, a caption has a finer line."""
    root = raster.parse(to_svg(PAGES[1]))
    whisper, _, thought = raster.named(root, "balloon")[:3]
    dashes = raster.named(whisper, "outline")[0].get("stroke-dasharray")
    assert dashes == style.WHISPER_DASHES
    circles = [e for e in thought.iter() if e.tag.endswith("circle")]
    assert len(circles) == 3
    assert float(circles[0].attrib["r"]) > float(circles[-1].attrib["r"])
    told = raster.named(raster.parse(to_svg(PAGES[0])), "caption")[0]
    assert raster.named(told, "outline")[0].get("stroke-width") == f"{style.CAPTION_LINE}"


def test_line_weights_are_those_of_the_trade() -> None:
    """Balloons and captions are drawn 0.25 to 0.5 mm heavy (common practice, no source)."""
    for page in PAGES:
        for outline in raster.named(raster.parse(to_svg(page)), "outline"):
            assert 0.25 <= float(outline.attrib["stroke-width"]) <= 0.5


def test_a_panel_that_fails_shows_its_balloons_cut_off_at_its_border() -> None:
    """Nothing of a panel without a layout is drawn outside it, however much does not go in."""
    root = raster.alone(to_svg(PAGES[1]), lambda e: "ghost" in raster.classes(e))
    ink = raster.render(_with_clips(root, to_svg(PAGES[1])), dpi=100) > 0.1
    x0, y0 = np.argwhere(ink).min(axis=0)[::-1]
    x1, y1 = np.argwhere(ink).max(axis=0)[::-1]
    mm = MM_PER_INCH / 100
    panel = PAGES[1].panels[1].rect
    assert ink.any()
    assert panel.x - mm <= x0 * mm
    assert x1 * mm <= panel.right + mm
    assert panel.y - mm <= y0 * mm
    assert y1 * mm <= panel.bottom + mm


def _with_clips(root: ET.Element, svg: str) -> ET.Element:
    """A pruned document with the clip paths of the whole one put back."""
    for clip in (e for e in raster.parse(svg).iter() if e.tag.endswith("clipPath")):
        root.insert(0, clip)
    return root


def test_the_wash_crosses_only_where_failure_is_proved() -> None:
    """Shape tells "impossible" from "not found", not colour: twice as many lines."""
    proved, panel = PAGES[1].panels[1], PAGES[2].panels[1]
    same = replace(PAGES[2], panels=(replace(proved, rect=panel.rect, balloons=()),))
    crossed = raster.parse(to_svg(same))
    single = raster.parse(to_svg(replace(same, panels=(replace(panel, balloons=()),))))
    assert _wash(crossed).count("M") == 2 * _wash(single).count("M")


def _wash(root: ET.Element) -> str:
    return next(e.attrib["d"] for e in root.iter() if e.get("opacity") == "0.45")


def test_shelves_set_boxes_in_rows() -> None:
    """Boxes run left to right and start a new row where the panel ends."""
    spots = shelves([20, 20, 20], [5, 8, 4], Rect(0, 0, 50, 30))
    assert [(p.x, p.y) for p in spots] == [(11.5, 4.0), (33.0, 5.5), (11.5, 13.0)]


def test_a_box_wider_than_the_panel_sticks_out_on_both_sides() -> None:
    """It is too wide by as much left as right, on a row of its own."""
    spots = shelves([20, 60, 20], [5, 8, 4], Rect(10, 0, 50, 30))
    assert [(p.x, p.y) for p in spots] == [(21.5, 4.0), (35.0, 12.0), (21.5, 19.5)]


def test_each_state_has_a_mark_of_its_own_shape() -> None:
    """Disc, triangle, cross: the marks differ without colour."""
    spread, tight = (raster.parse(to_svg(page)) for page in PAGES[1:3])
    doubt, fails = raster.named(spread, "label")[:2]
    fits = raster.named(tight, "label")[0]
    shapes = [[e.tag.rpartition("}")[2] for e in mark][1] for mark in (fits, doubt, fails)]
    assert shapes == ["circle", "path", "path"]
    marks = [mark[1].attrib["d"] for mark in (doubt, fails)]
    assert marks[0].endswith("Z")
    assert marks[1].count("M") == 2
