"""Drawing: exact boxes of curves, and contours that enclose nothing."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.fonts.drawing import Contour, ink_box, path_data

POINT = st.tuples(st.integers(-500, 500), st.integers(-500, 500))


def sampled(contour: Contour) -> list[tuple[float, float]]:
    """Points of all curves of a contour by Bernstein's polynomials, at 2,001 values of t."""
    t = np.linspace(0, 1, 2001)[:, None]
    at = contour[0][0]
    points = [np.array([at], dtype=float)]
    for step in contour[1:]:
        p = np.array([at, *step], dtype=float)
        weights = {
            2: [1 - t, t],
            3: [(1 - t) ** 2, 2 * t * (1 - t), t**2],
            4: [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3],
        }[len(p)]
        points.append(sum(w * q for w, q in zip(weights, p, strict=True)))
        at = step[-1]
    return [tuple(point) for point in np.concatenate(points)]


@given(
    POINT,
    st.lists(st.lists(POINT, min_size=1, max_size=3).map(tuple), min_size=1, max_size=5),
)
def test_the_box_is_that_of_the_curve_not_of_its_handles(
    start: tuple[int, int], steps: list[tuple[tuple[int, int], ...]]
) -> None:
    """Lines, quadratic and cubic curves: as sampled, and never smaller."""
    contour: Contour = [(start,), *steps]
    xs, ys = zip(*sampled(contour), strict=True)
    box = ink_box((contour,))
    assert box is not None
    left, top, right, bottom = box
    # Between two of 2,001 samples a curve of this size strays by less than 0.001.
    assert (left, top) == pytest.approx((min(xs), min(ys)), abs=1e-3)
    assert (right, bottom) == pytest.approx((max(xs), max(ys)), abs=1e-3)


def test_a_quarter_circle_is_known() -> None:
    """The usual cubic for a quarter of a circle of radius 1 ends at its extremes."""
    k = 0.5522847498
    contour: Contour = [((1, 0),), ((1, k), (k, 1), (0, 1)), ((-k, 1), (-1, k), (-1, 0))]
    assert ink_box((contour,)) == pytest.approx((-1, 0, 1, 1))
    assert path_data((contour,)).startswith("M1 0C1 0.552285 0.552285 1 0 1C")


def test_nothing_has_no_box_and_no_path() -> None:
    """A glyph without contours."""
    assert ink_box(()) is None
    assert path_data(()) == ""
