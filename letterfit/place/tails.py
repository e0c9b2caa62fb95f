"""Tails: wedges from the outline towards the mouth that cross nothing, the plainest one that does.

For each balloon in script order the tails tried are ordered by taste: leaving towards the mouth,
one gentle curve, half to two thirds of the way; then from other places of the outline, straighter
or more bent, shorter. A balloon whose speaker also speaks the one before it, or after it, close by,
may point there instead: rather than reach far, and rather than cross anything. The first tail that
keeps clear of every other outline, of faces, of keep-clear regions, of the tails before it and of
the border is drawn. If none does, the one that runs into least is drawn, and said.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.findings import Finding
from letterfit.geometry import Point, Rect
from letterfit.outline import Floats
from letterfit.place.model import PlacedOutline, Speaker, Tail
from letterfit.place.silhouette import figure_in, head_in, mouth_in
from letterfit.place.tail_shapes import (
    Wedges,
    box_reach,
    corners_reach,
    ellipse_reach,
    hits,
    met,
    nearest_point,
    outline_reach,
    wedges,
)

SHARES = (0.58, 0.5, 0.4, 0.28, 0.18)
"""How far towards the mouth the tip goes: half to two thirds of the way, and less at need."""

LONGEST = 20.0
"""Most length of a tail in mm, however far the mouth is."""

OFF_LONGEST = 10.0
"""Most length in mm of a tail that points out of the panel: it need not reach a far border."""

FAR = 24.0
"""From this distance in mm to the mouth on, a link to the speaker's last balloon is better."""

LINK = 9.0
"""Most distance in mm between two balloons that may be linked."""

FACE = 2.5
"""Half the side in mm of the square round another speaker's mouth that a tail keeps out of."""

BODY = 0.2
"""What crossing all other speakers' figures counts, faces aside, against 1 for other crossings."""

TURNS = (0.0, 20.0, -20.0, 40.0, -40.0, 65.0, -65.0, 90.0, -90.0)
"""How far round its outline, in degrees, a tail's root stands from the straight way."""

BENDS = (0.12, 0.0, -0.12, 0.3, -0.3)
"""How far the bend lies off the straight way, as a share of the tail's length."""

TRIES = ((TURNS[:1], BENDS[:1]), (TURNS[:5], BENDS[:3]), (TURNS, BENDS))
"""Turns and bends that are tried together, the plainest first."""


@dataclass(frozen=True, slots=True)
class Target:
    """Where a tail may go: a point, shares of the way there, and the balloon it links to if any."""

    point: Point
    shares: tuple[float, ...]
    to: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """What the tails of one panel see.

    Args:
        panel: The panel.
        placed: The outlines at their places, in script order.
        speakers: One per outline.
        mouths: One per outline.
        regions: Reaches of the keep-clear regions.
        heads: Reaches of the figures' heads: a tail stops short of its speaker's own too.
        figures: Their boxes.
    """

    panel: Rect
    placed: tuple[PlacedOutline, ...]
    speakers: tuple[Speaker | None, ...]
    mouths: tuple[Point | None, ...]
    regions: tuple[Floats, ...]
    heads: tuple[Floats, ...]
    figures: tuple[Rect, ...] = ()

    def bodies(self, index: int) -> list[Floats]:
        """The reaches of all that one balloon's tail keeps out of, other tails aside."""
        own = self.mouths[index]
        others = [outline_reach(item) for i, item in enumerate(self.placed) if i != index]
        faces = dict.fromkeys(m for m in self.mouths if m is not None and m != own)
        return [*others, *self.regions, *self.heads, *(_face(mouth) for mouth in faces)]

    def others(self, index: int) -> list[Floats]:
        """The reaches of the other speakers' figures, which a tail had better not cross."""
        own = self.mouths[index]
        return [box_reach(figure_in(box)) for box in self.figures if mouth_in(box) != own]


def with_tails(  # noqa: PLR0913 - all that tails keep clear of
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    speakers: Sequence[Speaker | None],
    mouths: Sequence[Point | None],
    keep_clear: Sequence[Sequence[Point]] = (),
    figures: Sequence[Rect] = (),
) -> tuple[tuple[PlacedOutline, ...], tuple[Finding, ...]]:
    """The outlines with their tails, and a finding for each tail that runs into something.

    Args:
        panel: The panel.
        placed: Outlines at their places, in script order.
        speakers: One per outline; None has no tail.
        mouths: One per outline; None for who stands off the panel.
        keep_clear: Convex polygons that no tail enters.
        figures: Boxes of figures, whose heads no tail enters.
    """
    regions = tuple(corners_reach(np.array([[p.x, p.y] for p in c])) for c in keep_clear)
    heads = tuple(ellipse_reach(head_in(box)) for box in figures)
    scene = Scene(
        panel, tuple(placed), tuple(speakers), tuple(mouths), regions, heads, tuple(figures)
    )
    tails: list[Tail | None] = []
    drawn: list[Floats] = []
    findings: list[Finding] = []
    for index, speaker in enumerate(scene.speakers):
        if speaker is None:
            tails.append(None)
            continue
        tail, reaches, clean = _best(scene, index, tails=tails, drawn=drawn)
        tails.append(tail)
        drawn.extend(reaches)
        if not clean:
            findings.append(_crossing(index, speaker))
    tailed = tuple(replace(item, tail=t) for item, t in zip(placed, tails, strict=True))
    return tailed, tuple(findings)


