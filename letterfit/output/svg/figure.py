"""The figure box: the room for a figure, dashed, and a pale silhouette standing in it."""

from collections.abc import Callable

from letterfit.geometry import Rect
from letterfit.output.svg import style
from letterfit.output.svg.elements import box, length, tag
from letterfit.place.silhouette import HEAD, HEADROOM, figure_in, head_in

# A standing figure in a box 1 wide and 3 high, drawn for letterfit: the right half of the body from
# the neck down to the fork as cubic curves; the left half is its mirror image.
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


Silhouette = Callable[[Rect], list[str]]
"""Draws a figure standing in a box, as elements."""


def pale(room: Rect) -> list[str]:
    """The figure as panels have it."""
    return silhouette(room, colour=style.FIGURE)


def figure(room: Rect, *, standing: Silhouette = pale) -> str:
    """The box, dashed, with a figure standing in it."""
    line = {
        **box(room),
        "fill": "none",
        "stroke": style.FIGURE_LINE,
        "stroke-width": style.GUIDE_LINE,
        "stroke-dasharray": "1 1",
    }
    return tag("g", {"class": "figure"}, [*standing(room), tag("rect", line)])


def silhouette(room: Rect, *, colour: str) -> list[str]:
    """Head and body of a figure that stands in a box."""
    head = head_in(room)
    return [
        tag(
            "ellipse",
            {
                "cx": head.centre.x,
                "cy": head.centre.y,
                "rx": head.width / 2,
                "ry": head.height / 2,
                "fill": colour,
            },
        ),
        tag("path", {"d": _body(figure_in(room)), "fill": colour}),
    ]


def room_of(standing: Rect) -> Rect:
    """The room of a figure that reaches from a box's floor to its top: with air over its head.

    >>> head = head_in(room_of(Rect(0, 0, 10, 30)))
    >>> abs(head.y) < 1e-9
    True
    """
    _, middle, _, down = HEAD
    share = (1 - HEADROOM) * (1 - middle + down)
    width, height = standing.width / share, standing.height / share
    return Rect(standing.centre.x - width / 2, standing.bottom - height, width, height)


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
