"""Joined balloons as SVG, JSON and text: one outline, both stacks, at their places."""

import json

import numpy as np
import pytest
import shapely
from rich.cells import cell_len

from letterfit.fit.joined import JoinedBalloon
from letterfit.geometry import Point
from letterfit.joining import fit_joined
from letterfit.output.joined_json import joined_to_json
from letterfit.output.svg.balloon_shape import contour
from letterfit.output.svg.curves import chain, points_at
from letterfit.output.svg.joined_file import joined_to_svg
from letterfit.output.terminal.joined import joined_to_text
from letterfit.place.model import Tail
from tests.output.svg.raster import classes, parse, render

SPEECH = "You open that gate, Wenna, or I will ram it, and then you may explain to the town."


@pytest.fixture(scope="module")
def pair() -> JoinedBalloon:
    """A speech in two balloons."""
    return fit_joined(SPEECH)


def tail_of(pair: JoinedBalloon) -> Tail:
    """One tail, from the foot of the lower balloon."""
    centre = pair.outline.lower_centre
    foot = centre.y + pair.lower.outline.half_height - 0.2
    return Tail(
        root=(Point(centre.x - 3, foot), Point(centre.x, foot)), tip=Point(centre.x - 6, foot + 9)
    )


def test_the_tail_is_part_of_the_one_contour(pair: JoinedBalloon) -> None:
    """By shapely: a simple polygon as large as the union and the wedge outside it together."""
    tail, centre = tail_of(pair), Point(0, 0)
    curves = chain(contour(pair.outline, centre, tail))
    whole = shapely.Polygon(points_at(curves, np.arange(64 * len(curves)) / 64))
    body = chain(pair.outline.svg_path())
    union = shapely.Polygon(points_at(body, np.arange(256 * len(body)) / 256))
    wedge = shapely.Polygon([(p.x, p.y) for p in (*tail.root, tail.tip)])
    assert whole.is_valid
    assert whole.area == pytest.approx(union.union(wedge).area, rel=2e-3)


def test_the_page_is_white_within_the_one_outline(pair: JoinedBalloon) -> None:
    """As another program draws it: the covered area is the union's, and half the line's width."""
    root = parse(joined_to_svg(pair))
    outlines = [element for element in root.iter() if "outline" in classes(element)]
    assert len(outlines) == 1
    covered = render(root).sum() * (25.4 / 600) ** 2
    line = 0.35 / 2 * 2 * np.pi * (pair.outline.half_width + pair.outline.half_height) / 2
    assert covered == pytest.approx(pair.area_mm2 + line, rel=0.02)


def test_the_same_pair_gives_the_same_bytes(pair: JoinedBalloon) -> None:
    """In all three outputs, fitted anew."""
    again = fit_joined(SPEECH)
    for written in (joined_to_svg, joined_to_json, joined_to_text):
        assert written(again) == written(pair)


def test_json_has_both_at_their_places(pair: JoinedBalloon) -> None:
    """Lines stand in the union's frame, inside the outline's box."""
    value = json.loads(joined_to_json(pair))
    half = value["outline"]["half_width"]
    lines = [line for part in value["parts"] for line in part["lines"]]
    assert all(-half < line["x"] and line["x"] + line["width"] < half for line in lines)
    baselines = [line["baseline"] for line in lines]
    assert baselines == sorted(baselines)
    assert value["area_mm2"] < sum(part["area_mm2"] for part in value["parts"])


@pytest.mark.parametrize("width", [30, 60, 80])
@pytest.mark.parametrize("reading", ["ltr", "rtl"])
def test_text_keeps_to_the_width(width: int, reading: str) -> None:
    """The second drawing moves to its side as far as there is room."""
    pair = fit_joined(SPEECH, reading=reading)  # type: ignore[arg-type]
    rows = joined_to_text(pair, width=width).splitlines()
    assert max(map(cell_len, rows)) <= width


def test_the_second_drawing_stands_to_its_side(pair: JoinedBalloon) -> None:
    """To the right, or mirrored to the left."""
    rows = joined_to_text(pair).splitlines()
    mirrored = joined_to_text(fit_joined(SPEECH, reading="rtl")).splitlines()
    for drawn, right in ((rows, True), (mirrored, False)):
        tops = [row.index(".") for row in drawn if row.lstrip().startswith(".-")]
        assert len(tops) == 2
        assert (tops[1] > tops[0]) == right
