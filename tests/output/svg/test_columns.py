"""Vertical lettering on paper: seen at 600 dpi by an independent renderer, and in the report."""

import functools
import json
from dataclasses import replace
from pathlib import Path

import jsonschema
import numpy as np
import pytest
from scipy.ndimage import distance_transform_edt

from letterfit.balloons import fit_balloon, fit_into
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Point, Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Glyph
from letterfit.output.balloon_json import balloon_to_json
from letterfit.output.report_json import to_json
from letterfit.output.report_schema import report_schema
from letterfit.output.svg.balloon_file import balloon_to_svg
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.page import to_svg
from letterfit.report.model import PanelOverflow, ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output import reports
from tests.output.svg import raster

DATA = Path(__file__).parents[2] / "data"
FACE = DATA / "fonts" / "MPLUSRounded1c" / "MPLUSRounded1c-500Medium.ttf"
SCRIPT = DATA / "columns" / "shiodome_tategaki.txt"
AIR_MM = 1.2
TEXTS = (
    ("「9番水門」は閉まってるぞ!?", "ellipse"),
    ("LOCK 9のゲートを開けろ、急げーっ！", "superellipse"),
    ("……待て――まだ12分ある。", "rounded"),
    ("第9水門。海へ出る前の、最後の門。", "caption"),
)


@functools.cache
def columns() -> Lettering:
    """The lettering of all these tests."""
    return Lettering(typeface=open_typeface(FACE), size_pt=8, air_mm=AIR_MM, writing="vertical")


@functools.cache
def fitted() -> tuple[FittedBalloon, ...]:
    """Texts in outlines of every family."""
    return tuple(
        fit_balloon(text, columns(), outline=outline, language="ja") for text, outline in TEXTS
    )


@functools.cache
def report() -> ScriptReport:
    """The whole Japanese script."""
    script = parse_script(SCRIPT.read_text(encoding="utf-8"))
    effects = Lettering(typeface=columns().typeface, size_pt=14)
    return preflight(script, lettering=columns(), effects=effects, check=True)


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_the_air_asked_for_is_there_on_paper(number: int) -> None:
    """All ink lies inside its outline, as far from it as the air, to two pixels of 0.042 mm."""
    svg = balloon_to_svg(fitted()[number], lettering=columns())
    inside = np.pad(raster.bodies(svg) > 0.5, 1)
    depth = distance_transform_edt(inside)[1:-1, 1:-1] * raster.PIXEL_MM
    nearest = depth[raster.letters(svg) > 0.5].min()
    assert AIR_MM - 2 * raster.PIXEL_MM <= nearest <= AIR_MM + 4 * raster.PIXEL_MM


def test_balloons_are_tall_and_columns_run_from_right_to_left() -> None:
    """No balloon is wider than high; the first column is the rightmost one."""
    for one in fitted():
        assert one.outline.aspect <= 1
        places = [line.x_mm for line in one.lines]
        assert places == sorted(places, reverse=True)
        assert "".join(line.text for line in one.lines).replace(" ", "") == one.text.replace(
            " ", ""
        )


def test_each_column_is_drawn_where_its_line_says() -> None:
    """One column's ink alone stands within half an em of its centre line, below its top."""
    (balloon,) = fitted()[:1]
    svg = balloon_to_svg(balloon, lettering=columns())
    drawn = raster.letters(svg) > 0.5
    half = balloon.outline.half_width + 1.0
    for line in balloon.lines:
        left, right = (
            round((half + line.x_mm + side * columns().em_mm * 0.55) / raster.PIXEL_MM)
            for side in (-1, 1)
        )
        rows = np.flatnonzero(drawn[:, left:right].any(axis=1)) * raster.PIXEL_MM
        top = balloon.outline.half_height + 1.0 + line.baseline_mm
        assert rows[0] >= top - raster.PIXEL_MM
        assert rows[-1] <= top + line.width_mm + raster.PIXEL_MM


