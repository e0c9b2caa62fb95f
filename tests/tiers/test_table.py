"""The cheapest grid of open sizes: against a solver of integer programs, all grids, by hand."""

from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from letterfit.tiers.grid import Row, Span
from letterfit.tiers.table import EVENLY, TOUCHED, TierTable, Window, cheapest, tier_table


def span(own: float, *, by: float = 0.4) -> Span:
    """A size that may change by a share of itself."""
    return Span(own, own * (1 - by), own * (1 + by))


def tables_of(rows: Sequence[Row], steps: int, *, step_mm: float = 1.0) -> list[TierTable]:
    """Tables of so many steps to each side of what is."""
    whole = sum(row.height.own for row in rows)
    return [
        tier_table(
            row,
            whole,
            height=Window(row.height.own, steps),
            widths=[Window(place.own, steps) for place in row.widths],
            step_mm=step_mm,
        )
        for row in rows
    ]


def by_lot(seed: int, *, most_places: int = 4) -> list[TierTable]:
    """One to four tiers; in each place sizes are closed below a slope, and here and there."""
    lot = np.random.default_rng(seed)
    rows = [
        Row(
            span(float(lot.uniform(40, 70))),
            tuple(
                span(float(lot.uniform(35, 60))) for _ in range(lot.integers(1, most_places + 1))
            ),
        )
        for _ in range(lot.integers(1, 5))
    ]
    tables = tables_of(rows, 4)
    for table in tables:
        for place in range(len(table.widths)):
            high, wide = np.indices(table.open[place].shape)
            closed = high + lot.uniform(0.2, 2) * wide < lot.uniform(0, 11)
            table.close(place, closed | (lot.random(closed.shape) < 0.15))
    return tables


def cost(
    tables: Sequence[TierTable], heights: Sequence[int], widths: Sequence[Sequence[int]]
) -> float:
    """What a grid costs by the tables' prices."""
    return float(
        sum(
            table.height_price[h]
            + sum(price[w] for price, w in zip(table.width_prices, own, strict=True))
            for table, h, own in zip(tables, heights, widths, strict=True)
        )
    )


def found(tables: Sequence[TierTable]) -> tuple[list[int], list[list[int]]] | None:
    """The cheapest grid: numbers of heights and of widths."""
    heights = cheapest(tables)
    if heights is None:
        return None
    return heights, [table.picked(h) for table, h in zip(tables, heights, strict=True)]


