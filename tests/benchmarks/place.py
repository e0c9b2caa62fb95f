r"""How well and how fast panels are filled: `python -m tests.benchmarks.place [--table]`.

Layouts are compared with the best that a slow search found (tests/place/reference), by an objective
written apart from the library's. Prints, each with its goal and whether it is met,

- by number of balloons: the gap to the reference (1 is the whole panel, or its whole height of
  figure), panels that the reference fills and the library does not, and the time of a panel alone
  and among many;
- the time of a page of 12 panels of 1 to 4 balloons, and its ratio to a piece of numpy work that is
  the same everywhere, done in the same run;
- heavy panels: how many are placed, proved impossible, and neither; and proofs that a layout
  contradicts: none may be;
- equal discs in a square, with no reading order: the greatest radius placed, over the best known.

Times are processor time of this process. `--table` prints the rows of README.md.
"""

import json
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from statistics import mean, median
from time import process_time

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Ellipse
from letterfit.place.model import PanelLayout
from letterfit.place.solver import PanelTask, place_outlines, place_panels
from tests.benchmarks.panels import MOST_BALLOONS, Task, usual_panels
from tests.place.reference import stored
from tests.place.reference.objective import layout_cost

MOST_MEAN, MOST_95TH, JUDGED = 0.005, 0.03, 4
"""Goals for the gap to the reference, up to JUDGED balloons."""

MOST_MS = {1: 3.0, 2: 3.0, 3: 6.0, 4: 6.0, 5: 25.0, 6: 25.0, 7: 25.0, 8: 25.0}
"""Goals for the median time of a panel, ms, by balloons."""

PAGE, PAGES, MOST_PAGE_MS = 12, 8, 45.0
"""Panels of a page, how many pages are timed, and the goal for one, ms."""

MOST_NOT_FOUND = 0.05
"""Goal: share of the heavy panels that are neither placed nor proved impossible."""

LEAST_RADIUS, DISCS, SIDE = 0.97, 10, 60.0
"""Goal: radius placed over the best known, for 1 .. DISCS discs in a square of SIDE mm."""

CIRCLES = Path(__file__).parents[1] / "data" / "circles_in_unit_square.json"

FILLED = 1e-4
"""Layouts cheaper than the reference by more than this are named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One usual panel: what the library made of it, beside the reference.

    Args:
        size: The number of balloons.
        verdict: The library's.
        gap: The library's cost less the reference's; None where either has no layout.
        missed: Whether the reference fills the panel and the library does not.
        seconds: Processor time of the one call.
        doubts: Findings of the layout.
    """

    size: int
    verdict: str
    gap: float | None
    missed: bool
    seconds: float
    doubts: int


def solve(task: Task) -> PanelLayout:
    """The library's layout of a task."""
    return place_outlines(task.panel, task.menus, speakers=task.speakers)


def outcomes() -> tuple[Outcome, ...]:
    """Every usual panel, solved alone."""
    results = []
    for reference in stored.usual():
        task = reference.task
        begin = process_time()
        layout = solve(task)
        took = process_time() - begin
        placed = layout.verdict == "placed"
        cost = layout_cost(task.panel, layout.placed, speakers=task.speakers) if placed else 0.0
        known = bool(reference.placed)
        results.append(
            Outcome(
                size=task.size,
                verdict=layout.verdict,
                gap=cost - reference.cost if placed and known else None,
                missed=known and not placed,
                seconds=took,
                doubts=len(layout.findings),
            )
        )
    return tuple(results)


def report(*, table: bool = False) -> Iterator[str]:
    """Run everything, and say line by line what came of it."""
    solve(usual_panels()[-1])  # nothing is timed cold
    yield from _by_size(outcomes(), table=table)
    yield from _page()
    yield from _heavy()
    yield from _circles()


def _verdict(name: str, value: float, *, most: float | None = None, least: float = 0.0) -> str:
    met = value >= least if most is None else value <= most
    goal = f"at least {least:g}" if most is None else f"at most {most:g}"
    return f"  {'met   ' if met else 'MISSED'} {name}: {value:.4g}, goal {goal}"


# --- usual panels


def _by_size(results: Sequence[Outcome], *, table: bool) -> Iterator[str]:
    yield "Usual panels: gap to the reference, and ms"
    yield (
        "| balloons | placed | missed | gap: mean | 95 of 100 | worst | under the reference | "
        "doubts | ms alone | ms at most | ms among many |"
    )
    if table:
        yield "|" + "---|" * 11
    together = _together()
    for size in range(1, MOST_BALLOONS + 1):
        some = [r for r in results if r.size == size]
        gaps = gaps_of(some)
        times = [1000 * r.seconds for r in some]
        yield (
            f"| {size} | {sum(r.verdict == 'placed' for r in some)} "
            f"| {sum(r.missed for r in some)} "
            f"| {mean(gaps):.4f} | {np.percentile(gaps, 95):.4f} | {max(gaps):.4f} "
            f"| {sum(g < -FILLED for g in gaps)} | {sum(r.doubts for r in some)} "
            f"| {median(times):.1f} | {max(times):.1f} | {together[size]:.1f} |"
        )
    few = gaps_of([r for r in results if r.size <= JUDGED])
    yield _verdict(f"gap up to {JUDGED} balloons, mean", mean(few), most=MOST_MEAN)
    yield _verdict("gap, 95 of 100", float(np.percentile(few, 95)), most=MOST_95TH)
    many = gaps_of([r for r in results if r.size > JUDGED])
    yield f"         gap over {JUDGED} balloons, mean {mean(many):.4f}"
    yield _verdict("panels the reference fills, not placed", sum(r.missed for r in results), most=0)
    for size, most in MOST_MS.items():
        times = [1000 * r.seconds for r in results if r.size == size]
        yield _verdict(f"{size} balloons, median ms", median(times), most=most)