def _crossing(index: int, speaker: Speaker) -> Finding:
    return Finding(
        code="tail-crosses",
        severity="warning",
        message=f"The tail to {speaker.name} crosses another balloon, tail, face or border.",
        advice="Let the speakers stand in the order they speak, or move the balloon.",
        where=str(index + 1),
    )


def _best(
    scene: Scene, index: int, *, tails: Sequence[Tail | None], drawn: Sequence[Floats]
) -> tuple[Tail, list[Floats], bool]:
    """The tail, the reaches of its two halves, and whether it runs clear."""
    bodies = [*scene.bodies(index), *drawn]
    others = scene.others(index)
    least: tuple[float, Wedges, int, int | None] | None = None
    for target in _targets(scene, index, tails=tails):
        for turns, bends in TRIES:
            tried = wedges(
                scene.placed[index], target.point, shares=target.shares, turns=turns, bends=bends
            )
            count = hits(scene.panel, tried, reaches=bodies)
            count += BODY / max(len(others), 1) * met(tried, reaches=others)
            best = int(count.argmin())
            if least is None or count[best] < least[0]:
                least = float(count[best]), tried, best, target.to
            if not least[0]:
                break
        if least is not None and not least[0]:
            break
    assert least is not None  # noqa: S101 - there is always a target
    number, tried, best, to = least
    return replace(tried.tail(best), to=to), tried.halves(best), number < 1


def _targets(scene: Scene, index: int, *, tails: Sequence[Tail | None]) -> Iterator[Target]:
    """Where the tail may go, the best first."""
    item, mouth = scene.placed[index], scene.mouths[index]
    before = tails[index - 1] if index else None
    links = [
        *(_link(scene, index, to=index - 1) if before and before.to != index else ()),
        *_link(scene, index, to=index + 1),
    ]
    if mouth is None:
        yield from _off_panel(scene.panel, item)
    elif not _holds(scene.panel, mouth):
        yield Target(_on_border(scene.panel, item, mouth), (1.0, 0.6))
    else:
        away = mouth.distance(nearest_point(item, mouth))
        most = LONGEST / max(away, LONGEST)
        shares = tuple(min(share, most) for share in SHARES)
        if away > FAR:
            yield from (link for link in links if _nearer(scene, link, mouth=mouth, than=away))
        yield Target(mouth, shares[:2])
        yield from links
        yield Target(mouth, shares[2:])
        return
    yield from links


def _link(scene: Scene, index: int, *, to: int) -> Iterator[Target]:
    """A link to a neighbour in the script that the same speaker speaks, if it is close by."""
    if to >= len(scene.placed):
        return
    one, two = scene.speakers[index], scene.speakers[to]
    if one is None or two is None or one.name != two.name:
        return
    tip = nearest_point(scene.placed[index], scene.placed[to])
    if tip.distance(nearest_point(scene.placed[to], scene.placed[index])) <= LINK:
        yield Target(tip, (1.0,), to)


def _nearer(scene: Scene, link: Target, *, mouth: Point, than: float) -> bool:
    """Whether the balloon that a link leads to is nearer to the mouth."""
    return (
        link.to is not None and mouth.distance(nearest_point(scene.placed[link.to], mouth)) < than
    )


def _off_panel(panel: Rect, item: PlacedOutline) -> Iterator[Target]:
    """To the nearer side of the panel, else the other."""
    down = item.y_mm + 0.35 * item.outline.half_height
    left, right = Point(panel.x, down), Point(panel.right, down)
    near, far = (left, right) if item.x_mm <= panel.centre.x else (right, left)
    for side in (near, far):
        away = max(side.distance(nearest_point(item, side)), 1e-9)
        yield Target(side, (min(1.0, OFF_LONGEST / away),))
    yield Target(near, (0.6 * min(1.0, OFF_LONGEST / away),))


def _face(mouth: Point) -> Floats:
    sides = np.array([[-FACE, -FACE], [FACE, -FACE], [FACE, FACE], [-FACE, FACE]])
    return corners_reach(sides + np.array([mouth.x, mouth.y]))


def _holds(panel: Rect, point: Point) -> bool:
    return panel.x < point.x < panel.right and panel.y < point.y < panel.bottom


def _on_border(panel: Rect, item: PlacedOutline, mouth: Point) -> Point:
    """Where the way from the balloon's middle to a mouth off the panel leaves it."""
    dx, dy = mouth.x - item.x_mm, mouth.y - item.y_mm
    ways = [1.0]
    if dx:
        ways.append(((panel.right if dx > 0 else panel.x) - item.x_mm) / dx)
    if dy:
        ways.append(((panel.bottom if dy > 0 else panel.y) - item.y_mm) / dy)
    way = min(ways)
    return Point(
        min(max(item.x_mm + way * dx, panel.x), panel.right),
        min(max(item.y_mm + way * dy, panel.y), panel.bottom),
    )
