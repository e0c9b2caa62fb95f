"""Outlines: areas, perimeters, supports and paths against sources outside the project.

tests/data/geometry_identities.json holds elementary identities, each checked there by quadrature.
"""

import json
import math
import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import resvg_py
import shapely
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from scipy.integrate import quad

from letterfit.errors import OutlineError
from letterfit.families import FAMILIES, family
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse

IDENTITIES: dict[str, Any] = json.loads(
    (Path(__file__).parent / "data" / "geometry_identities.json").read_text()
)
OUTLINES: tuple[Outline, ...] = (
    Ellipse(half_width=20, half_height=9),
    Superellipse(half_width=20, half_height=9, exponent=2.5),
    Superellipse(half_width=7, half_height=12, exponent=5),
    Superellipse(half_width=7, half_height=12, exponent=1.4),
    RoundedRect(half_width=20, half_height=9, radius=4),
    RoundedRect(half_width=20, half_height=9, radius=0),
    CaptionBox(half_width=20, half_height=4),
)
TURN = np.linspace(0, 2 * math.pi, 20_001)[:-1]


def polygon(outline: Outline) -> shapely.Polygon:
    """The outline as a polygon of many corners, all on the outline."""
    return shapely.Polygon(outline.boundary(np.linspace(0, 2 * math.pi, 60_000)))


@pytest.mark.parametrize("case", IDENTITIES["superellipse_area"])
def test_superellipse_area_is_the_gamma_formula(case: dict[str, float]) -> None:
    """Areas equal the published values (geometry_identities.json, to 1e-12)."""
    outline = Superellipse(half_width=case["a"], half_height=case["b"], exponent=case["n"])
    assert outline.area_mm2 == pytest.approx(case["area"], rel=1e-12)


@pytest.mark.parametrize("case", IDENTITIES["ellipse_perimeter"])
def test_ellipse_perimeter_is_the_elliptic_integral(case: dict[str, float]) -> None:
    """Perimeters equal the published values (geometry_identities.json) to 1e-6."""
    outline = Ellipse(half_width=case["a"], half_height=case["b"])
    assert outline.perimeter_mm == pytest.approx(case["perimeter"], rel=1e-6)


@pytest.mark.parametrize("case", IDENTITIES["rounded_rect"])
def test_rounded_rectangle_area_and_perimeter(case: dict[str, float]) -> None:
    """Both equal the published values (geometry_identities.json)."""
    outline = RoundedRect(half_width=case["w"] / 2, half_height=case["h"] / 2, radius=case["r"])
    assert outline.area_mm2 == pytest.approx(case["area"], rel=1e-12)
    assert outline.perimeter_mm == pytest.approx(case["perimeter"], rel=1e-6)


@pytest.mark.parametrize("outline", OUTLINES, ids=repr)
def test_area_is_the_integral_of_the_support(outline: Outline) -> None:
    """Twice the area is the integral of h times the radius of curvature: here of x dy, by scipy."""

    def strip(x: float) -> float:
        low, high = 0.0, outline.half_height
        for _ in range(45):
            middle = (low + high) / 2
            low, high = (middle, high) if outline.contains(x, middle) else (low, middle)
        return low

    quarter, _ = quad(strip, 0, outline.half_width, limit=200, epsabs=1e-6)
    assert 4 * quarter == pytest.approx(outline.area_mm2, rel=1e-7)


@pytest.mark.parametrize("outline", OUTLINES, ids=repr)
def test_area_is_that_of_shapely_polygon(outline: Outline) -> None:
    """A 60,000-gon in shapely has the same area to 1e-6."""
    assert polygon(outline).area == pytest.approx(outline.area_mm2, rel=1e-6)


@pytest.mark.parametrize("outline", OUTLINES, ids=repr)
def test_support_is_the_farthest_point(outline: Outline) -> None:
    """The support is reached by `boundary` and by no point of the outline exceeded."""
    units = np.stack([np.cos(TURN), np.sin(TURN)], axis=-1)
    points = outline.boundary(TURN)
    support = outline.support(TURN)
    np.testing.assert_allclose((points * units).sum(axis=-1), support, rtol=1e-9)
    assert np.all(points[::50] @ units[::50].T <= support[::50] + 1e-9)


@pytest.mark.parametrize("outline", OUTLINES, ids=repr)
def test_contains_agrees_with_the_boundary(outline: Outline) -> None:
    """Points of the outline moved in are inside, moved out are not."""
    for x, y in outline.boundary(TURN[::500]).tolist():
        assert outline.contains(x * 0.999, y * 0.999)
        assert not outline.contains(x * 1.001, y * 1.001)


@pytest.mark.parametrize("outline", OUTLINES, ids=repr)
def test_path_fills_the_area(outline: Outline) -> None:
    """An independent renderer (resvg) fills the path with the outline's area to 0.3 %."""
    scale = 25
    width, height = 2 * outline.half_width + 2, 2 * outline.half_height + 2
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width * scale}" '
        f'height="{height * scale}" viewBox="{-width / 2} {-height / 2} {width} {height}">'
        f'<rect x="-99" y="-99" width="198" height="198" fill="white"/>'
        f'<path d="{outline.svg_path()}"/></svg>'
    )
    image = _image(svg)
    ink = (255 - np.asarray(image.convert("L"), dtype=np.float64)).sum() / 255 / scale**2
    assert ink == pytest.approx(outline.area_mm2, rel=3e-3)


