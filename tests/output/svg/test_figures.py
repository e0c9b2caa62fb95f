"""The sheet of small pages: what it says is the report's, where it stands is clear and to scale."""

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise
from xml.etree import ElementTree as ET

import pytest
import resvg_py

import letterfit as lf
from letterfit.geometry import Rect
from letterfit.output.framing import framing
from letterfit.output.svg.figures import ONE_TO, SHEET_MM, figures_to_svg, scale_of
from letterfit.output.svg.figures_panel import BLEED_MM
from letterfit.paper.model import PagePlan
from letterfit.paper.sheet import Paper
from letterfit.report.model import PageReport, PanelReport, ScriptReport
from tests.output import reports
from tests.output.svg import raster, sheets

REPORTS: dict[str, Callable[[], ScriptReport]] = {
    "demo": sheets.demo,
    "special": sheets.special,
    "rtl": sheets.right_to_left,
    "nasty": reports.nasty,
    "long": reports.long,
}
REAL = ("demo", "special", "rtl")


@cache
def drawn(name: str) -> str:
    """A report's sheet, drawn once for all tests."""
    return figures_to_svg(REPORTS[name]())


def sheet(name: str) -> tuple[ScriptReport, ET.Element]:
    """A report and its sheet, parsed."""
    return REPORTS[name](), raster.parse(drawn(name))


def panels(report: ScriptReport, root: ET.Element) -> list[tuple[PanelReport, ET.Element]]:
    """Each panel of a report with its group on the sheet."""
    groups = [e for e in raster.named(root, "panel") if e.get("id")]
    reported = [panel for page in report.pages for panel in page.panels]
    return list(zip(reported, groups, strict=True))


def one(group: ET.Element, name: str) -> ET.Element | None:
    """The only element of a class in a group, or None."""
    found = raster.named(group, name)
    assert len(found) <= 1
    return found[0] if found else None


def frame_of(group: ET.Element) -> Rect:
    """A panel's frame on the sheet."""
    frame = one(group, "frame")
    assert frame is not None
    return sheets.rect(frame)


@pytest.mark.parametrize("name", REPORTS)
def test_a_sheet_is_well_formed_and_its_ids_are_unique(name: str) -> None:
    """Two strict parsers read it (expat, resvg's own), hostile text and all; no id comes twice."""
    svg = drawn(name)
    ids = [e.attrib["id"] for e in raster.parse(svg).iter() if "id" in e.attrib]
    assert resvg_py.svg_to_bytes(svg_string=svg, dpi=25, skip_system_fonts=True)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", REPORTS)
def test_a_sheet_refers_to_nothing_outside_and_needs_no_font(name: str) -> None:
    """No script, link, image or text element; a reference stays within the file."""
    _, root = sheet(name)
    ids = {e.attrib["id"] for e in root.iter() if "id" in e.attrib}
    names = {e.tag.rpartition("}")[2] for e in root.iter()}
    assert names <= {"svg", "title", "g", "rect", "path", "circle", "ellipse", "clipPath"}
    for element in root.iter():
        for key, value in element.attrib.items():
            assert not key.startswith("on")
            assert "href" not in key
            assert all(target in ids for target in re.findall(r"url\(#([^)]*)\)", value))


def test_the_same_report_gives_the_same_bytes() -> None:
    """Nothing but the report decides the characters."""
    assert figures_to_svg(sheets.demo()) == figures_to_svg(sheets.demo()) == drawn("demo")


@pytest.mark.parametrize("name", REPORTS)
def test_a_sheet_is_no_wider_than_a4(name: str) -> None:
    """Width over 210 mm (ISO 216) would not print."""
    _, root = sheet(name)
    assert float(root.attrib["width"].removesuffix("mm")) <= SHEET_MM == 210


@pytest.mark.parametrize("name", REAL)
def test_the_numbers_written_are_the_reports(name: str) -> None:
    """Each panel's height in mm, and its framing where there is room for it."""
    report, root = sheet(name)
    written = 0
    for panel, group in panels(report, root):
        label = one(group, "figure-height")
        if label is None:
            continue
        number, *rest = sheets.said(label).split(" ")
        share = panel.figure_height_mm / panel.rect.height
        word = framing(share, whole=report.limits.whole_figure)
        assert number == f"{panel.figure_height_mm:.0f}"
        assert rest in ([], ["mm"], ["mm", word])
        written += 1
    placed = sum(panel.verdict == "placed" for panel, _ in panels(report, root))
    assert written == placed


