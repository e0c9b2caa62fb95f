"""Who stands where: boxes on the panel's floor, clear of all balloons, near those who speak.

A speaker alone has the tallest box that stands clear, wherever of all places of that height the way
from its balloon to its mouth is shortest. Several stand side by side in order of first speech, all
as tall as the largest height at which as many boxes stand clear of the balloons and each other.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.geometry import Point, Rect
from letterfit.place.figure import Obstacle, figure_room, free_gaps, span_below
from letterfit.place.model import PlacedOutline, Reading, Speaker
from letterfit.place.silhouette import mouth_in
from letterfit.place.voices import cast

LEAST = 0.4
"""Several figures lower than this share of the tallest one are not drawn: it stands alone."""

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

Gap = tuple[float, float]
Ellipse = tuple[float, float, float, float]
"""A balloon taken for an ellipse: centre x and y, half-width and half-height."""


@dataclass(frozen=True, slots=True, eq=False)
class Cost:
    """What a place of a figure costs: the way from the nearest of its balloons to its mouth.

    Args:
        placed: All balloons.
        own: Which of them the speaker speaks.
        wanted: The x that the figure would best stand at, mm.
        detour: What a balloon in the way costs, mm.
        side: 1 where the left comes first, -1 where the right does: it breaks ties.
    """

    placed: Sequence[Ellipse]
    own: Sequence[int]
    wanted: tuple[float, ...]
    detour: float
    side: int

    def __call__(self, mouth: Point) -> tuple[float, float]:
        """The cost of a place, in mm, by where its mouth comes."""
        if self.own:
            ways = [self._way(index, mouth) for index in self.own]
            away = min(ways) + AGAIN * sum(ways)
        else:
            away = min(abs(mouth.x - x) for x in self.wanted)
        return round(away, 6), self.side * mouth.x

    def _way(self, index: int, mouth: Point) -> float:
        """The straight way outside the balloon, and a detour for each other one that it meets."""
        x, y, a, b = self.placed[index]
        dx, dy = mouth.x - x, mouth.y - y
        reach = math.hypot(dx / a, dy / b)
        out = math.hypot(dx, dy) * (1 - 1 / max(reach, 1.0))
        for other, body in enumerate(self.placed):
            if other != index and _meets(body, (x, y, dx, dy)):
                out += self.detour
        return out


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
        height = figure_room(panel, obstacles, aspect=aspect, count=len(costs))
        if height >= LEAST * tallest:
            return _row(panel, obstacles, costs, height=min(height, tallest), aspect=aspect)[::side]
    return _row(panel, obstacles, costs[::side][:1], height=tallest, aspect=aspect)


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
    width, top = aspect * low, panel.bottom - low
    spans = (span_below(item, top) for item in obstacles)
    gaps = free_gaps(panel, [span for span in spans if span is not None])
    latest = _latest(gaps, count=len(costs), width=width)
    if len(latest) < len(costs):  # rounding alone could do that
        return ()
    mouth = mouth_in(Rect(0.0, top, width, low))
    boxes: list[Rect] = []
    start = panel.x
    for cost, last in zip(costs, latest, strict=True):
        edges = _edges(gaps, start=start, last=last, width=width, wanted=cost.wanted)
        costly = [(cost(Point(mouth.x + edge, mouth.y)), edge) for edge in edges]
        boxes.append(Rect(min(costly)[1], top, width, low))
        start = boxes[-1].right
    return tuple(boxes)


def _edges(
    gaps: Sequence[Gap], *, start: float, last: float, width: float, wanted: Sequence[float]
) -> list[float]:
    """Free left edges from start to last: at both ends of every gap, and as wanted."""
    edges: list[float] = []
    for left, right in gaps:
        first, final = max(left, start), min(right - width, last)
        if final >= first - ROUNDING:
            edges += [first, max(final, first)]
            edges += [x - width / 2 for x in wanted if first < x - width / 2 < final]
    return edges


def _latest(gaps: Sequence[Gap], *, count: int, width: float) -> list[float]:
    """How far right each of the boxes may stand so that those after it still find room."""
    edges: list[float] = []
    for left, right in reversed(gaps):
        edge = right - width
        while edge >= left - ROUNDING and len(edges) < count:
            edges.append(max(edge, left))
            edge -= width
    return edges[::-1]


def _costs(
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    speakers: Sequence[Speaker | None],
    reading: Reading,
) -> list[Cost]:
    """One cost for each speaker who needs a place, from left to right; one if nobody does."""
    side = 1 if reading == "ltr" else -1
    detour = DETOUR * panel.width
    bodies = [(i.x_mm, i.y_mm, i.outline.half_width, i.outline.half_height) for i in placed]
    costs = []
    for name in cast(speakers):
        own = [
            index
            for index, s in enumerate(speakers)
            if s is not None and s.name == name and s.mouth is None and not s.off_panel
        ]
        costs.append(Cost(bodies, own, tuple(bodies[index][0] for index in own), detour, side))
    if not costs:
        given = [s.mouth.x for s in speakers if s is not None and s.mouth is not None]
        costs = [Cost(bodies, (), tuple(given[:1]) or (panel.centre.x,), detour, side)]
    return costs[::side]


def _meets(body: Ellipse, segment: tuple[float, float, float, float]) -> bool:
    """Whether a segment, from (x, y) by (dx, dy), passes through an ellipse."""
    centre_x, centre_y, a, b = body
    px, py = (segment[0] - centre_x) / a, (segment[1] - centre_y) / b
    vx, vy = segment[2] / a, segment[3] / b
    along = -(px * vx + py * vy) / (vx * vx + vy * vy or 1.0)
    along = min(max(along, 0.0), 1.0)
    px, py = px + along * vx, py + along * vy
    return px * px + py * py < 1
