"""Our own proofs read back: what the drawing measures is what the report says."""

from functools import cache
from xml.etree import ElementTree as ET

import numpy as np
import pytest
import shapely

import letterfit as lf
from letterfit.existing.rings import signed_area
from letterfit.report.measures import PanelMeasures
from tests.output.svg import raster, sheets
from tests.plays import play_names, play_script

PLAYS = play_names()[::13]


@cache
def report(name: str) -> lf.ScriptReport:
    """The report of the demo or of a page of a play."""
    if name == "demo":
        return sheets.demo()
    return lf.preflight(lf.parse_script(play_script(name, pages=1)))


@cache
def drawn(name: str, number: int) -> lf.DrawnPage:
    """A page of it, drawn and read back."""
    return lf.parse_drawn_page(lf.to_svg(report(name).pages[number]).encode())


CASES = [("demo", 0), ("demo", 1), ("demo", 2), *((play, 0) for play in PLAYS)]


@pytest.mark.parametrize(("name", "number"), CASES)
def test_a_proof_measures_what_the_report_says(name: str, number: int) -> None:
    """Cover within 0.2 points, figure room within 0.1 mm, the same words, order and tiers."""
    page = report(name).pages[number]
    planned, existing = lf.measure_page(page), lf.measure_page(drawn(name, number))
    assert existing.trim == pytest.approx(planned.trim, abs=0.001)
    tiers, theirs = planned.tiers, existing.tiers
    assert [t.panels for t in theirs] == [t.panels for t in tiers]
    assert [t.height_mm for t in theirs] == pytest.approx([t.height_mm for t in tiers], abs=0.01)
    pairs = list(zip(page.panels, planned.panels, existing.panels, strict=True))
    for report_panel, one, two in pairs:
        assert two.name == f"panel-{one.id}"
        if one.placed:
            _same(report_panel, one, two)


def _same(panel: lf.PanelReport, one: PanelMeasures, two: PanelMeasures) -> None:
    assert two.coverage == pytest.approx(one.coverage, abs=0.002)
    uneven = {"cloud", "burst"} & {b.fitted.outline.kind for b in panel.balloons}
    # The report keeps figures clear of the hull of an uneven line, the drawing of the line itself.
    assert two.figure_height_mm >= one.figure_height_mm - 0.1
    if not uneven:
        assert two.figure_height_mm == pytest.approx(one.figure_height_mm, abs=0.1)
    assert (two.words, two.order, two.faults) == (one.words, one.order, ())
    assert [b.name.removeprefix("balloon-") for b in two.balloons] == [b.id for b in one.balloons]
    assert {b.told_by for b in two.balloons} <= {"name"}
    for mine, theirs in zip(one.balloons, two.balloons, strict=True):
        assert theirs.clearance_mm >= min(mine.clearance_mm, 1.2) - 0.03


def test_the_covered_share_is_that_of_the_pixels() -> None:
    """Drawn black by resvg, an independent renderer, and counted panel by panel at 200 dpi."""
    svg = lf.to_svg(report("demo").pages[1])
    root = raster.parse(svg)
    for element in root.iter():
        kinds = raster.classes(element)
        if "outline" in kinds or "tail" in kinds:
            for part in (element, *element):
                part.set("stroke", "none")
                if part.get("fill") != "none":
                    part.set("fill", "#000")
    raster.prune(root, lambda e: "outline" in raster.classes(e) or "tail" in raster.classes(e))
    ink = raster.render(root, dpi=200)
    per_mm = 200 / 25.4
    measured = lf.measure_page(drawn("demo", 1))
    for panel in measured.panels:
        box = panel.rect
        rows = slice(round(box.y * per_mm), round(box.bottom * per_mm))
        columns = slice(round(box.x * per_mm), round(box.right * per_mm))
        assert panel.coverage == pytest.approx(ink[rows, columns].mean(), abs=0.002)


def test_areas_and_clearances_are_shapelys() -> None:
    """The union of all that covers a panel, and the least distance from ink to outline."""
    page = drawn("demo", 1)
    by_name = {panel.name: panel for panel in lf.measure_page(page).panels}
    for panel in page.panels:
        room = shapely.Polygon(panel.outline)
        covers = [shapely.Polygon(one.outer) for one in panel.covers]
        expected = shapely.unary_union(covers).intersection(room).area / room.area
        assert by_name[panel.name].coverage == pytest.approx(expected, abs=1e-6)
        airs = {b.name: b.clearance_mm for b in by_name[panel.name].balloons}
        for balloon in panel.balloons:
            line = shapely.Polygon(balloon.body).exterior
            boxes = [shapely.Polygon(quad) for quad in balloon.lettering[0].ink]
            nearest = min(line.distance(box) for box in boxes)
            assert airs[balloon.name] == pytest.approx(nearest, abs=1e-9)


@pytest.mark.parametrize("kept", ["id", "class"])
def test_ids_alone_or_classes_alone_tell_enough(kept: str) -> None:
    """A program that drops classes, or makes ids of its own, leaves the measures as they are."""
    root = raster.parse(lf.to_svg(report("demo").pages[1]))
    for number, element in enumerate(root.iter()):
        if kept == "id":
            element.attrib.pop("class", None)
        elif "id" in element.attrib:
            element.set("id", f"g{number}")
    page = lf.measure_page(lf.parse_drawn_page(ET.tostring(root)))
    whole = lf.measure_page(drawn("demo", 1))
    for one, two in zip(whole.panels, page.panels, strict=True):
        assert (two.coverage, two.words, two.order) == (one.coverage, one.words, one.order)
        assert two.figure_height_mm == one.figure_height_mm


def test_lettering_says_what_it_reads() -> None:
    """Each lettering group has the words as its label; a search for a word finds it."""
    root = ET.fromstring(lf.to_svg(report("demo").pages[0]))  # noqa: S314 - our own output
    group = root.find(".//*[@id='lettering-1.1.1']")
    assert group is not None
    assert group.get("aria-label") == "LOCK NINE, SLACK TIDE."
    assert root.find(".//*[@id='tail-1.10.1']") is not None


def test_a_shrunk_balloon_no_longer_holds_its_lettering() -> None:
    """The planted fault: an outline of 70 % is left by its letters, and the page does not fit."""
    root = raster.parse(lf.to_svg(report("demo").pages[0]))
    (path,) = (raster.named(g, "outline")[0] for g in root.iter() if g.get("id") == "balloon-1.4.1")
    box = drawn("demo", 0)
    balloon = next(b for p in box.panels for b in p.balloons if b.name == "balloon-1.4.1")
    x, y = np.mean(balloon.body, axis=0)
    path.set("transform", f"translate({x} {y}) scale(0.7) translate({-x} {-y})")
    page = lf.measure_page(lf.parse_drawn_page(ET.tostring(root)))
    assert not page.fits
    assert [f.where for f in page.findings if f.code == "lettering-outside"] == ["4.1"]
    assert signed_area(balloon.body) > 0
