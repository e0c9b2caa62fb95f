"""Which balloons share a tail: joined ones, and neighbours that a narrow bridge links.

Balloons of one voice that follow each other in the script make a chain as long as each is joined to
the one before it or can be linked to it: near enough, with nothing in between. A chain has one tail
to the mouth, as letterers do it (common practice, no source).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.drawn.burst import Burst
from letterfit.drawn.cloud import Cloud
from letterfit.drawn.model import Drawn
from letterfit.geometry import Point
from letterfit.outline import Outline
from letterfit.place.model import PlacedOutline, Tail
from letterfit.place.tail_body import on_line
from letterfit.place.tail_plain import is_clear
from letterfit.place.tail_scene import Scene
from letterfit.place.tail_shapes import HIT, Wedges, cheapest
from letterfit.place.tail_walk import DIRECTIONS, facing, gap_between

LINK = 6.0
"""Most distance in mm of balloons that are linked."""

FAR_LINK = 12.0
"""Most distance in mm of balloons that are linked because no tail to the mouth runs clear."""

BRIDGE = 4.2
"""Width of a bridge at its root, mm."""

TOUCH = 0.35
"""How far in mm the tip of a link stays off the outline it leads to: just over CLEAR."""

Run = tuple[int, ...]
"""Balloons joined to each other, counted from 0."""

Pair = tuple[int, int]
"""A balloon and the one that it is linked to."""

_NONE = np.empty((0, DIRECTIONS))


@dataclass(frozen=True, slots=True)
class Chain:
    """Runs of one voice, each linked to the next.

    Args:
        runs: The runs, in script order.
        links: For each two that follow each other, the balloons that the bridge stands between,
            and the link from the earlier one.
    """

    runs: tuple[Run, ...]
    links: tuple[tuple[Pair, Tail], ...] = ()

    @property
    def balloons(self) -> tuple[int, ...]:
        """All its balloons."""
        return tuple(index for run in self.runs for index in run)


def chains(scene: Scene) -> list[Chain]:
    """The chains of a panel, in script order; captions belong to none."""
    found: list[Chain] = []
    for run in _runs(scene):
        link = _bridge_to(scene, found[-1].runs[-1], run, most=LINK) if found else None
        if link:
            found[-1] = Chain((*found[-1].runs, run), (*found[-1].links, link))
        else:
            found.append(Chain((run,)))
    return found


def far_links(scene: Scene, all_chains: Sequence[Chain], number: int) -> list[Pair]:
    """Longer bridges from one chain to the one before or after it: from its balloon to theirs."""
    chain = all_chains[number]
    links = []
    if number:
        link = _bridge_to(scene, all_chains[number - 1].runs[-1], chain.runs[0], most=FAR_LINK)
        links += [link[0][::-1]] if link else []
    if number + 1 < len(all_chains):
        link = _bridge_to(scene, chain.runs[-1], all_chains[number + 1].runs[0], most=FAR_LINK)
        links += [link[0]] if link else []
    return links


def link_tails(scene: Scene, chain: Chain, carrier: int) -> Iterator[tuple[int, Tail]]:
    """The tails of the runs that do not carry the tail to the mouth, each with its balloon."""
    home = next(k for k, run in enumerate(chain.runs) if carrier in run)
    for k, ((one, two), tail) in enumerate(chain.links):
        yield (one, tail) if k < home else (two, bridge(scene, two, one))


def bridge(scene: Scene, start: int, end: int) -> Tail:
    """The link from one balloon to just off another, straight, where they are nearest."""
    item, other = scene.placed[start], scene.placed[end]
    way = gap_between(item, other)[1]
    across, moved = way * 1j, complex(other.x_mm - item.x_mm, other.y_mm - item.y_mm)
    near, far = facing(item.outline, way), facing(other.outline, -way)
    ours = sorted((p / across).real for p in near)
    theirs = sorted(((p + moved) / across).real for p in far)
    # The middle of what faces each other; where nothing does, the nearest end of either.
    beside = (max(ours[0], theirs[0]) + min(ours[1], theirs[1])) / 2
    foot = _facing_foot(item.outline, near[0], way, beside=min(max(beside, ours[0]), ours[1]))
    beside = min(max(beside, theirs[0]), theirs[1]) - (moved / across).real
    tip = moved + _facing_foot(other.outline, far[0], way, beside=beside) - way * TOUCH
    first, last = (on_line(item.outline, foot + across * side * BRIDGE / 2) for side in (-1, 1))
    centre = complex(item.x_mm, item.y_mm)
    root = _point(centre + first), _point(centre + last)
    return Tail(root=root, tip=_point(centre + tip), to=end)


def _facing_foot(outline: Outline, end: complex, way: complex, *, beside: float) -> complex:
    """The point of an outline's line that lies so far beside its centre on the side that faces."""
    return on_line(outline, way * (end / way).real + way * 1j * beside)


def _runs(scene: Scene) -> Iterator[Run]:
    """Joined balloons together, each other one alone; captions not at all."""
    run: Run = ()
    for index, (item, speaker) in enumerate(zip(scene.placed, scene.speakers, strict=True)):
        if run and not (item.joined and run[-1] == index - 1):
            yield run
            run = ()
        if speaker is not None:
            run = (*run, index)
    if run:
        yield run


def _bridge_to(scene: Scene, before: Run, after: Run, *, most: float) -> tuple[Pair, Tail] | None:
    """The nearest balloons of two runs, if one voice speaks both and a bridge runs clear."""
    if after[0] != before[-1] + 1 or not _are_alike(scene, before[-1], after[0]):
        return None
    pairs = [
        (gap_between(scene.placed[i], scene.placed[j])[0], -i, j) for i in before for j in after
    ]
    gap, start, end = min(pairs)
    if not 0 < gap <= most:
        return None
    tail = bridge(scene, -start, end)
    if not is_clear(scene, tail, -start):
        tried = _as_wedges(scene.placed[-start], tail)
        bodies = scene.bodies(-start, linked=end)
        if cheapest(scene.panel, tried, bodies=bodies, others=_NONE)[1] >= HIT:
            return None
    return (-start, end), tail


def _are_alike(scene: Scene, one: int, two: int) -> bool:
    """Whether one voice speaks both in the same manner: no thought is linked to a speech.

    Nor clouds and bursts to each other: a neck has no place in an uneven line.
    """
    outlines = scene.placed[one].outline, scene.placed[two].outline
    uneven = isinstance(outlines[0], Cloud | Burst)
    same = scene.speakers[one] == scene.speakers[two]
    return same and not uneven and _line(outlines[0]) == _line(outlines[1])


def _line(outline: Outline) -> str:
    """How an outline's line looks: drawn in a manner of its own, or plain."""
    return outline.kind if isinstance(outline, Drawn) else "plain"


def _as_wedges(item: PlacedOutline, tail: Tail) -> Wedges:
    """A straight tail as the only one tried."""
    first, last, tip = (np.array([complex(p.x, p.y)]) for p in (*tail.root, tail.tip))
    return Wedges(item, first, last, ((first + last) / 2 + tip) / 2, tip, np.zeros(1))


def _point(place: complex) -> Point:
    return Point(place.real, place.imag)
