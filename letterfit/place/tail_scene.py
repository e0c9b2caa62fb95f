"""What the tails of one panel see, in plain numbers and, where those do not do, by reaches.

What tails must not cross are outlines, faces, keep-clear regions and tails; what they had better
not cross are other speakers' figures. A reach is a support function in the directions of
`tail_walk`.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import partial

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats
from letterfit.place.model import PlacedOutline, Speaker, Tail
from letterfit.place.silhouette import body_in, head_in, mouth_in
from letterfit.place.tail_walk import (
    DIRECTIONS,
    box_reach,
    corners_reach,
    ellipse_reach,
    outline_reach,
)
from letterfit.place.wedge import tail_polygon

FACE = 2.5
"""Half the side in mm of the square round a mouth of which no head is known: tails keep out."""

CHORDS = 4
"""Chords on each side of a tail when others keep off it."""


Way = tuple[complex, complex]
"""A segment by its ends, mm."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as tails see it: its mouth, the box round its head, the box round its body."""

    mouth: Point
    head: Rect
    body: Rect


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """A panel as tails see it.

    Args:
        panel: The panel.
        placed: The outlines at their places, in script order.
        speakers: One per outline.
        mouths: One per outline; None for who stands off the panel.
        regions: Keep-clear polygons.
        figures: The figures.
        faces: Mouths that are in no figure's head.
        tails: The tails drawn so far, links too.
        ways: Mouths that these point at, and the way there from each tip.
        told: Reaches asked for so far.
    """

    panel: Rect
    placed: tuple[PlacedOutline, ...]
    speakers: tuple[Speaker | None, ...]
    mouths: tuple[Point | None, ...]
    regions: tuple[tuple[Point, ...], ...]
    figures: tuple[Figure, ...]
    faces: tuple[Point, ...]
    tails: list[Tail] = field(default_factory=list)
    ways: list[tuple[Point | None, Way]] = field(default_factory=list)
    told: dict[str | Tail, list[Floats]] = field(default_factory=dict)

    def bodies(self, index: int, *, linked: int | None = None) -> Floats:
        """The reaches, shape (m, DIRECTIONS), of all that a balloon's tail keeps out of.

        Args:
            index: The balloon, counted from 0. Its own mouth without a head is none of them.
            linked: A balloon that the tail leads to.
        """
        mouth = self.mouths[index]
        rows = self._outlines(index, linked)
        rows += self._once("heads", lambda: [ellipse_reach(f.head) for f in self.figures])
        rows += self._once("regions", lambda: [corners_reach(_complex(r)) for r in self.regions])
        rows += [box_reach(face_box(point)) for point in self.faces if point != mouth]
        return _rows([*rows, *self._tails()])

    def others(self, index: int) -> Floats:
        """The reaches of the figures of all who speak with another mouth."""
        return _rows(self._others(index))

    def between(self, index: int) -> Floats:
        """The reaches of what had better not be between a tail and its mouth."""
        ways = [corners_reach(np.array(way)) for way in self.crossing_ways(index)]
        return _rows([*self._outlines(index), *self._others(index), *self._tails(), *ways])

    def crossing_ways(self, index: int) -> list[Way]:
        """The ways on from the tips of all tails that point at another mouth."""
        own = self.mouths[index]
        return [way for mouth, way in self.ways if mouth != own]

    def draw(self, tail: Tail, index: int, point: Point) -> None:
        """Let later tails see one that points at a place."""
        self.tails.append(tail)
        way = complex(tail.tip.x, tail.tip.y), complex(point.x, point.y)
        self.ways.append((self.mouths[index], way))

    def _outlines(self, *passed: int | None) -> list[Floats]:
        rows = self._once("outlines", lambda: [outline_reach(item) for item in self.placed])
        return [row for i, row in enumerate(rows) if i not in passed]

    def _others(self, index: int) -> list[Floats]:
        own = self.mouths[index]
        rows = self._once("bodies", lambda: [box_reach(figure.body) for figure in self.figures])
        return [row for row, f in zip(rows, self.figures, strict=True) if f.mouth != own]

    def _tails(self) -> list[Floats]:
        rows: list[Floats] = []
        for tail in self.tails:
            rows += self._once(tail, partial(_halves, tail))
        return rows

    def _once(self, name: str | Tail, made: Callable[[], list[Floats]]) -> list[Floats]:
        """Reaches, told the first time that they are asked for."""
        if name not in self.told:
            self.told[name] = made()
        return self.told[name]

    def head_of(self, mouth: Point) -> Rect | None:
        """The head that a mouth is in, if it is a figure's."""
        return next((figure.head for figure in self.figures if figure.mouth == mouth), None)


def scene_of(  # noqa: PLR0913 - all that tails keep clear of
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    speakers: Sequence[Speaker | None],
    mouths: Sequence[Point | None],
    keep_clear: Sequence[Sequence[Point]],
    figures: Sequence[Rect],
) -> Scene:
    """A panel as tails see it; the arguments are those of `with_tails`."""
    seen = tuple(Figure(mouth_in(box), head_in(box), body_in(box)) for box in figures)
    own = [figure.mouth for figure in seen]
    return Scene(
        panel=panel,
        placed=tuple(placed),
        speakers=tuple(speakers),
        mouths=tuple(mouths),
        regions=tuple(map(tuple, keep_clear)),
        figures=seen,
        faces=tuple(dict.fromkeys(m for m in mouths if m is not None and m not in own)),
    )


def _rows(rows: Sequence[Floats]) -> Floats:
    return np.array(rows) if rows else np.empty((0, DIRECTIONS))


def face_box(mouth: Point) -> Rect:
    """The square round a mouth of which no head is known.

    >>> face_box(Point(10, 10))
    Rect(x=7.5, y=7.5, width=5.0, height=5.0)
    """
    return Rect(mouth.x - FACE, mouth.y - FACE, 2 * FACE, 2 * FACE)


def _halves(tail: Tail) -> list[Floats]:
    """The reaches of the hulls of a tail's two halves."""
    corners = np.array([complex(p.x, p.y) for p in tail_polygon(tail, CHORDS)])
    if len(corners) == 3:  # straight: a triangle
        return [corners_reach(corners)]
    middle = CHORDS // 2
    root = [*range(middle + 1), *range(2 * CHORDS - middle, 2 * CHORDS + 1)]
    return [corners_reach(corners[root]), corners_reach(corners[middle : 2 * CHORDS - middle + 1])]


def _complex(corners: Sequence[Point]) -> "np.typing.NDArray[np.complex128]":
    return np.array([complex(p.x, p.y) for p in corners])