def _image(svg: str) -> Image.Image:
    from io import BytesIO  # noqa: PLC0415 - only this helper reads bytes

    return Image.open(BytesIO(bytes(resvg_py.svg_to_bytes(svg_string=svg))))


@pytest.mark.parametrize(
    ("exponent", "off"), [(1.2, 0.001), (2.5, 0.001), (3.0, 0.001), (10.0, 0.0025), (200.0, 0.0025)]
)
def test_path_of_a_superellipse_follows_its_curve(exponent: float, off: float) -> None:
    """By no more of its size than is said, and no handle reaches past its corners."""
    a, b = 12.0, 8.0
    outline = Superellipse(half_width=a, half_height=b, exponent=exponent)
    numbers = re.findall(r"-?[0-9.]+", outline.svg_path())
    points = np.array(list(map(float, numbers))).reshape(-1, 2)
    assert np.all(np.abs(points) <= (a + 1e-4, b + 1e-4))
    curves = np.stack([points[k : k + 4] for k in range(0, len(points) - 1, 3)])
    t = np.linspace(0, 1, 65)[:, None, None]
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
    drawn = sum(w * curves[:, k] for k, w in enumerate(weights))
    reach = (np.abs(drawn / (a, b)) ** exponent).sum(axis=-1) ** (1 / exponent)
    assert np.abs(reach - 1).max() <= off


@given(st.sampled_from(OUTLINES), st.floats(0.01, 100))
def test_scaling_scales_everything(outline: Outline, factor: float) -> None:
    """Grown by k, lengths grow by k and the area by k squared; the aspect stays."""
    grown = outline.scaled(factor)
    np.testing.assert_allclose(grown.support(TURN), factor * outline.support(TURN), rtol=1e-9)
    assert grown.area_mm2 == pytest.approx(factor**2 * outline.area_mm2, rel=1e-9)
    assert grown.aspect == pytest.approx(outline.aspect, rel=1e-12)


@given(st.sampled_from(OUTLINES), st.floats(-4, 4))
def test_an_outline_is_its_unit_stretched(outline: Outline, angle: float) -> None:
    """By half its width and half its height: h(t) is that of the unit along (a cos t, b sin t)."""
    unit = outline.unit
    if unit is None:
        assert outline.kind == "rounded"
        return
    assert (unit.half_width, unit.half_height, unit.kind) == (1, 1, outline.kind)
    across, down = outline.half_width * math.cos(angle), outline.half_height * math.sin(angle)
    stretched = math.hypot(across, down) * float(unit.support(math.atan2(down, across)))
    assert float(outline.support(angle)) == pytest.approx(stretched, rel=1e-9)


@given(
    st.sampled_from(sorted(FAMILIES)),
    st.floats(0.5, 50),
    st.floats(0.5, 50),
    st.floats(1, 2),
    st.floats(1, 2),
)
def test_families_nest(name: str, a: float, b: float, wider: float, higher: float) -> None:
    """A wider or higher member holds the smaller one: what makes the search over aspects exact."""
    make = family(name).make
    inner, outer = make(a, b).support(TURN), make(a * wider, b * higher).support(TURN)
    assert np.all(outer >= inner * (1 - 1e-12))


@given(st.sampled_from(sorted(FAMILIES)), st.floats(0.5, 50), st.floats(0.5, 50), st.floats(0.1, 9))
def test_members_scale(name: str, a: float, b: float, factor: float) -> None:
    """`make(k a, k b)` is `make(a, b).scaled(k)`."""
    make = family(name).make
    one, other = make(factor * a, factor * b), make(a, b).scaled(factor)
    np.testing.assert_allclose(one.support(TURN[::50]), other.support(TURN[::50]), rtol=1e-12)


def test_a_superellipse_of_exponent_2_is_an_ellipse() -> None:
    """Two independent formulas give one support function and one area."""
    one = Superellipse(half_width=20, half_height=9, exponent=2)
    other = Ellipse(half_width=20, half_height=9)
    np.testing.assert_allclose(one.support(TURN), other.support(TURN), rtol=1e-12)
    assert one.area_mm2 == pytest.approx(other.area_mm2, rel=1e-12)


@pytest.mark.parametrize("length", [0.0, -1.0, math.nan, math.inf])
def test_lengths_that_make_no_outline_are_refused(length: float) -> None:
    """Zero, negative, NaN and infinite half-sides raise OutlineError."""
    with pytest.raises(OutlineError, match="half_width"):
        Ellipse(half_width=length, half_height=1)
    with pytest.raises(OutlineError, match="half_height"):
        CaptionBox(half_width=1, half_height=length)


@pytest.mark.parametrize("exponent", [1.0, 0.5, math.nan, math.inf])
def test_exponents_that_make_no_curve_are_refused(exponent: float) -> None:
    """Exponents of 1 or less, NaN and infinity raise OutlineError."""
    with pytest.raises(OutlineError, match="exponent"):
        Superellipse(half_width=2, half_height=1, exponent=exponent)


@pytest.mark.parametrize("radius", [-0.1, 1.1, math.nan])
def test_radii_that_do_not_go_in_are_refused(radius: float) -> None:
    """A corner larger than the shorter half-side, negative or NaN raises OutlineError."""
    with pytest.raises(OutlineError, match="radius"):
        RoundedRect(half_width=2, half_height=1, radius=radius)


def test_an_unknown_family_lists_the_known_ones() -> None:
    """The message helps: it names every family there is."""
    with pytest.raises(OutlineError, match="ellipse, superellipse, rounded, caption"):
        family("trapezium")