@pytest.mark.parametrize("name", REAL)
def test_a_figure_is_drawn_as_tall_as_it_is_and_stands_on_its_floor(name: str) -> None:
    """From crown to soles it measures the report's height at the sheet's scale."""
    report, root = sheet(name)
    one_to = scale_of(report.pages)
    for panel, group in panels(report, root):
        figure = one(group, "figure")
        if panel.verdict != "placed":
            assert figure is None
            continue
        assert figure is not None
        head, body = figure
        crown = float(head.attrib["cy"]) - float(head.attrib["ry"])
        soles = sheets.outline(body.attrib["d"]).bottom
        beyond = 0 if panel.bleed is None else 2 * BLEED_MM + report.paper.trim[1]
        assert soles - crown == pytest.approx(panel.figure_height_mm / one_to, abs=5e-3)
        assert abs(soles - frame_of(group).bottom) <= 5e-3 + beyond


@pytest.mark.parametrize("name", REAL)
def test_lines_stand_at_the_heights_of_tier_and_page(name: str) -> None:
    """Each panel as tall as that has a dashed line at its tier's height, one at the page's."""
    report, root = sheet(name)
    one_to = scale_of(report.pages)
    found = iter(panels(report, root))
    seen = 0
    for page in report.pages:
        floors = [(p.rect.common(page.plan.paper.live) or p.rect).bottom for p in page.panels]
        floor = iter(floors)
        for tier, held in zip(page.plan.tiers, page.tier_figure_heights_mm, strict=True):
            for _ in tier.panels:
                panel, group = next(found)
                stands = next(floor)
                off = (panel.rect.bottom - stands) / one_to
                base = frame_of(group).bottom if panel.bleed is None else None
                for cls, height in (("tier", held), ("steady", page.steady_height_mm)):
                    line = one(group, cls)
                    if line is not None and base is not None:
                        level = sheets.outline(line.attrib["d"]).y
                        assert base - off - level == pytest.approx(height / one_to, abs=5e-3)
                        seen += 1
                    spare = stands - panel.rect.y - height
                    if abs(spare) > 1e-3:
                        due = height > 0 and spare > 0 and panel.verdict == "placed"
                        assert (line is not None) == due
    assert seen


def test_a_panel_that_breaks_the_distance_is_marked_by_shape_and_said_under_its_page() -> None:
    """A triangle, its number, a heavier frame; what it would take stands under the page."""
    report, root = sheet("demo")
    notes = [sheets.said(note) for note in raster.named(root, "note")]
    for panel, group in panels(report, root):
        mark = one(group, "panel-mark")
        frame = one(group, "frame")
        assert frame is not None
        marked = panel.steadied is not None or panel.verdict != "placed"
        assert (mark is not None) == marked
        assert (float(frame.attrib["stroke-width"]) > 0.3) == marked
        told = [n for n in notes if n.startswith(f"{panel.id} ")]
        assert len(told) == marked
        if panel.steadied is not None and panel.steadied.tier_mm is not None:
            text = told[0].replace("\N{NO-BREAK SPACE}", " ")
            assert f"holds {panel.figure_height_mm:.0f} mm, not " in text
            assert f"make the tier {panel.steadied.tier_mm:g} mm high" in text


def test_a_panel_that_is_not_placed_is_hatched() -> None:
    """As on the page proofs: crossed where failure is proved; no figure, no lines."""
    report, root = sheet("demo")
    (failed,) = [group for panel, group in panels(report, root) if panel.verdict != "placed"]
    assert one(failed, "hatch") is not None
    assert raster.named(failed, "height") == []
    assert len(raster.named(root, "hatch")) == 1


@pytest.mark.parametrize("name", REPORTS)
def test_no_words_run_off_the_sheet_or_into_others(name: str) -> None:
    """The ink of every label lies on the sheet, apart from every other's."""
    _, root = sheet(name)
    width, height = (float(root.attrib[side].removesuffix("mm")) for side in ("width", "height"))
    boxes = [box for label in raster.named(root, "label") if (box := sheets.ink(label))]
    assert len(boxes) > 3
    for box in boxes:
        assert Rect(0, 0, width, height).inset(2).holds(box)
    for one_box, other in combinations(boxes, 2):
        assert one_box.common(other) is None


@pytest.mark.parametrize("name", REPORTS)
def test_a_panels_words_stay_in_its_frame_and_off_its_insets(name: str) -> None:
    """Twelve narrow panels of a small page included."""
    report, root = sheet(name)
    frames = {panel.id: frame_of(group) for panel, group in panels(report, root)}
    for page in report.pages:
        hosts = {special.index: special.insets for special in page.plan.special}
        for index, panel in enumerate(page.panels):
            group = next(e for e in root.iter() if e.get("id") == f"panel-{panel.id}")
            for label in raster.named(group, "label"):
                box = sheets.ink(label)
                assert box is None or frames[panel.id].holds(box)
                for inset in hosts.get(index, ()):
                    assert box is None or frames[page.panels[inset].id].common(box) is None


