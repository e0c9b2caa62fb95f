"""Covered shares against shapely's unions and against the pixels that resvg draws.

Pages of plays and of the tide-lock story: tails, joined balloons, balloons that a border cuts,
captions, thoughts, shouts, whispers and machines, bleeds and insets.
"""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from shapely import Polygon, box, union_all

import letterfit as lf
from letterfit.geometry import MM_PER_INCH, Rect
from letterfit.output.svg.curves import chain, points_at
from letterfit.place.wedge import tail_polygon
from letterfit.report.model import BalloonReport, PanelReport, ScriptReport
from tests.output.svg import raster
from tests.plays import play_names, play_script

DPI = 200
PER_MM = DPI / MM_PER_INCH

POINTS = 200
"""Points on each curve of an outline."""

STORY = """PAGE 1
TIERS: 1~[bottom-right 0.4x0.4] / 2~:1 / 2:(1/1)

Panel 1. The lock at dawn.
CAPTION: Lock Nine, an hour after the turn.
WENNA: Nobody comes this early, not even eels.
WENNA: And still they ring.

Panel 2. The bell.
PILOT (SHOUTING): Open that gate!

Panel 3. Wenna on the gate, the barge below.
WENNA: The tide turned an hour ago.
PILOT: Then let it turn back for once.
WENNA: It never has.

Panel 4. Her hand on the wheel.
WENNA (THOUGHT): He has no rope.

Panel 5. The barge swings.
PILOT: Rope!
WENNA (WHISPER): I knew it.

Panel 6. The loudhailer.
PILOT (RADIO): Lock Nine, do you hear me?

Panel 7. The gate.
CAPTION: Slack tide.
"""

WAYS: dict[str, tuple[str, dict[str, object]]] = {
    "story": (STORY, {}),
    "story, joined and butted": (STORY, {"same_speaker": "joined", "butted": True}),
    "story from right to left": (STORY, {"reading": "rtl", "butted": True}),
    **{
        f"{play}, {'joined' if k % 2 else 'butted'}": (
            play_script(play, pages=1),
            {"same_speaker": "joined" if k % 2 else "linked", "butted": True},
        )
        for k, play in enumerate(play_names()[1::13])
    },
}


@cache
def report(name: str) -> ScriptReport:
    """The report of a script in its way."""
    text, options = WAYS[name]
    return lf.preflight(lf.parse_script(text), **options)  # type: ignore[arg-type]


def placed(name: str) -> list[PanelReport]:
    """Its panels that hold lettering."""
    return [
        panel
        for page in report(name).pages
        for panel in page.panels
        if panel.verdict == "placed" and panel.balloons
    ]


def shapes(balloon: BalloonReport) -> list[Polygon]:
    """A balloon and its tail as fine polygons."""
    assert balloon.x_mm is not None
    assert balloon.y_mm is not None
    line = chain(balloon.fitted.outline.svg_path())
    dots = points_at(line, np.arange(POINTS * len(line)) / POINTS)
    body = Polygon(dots + np.array([balloon.x_mm, balloon.y_mm])).buffer(0)
    if balloon.tail is None:
        return [body]
    return [body, Polygon([(p.x, p.y) for p in tail_polygon(balloon.tail, 400)]).buffer(0)]


def frame(rect: Rect) -> Polygon:
    """A rectangle as shapely sees it."""
    return box(rect.x, rect.y, rect.right, rect.bottom)


@pytest.mark.parametrize("name", WAYS)
def test_the_covered_share_is_that_of_shapelys_union(name: str) -> None:
    """Outlines and tails, cut by the panel, over the panel less its insets: to 0.05 points."""
    for panel in placed(name):
        room = frame(panel.rect).difference(union_all([frame(inset) for inset in panel.insets]))
        covers = union_all([shape for balloon in panel.balloons for shape in shapes(balloon)])
        found = covers.intersection(room).area / room.area
        assert panel.coverage == pytest.approx(found, abs=0.0005), panel.id


@pytest.mark.parametrize("name", WAYS)
def test_the_covered_share_is_that_of_the_pixels(name: str) -> None:
    """Drawn black without their lines at 200 dpi and counted panel by panel: to 0.2 points."""
    for page in report(name).pages:
        ink = drawn(page)
        for panel in page.panels:
            if panel.verdict == "placed":
                taken = counted(ink, panel.rect) - sum(counted(ink, r) for r in panel.insets)
                assert panel.coverage == pytest.approx(taken / panel.area_mm2, abs=0.002), panel.id


def drawn(page: lf.PageReport) -> raster.Ink:
    """Outlines and tails of a page, filled, as much of each pixel as they cover."""
    root = raster.parse(lf.to_svg(page))
    for element in root.iter():
        if {"outline", "tail"} & set(raster.classes(element)):
            for part in (element, *element):
                part.set("stroke", "none")
                part.attrib.pop("fill-opacity", None)
                if part.get("fill") != "none":
                    part.set("fill", "#000")
    clips = [e for e in root.iter() if e.tag.endswith("clipPath")]
    raster.prune(
        root,
        lambda e: bool({"outline", "tail"} & set(raster.classes(e))) or e in clips,
    )
    return raster.render(root, dpi=DPI)


def counted(ink: raster.Ink, rect: Rect) -> float:
    """The area in mm2 of the ink in a rectangle."""
    rows = slice(max(round(rect.y * PER_MM), 0), round(rect.bottom * PER_MM))
    columns = slice(max(round(rect.x * PER_MM), 0), round(rect.right * PER_MM))
    return float(ink[rows, columns].sum()) / PER_MM**2


def test_the_pages_hold_what_they_are_meant_to() -> None:
    """Joined, butted, with tails, captions, drawn outlines, bleeds and insets: all are there."""
    panels = [panel for name in WAYS for panel in placed(name)]
    balloons = [balloon for panel in panels for balloon in panel.balloons]
    assert sum(balloon.joined for balloon in balloons) >= 2
    assert sum(balloon.overhang_mm > 0 for balloon in balloons) >= 3
    assert sum(balloon.tail is not None for balloon in balloons) >= 20
    kinds = {balloon.fitted.outline.kind for balloon in balloons}
    assert {"ellipse", "caption", "cloud", "burst", "squared"} <= kinds
    assert any(panel.insets for panel in panels)
    assert any(panel.bleed for panel in panels)


def test_a_balloon_left_out_of_the_drawing_is_missed() -> None:
    """The planted fault: without its last balloon a panel shows less than the report says."""
    page = report("story").pages[0]
    (number,) = (k for k, one in enumerate(page.panels) if one.id == "1.3")
    panel = page.panels[number]
    less = replace(panel, balloons=panel.balloons[:-1])
    panels = (*page.panels[:number], less, *page.panels[number + 1 :])
    ink = drawn(replace(page, panels=panels))
    assert counted(ink, panel.rect) / panel.area_mm2 < panel.coverage - 0.01
