"""Drawn outlines: area, path, containment and distance against shapely; cores, scaling, faults."""

import json
import math
import re

import jsonschema
import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.drawn.burst import Burst
from letterfit.drawn.cloud import Cloud
from letterfit.drawn.model import Drawn
from letterfit.drawn.plain_lines import Whisper
from letterfit.errors import OutlineError
from letterfit.families import FAMILIES, family, is_plain, whispered
from letterfit.fit.dressing import (
    fit_words,
    fit_words_into,
    ink_on_page,
    set_shapes,
    words_front,
    words_shapes,
)
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import CaptionBox, Ellipse, Floats, Superellipse
from letterfit.output.report_json import to_json
from letterfit.output.report_schema import report_schema
from letterfit.report.manner import Outlines
from letterfit.script.model import Dialogue, Kind
from letterfit.script.parse import parse_script
from letterfit.separation import clearance
from letterfit.stages import preflight

NAMES = [name for name in FAMILIES if not is_plain(name)]
SIZES = st.tuples(st.sampled_from(["cloud", "burst"]), st.floats(4, 40), st.floats(1.0, 2.6))
LINES = (
    "Hold.",
    "Who opened the gate?",
    "And still nobody has come to ask why the gate at Lock Nine is shut.",
)


def drawn(name: str, half_height: float, aspect: float) -> Drawn:
    """A family's outline round a core."""
    core = family(name).make(half_height * aspect, half_height)
    outline = family(name).drawn(core, 1.85)
    assert isinstance(outline, Drawn)
    return outline


def dense(path: str, steps: int = 120) -> Floats:
    """Points of a path of M, A (circular, small, clockwise) and C, read here by our own hand."""
    points: list[Floats] = []
    here = np.zeros(2)
    t = np.linspace(0, 1, steps + 1)[1:, None]
    for command, text in re.findall(r"([MAC])([^MACZ]*)", path):
        values = np.array([float(v) for v in text.split()])
        end = values[-2:]
        if command == "A":
            half = (end - here) / 2
            off = math.sqrt(max(values[0] ** 2 - float(half @ half), 0.0))
            centre = here + half + off * np.array([-half[1], half[0]]) / np.hypot(*half)
            first, last = (math.atan2(*(p - centre)[::-1]) for p in (here, end))
            turn = first + t[:, 0] * ((last - first) % (2 * math.pi))
            points.extend(centre + values[0] * np.stack([np.cos(turn), np.sin(turn)], axis=-1))
        elif command == "C":
            a, b = values[:2], values[2:4]
            s = 1 - t
            points.extend(s**3 * here + 3 * s * s * t * a + 3 * s * t * t * b + t**3 * end)
        else:
            points.append(end)
        here = end
    return np.array(points)


def polygon(outline: Drawn) -> shapely.Polygon:
    """The drawn line in shapely."""
    return shapely.Polygon(dense(outline.svg_path())[:-1])


@given(SIZES)
@settings(max_examples=20)
def test_area_is_that_of_the_drawn_path_in_shapely(size: tuple[str, float, float]) -> None:
    """The closed formula and shapely's area of the path, sampled densely, agree to 1e-4."""
    outline = drawn(*size)
    shape = polygon(outline)
    assert shape.is_valid
    assert shape.area == pytest.approx(outline.area_mm2, rel=1e-4)


@given(SIZES)
@settings(max_examples=20)
def test_core_lies_inside_the_line(size: tuple[str, float, float]) -> None:
    """No point of the core is outside the drawn line."""
    outline = drawn(*size)
    core = shapely.Polygon(outline.core.boundary(np.linspace(0, 2 * math.pi, 720)))
    assert polygon(outline).buffer(1e-3).contains(core)


@given(SIZES, st.lists(st.tuples(*[st.floats(-0.99, 0.99)] * 4), min_size=1, max_size=6))
@settings(max_examples=25)
def test_distance_of_ink_is_shapelys(
    size: tuple[str, float, float], shares: list[tuple[float, float, float, float]]
) -> None:
    """Boxes in the core are as far from the line as shapely says: to 0.001 mm, and never more."""
    outline = drawn(*size)
    a, b = outline.core.half_width * 0.7, outline.core.half_height * 0.7
    boxes = np.array([
        [min(x0, x1) * a, min(y0, y1) * b, max(x0, x1) * a, max(y0, y1) * b]
        for x0, y0, x1, y1 in shares
    ])  # fmt: skip
    ring = shapely.LinearRing(dense(outline.svg_path(), 400))
    true = min(shapely.box(*box).distance(ring) for box in boxes.tolist())
    told = outline.distance(boxes)
    inside = all(outline.core.contains(x, y) for x in (-a, a) for y in (-b, b))
    assert (told > 0) or not inside
    assert abs(told) == pytest.approx(true, abs=1e-3)
    assert abs(told) <= true + 3e-4  # what 400 chords a curve and the path's rounding cost