def test_no_words_stand_on_the_fold() -> None:
    """Not even where a panel runs across it and its figure stands beside it."""
    _, root = sheet("special")
    spread = raster.named(root, "page")[1]
    (fold,) = raster.named(spread, "fold")
    line = sheets.outline(fold.attrib["d"]).x
    boxes = [box for label in raster.named(spread, "label") if (box := sheets.ink(label))]
    across = [sheets.rect(frame) for frame in raster.named(spread, "frame")]
    assert any(frame.x < line < frame.right for frame in across)
    assert not any(box.x <= line <= box.right for box in boxes if box.bottom < across[-1].bottom)


@pytest.mark.parametrize("name", ["demo", "rtl"])
def test_pages_stand_in_reading_order(name: str) -> None:
    """From the left; a right-to-left script's from the right."""
    report, root = sheet(name)
    lefts = [sheets.rect(trim).x for trim in raster.named(root, "trim")]
    rising = [a < b for a, b in pairwise(lefts)]
    assert all(rising) if report.reading == "ltr" else not any(rising)


def test_a_spread_is_twice_as_wide() -> None:
    """At the one scale that all pages share."""
    _, root = sheet("special")
    single, spread = (sheets.rect(trim) for trim in raster.named(root, "trim"))
    assert spread.width == pytest.approx(2 * single.width, abs=2e-3)
    assert spread.height == pytest.approx(single.height, abs=2e-3)


def test_a_panel_that_bleeds_runs_past_the_trim_and_its_neighbours_do_not() -> None:
    """By a little, so that it is seen."""
    report, root = sheet("special")
    trim = sheets.rect(raster.named(root, "trim")[0])
    first = panels(report, root)[:8]
    outside = [panel.bleed is not None for panel, group in first if not trim.holds(frame_of(group))]
    assert outside == [True]


def test_one_page_is_a_sheet_of_its_own() -> None:
    """The same words as on the script's sheet, drawn larger."""
    report = sheets.demo()
    root = raster.parse(figures_to_svg(report.pages[1]))
    (page,) = raster.named(root, "page")
    whole = raster.parse(figures_to_svg(report))
    wanted = [sheets.said(n) for n in raster.named(raster.named(whole, "page")[1], "note")]
    assert [sheets.said(n).split(" ")[0] for n in raster.named(page, "note")] == [
        line.split(" ")[0] for line in wanted
    ]
    assert scale_of(report.pages[1:2]) < scale_of(report.pages)


def test_the_legend_says_on_whose_word_the_limit_stands() -> None:
    """Common practice by default; a house's rules where they state it."""

    def steady(report: ScriptReport) -> str:
        root = raster.parse(figures_to_svg(report))
        entries = [sheets.said(entry) for entry in raster.named(root, "entry")]
        return next(entry for entry in entries if entry.startswith("steady"))

    small = reports.small()
    assert steady(small) == "steady: 75% of the page's middle panel (common practice)"
    house = lf.Limits(steady_share=0.6, house=("steady_share",))
    told = steady(replace(small, limits=house))
    assert told == "steady: 60% of the page's middle panel (house rules)"


def _bare(width: float, height: float) -> PageReport:
    paper = Paper(trim=(width, height))
    return PageReport(
        label="1", numbers=(1,), line=1, plan=PagePlan(paper=paper, tiers=()), panels=()
    )


@pytest.mark.parametrize(
    ("width", "height"), [(20, 20), (20, 5000), (5000, 20), (5000, 5000), (168.275, 260.35)]
)
def test_any_paper_goes_on_a_sheet(width: float, height: float) -> None:
    """The least and the largest that can be printed, one to a script or thirty."""
    for count in (1, 30):
        pages = tuple(replace(_bare(width, height), label=str(k)) for k in range(count))
        root = raster.parse(figures_to_svg(replace(reports.small(), pages=pages)))
        assert float(root.attrib["width"].removesuffix("mm")) <= SHEET_MM
        assert scale_of(pages) in ONE_TO


def test_a_report_without_pages_is_a_sheet_with_a_legend() -> None:
    """Nothing to draw is no error."""
    root = raster.parse(figures_to_svg(replace(reports.small(), pages=())))
    assert raster.named(root, "page") == []
    assert raster.named(root, "entry")
