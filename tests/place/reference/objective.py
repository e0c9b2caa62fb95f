"""The objective of placing, written anew in plain floats, one layout at a time.

What letterfit.place.cost defines, from its definition and not from its code: nothing is sampled,
tabled or batched here. Pages read left to right; balloons are ellipses and caption boxes.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.model import PlacedOutline, Speaker

COVER, FIGURE, HIGH, LEAN, CORNER, LOOKS, CROSSING = 1.0, 1.0, 0.25, 0.12, 0.5, 0.1, 0.12
"""Prices of a whole panel covered, of a whole panel's height of figure room lost, of hanging at the
floor, of a panel's width from the speaker, of a panel's width from the corner, of looks that cost
1, and of one thing that a tail runs into."""

TALLEST = 0.8
"""Share of the panel's height from which on a figure earns nothing more."""

WIDER_THAN_TALL = 1.3
"""Aspect under which looks begin to cost 2 log(1.3 / aspect)."""

REACH, MOUTH = 0.6, 0.45
"""Share of the way to the mouth that a tail takes, and of the panel's height that it is down."""

HALVINGS = 40


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a balloon's speaker is: at x, or off the panel, or nobody."""

    x: float | None = None
    off: bool = False


def standings(panel: Rect, speakers: Sequence[Speaker | None]) -> tuple[Standing, ...]:
    """Speakers side by side in order of first speech, one alone in the middle."""
    names = in_panel(speakers)
    columns = {name: panel.width * (n + 0.5) / len(names) for n, name in enumerate(names)}
    places = []
    for speaker in speakers:
        if speaker is None:
            places.append(Standing())
        elif speaker.off_panel:
            places.append(Standing(off=True))
        else:
            at = columns[speaker.name] if speaker.mouth is None else speaker.mouth.x - panel.x
            places.append(Standing(x=at))
    return tuple(places)


def in_panel(speakers: Sequence[Speaker | None]) -> list[str]:
    """The names of those who stand in the panel, nobody said where, by first speech."""
    return list(dict.fromkeys(s.name for s in speakers if s and not s.off_panel and not s.mouth))


def layout_cost(
    panel: Rect,
    layout: Sequence[PlacedOutline],
    *,
    speakers: Sequence[Speaker | None],
    prices: Sequence[Sequence[float]] | None = None,
    margin_mm: float = 1.5,
    figure_aspect: float = 1 / 3,
) -> float:
    """What a whole layout costs.

    Args:
        panel: The panel.
        layout: All its balloons, in script order.
        speakers: One per balloon.
        prices: What the looks of each outline of each menu cost.
        margin_mm: Distance from the border at which a caption stands in its corner.
        figure_aspect: Width over height of a lone figure; two talk in a box twice as wide.
    """
    places = standings(panel, speakers)
    cost = 0.0
    for item, place in zip(layout, places, strict=True):
        looks = looks_price(item.outline)
        looks += prices[item.index][item.choice] if prices else 0.0
        cost += LOOKS * looks + COVER * item.outline.area_mm2 / panel.area_mm2
        cost += _place_price(panel, item, place, margin=margin_mm) / len(layout)
    aspect = figure_aspect * (2 if len(in_panel(speakers)) > 1 else 1)
    cost += FIGURE * (TALLEST - room(panel, layout, aspect=aspect) / panel.height)
    return cost + CROSSING * obstructions(panel, layout, places)


def looks_price(outline: Outline) -> float:
    """What a balloon costs for being narrow."""
    if isinstance(outline, CaptionBox):
        return 0.0
    aspect = outline.half_width / outline.half_height
    return 2 * max(math.log(WIDER_THAN_TALL / aspect), 0.0)


