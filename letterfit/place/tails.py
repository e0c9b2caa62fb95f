"""Tails: wedges from the outline towards the mouth that cross nothing, one for each chain.

A chain is what one voice says without a break in balloons joined or linked to each other. Its tail
leaves the balloon nearest to the mouth. The plainest one is drawn where nothing is near it, else of
all that are tried the one that costs least. What runs into something is drawn where nothing better
is found, and said.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from letterfit.findings import Finding
from letterfit.geometry import Point, Rect
from letterfit.place.model import PlacedOutline, Speaker, Tail
from letterfit.place.tail_body import gauge
from letterfit.place.tail_links import Chain, bridge, chains, far_links, link_tails
from letterfit.place.tail_plain import is_blocked, is_crossed, plain_tail
from letterfit.place.tail_scene import Scene, scene_of
from letterfit.place.tail_shapes import ALL, BLOCKED, FEW, HIT, Target, cheapest, wedges

CARRIERS = 3
"""So many balloons of a chain are asked to carry its tail, the one nearest to the mouth first."""

OFF_LONGEST = 10.0
"""Most length in mm of a tail that points out of the panel: it need not reach a far border."""

OFF_LEAST = 7.0
"""From this distance in mm to the border on a tail goes to the side; nearer it goes down as well,
so that it can be seen."""

LOW = 0.35
"""How far under a balloon's middle a tail points to the side, as a share of its half-height."""

STOP = 1.5
"""How far in mm a tail stops before a face."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """One chain's tail, whose it is, where it points, and what it costs."""

    carrier: int
    target: Target
    tail: Tail
    cost: float


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

    Returns:
        Of joined outlines one has the tail of all, the one nearest to the mouth. Outlines of one
        voice that follow each other close by are linked: one leads to the mouth, the others to it.
    """
    scene = scene_of(
        panel, placed, speakers=speakers, mouths=mouths, keep_clear=keep_clear, figures=figures
    )
    tails, findings, tangled = _drawn(scene, reverse=False)
    if tangled:
        other, fewer, _ = _drawn(scene, reverse=True)
        if len(fewer) < len(findings):
            tails, findings = other, fewer
    tailed = tuple(replace(item, tail=tails.get(i)) for i, item in enumerate(placed))
    return tailed, tuple(sorted(findings, key=lambda finding: int(finding.where)))


def _crossing(index: int, speaker: Speaker | None) -> Finding:
    return Finding(
        code="tail-crosses",
        severity="warning",
        message=f"The tail to {_name(speaker)} crosses another balloon, tail, face or border.",
        advice="Let the speakers stand in the order they speak, or move the balloon.",
        where=str(index + 1),
    )


def _doubt(index: int, speaker: Speaker | None) -> Finding:
    return Finding(
        code="tail-doubt",
        severity="warning",
        message=f"Another figure, balloon or tail is between {_name(speaker)} and the tail.",
        advice="Let the speakers stand in the order they speak, or move the balloon.",
        where=str(index + 1),
    )


def _name(speaker: Speaker | None) -> str:
    return speaker.name if speaker else "nobody"


def _drawn(scene: Scene, *, reverse: bool) -> tuple[dict[int, Tail], list[Finding], bool]:
    """The tail of each balloon that has one, what is wrong, and whether with other tails."""
    scene.tails.clear()
    scene.ways.clear()
    found = chains(scene)
    scene.tails.extend(tail for chain in found for _, tail in chain.links)
    tails: dict[int, Tail] = {}
    findings: list[Finding] = []
    linked: set[int] = set()
    tangled = False
    numbers = range(len(found))
    for number in reversed(numbers) if reverse else numbers:
        chain = found[number]
        best = _best(scene, chain)
        carrier, tail = best.carrier, best.tail
        link = None
        if best.cost >= BLOCKED:
            link = next((k for k in far_links(scene, found, number) if k[1] not in linked), None)
        if link is not None:
            carrier, tail = link[0], bridge(scene, *link)
            linked.update(chain.balloons)
            scene.tails.append(tail)
        else:
            if best.cost >= HIT:
                findings.append(_crossing(carrier, scene.speakers[carrier]))
            elif best.cost >= BLOCKED and is_blocked(scene, tail, carrier, best.target):
                findings.append(_doubt(carrier, scene.speakers[carrier]))
            tangled |= best.cost >= HIT or (
                best.cost >= BLOCKED and is_crossed(scene, tail, carrier, best.target)
            )
            scene.draw(tail, carrier, best.target.point)
        tails[carrier] = tail
        tails.update(link_tails(scene, chain, carrier))
    return tails, findings, tangled


def _best(scene: Scene, chain: Chain) -> Drawn:
    """The chain's tail: from the balloon nearest to the mouth, unless only another's runs clear."""
    order = list(chain.balloons)
    if len(order) > 1:
        order.sort(key=lambda index: (_way_of(scene, index), -index))
    best: Drawn | None = None
    for carrier in order[:CARRIERS]:
        for target in _targets(scene, carrier):
            plain = plain_tail(scene, carrier, target)
            if plain is not None:
                return Drawn(carrier, target, plain, 0.0)
            drawn = _tried(scene, carrier, target)
            best = drawn if best is None or drawn.cost < best.cost else best
        if best is not None and best.cost < HIT:
            break
    assert best is not None  # noqa: S101 - there is always a target
    return best


def _tried(scene: Scene, carrier: int, target: Target) -> Drawn:
    """The best tail of one balloon to one target: of a few, if one of them is good."""
    tried = wedges(scene.placed[carrier], target, grid=ALL)
    number, cost = cheapest(
        scene.panel,
        tried,
        bodies=scene.bodies(carrier),
        others=scene.others(carrier),
        ahead=(target.point, scene.between(carrier)),
        few=len(FEW[0]),
    )
    return Drawn(carrier, target, tried.tail(number), cost)


def _way_of(scene: Scene, index: int) -> float:
    """The distance in mm from a balloon to where its tail points."""
    return min(_distance(scene.placed[index], t.point) for t in _targets(scene, index))


def _distance(item: PlacedOutline, point: Point) -> float:
    """How far a point is from an outline on the way to its centre, mm."""
    x, y = point.x - item.x_mm, point.y - item.y_mm
    return math.hypot(x, y) * (1 - 1 / max(gauge(item.outline, x, y), 1.0))


def _targets(scene: Scene, index: int) -> Iterator[Target]:
    """Where a balloon's tail may point: the mouth, or the border of the panel."""
    panel, item, mouth = scene.panel, scene.placed[index], scene.mouths[index]
    speaker = scene.speakers[index]
    if mouth is None:
        sides = [_on_side(panel, item, x) for x in (panel.x, panel.right)]
        for side in sides if item.x_mm <= panel.centre.x else sides[::-1]:
            yield Target(side, share=1.0, longest=OFF_LONGEST)
    elif (speaker is not None and speaker.off_panel) or not _holds(panel, mouth):
        yield Target(_on_border(panel, mouth), share=1.0)
    else:
        head = scene.head_of(mouth)
        out = 0.0 if head is None else _way_out(head, mouth, Point(item.x_mm, item.y_mm))
        yield Target(mouth, stop=out + STOP)


