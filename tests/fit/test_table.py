"""The minimax and total-fit tables against plain enumeration."""

import math
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from letterfit.fit.table import Combine, best_breaks, first_pieces, nothing_left, row_above
from letterfit.outline import Floats

costs = st.integers(1, 7).flatmap(
    lambda n: arrays(
        np.float64, (n, n, n), elements=st.sampled_from([0.0, 0.5, 1.0, 2.0, 3.5, 9.0, math.inf])
    )
)


def enumerate_best(line_costs: Floats, combine: Combine, lines: int) -> float:
    """The best cost of exactly so many lines over all breaks."""
    count = line_costs.shape[-1]
    best = math.inf
    for cuts in combinations(range(1, count), lines - 1):
        spans = pairwise((0, *cuts, count))
        parts = [line_costs[k, end - first - 1, first] for k, (first, end) in enumerate(spans)]
        best = min(best, max(parts) if combine == "max" else sum(parts))
    return best


@pytest.mark.parametrize("combine", ["max", "sum"])
@given(line_costs=costs, lines=st.integers(1, 7))
def test_the_table_finds_the_enumerated_best(
    combine: Combine, line_costs: Floats, lines: int
) -> None:
    """Different costs on every line: the table's value and breaks are those of enumeration."""
    lines = min(lines, len(line_costs))
    cost, ends = best_breaks(list(line_costs), combine=combine, lines=lines)
    assert cost == enumerate_best(line_costs, combine, lines)
    if math.isfinite(cost):
        bounds = (0, *(end + 1 for end in ends))
        parts = [line_costs[k, j - i - 1, i] for k, (i, j) in enumerate(pairwise(bounds))]
        assert cost == (max(parts) if combine == "max" else sum(parts))
        assert len(ends) == lines


@given(line_costs=costs)
def test_the_best_number_of_lines_is_found(line_costs: Floats) -> None:
    """Left free, the number of lines is the best one, and of equals the least."""
    cost, ends = best_breaks(list(line_costs), combine="sum")
    each = [enumerate_best(line_costs, "sum", k + 1) for k in range(len(line_costs))]
    assert cost == min(each)
    if math.isfinite(cost):
        assert len(ends) == each.index(cost) + 1


@given(line_costs=costs)
def test_a_batch_is_as_good_as_one_by_one(line_costs: Floats) -> None:
    """Tables filled side by side give what each gives alone."""
    batch = [np.stack([cost, cost[:, ::-1]]) for cost in line_costs]
    rows = [nothing_left((2,), line_costs.shape[-1])]
    for cost in batch[::-1]:
        rows.append(np.asarray(row_above(cost, rows[-1])))
    firsts = first_pieces(batch, rows)
    for side in range(2):
        alone = best_breaks([cost[side] for cost in batch], combine="max", lines=len(batch))
        assert rows[-1][side, 0] == alone[0]
        if math.isfinite(alone[0]):
            assert tuple((firsts[side, 1:] - 1).tolist()) == alone[1]


def test_a_shortcut_by_line_number_would_miss_this() -> None:
    """Unequal lines: the best start of two lines is no part of the best stack of three."""
    inf = math.inf
    first = np.array([[0.0, inf, inf], [1.0, inf, inf], [inf, inf, inf]])
    second = np.array([[inf, 5.0, 0.0], [inf, 0.0, inf], [inf, inf, inf]])
    third = np.array([[inf, inf, 0.0], [inf, inf, inf], [inf, inf, inf]])
    assert best_breaks([first, second], combine="sum", lines=2) == (0.0, (0, 2))
    assert best_breaks([first, second, third], combine="sum", lines=3) == (5.0, (0, 1, 2))
