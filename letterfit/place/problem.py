"""Many panels' tasks in numbers: what the search works on, and nothing it could not mirror.

Each panel's top left corner is (0, 0), every outline of every menu of every panel has one number o,
and pages read right to left are mirrored, so that the search knows one direction only. Arrays over
panels and balloons are filled up with blanks where a panel has fewer balloons than another.

Arrays over layouts have their balloons first, layouts last: the inner loops then run over layouts,
and sums over balloons come out the same whatever stands beside a panel.
"""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from letterfit.geometry import Insets
from letterfit.outline import Floats, Outline
from letterfit.place.kernel import Bools, Ints, Pairs

Table = TypeVar("Table", Floats, Ints, Bools)

FAR = 1e4
"""In mm: how far above their panel blanks stand, where they are in nobody's way."""


@dataclass(frozen=True, slots=True, eq=False)
class Regions:
    """One keep-clear polygon of each panel: how far down and up it pushes an outline at x.

    Args:
        down: Shape (panels, 2, t): its support towards (+-cos t, +sin t), over sin t.
        up: Shape (panels, 2, t): the same towards (+-cos t, -sin t).
        left: Shape (panels,): its least x; infinite where a panel has none.
        right: Shape (panels,): its greatest x.
        gap: Shape (panels,): least distance to it, mm.
    """

    down: Floats
    up: Floats
    left: Floats
    right: Floats
    gap: Floats


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Voices:
    """Who speaks each balloon: arrays over k balloons of p panels.

    Args:
        joined: Shape (k, p): whether a balloon is joined to the one before it.
        share: Shape (k, p): one over the panel's balloons; 0 for blanks.
        lean: Shape (k, p): the x its speaker stands at, mm; 0 where there is none.
        leans: Shape (k, p): whether its speaker stands in the panel.
        mouth_y: Shape (k, p): the y its mouth is taken to be at, mm.
        caption: Shape (k, p): whether it is a caption.
        closing: Shape (k, p): whether it is one that comes last, after others.
        aside: Shape (k, p): whether its speaker stands off the panel, nobody knows where.
    """

    joined: Bools
    share: Floats
    lean: Floats
    leans: Bools
    mouth_y: Floats
    caption: Bools
    closing: Bools
    aside: Bools

    @classmethod
    def none(cls, balloons: int, panels: int) -> "Voices":
        """Blanks everywhere."""
        shape = balloons, panels
        return cls(
            joined=np.zeros(shape, dtype=np.bool_),
            share=np.zeros(shape),
            lean=np.zeros(shape),
            leans=np.zeros(shape, dtype=np.bool_),
            mouth_y=np.zeros(shape),
            caption=np.zeros(shape, dtype=np.bool_),
            closing=np.zeros(shape, dtype=np.bool_),
            aside=np.zeros(shape, dtype=np.bool_),
        )


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Rates:
    """What balloons cost by themselves: ratios, and ratios for each mm; k balloons of p panels.

    Args:
        outline: Per outline's number, what it costs wherever it stands.
        down: Shape (k, p): for each mm of its lower end from the panel's top.
        away: Shape (k, p): for each mm from where its speaker stands.
        side: Shape (k, p): for each mm from the nearer side.
        corner: Shape (k, p): for each mm from the left side.
    """

    outline: Floats
    down: Floats
    away: Floats
    side: Floats
    corner: Floats


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Problem:
    """The balloons of many panels, as arrays: p panels of up to k balloons.

    Args:
        gap: Least distance between outlines, mm.
        margin: Least distances to a panel's sides, mm.
        overlap: Depth by which joined balloons overlap, mm.
        ordered: Whether the reading order binds.
        size: Shape (p,): the number of balloons.
        width: Shape (p,), mm.
        height: Shape (p,), mm.
        aspect: Shape (p,): width over height of the figure.
        limit: Shape (p,): most area of outlines, mm2.
        regions: Keep-clear regions, one of each panel at a time.
        menus: Shape (p, k, m): the numbers of each balloon's outlines, wide to narrow; -1 is blank.
        few: Shape (p, k, f): those that the beam takes: spread evenly, the smallest among them, and
            those that look best.
        choices: Per number, the outline's place in the menu the caller gave.
        half_width: Per number, mm; the last number is a blank.
        half_height: Per number, mm.
        area: Per number, mm2.
        overhang: Per number, how far it may hang over the top border, mm.
        push: Shape (t, numbers): support of the outline grown by half the gap, over sin t.
        chord: Shape (numbers, STEPS + 1), mm: half chords, as in `kernel.Profile`.
        rise: Shape (numbers, STEPS + 1), mm: half upright chords.
        pairs: The tangents of outlines that keep the gap.
        outlines: Per number, but for the blank.
        voices: Who speaks, and what follows for the balloon.
        rates: What each balloon costs by itself.
        lenient: Whether the first of a row need only be below all of the rows before it, and what
            comes after it in its row no more than that; else whatever is wholly left of an earlier
            balloon is below all before it. Readers have then to be asked.
    """

    gap: float
    margin: Insets
    overlap: float
    ordered: bool
    size: Ints
    width: Floats
    height: Floats
    aspect: Floats
    limit: Floats
    regions: tuple[Regions, ...]
    menus: Ints
    few: Ints
    choices: Ints
    half_width: Floats
    half_height: Floats
    area: Floats
    overhang: Floats
    push: Floats
    chord: Floats
    rise: Floats
    pairs: Pairs
    outlines: tuple[Outline, ...]
    voices: Voices
    rates: Rates
    lenient: bool = False

    @property
    def most(self) -> int:
        """The most balloons that a panel has."""
        return int(self.menus.shape[1])

    @property
    def blank(self) -> int:
        """The number that stands for no outline."""
        return len(self.half_width) - 1


