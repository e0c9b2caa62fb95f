"""The table of total fit: the best breaks of n pieces into exactly L lines, line by line.

The table is keyed (number of lines, first piece): entry [q, i] is the least cost of setting pieces
i .. n - 1 in the last q lines. Costs are given per line, since the lines of a stack differ in
width; they are combined over the stack by their largest (the smallest outline round a stack is that
of its most demanding line) or by their sum (total fit in the sense of Knuth and Plass, "Breaking
Paragraphs into Lines", Software: Practice and Experience 11, 1981). Either way the table is exact.

Costs have the shape (..., reach, n): entry [..., r, i] is the line of pieces i .. i + r, infinite
where there is no such line. Leading axes are a batch: many tables filled at once.
"""

import math
from collections.abc import Sequence
from typing import Any, Literal

import numpy as np
import numpy.typing as npt

from letterfit.errors import OutlineError

Reals = npt.NDArray[np.floating[Any]]

Combine = Literal["max", "sum"]


def nothing_left(batch: tuple[int, ...], pieces: int) -> npt.NDArray[np.float64]:
    """Row 0 of a table: no line left is right only when no piece is left."""
    row = np.full((*batch, pieces + 1), math.inf)
    row[..., pieces] = 0.0
    return row


def row_above(costs: Reals, below: Reals, *, combine: Combine = "max") -> Reals:
    """One more line on top: the next row of the table.

    Args:
        costs: Shape (..., reach, n): this line's cost for every run of pieces.
        below: Shape (..., n + 1): the row for the lines under it.
        combine: How costs of lines make the cost of a stack.

    Returns:
        Shape (..., n + 1); infinite where no setting exists.
    """
    row = np.full(below.shape, math.inf, dtype=below.dtype)
    row[..., :-1] = through(costs, below, combine=combine).min(axis=-2)
    return row


def through(costs: Reals, below: Reals, *, combine: Combine = "max") -> Reals:
    """The cost of a stack's rest through every candidate for its first line: costs' own shape."""
    reach, pieces = costs.shape[-2:]
    padded = np.full((*below.shape[:-1], pieces + reach), math.inf, dtype=below.dtype)
    padded[..., : pieces + 1] = below
    rest = padded[..., np.arange(1, reach + 1)[:, None] + np.arange(pieces)]
    result: Reals = np.maximum(costs, rest) if combine == "max" else costs + rest
    return result


def first_pieces(
    line_costs: Sequence[Reals], rows: Sequence[Reals], *, combine: Combine = "max"
) -> npt.NDArray[np.int64]:
    """Read the best stack off a finished table, one per entry of the batch.

    Args:
        line_costs: Per line, top to bottom: shape (batch, reach, n).
        rows: The table's rows 0 .. L, shape (batch, n + 1) each.
        combine: As the table was filled.

    Returns:
        Shape (batch, L + 1): the first piece of every line, and n at the end. Of equal stacks the
        one with the shorter upper lines. Nonsense where the table's answer is infinite.
    """
    count = len(line_costs)
    batch = np.arange(rows[0].shape[0])
    firsts = np.zeros((len(batch), count + 1), dtype=np.int64)
    for k, costs in enumerate(line_costs):
        below, reach = rows[count - 1 - k], costs.shape[1]
        last = below.shape[1] - 1
        ends = np.minimum(firsts[:, k, None] + np.arange(1, reach + 1), last)
        here = costs[batch, :, np.minimum(firsts[:, k], last - 1)]
        rest = below[batch[:, None], ends]
        total = np.maximum(here, rest) if combine == "max" else here + rest
        firsts[:, k + 1] = np.minimum(firsts[:, k] + 1 + total.argmin(axis=1), last)
    return firsts


def best_breaks(
    line_costs: Sequence[Reals], *, combine: Combine, lines: int | None = None
) -> tuple[float, tuple[int, ...]]:
    """The best breaks into at most, or exactly, so many lines.

    Args:
        line_costs: One array of shape (reach, n) for every line that may be used, top to bottom;
            a text that needs more lines has no answer: the last array is never used twice.
        combine: "max" or "sum" of the costs of lines.
        lines: Exactly so many lines, the first ones of `line_costs`; None for the best number.

    Returns:
        The cost, and the last piece of every line; (infinity, ()) when nothing fits. Of equal
        answers the one with fewer lines.

    Raises:
        OutlineError: When more lines are asked for than there are costs.

    >>> widths = np.array([3, 2, 2, 5])     # "aaa bb cc ddddd" in lines of 6: raggedness squared
    >>> line = [[widths[i : i + r + 1].sum() + r if i + r < 4 else 99 for i in range(4)]
    ...         for r in range(4)]
    >>> rag = np.array([[(6 - w) ** 2 if w <= 6 else math.inf for w in row] for row in line])
    >>> best_breaks([rag] * 4, combine="sum")
    (11.0, (0, 2, 3))
    """
    if lines is not None and lines > len(line_costs):
        raise OutlineError(
            f"{lines} lines are asked for but only {len(line_costs)} have a width",
            advice="give every line its own width",
        )
    counts = range(1, len(line_costs) + 1) if lines is None else (lines,)
    best: tuple[float, tuple[int, ...]] = (math.inf, ())
    for count in counts:
        used = [np.asarray(costs, dtype=np.float64)[None] for costs in line_costs[:count]]
        rows: list[Reals] = [nothing_left((1,), used[0].shape[-1])]
        for costs in reversed(used):
            rows.append(row_above(costs, rows[-1], combine=combine))
        if rows[-1][0, 0] < best[0]:
            ends = first_pieces(used, rows, combine=combine)[0, 1:] - 1
            best = (float(rows[-1][0, 0]), tuple(ends.tolist()))
    return best