def test_a_turned_glyph_is_rotated_clockwise_about_its_origin() -> None:
    """A flag that points right from its pole points down: the pole lies on top."""
    flag = "M0 0L0 -1000L500 -1000L500 -800L100 -800L100 0Z"
    glyphs = Glyphs(lambda _name, _glyph: (flag, 1000.0))
    upright = glyphs.path([Glyph("F", 1, 0.0, 0.0, 1.0)], Point(0, 0))
    turned = glyphs.path([Glyph("F", 1, 0.0, 0.0, 1.0, turned=True)], Point(0, 0))
    assert upright == "M0 0l0-1000l500 0l0 200l-400 0l0 800z"
    assert turned == "M0 0l1000 0l0 500l-200 0l0-400l-800 0z"


def test_a_page_of_columns_reads_from_right_to_left_and_passes_the_checker() -> None:
    """Every panel is placed, in certain order, and the independent checker has no objection."""
    found = report()
    panels = [panel for page in found.pages for panel in page.panels]
    assert found.fits
    assert found.reading == "rtl"
    assert all(panel.reading_certain for panel in panels)
    assert not [finding for finding in found.all_findings if finding.severity == "error"]
    assert all(balloon.fitted.vertical for panel in panels for balloon in panel.balloons)
    first, second = panels[2].balloons
    assert first.x_mm is not None
    assert second.x_mm is not None
    assert first.x_mm > second.x_mm


def test_sound_effects_lie_on_a_line() -> None:
    """A sound effect belongs to the picture: three kana in a row are wider than high."""
    effects = [e for page in report().pages for panel in page.panels for e in panel.effects]
    assert [effect.text for effect in effects] == ["ゴゴゴ"]
    assert effects[0].width_mm > 2 * effects[0].height_mm


def test_the_report_says_which_balloons_are_vertical() -> None:
    """Valid by the schema; horizontal lettering has no such key, as before."""
    document = json.loads(to_json(report()))
    jsonschema.validate(document, json.loads(report_schema()))
    balloon = document["pages"][0]["panels"][1]["balloons"][0]
    assert balloon["writing"] == "vertical"
    assert balloon["lines"][0]["x"] > balloon["lines"][-1]["x"]
    bare = json.loads(balloon_to_json(fit_balloon("Ahoy, the lock!")))
    assert "writing" not in bare


def test_pages_of_columns_are_drawn_whole() -> None:
    """A path for every column, in the order of the script."""
    for page in report().pages:
        root = raster.parse(to_svg(page, lettering=columns()))
        drawn = [len(group) for group in raster.named(root, "lettering")]
        assert drawn == [len(b.fitted.lines) for panel in page.panels for b in panel.balloons]


def test_balloons_without_a_place_stand_from_right_to_left() -> None:
    """In a panel that overflows, the first to speak is drawn at the right."""
    balloons = [replace(reports.balloon(f"1.1.{k}", "-"), fitted=fitted()[k]) for k in (0, 1)]
    over = PanelOverflow(area_mm2=90.0, words=2, size_pt=None, height_mm=None)
    panel = reports.failing("1.1", Rect(5, 5, 70, 60), *balloons, overflow=over)
    root = raster.parse(to_svg(reports.page(1, panel), lettering=columns()))
    first, second = (outline.get("d", "M0 0")[1:] for outline in raster.named(root, "outline"))
    assert float(first.split()[0]) > float(second.split()[0])


def test_a_column_too_long_for_its_outline_is_told_as_a_line_is() -> None:
    """What is over is counted in phrases; the outline that would do has the same aspect."""
    outline = fitted()[0].outline.scaled(0.6)
    text = TEXTS[0][0]
    over = fit_into(text, columns(), outline=outline, language="ja").overflow
    assert over is not None
    assert over.words > 0
    assert over.outline.aspect == pytest.approx(outline.aspect)
