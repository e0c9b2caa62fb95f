"""Path data of outlines (SVG 2, section 9.3): numbers as text, and a cubic along a convex curve."""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

HALVINGS = 50
"""A cubic's reach is halved so often: rounding."""


def mm_text(value: float) -> str:
    """A length for path data, to a tenth of a micrometre.

    >>> mm_text(2.5), mm_text(1 / 3)
    ('2.5', '0.3333')
    """
    return f"{value:.4f}".rstrip("0").rstrip(".")


def pair(point: Floats) -> str:
    """A point for path data, shape (2,); what rounds to nought has no sign.

    >>> pair(np.array([1.5, -0.00001]))
    '1.5 0'
    """
    return " ".join(mm_text(round(float(x), 4) + 0.0) for x in point)


def cubic(ends: Floats, normals: Floats, *, holds: Callable[[Floats], bool]) -> Floats:
    """One cubic along a convex curve, through its ends and a point between, tangent at its ends.

    Args:
        ends: Where it starts and ends, shape (2, 2).
        normals: The curve's outward normals there, shape (2, 2).
        holds: Whether the convex body that the curve bounds holds a point.

    Returns:
        Its two handles and its end, shape (3, 2). The handles lie on the two tangents and not
        beyond their meeting point.
    """
    first, last = ends
    middle = (first + last) / 2
    if abs(np.linalg.det(normals)) < 1e-12:  # as good as straight
        corner = middle
    else:
        corner = np.linalg.solve(normals, np.einsum("ij,ij->i", normals, ends))
    inside, outside = 0.0, 1.0
    for _ in range(HALVINGS):  # the cubic's own middle is middle + share (corner - middle)
        share = (inside + outside) / 2
        within = holds(middle + share * (corner - middle))
        inside, outside = (share, outside) if within else (inside, share)
    reach = 4 * min(inside, 0.75) / 3
    return np.array([first + reach * (corner - first), last + reach * (corner - last), last])


def cubic_text(points: Floats) -> str:
    """The path command of a cubic by its handles and its end, shape (3, 2).

    >>> cubic_text(np.array([[0.0, 1.0], [1.0, 2.0], [2.0, 2.0]]))
    'C0 1 1 2 2 2'
    """
    return f"C{' '.join(map(pair, points))}"
