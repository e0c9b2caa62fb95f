"""The figure box: the tallest figure that stands clear in a panel, drawn as a pale silhouette."""

from collections.abc import Sequence

from letterfit.geometry import Point, Rect
from letterfit.output.svg import style
from letterfit.output.svg.elements import box, length, tag
from letterfit.place.figure import span_below
from letterfit.place.model import PlacedOutline

# A standing figure in a box 1 wide and 3 high, drawn for letterfit: a head, and the right half of
# the body from the neck down to the fork as cubic curves; the left half is its mirror image.
_HEAD = (0.5, 0.21, 0.15, 0.2)
"""Centre x, centre y, half-width, half-height."""
_NECK = (0.55, 0.38)
_BODY = (
    ((0.555, 0.46), (0.60, 0.50), (0.68, 0.53)),
    ((0.79, 0.57), (0.82, 0.64), (0.83, 0.78)),
    ((0.85, 1.02), (0.87, 1.22), (0.86, 1.50)),
    ((0.855, 1.60), (0.79, 1.60), (0.785, 1.50)),
    ((0.775, 1.26), (0.75, 1.05), (0.715, 0.88)),
    ((0.70, 1.10), (0.735, 1.34), (0.73, 1.56)),
    ((0.725, 2.00), (0.69, 2.40), (0.675, 2.82)),
    ((0.70, 2.88), (0.77, 2.92), (0.77, 3.00)),
    ((0.70, 3.00), (0.60, 3.00), (0.545, 3.00)),
    ((0.545, 2.60), (0.535, 2.10), (0.50, 1.74)),
)


def stand(
    panel: Rect, placed: Sequence[PlacedOutline], *, height: float, aspect: float
) -> Rect | None:
    """Where a figure box stands on the panel's floor: clear of the balloons, near their tails.

    Args:
        panel: The panel.
        placed: Its balloons.
        height: The height of the box, as reported.
        aspect: Its width over its height.

    Returns:
        The box, or None when there is no place for it (a height of 0).
    """
    width = height * aspect
    if height <= 0 or width > panel.width * (1 + 1e-9):
        return None
    # The reported height is the greatest: a hair less leaves room for rounding.
    top = panel.bottom - height * (1 - 1e-6)
    spans = [span for item in placed if (span := span_below(item, top))]
    tips = [item.tail.tip.x for item in placed if item.tail]
    wanted = (sum(tips) / len(tips) if tips else panel.centre.x) - width / 2
    edges = [panel.x, panel.right - width, wanted]
    edges += [right for _, right in spans] + [left - width for left, _ in spans]
    slack = 1e-6 * panel.width
    free = [
        edge
        for edge in edges
        if panel.x - slack <= edge <= panel.right - width + slack
        and all(edge >= right - slack or edge + width <= left + slack for left, right in spans)
    ]
    if not free:
        return None
    left = min(free, key=lambda edge: (abs(edge - wanted), edge))
    return Rect(left, panel.bottom - height, width, height)


def figure(room: Rect) -> str:
    """The box, dashed, with a figure standing in it."""
    head = Point(room.x + _HEAD[0] * room.width, room.y + _HEAD[1] * room.height / 3)
    return tag(
        "g",
        {"class": "figure"},
        [
            tag(
                "ellipse",
                {
                    "cx": head.x,
                    "cy": head.y,
                    "rx": _HEAD[2] * room.width,
                    "ry": _HEAD[3] * room.height / 3,
                    "fill": style.FIGURE,
                },
            ),
            tag("path", {"d": _body(room), "fill": style.FIGURE}),
            tag(
                "rect",
                {
                    **box(room),
                    "fill": "none",
                    "stroke": style.FIGURE_LINE,
                    "stroke-width": style.GUIDE_LINE,
                    "stroke-dasharray": "1 1",
                },
            ),
        ],
    )


def _body(room: Rect) -> str:
    right = [_NECK, *(point for curve in _BODY for point in curve)]
    # Run backwards and mirrored, a curve's handles swap places; the fork is its own image.
    left = [(1 - x, y) for x, y in reversed(right)][1:]
    points = right[1:] + left
    curves = zip(points[::3], points[1::3], points[2::3], strict=True)
    drawn = (" ".join(_spot(room, point) for point in curve) for curve in curves)
    return f"M{_spot(room, _NECK)}" + "".join(f"C{curve}" for curve in drawn) + "Z"


def _spot(room: Rect, point: tuple[float, float]) -> str:
    x, y = point
    return f"{length(room.x + x * room.width)} {length(room.y + y * room.height / 3)}"
