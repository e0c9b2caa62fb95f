"""Who stands where: boxes on the panel's floor, clear of all balloons, near those who speak.

A speaker alone has the tallest box that stands clear, wherever of all places of that height the way
from its balloon to its mouth is shortest. Several stand side by side in order of first speech, all
as tall as the largest height at which as many boxes stand clear of the balloons and each other.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.geometry import Point, Rect
from letterfit.place.figure import Obstacle, span_below
from letterfit.place.model import PlacedOutline, Reading, Speaker
from letterfit.place.silhouette import mouth_in
from letterfit.place.voices import cast

LEAST = 0.4
"""Several figures lower than this share of the tallest one are not drawn: it stands alone."""

BISECTIONS = 20
"""Halvings of the tallest height: below 1e-6 of it."""

SHADE = 1e-6
"""By this share lower boxes are looked for than stand clear, so that rounding does not matter."""

DETOUR = 1.0
"""What a balloon in the way to the mouth costs, in widths of the panel."""

AGAIN = 0.1
"""What the ways from a speaker's other balloons weigh."""

SMALLEST = 0.1
"""In mm: lower boxes are no figures."""

ROUNDING = 1e-9
"""In mm: boxes that overlap by less touch."""

Span = tuple[float, float]


@dataclass(frozen=True, slots=True, eq=False)
class Cost:
    """What a place of a box costs: the way from the nearest of its balloons to its mouth.

    Args:
        panel: The panel.
        placed: All balloons.
        own: Those of the speaker.
        wanted: The x that the box would best stand at, mm.
        side: 1 where the left comes first, -1 where the right does: it breaks ties.
    """

    panel: Rect
    placed: Sequence[PlacedOutline]
    own: Sequence[PlacedOutline]
    wanted: tuple[float, ...]
    side: int

    def __call__(self, box: Rect) -> tuple[float, float]:
        """The cost of a box, in mm."""
        if not self.own:
            away = min(abs(box.centre.x - x) for x in self.wanted)
            return round(away, 6), self.side * box.x
        mouth = mouth_in(box)
        ways = [self._way(item, mouth) for item in self.own]
        return round(min(ways) + AGAIN * sum(ways), 6), self.side * box.x

    def _way(self, item: PlacedOutline, mouth: Point) -> float:
        """The straight way outside the balloon, and a detour for each other one that it meets."""
        start = Point(item.x_mm, item.y_mm)
        reach = math.hypot(
            (mouth.x - start.x) / item.outline.half_width,
            (mouth.y - start.y) / item.outline.half_height,
        )
        out = start.distance(mouth) * (1 - 1 / max(reach, 1.0))
        met = sum(_meets(other, start, mouth) for other in self.placed if other is not item)
        return out + met * DETOUR * self.panel.width


def standing_figures(  # noqa: PLR0913 - where figures stand depends on all of it
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    speakers: Sequence[Speaker | None],
    regions: Sequence[tuple[Point, ...]] = (),
    tallest: float,
    aspect: float,
    reading: Reading = "ltr",
) -> tuple[Rect, ...]:
    """The boxes of the figures, in order of first speech.

    Args:
        panel: The panel.
        placed: Its balloons, in script order.
        speakers: One per balloon.
        regions: Keep-clear polygons: figures stand clear of them too.
        tallest: The height of the tallest box that stands clear, mm.
        aspect: Width over height of a box.
        reading: The first to speak stands at the left for "ltr", at the right for "rtl".

    Returns:
        As many boxes as `cast` has names, in its order, where they all find room; else the tallest
        one, near the first who speaks. Nothing where no box stands clear.
    """
    if tallest < SMALLEST:
        return ()
    obstacles: list[Obstacle] = [*placed, *regions]
    costs = _costs(panel, placed, speakers=speakers, reading=reading)
    side = 1 if reading == "ltr" else -1
    if len(costs) > 1:
        height = _common_height(panel, obstacles, count=len(costs), most=tallest, aspect=aspect)
        if height >= LEAST * tallest:
            return _row(panel, obstacles, costs, height=height, aspect=aspect)[::side]
    return _row(panel, obstacles, costs[::side][:1], height=tallest, aspect=aspect)