def columns(array: Table, rows: Ints) -> Table:
    """Some columns of an array (k, n), each row of them in one piece as in the array itself.

    An index in brackets would give the columns themselves in one piece: three times slower after.
    """
    return array.take(rows, axis=1)


@dataclass(frozen=True, slots=True, eq=False)
class Batch:
    """n layouts of k balloons, blanks among them: centres in mm and outline numbers.

    Args:
        panel: Shape (n,): which panel's.
        x: Shape (k, n), mm.
        y: Shape (k, n), mm.
        outline: Shape (k, n).
    """

    panel: Ints
    x: Floats
    y: Floats
    outline: Ints

    def __len__(self) -> int:
        return len(self.panel)

    def take(self, rows: Ints) -> "Batch":
        """The layouts of the given rows."""
        return Batch(
            self.panel[rows],
            columns(self.x, rows),
            columns(self.y, rows),
            columns(self.outline, rows),
        )

    def joined(self, x: Floats, y: Floats, outline: Ints) -> "Batch":
        """Every layout with one balloon more."""
        return Batch(
            self.panel,
            np.concatenate([self.x, x[None]]),
            np.concatenate([self.y, y[None]]),
            np.concatenate([self.outline, outline[None]]),
        )


def replaced(batch: Batch, rows: Ints, some: Batch) -> Batch:
    """The layouts, those of some rows replaced by others of the same panels."""
    x, y, outline = batch.x.copy(), batch.y.copy(), batch.outline.copy()
    x[:, rows], y[:, rows], outline[:, rows] = some.x, some.y, some.outline
    return Batch(batch.panel, x, y, outline)


def started(panels: Ints) -> Batch:
    """A layout without balloons for each of the panels."""
    none = np.zeros((0, len(panels)))
    return Batch(panels, none, none, none.astype(np.intp))


def filled(problem: Problem, batch: Batch) -> Batch:
    """The layouts with blanks for as many balloons as the largest panel has."""
    more = problem.most - len(batch.x), len(batch)
    return Batch(
        batch.panel,
        np.concatenate([batch.x, np.zeros(more)]),
        np.concatenate([batch.y, np.full(more, -FAR)]),
        np.concatenate([batch.outline, np.full(more, problem.blank)]),
    )


def together(batches: list[Batch]) -> Batch:
    """Layouts of equally many balloons, one after the other."""
    return Batch(
        np.concatenate([b.panel for b in batches]),
        np.concatenate([b.x for b in batches], axis=1),
        np.concatenate([b.y for b in batches], axis=1),
        np.concatenate([b.outline for b in batches], axis=1),
    )