def _place_price(panel: Rect, item: PlacedOutline, place: Standing, *, margin: float) -> float:
    """What its height and its distance from speaker, side or corner cost a balloon, times k."""
    price = HIGH * (item.y_mm + item.outline.half_height - panel.y) / panel.height
    left = item.x_mm - panel.x - item.outline.half_width - margin
    right = panel.right - margin - item.outline.half_width - item.x_mm
    if place.x is not None:
        price += LEAN * abs(item.x_mm - panel.x - place.x) / panel.width
    elif place.off:
        price += LEAN * min(left, right) / panel.width
    elif isinstance(item.outline, CaptionBox):
        away = min(left, right) / 2 if item.index else left
        price += CORNER * away / panel.width
    return price


def room(panel: Rect, layout: Sequence[PlacedOutline], *, aspect: float) -> float:
    """The tallest box on the floor clear of all balloons, up to what earns, mm."""
    low, high = 0.0, min(TALLEST * panel.height, panel.width / aspect)
    if _stands(panel, layout, height=high, width=aspect * high):
        return high
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if _stands(panel, layout, height=middle, width=aspect * middle):
            low = middle
        else:
            high = middle
    return low


def _stands(panel: Rect, layout: Sequence[PlacedOutline], *, height: float, width: float) -> bool:
    """Whether a box that high and wide finds a place: walk along the floor, past what is hit."""
    spans = sorted(_spans(layout, line=panel.bottom - height))
    left = panel.x
    for start, end in spans:
        if left + width <= start + 1e-9:
            break
        left = max(left, end)
    return left + width <= panel.right + 1e-9


def _spans(layout: Sequence[PlacedOutline], *, line: float) -> Iterator[tuple[float, float]]:
    """What of each balloon hangs under a level line, from side to side."""
    for item in layout:
        down = line - item.y_mm
        if down < item.outline.half_height:
            reach = half_chord(item.outline, max(down, 0.0))
            yield item.x_mm - reach, item.x_mm + reach


def half_chord(outline: Outline, down: float) -> float:
    """Half the width of an ellipse or a caption box, mm under its middle."""
    if isinstance(outline, CaptionBox):
        return outline.half_width
    if isinstance(outline, Ellipse):
        return outline.half_width * math.sqrt(1 - (down / outline.half_height) ** 2)
    raise TypeError(f"no chord is known of {outline.kind}")


def obstructions(panel: Rect, layout: Sequence[PlacedOutline], places: Sequence[Standing]) -> int:
    """How many balloons and other tails the straight tails run into.

    A tail goes from its balloon's centre; what it runs into counts as the ellipse of that width and
    height.
    """
    tails = []
    for index, (item, place) in enumerate(zip(layout, places, strict=True)):
        if place.x is not None:
            dx = REACH * (panel.x + place.x - item.x_mm)
            dy = REACH * (panel.y + MOUTH * panel.height - item.y_mm)
            tails.append((index, item.x_mm, item.y_mm, dx, dy))
    count = 0
    for index, x, y, dx, dy in tails:
        for other, item in enumerate(layout):
            if other != index:
                a, b = item.outline.half_width, item.outline.half_height
                px, py = (x - item.x_mm) / a, (y - item.y_mm) / b
                count += _nearest(px, py, dx / a, dy / b) < 1
    for (_, x, y, dx, dy), (_, u, v, du, dv) in combinations(tails, 2):
        count += _cross((x, y, dx, dy), (u, v, du, dv))
    return count


def _nearest(px: float, py: float, vx: float, vy: float) -> float:
    """How near the segment from p along v comes to the origin."""
    length = vx * vx + vy * vy
    along = min(max(-(px * vx + py * vy) / length, 0.0), 1.0) if length > 1e-12 else 0.0
    return math.hypot(px + along * vx, py + along * vy)


Segment = tuple[float, float, float, float]


def _cross(one: Segment, two: Segment) -> bool:
    """Whether two segments, each a start and a way, cross within both."""
    (x, y, dx, dy), (u, v, du, dv) = one, two
    turn = dx * dv - dy * du
    if abs(turn) < 1e-9:
        return False
    s = ((u - x) * dv - (v - y) * du) / turn
    t = ((u - x) * dy - (v - y) * dx) / turn
    return 0 < s < 1 and 0 < t < 1