def gaps_of(results: Sequence[Outcome]) -> list[float]:
    """The gaps of those that both fill."""
    return [r.gap for r in results if r.gap is not None]


def _together() -> dict[int, float]:
    """Ms a panel when all of one number of balloons are solved in one call, by that number."""
    times = {}
    for size in range(1, MOST_BALLOONS + 1):
        some = [task for task in usual_panels() if task.size == size]
        times[size] = 1000 * _best(partial(solve_all, some)) / len(some)
    return times


def solve_all(tasks: Sequence[Task]) -> Sequence[PanelLayout]:
    """Many panels in one call."""
    return place_panels(
        [PanelTask(panel=t.panel, menus=t.menus, speakers=t.speakers) for t in tasks]
    )


def _best(call: Callable[[], object], *, times: int = 3) -> float:
    """The least processor time of several calls, seconds."""
    least = float("inf")
    for _ in range(times):
        begin = process_time()
        call()
        least = min(least, process_time() - begin)
    return least


# --- a page


def pages() -> Iterator[list[Task]]:
    """Pages of 12 panels, three of each number of balloons from 1 to 4."""
    by_size = [[t for t in usual_panels() if t.size == size] for size in range(1, 5)]
    each = PAGE // len(by_size)
    for page in range(PAGES):
        yield [task for some in by_size for task in some[page * each : (page + 1) * each]]


def _page() -> Iterator[str]:
    times = [1000 * _best(partial(solve_all, page)) for page in pages()]
    floor = 1000 * _best(numpy_work, times=9)
    yield f"\nA page of {PAGE} panels of 1 to 4 balloons in one call, median of {PAGES}"
    yield _verdict("ms", median(times), most=MOST_PAGE_MS)
    yield f"         {median(times) / floor:.1f} times the same numpy work ({floor:.2f} ms)"


def numpy_work() -> None:
    """A fixed piece of work like that of placing: least values over directions, a hundred times."""
    lot = np.random.default_rng(0)
    numbers, slope = lot.random((20, 500)), lot.random((20, 1))
    for _ in range(100):
        np.minimum(numbers, numbers - slope * numbers).min(axis=0).argsort()


# --- heavy panels


def _heavy() -> Iterator[str]:
    counts = {"placed": 0, "impossible": 0, "not found": 0}
    contradicted = missed = 0
    times = []
    for reference in stored.heavy():
        begin = process_time()
        verdict = solve(reference.task).verdict
        times.append(1000 * (process_time() - begin))
        counts[verdict] += 1
        contradicted += verdict == "impossible" and bool(reference.placed)
        missed += verdict == "not found" and bool(reference.placed)
    total = sum(counts.values())
    yield f"\nHeavy panels, {total}: median {median(times):.1f} ms, most {max(times):.0f} ms"
    yield "  " + ", ".join(f"{name} {n} ({n / total:.1%})" for name, n in counts.items())
    yield _verdict("neither placed nor proved", counts["not found"] / total, most=MOST_NOT_FOUND)
    yield _verdict("proofs that a layout contradicts", contradicted, most=0)
    yield _verdict("panels the reference fills, not found", missed, most=0)


# --- discs


def _circles() -> Iterator[str]:
    yield "\nEqual discs in a square: radius placed over the best known"
    best = {row["n"]: row["r"] for row in json.loads(CIRCLES.read_text("utf-8"))}
    shares = {count: radius_placed(count, best=best[count]) for count in range(1, DISCS + 1)}
    yield "  " + "  ".join(f"{count}: {share:.4f}" for count, share in shares.items())
    yield _verdict(f"least of 1 .. {DISCS}", min(shares.values()), least=LEAST_RADIUS)
    yield _verdict("most of them", max(shares.values()), most=1 + 1e-6)


def radius_placed(count: int, *, best: float) -> float:
    """The greatest radius that is placed as a share of the best known, by bisection."""
    low, high = 0.5, 1.002
    for _ in range(12):
        share = (low + high) / 2
        disc = Ellipse(half_width=share * best * SIDE, half_height=share * best * SIDE)
        layout = place_outlines(
            Rect(0, 0, SIDE, SIDE), [[disc]] * count, gap_mm=0, margin_mm=0, ordered=False
        )
        low, high = (share, high) if layout.verdict == "placed" else (low, share)
    return low


if __name__ == "__main__":
    for line in report(table="--table" in sys.argv):
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