@given(SIZES, st.floats(-1.6, 1.6), st.floats(-1.6, 1.6))
@settings(max_examples=60)
def test_contains_is_shapelys(size: tuple[str, float, float], x: float, y: float) -> None:
    """A point away from the line lies inside for both or for neither."""
    outline = drawn(*size)
    point = shapely.Point(x * outline.core.half_width, y * outline.core.half_height)
    shape = polygon(outline)
    if shape.exterior.distance(point) > 2e-3:
        assert outline.contains(point.x, point.y) == shape.contains(point)


@given(SIZES, st.floats(0, 2 * math.pi))
@settings(max_examples=30)
def test_support_holds_the_line_and_its_mirror_images(
    size: tuple[str, float, float], angle: float
) -> None:
    """The support is the farthest of the path's points in four mirrored directions."""
    outline = drawn(*size)
    points = np.abs(dense(outline.svg_path()))
    unit = np.abs([math.cos(angle), math.sin(angle)])
    reach = float(outline.support(angle))
    assert reach == pytest.approx(float((points @ unit).max()), abs=2e-3)
    touched = outline.boundary(angle)
    assert float(touched @ [math.cos(angle), math.sin(angle)]) == pytest.approx(reach, abs=1e-9)


@given(SIZES, st.floats(0.2, 5))
@settings(max_examples=20)
def test_scaling_keeps_the_shape(size: tuple[str, float, float], factor: float) -> None:
    """Grown by a factor, lengths grow by it, the area by its square, and no lobe is added."""
    outline = drawn(*size)
    grown = outline.scaled(factor)
    assert grown.half_width == pytest.approx(factor * outline.half_width)
    assert grown.area_mm2 == pytest.approx(factor**2 * outline.area_mm2)
    assert grown.svg_path().count("A") == outline.svg_path().count("A")
    assert grown.core == outline.core.scaled(factor)


@pytest.mark.parametrize("name", ["cloud", "burst"])
def test_lobes_are_uneven_but_none_is_tiny(name: str) -> None:
    """No gear: lobes differ by a third at least; no seam: none is under a third of the mean."""
    for half_height in (3.0, 8.0, 20.0):
        ends = dense(drawn(name, half_height, 1.6).svg_path(), 1)
        meetings = ends[:-1] if name == "cloud" else ends[:-1:2]
        lengths = np.hypot(*(np.roll(meetings, -1, axis=0) - meetings).T)
        assert lengths.max() > 1.33 * lengths.min()
        assert lengths.min() > lengths.mean() / 3


def test_larger_cores_have_more_lobes() -> None:
    """Lobes stay as large as letters: twice the core has about twice as many."""
    small, large = drawn("cloud", 8, 1.5), drawn("cloud", 16, 1.5)
    assert isinstance(small, Cloud)
    assert isinstance(large, Cloud)
    assert large.lobes == pytest.approx(2 * small.lobes, abs=1)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("text", LINES)
@pytest.mark.parametrize("writing", ["horizontal", "vertical"])
def test_fitted_ink_keeps_its_air_from_the_drawn_line(name: str, text: str, writing: str) -> None:
    """Shapely measures from ink to line what the balloon tells: the air asked for, or more."""
    words = measure(text, Lettering(writing="vertical" if writing == "vertical" else "horizontal"))
    for balloon in (fit_words(words, outline=name), *words_front(words, outline=name)[:2]):
        assert balloon.outline.kind == name.split("-", maxsplit=1)[0]
        boxes = ink_on_page(words, balloon)
        core = float(clearance(balloon.outline.core, boxes.reshape(-1, 2)))
        assert core >= 1.2 - 1e-9
        assert balloon.clearance_mm >= 1.2 - 1e-9
        if name in ("cloud", "burst"):
            outline = balloon.outline
            assert isinstance(outline, Drawn)
            ring = shapely.LinearRing(dense(outline.svg_path(), 400))
            true = min(shapely.box(*box).distance(ring) for box in boxes.tolist())
            assert balloon.clearance_mm == pytest.approx(true, abs=1e-3)


