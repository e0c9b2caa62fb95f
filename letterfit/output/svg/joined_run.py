"""The one line round a run of joined balloons: of each outline what lies outside the others.

The pieces meet where the outlines cross, and are strung into closed loops: one round a run, and one
more round any gap that a run of three or more leaves in its middle.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

import numpy as np

from letterfit.geometry import Point
from letterfit.outline import Floats, Outline
from letterfit.output.svg.balloon_shape import body_and_tail
from letterfit.output.svg.curves import at, path_data, points_at, stretch
from letterfit.place.model import Tail

SAMPLES = 48
"""Points of each curve at which an outline is asked whether it lies in another balloon."""

BISECTIONS = 40
"""Where it enters one: a sample's distance halved so often is rounding."""

Part = tuple[Outline, Point, Tail | None]
"""A balloon of the run: its outline, its centre on the page in mm, its tail or None."""


def run_contour(parts: Sequence[Part]) -> str:
    """Path data of the line round joined balloons, with their tail.

    Args:
        parts: The balloons, each overlapping the one before it.

    >>> from letterfit.outline import Ellipse
    >>> disc = Ellipse(half_width=5, half_height=5)
    >>> run_contour([(disc, Point(0, 0), None), (disc, Point(7, 0), None)]).count("M")
    1
    """
    pieces = [piece for k in range(len(parts)) for piece in _outside(k, parts)]
    return "".join(path_data(loop) for loop in _loops(pieces))


def _outside(number: int, parts: Sequence[Part]) -> Iterator[Floats]:
    """The pieces of one balloon's line that lie in no other balloon."""
    outline, centre, tail = parts[number]
    line = _clockwise(body_and_tail(outline, centre, tail))
    others = [(o.contains, c) for k, (o, c, _) in enumerate(parts) if k != number]

    def is_clear(x: float, y: float) -> bool:
        return not any(contains(x - c.x, y - c.y) for contains, c in others)

    def is_free(where: float) -> bool:
        x, y = at(line, where).tolist()
        return is_clear(x, y)

    dots = points_at(line, np.arange(SAMPLES * len(line)) / SAMPLES)
    free = [is_clear(x, y) for x, y in dots.tolist()]
    if all(free):
        yield line
    if all(free) or not any(free):
        return
    turns = [k for k in range(len(free)) if free[k] != free[k - 1]]
    bounds = [_turn(is_free, (k - 1) / SAMPLES, k / SAMPLES) % len(line) for k in turns]
    for (k, start), (_, end) in pairwise([*zip(turns, bounds, strict=True), (0, bounds[0])]):
        if free[k]:
            yield stretch(line, start, end)


def _turn(is_free: Callable[[float], bool], low: float, high: float) -> float:
    """Where, between two parameters, a line enters a balloon or leaves it."""
    before = is_free(low)
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        low, high = (middle, high) if is_free(middle) == before else (low, middle)
    return (low + high) / 2


def _clockwise(line: Floats) -> Floats:
    """A closed chain run the same way round as all others."""
    dots = points_at(line, np.arange(4 * len(line)) / 4)
    after = np.roll(dots, -1, axis=0)
    area = float((dots[:, 0] * after[:, 1] - dots[:, 1] * after[:, 0]).sum())
    return line if area > 0 else line[::-1, ::-1]


def _loops(pieces: Sequence[Floats]) -> Iterator[Floats]:
    """The pieces strung together, the end of each at the beginning of the nearest."""
    left = list(pieces)
    while left:
        loop = [left.pop(0)]
        while True:
            end = loop[-1][-1, 3]
            gaps = [float(np.hypot(*(one[0, 0] - end))) for one in (loop[0], *left)]
            nearest = int(np.argmin(gaps))
            if not nearest:
                break
            loop.append(left.pop(nearest - 1))
        for piece, following in zip(loop, [*loop[1:], loop[0]], strict=True):
            piece[-1, 3] = following[0, 0]
        yield np.concatenate(loop)