def by_integer_program(tables: Sequence[TierTable]) -> float | None:
    """The least cost by scipy.optimize.milp (HiGHS): a binary for each height and open size."""
    prices: list[float] = []
    rows: list[dict[int, float]] = []
    sides: list[float] = []

    def must(side: float, parts: dict[int, float]) -> None:
        rows.append(parts)
        sides.append(side)

    owed: dict[int, float] = {}
    for table in tables:
        middle = len(table.heights) // 2
        taken = [len(prices) + k for k in range(len(table.heights))]
        prices += table.height_price.tolist()
        owed |= {column: float(k - middle) for k, column in enumerate(taken)}
        must(1, dict.fromkeys(taken, 1.0))
        moved: dict[int, float] = {}
        for place, price in enumerate(table.width_prices):
            high, wide = np.nonzero(table.open[place])
            columns = np.arange(len(prices), len(prices) + len(high))
            prices += price[wide].tolist()
            moved |= dict(zip(columns.tolist(), (wide - len(price) // 2).tolist(), strict=True))
            for k, column in enumerate(taken):
                must(0, {**dict.fromkeys(columns[high == k].tolist(), 1.0), column: -1.0})
        must(0, moved)
    must(0, owed)
    matrix = np.zeros((len(rows), len(prices)))
    for number, parts in enumerate(rows):
        for column, factor in parts.items():
            matrix[number, column] = factor
    result = milp(
        np.array(prices),
        constraints=LinearConstraint(matrix, np.array(sides), np.array(sides)),
        integrality=np.ones(len(prices), dtype=np.int64),
        bounds=Bounds(0, 1),
        options={"mip_rel_gap": 1e-9},
    )
    return float(result.fun) if result.success else None


def test_no_integer_program_finds_less() -> None:
    """On 16 pages by lot the cost is HiGHS's optimum, and there is a grid just where it has one."""
    changed = impossible = 0
    for seed in range(16):
        tables = by_lot(seed)
        best, ours = by_integer_program(tables), found(tables)
        assert (ours is None) == (best is None)
        if ours is None or best is None:
            impossible += 1
            continue
        assert cost(tables, *ours) == pytest.approx(best, abs=1e-9)
        changed += best > 0.005
    assert changed >= 5
    assert impossible >= 1


def every_grid(
    tables: Sequence[TierTable],
) -> Iterator[tuple[tuple[int, ...], list[tuple[int, ...]]]]:
    """All grids of open sizes that add up."""
    for heights in product(*[range(len(table.heights)) for table in tables]):
        if sum(h - len(t.heights) // 2 for h, t in zip(heights, tables, strict=True)):
            continue
        choices = [
            [
                widths
                for widths in product(*[range(len(own)) for own in table.widths])
                if sum(w - len(o) // 2 for w, o in zip(widths, table.widths, strict=True)) == 0
                and all(is_open[h, w] for is_open, w in zip(table.open, widths, strict=True))
            ]
            for h, table in zip(heights, tables, strict=True)
        ]
        yield from ((heights, list(widths)) for widths in product(*choices))


@settings(max_examples=40)
@given(st.integers(0, 2**32 - 1), st.integers(1, 2))
def test_the_cheapest_of_all_grids_is_found(seed: int, steps: int) -> None:
    """Two tiers of two and three places, any sizes closed: as cheap as the best of every grid."""
    lot = np.random.default_rng(seed)
    rows = [Row(span(50.0), (span(40.0),) * 2), Row(span(60.0), (span(27.0),) * 3)]
    tables = tables_of(rows, steps)
    for table in tables:
        for place in range(len(table.widths)):
            table.close(place, lot.random(table.open[place].shape) < 0.5)
    ours = found(tables)
    costs = [cost(tables, *grid) for grid in every_grid(tables)]
    if ours is None:
        assert not costs
    else:
        assert cost(tables, *ours) == pytest.approx(min(costs), abs=1e-12)
        assert tuple(ours[0]) in [heights for heights, _ in every_grid(tables)]


def test_one_tier_grows_at_the_cost_of_all_others_alike() -> None:
    """By hand: 6 mm more for one of four tiers of 50 mm: the others give 2 each."""
    tables = tables_of([Row(span(50.0), (span(40.0, by=0),))] * 4, 8)
    low = np.indices(tables[0].open[0].shape)[0] < 8 + 6
    tables[0].close(0, low)
    assert cheapest(tables) == [14, 6, 6, 6]


def test_widths_change_where_that_moves_less_of_the_page() -> None:
    """By hand: 2 mm of width in one of two tiers moves 2/80 of its half; 10 mm of height more."""
    rows = [Row(span(50.0), (span(40.0),) * 2), Row(span(50.0), (span(80.0, by=0),))]
    tables = tables_of(rows, 12)
    high, wide = np.indices(tables[0].open[0].shape)
    tables[0].close(0, np.asarray((wide < 14) & (high < 22)))
    assert found(tables) == ([12, 12], [[14, 10], [12]])
    assert tables[0].costs()[12] == pytest.approx(0.5 * 2 / 80 + EVENLY * (2 / 80) ** 2)


def test_a_size_that_would_hardly_change_stays() -> None:
    """By hand: a tenth of a millimetre of one neighbour's costs less than of two halves each."""
    table = tables_of([Row(span(50.0), (span(40.0),) * 3)], 4, step_mm=0.05)[0]
    narrow = np.zeros_like(table.open[0])
    narrow[:, : 4 + 2] = True
    table.close(0, narrow)
    assert sorted(table.picked(4)) == [2, 4, 6]
    assert table.costs()[4] == pytest.approx(0.1 / 120 + 2 * TOUCHED, abs=1e-7)


def test_limits_close_what_lies_beyond_them() -> None:
    """A tier that may change by a tenth has no open size that is more; nor has a place."""
    table = tables_of([Row(span(50.0, by=0.1), (span(40.0, by=0.05),) * 2)], 8)[0]
    high, wide = np.nonzero(table.open[0])
    assert (high.min(), high.max(), wide.min(), wide.max()) == (3, 13, 6, 10)


def test_a_size_that_is_opened_again_is_found_again() -> None:
    """Closing what was cheapest changes what is found; opening it changes it back."""
    tables = tables_of([Row(span(50.0), (span(40.0),) * 2)], 3)
    before = found(tables)
    assert before == ([3], [[3, 3]])
    tables[0].set_open(0, (3, 3), to=False)
    assert found(tables) in (([3], [[2, 4]]), ([3], [[4, 2]]))
    tables[0].set_open(0, (3, 3), to=True)
    assert found(tables) == before


def test_what_nobody_can_give_is_told() -> None:
    """Where every size is closed in a place, or no heights add up, there is no grid."""
    tables = tables_of([Row(span(50.0), (span(40.0),)), Row(span(50.0), (span(40.0),))], 3)
    for table in tables:
        low = np.zeros_like(table.open[0])
        low[:4] = True
        table.close(0, low)
    assert cheapest(tables) is None