def test_a_shape_is_set_in_its_own_drawn_outline() -> None:
    """What the placing sees is what is drawn."""
    words = measure(LINES[2], Lettering())
    for shape in words_shapes(words, outline="burst"):
        (balloon,) = set_shapes([words], [shape], air_mm=1.2)
        assert balloon.outline.half_width == pytest.approx(shape.outline.half_width, rel=1e-9)


def test_a_given_cloud_takes_words_or_says_what_would() -> None:
    """A drawn outline can be given: its core takes the words, its overflow is a larger cloud."""
    cloud = family("cloud").within(9, 6)
    words = measure(LINES[2], Lettering())
    tight = fit_words_into(words, cloud)
    assert tight.overflow is not None
    wanted = tight.overflow.outline
    assert isinstance(wanted, Cloud)
    assert fit_words_into(words, wanted).fits


def test_whispers_are_the_speech_outline() -> None:
    """A whisper has the area, the path and the support of its core."""
    core = Superellipse(half_width=12, half_height=7)
    whisper = Whisper(core=core)
    assert whisper.svg_path() == core.svg_path()
    assert whisper.area_mm2 == core.area_mm2
    assert whispered("superellipse") == "whisper-superellipse"


def test_planted_cusp_inside_the_core_is_caught() -> None:
    """The check of the core can fail: a cloud's path round a smaller core cuts into a larger."""
    outline = drawn("cloud", 8, 1.5)
    larger = outline.core.scaled(1.1).boundary(np.linspace(0, 2 * math.pi, 720))
    assert not polygon(outline).buffer(1e-3).contains(shapely.Polygon(larger))


@pytest.mark.parametrize("count", [0, 3, 5])
def test_too_few_lobes_are_refused(count: int) -> None:
    """Fewer than six lobes go round no core."""
    with pytest.raises(OutlineError, match="lobes"):
        Cloud(core=Ellipse(half_width=9, half_height=6), lobes=count)


def test_a_box_with_few_lobes_is_refused() -> None:
    """Round a corner a lobe would have to be more than a half circle."""
    with pytest.raises(OutlineError, match="give more"):
        Cloud(core=CaptionBox(half_width=30, half_height=2), lobes=6)


def test_a_burst_tells_how_many_points() -> None:
    """Points count two flanks each."""
    burst = Burst(core=Ellipse(half_width=9, half_height=6), points=11)
    assert burst.svg_path().count("C") == 22


@pytest.mark.parametrize(
    ("kind", "modifiers", "name"),
    [
        ("thought", (), "cloud"),
        ("dialogue", ("SHOUTING",), "burst"),
        ("dialogue", ("WHISPER",), "whisper-rounded"),
        ("dialogue", ("OVER RADIO",), "squared"),
        ("dialogue", ("OFF",), "rounded"),
        ("caption", (), "caption"),
    ],
)
def test_manner_of_speaking_chooses_the_outline(
    kind: Kind, modifiers: tuple[str, ...], name: str
) -> None:
    """Thought cloud, shout burst, dashed whisper, squared machine (common practice, no source)."""
    element = Dialogue(kind=kind, text="Hold.", line=1, modifiers=modifiers)
    assert Outlines(speech="rounded").of(element) == name


def test_a_page_of_all_manners_is_placed_and_passes_the_checker() -> None:
    """Placed by their hulls, drawn outlines keep every rule that the checker knows."""
    script = parse_script(
        "PAGE 1\n\nPanel 1. Dawn.\n\nWENNA (THOUGHT): Still nobody has come to ask.\n\n"
        "PILOT (SHOUTING): Open the gate!\n\nWENNA (WHISPER): Hold a little longer.\n\n"
        "PILOT (RADIO): Do you read me, Lock Nine?\n"
    )
    report = preflight(script, check=True)
    kinds = [b.fitted.outline.kind for b in report.pages[0].panels[0].balloons]
    assert report.fits
    assert kinds == ["cloud", "burst", "whisper", "squared"]
    told = json.loads(to_json(report))
    jsonschema.validate(told, json.loads(report_schema()))