def _on_side(panel: Rect, item: PlacedOutline, x: float) -> Point:
    """Where on the left or right side of the panel a tail out of it ends."""
    tall = item.outline.half_height
    short = OFF_LEAST - (abs(x - item.x_mm) - item.outline.half_width)
    down = LOW * tall if short <= 0 else LOW * tall + min(short / OFF_LEAST, 1.0) * tall
    return Point(x, min(item.y_mm + down, panel.bottom))


def _holds(panel: Rect, point: Point) -> bool:
    return panel.x < point.x < panel.right and panel.y < point.y < panel.bottom


def _on_border(panel: Rect, mouth: Point) -> Point:
    """The point of the panel's border nearest to a mouth."""
    x = min(max(mouth.x, panel.x), panel.right)
    y = min(max(mouth.y, panel.y), panel.bottom)
    if (x, y) != (mouth.x, mouth.y):
        return Point(x, y)
    ways = (
        (x - panel.x, Point(panel.x, y)),
        (panel.right - x, Point(panel.right, y)),
        (panel.bottom - y, Point(x, panel.bottom)),
        (y - panel.y, Point(x, panel.y)),
    )
    return min(ways, key=lambda way: way[0])[1]


def _way_out(head: Rect, mouth: Point, towards: Point) -> float:
    """How far from a mouth its head ends, on the way to a balloon, mm."""
    a, b = head.width / 2, head.height / 2
    px, py = (mouth.x - head.centre.x) / a, (mouth.y - head.centre.y) / b
    away = max(mouth.distance(towards), 1e-9)
    vx, vy = (towards.x - mouth.x) / away / a, (towards.y - mouth.y) / away / b
    square, product, rest = vx * vx + vy * vy, px * vx + py * vy, px * px + py * py - 1
    return (math.sqrt(max(product * product - square * rest, 0.0)) - product) / square
