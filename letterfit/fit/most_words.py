"""As many words from the front of a text as an outline holds."""

import numpy as np
import numpy.typing as npt

from letterfit.fit.ink import Stack
from letterfit.fit.lines import Candidates, Shapes, reach_of
from letterfit.fit.scales import line_scales
from letterfit.fit.stack import half_leadings
from letterfit.lettering.words import Words
from letterfit.outline import Outline

Bools = npt.NDArray[np.bool_]

ROUNDING = 1e-12
"""A line that asks for more than the outline by this share fits."""


def most_words(words: Words, outline: Outline, *, air: float) -> Stack:
    """The stack that sets the most words from the front, whole words only.

    Every number of lines is tried: with more lines the first one stands higher and is shorter. Of
    stacks with equally many words the one with the fewest lines is returned.

    Args:
        words: The text.
        outline: The outline to stay in.
        air: mm.

    Returns:
        First piece of every line, and one past the last piece set; (0,) when not even a word fits.
    """
    lines = Candidates.of(words, air=air, reach=reach_of(words, 2 * outline.half_width))
    most = _most_lines(lines, outline, pieces=len(words))
    places = np.arange(-most, most + 1)
    asked = lines.scales(
        Shapes.of((outline,)), places=places, which=np.zeros_like(places), expected=np.ones(1)
    )
    fits = asked <= 1 + ROUNDING
    begins = np.append(words.word_counts > 0, True)
    best: Stack = (0,)
    for count in range(1, most + 1):
        rows = fits[half_leadings(count) + most].copy()
        while True:
            stack = _farthest(rows, begins, beyond=best[-1])
            if stack is None:
                break
            over = line_scales(lines.boxes, outline, stack, air=air) > 1 + ROUNDING
            if not over.any():
                best = stack
                break
            for line in np.flatnonzero(over).tolist():
                first, end = stack[line], stack[line + 1]
                rows[line, end - first - 1, first] = False
    return best


def _most_lines(lines: Candidates, outline: Outline, *, pieces: int) -> int:
    """No stack of more lines keeps its first line inside the outline."""
    first = float(lines.ink[0, -1, 0, 0])
    room = outline.half_height - lines.air - (first if np.isfinite(first) else 0.0)
    return int(np.clip(1 + room // lines.half_leading, 1, pieces)) if room >= 0 else 1


def _farthest(fits: Bools, begins: Bools, *, beyond: int) -> Stack | None:
    """A stack of len(fits) fitting lines that gets farthest, and farther than `beyond`.

    Args:
        fits: Shape (L, reach, n): whether line k may hold pieces i .. i + r.
        begins: Shape (n + 1,): whether a word begins at the piece, or the text ends there.
        beyond: The piece to get past.
    """
    starts = [np.zeros(len(begins), dtype=np.bool_)]
    starts[0][0] = True
    for row in fits:
        run, first = np.nonzero(row & starts[-1][:-1])
        nexts = np.zeros(len(begins), dtype=np.bool_)
        nexts[first + run + 1] = True
        starts.append(nexts)
    ends = np.flatnonzero(starts[-1] & begins)
    if not len(ends) or ends[-1] <= beyond:
        return None
    stack = [int(ends[-1])]
    for row, before in zip(fits[::-1], starts[-2::-1], strict=True):
        first = np.arange(max(0, stack[-1] - row.shape[0]), stack[-1])
        good = before[first] & row[stack[-1] - 1 - first, first]
        stack.append(int(first[good][0]))
    return tuple(stack[::-1])
