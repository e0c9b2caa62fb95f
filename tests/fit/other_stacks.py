"""Another stack within the slack that keeps a rule, by a search that shares no code with the fit's.

At each aspect of a grid the outline of the allowed area is tried as it is: a line may stand at a
place when its ink and the air reach no farther, in any of the directions sampled, than the outline
does. Stacks are walked from the top, line by line; what was found to lead nowhere is remembered.
A stack that is found does exist (up to the directions sampled, some 1e-4 of the area); one that
lies between two aspects of the grid may be missed.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from letterfit.families import FAMILIES
from letterfit.fit.aspects import unit_outline
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

Stack = tuple[int, ...]
Flags = npt.NDArray[np.bool_]

TURN = np.linspace(0, math.pi / 2, 91)
"""Directions: outlines are symmetric."""

ASPECTS, MOST_LINES, SHORT = 60, 14, 3


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """How far the ink of every candidate line reaches, its advance centred.

    Args:
        words: The text.
        up: Shape (n, n + 1, directions), mm: upwards and sideways from the baseline.
        down: Shape (n, n + 1, directions), mm: downwards and sideways.
        widths: Shape (n, n + 1), mm: advances; infinite where there is no such line.
    """

    words: Words
    up: Floats
    down: Floats
    widths: Floats

    @classmethod
    def of(cls, words: Words, *, widest: float) -> "Lines":
        """The lines of a text that are no wider than so many mm, by the model's own `line`."""
        count = len(words)
        up = np.full((count, count + 1, len(TURN)), np.inf)
        down, widths = up.copy(), np.full((count, count + 1), np.inf)
        for first in range(count):
            for end in range(first + 1, count + 1):
                if words.width(first, end - 1) > widest or words.forced[first : end - 1].any():
                    break
                line = words.line(first, end - 1)
                x, y = (line.corners() - [line.width_mm / 2, 0.0]).T
                sides = np.abs(x)[:, None] * np.cos(TURN)
                up[first, end] = (sides - y[:, None] * np.sin(TURN)).max(axis=0)
                down[first, end] = (sides + y[:, None] * np.sin(TURN)).max(axis=0)
                widths[first, end] = line.width_mm
        return cls(words, up, down, widths)

    def allowed(self, outline: Outline, *, count: int, air: float) -> Flags:
        """Whether each line may stand at each place of a stack: shape (count, n, n + 1)."""
        room = outline.support(TURN) - air
        result = np.zeros((count, *self.widths.shape), dtype=np.bool_)
        for place in range(count):
            middle = (2 * place - count + 1) * self.words.leading_mm / 2
            drop = (middle + self.words.cap_height_mm / 2) * np.sin(TURN)
            reach = np.maximum(self.up - drop, self.down + drop)
            result[place] = (reach <= room).all(axis=-1)
        return result


@dataclass(slots=True, eq=False)
class Walk:
    """A walk over the stacks of so many lines.

    Args:
        lines: The lines.
        allowed: Shape (count, n, n + 1): which may stand where.
        line_keeps: Whether a line (first piece, end, place from the top) keeps the rule.
        shaped: Whether stacks have to rise and then fall.
        dead: What leads nowhere.
    """

    lines: Lines
    allowed: Flags
    line_keeps: Callable[[int, int, int], bool]
    shaped: bool
    dead: set[tuple[int, int, int, bool]] = field(default_factory=set)

    def below(self, first: int, *, above: int, place: int, falling: bool) -> Stack | None:
        """The ends of the lines from a place down, or None."""
        key = (place, above, first, falling)
        if key in self.dead:
            return None
        for end in np.flatnonzero(self.allowed[place, first]).tolist():
            last = place == len(self.allowed) - 1
            if last != (end == len(self.lines.words)) or not self.line_keeps(first, end, place):
                continue
            down = falling
            if place and self.shaped:
                growth = self.lines.widths[first, end] - self.lines.widths[above, first]
                if falling and growth > 1e-6:
                    continue
                down = falling or bool(growth < -1e-6)
            rest = () if last else self.below(end, above=first, place=place + 1, falling=down)
            if rest is not None:
                return (end, *rest)
        self.dead.add(key)
        return None


def other_stack(
    words: Words,
    *,
    most: float,
    air: float,
    name: str = "ellipse",
    shaped: bool = False,
    priced: float = math.inf,
) -> Stack | None:
    """A stack with no lone short word first or last that goes into some outline of an area.

    Args:
        words: The text.
        most: The area, mm2.
        air: mm.
        name: The family; its aspects are those letterers use.
        shaped: Whether it has to rise and then fall.
        priced: No line but the last ends at a break of this price or a higher one.
    """
    units = [unit_outline(name, a) for a in np.geomspace(*FAMILIES[name].aspect, ASPECTS).tolist()]
    outlines = [unit.scaled(math.sqrt(most / unit.area_mm2)) for unit in units]
    lines = Lines.of(words, widest=2 * max(outline.half_width for outline in outlines))
    for outline in outlines:
        for count in range(1, min(MOST_LINES, len(words)) + 1):
            if count * words.leading_mm > 2 * outline.half_height + words.leading_mm:
                break

            def keeps(first: int, end: int, place: int, count: int = count) -> bool:
                if end < len(words) and words.penalties[end - 1] >= priced:
                    return False
                return count == 1 or place not in (0, count - 1) or not lone(words, first, end)

            walk = Walk(lines, lines.allowed(outline, count=count, air=air), keeps, shaped)
            ends = walk.below(0, above=0, place=0, falling=False)
            if ends is not None:
                return (0, *ends)
    return None


def lone(words: Words, first: int, end: int) -> bool:
    """Whether a line is one word of at most three letters."""
    letters = sum(map(str.isalnum, words.slice_text(first, end - 1)))
    return letters <= SHORT and int(words.word_counts[first + 1 : end].sum()) == 0