def _common_height(
    panel: Rect, obstacles: Sequence[Obstacle], *, count: int, most: float, aspect: float
) -> float:
    """The largest height at which that many boxes stand side by side, by bisection."""

    def stand(height: float) -> bool:
        spans = _spans(panel, obstacles, height=height)
        return len(_packed(panel, spans, count=count, width=aspect * height)) == count

    low, high = 0.0, min(most, panel.width / aspect / count)
    if stand(high):
        return high
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        low, high = (middle, high) if stand(middle) else (low, middle)
    return low


def _row(
    panel: Rect,
    obstacles: Sequence[Obstacle],
    costs: Sequence[Cost],
    *,
    height: float,
    aspect: float,
) -> tuple[Rect, ...]:
    """A box for each cost, left to right, each where it costs least while the rest find room."""
    low = height * (1 - SHADE)
    width, spans = aspect * low, _spans(panel, obstacles, height=low)
    latest = _latest(panel, spans, count=len(costs), width=width)
    if len(latest) < len(costs):  # rounding alone could do that
        return ()
    boxes: list[Rect] = []
    start = panel.x
    for cost, last in zip(costs, latest, strict=True):
        edges = _edges(spans, start=start, last=last, width=width, wanted=cost.wanted)
        tried = [Rect(edge, panel.bottom - low, width, low) for edge in edges]
        boxes.append(min(tried, key=cost))
        start = boxes[-1].right
    return tuple(boxes)


def _edges(
    spans: Sequence[Span], *, start: float, last: float, width: float, wanted: Sequence[float]
) -> list[float]:
    """Free left edges from start to last: at both ends, beside what stands there, and as wanted."""
    ends = [start, last, *(x - width / 2 for x in wanted)]
    ends += [end for left, right in spans for end in (left - width, right)]
    return [edge for edge in ends if start <= edge <= last and _is_free(spans, edge, width=width)]


def _packed(panel: Rect, spans: Sequence[Span], *, count: int, width: float) -> list[float]:
    """Left edges of boxes packed from the left, at most that many."""
    rights = sorted(right for _, right in spans)
    edges: list[float] = []
    edge = panel.x
    while len(edges) < count:
        ahead = [edge, *(right for right in rights if right > edge)]
        free = next((e for e in ahead if _is_free(spans, e, width=width)), math.inf)
        if free + width > panel.right + ROUNDING:
            break
        edges.append(free)
        edge = free + width
    return edges


def _latest(panel: Rect, spans: Sequence[Span], *, count: int, width: float) -> list[float]:
    """How far right each of the boxes may stand so that those after it still find room."""
    mirrored = [(-right, -left) for left, right in spans]
    facing = Rect(-panel.right, panel.y, panel.width, panel.height)
    return [-edge - width for edge in _packed(facing, mirrored, count=count, width=width)][::-1]


def _is_free(spans: Sequence[Span], edge: float, *, width: float) -> bool:
    return all(edge >= right - ROUNDING or edge + width <= left + ROUNDING for left, right in spans)


def _spans(panel: Rect, obstacles: Sequence[Obstacle], *, height: float) -> list[Span]:
    """What stands in the way of boxes of that height."""
    line = panel.bottom - height
    return [span for item in obstacles if (span := span_below(item, line)) is not None]


def _costs(
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    speakers: Sequence[Speaker | None],
    reading: Reading,
) -> list[Cost]:
    """One cost for each speaker who needs a place, from left to right; one if nobody does."""
    side = 1 if reading == "ltr" else -1
    costs = []
    for name in cast(speakers):
        own = [
            item
            for item, s in zip(placed, speakers, strict=True)
            if s is not None and s.name == name and s.mouth is None and not s.off_panel
        ]
        costs.append(Cost(panel, placed, own, tuple(item.x_mm for item in own), side))
    if not costs:
        given = [s.mouth.x for s in speakers if s is not None and s.mouth is not None]
        costs = [Cost(panel, placed, (), tuple(given[:1]) or (panel.centre.x,), side)]
    return costs[::side]


def _meets(item: PlacedOutline, start: Point, end: Point) -> bool:
    """Whether a segment passes through a balloon, taken for an ellipse."""
    a, b = item.outline.half_width, item.outline.half_height
    px, py = (start.x - item.x_mm) / a, (start.y - item.y_mm) / b
    vx, vy = (end.x - start.x) / a, (end.y - start.y) / b
    along = min(max(-(px * vx + py * vy) / max(vx * vx + vy * vy, 1e-12), 0.0), 1.0)
    return math.hypot(px + along * vx, py + along * vy) < 1
