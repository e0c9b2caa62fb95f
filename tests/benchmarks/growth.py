"""How cost grows with size: `python -m tests.benchmarks.growth [--write]`.

Processor time of this process (`process_time`, so that other work counts for little) for the words
of a balloon, the balloons of a panel, the panels of a page and the pages of a script, in several
sweeps over all sizes, each over other plays. Prints for each the exponent of the power law nearest
to the medians, the least and the greatest exponent of the single sweeps, and that of the upper half
of the sizes, where what every run costs anyhow weighs less; then the peak of memory over pages.
`--write` puts the table into README.md and draws `growth.svg` beside it.
"""

import gc
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import islice
from pathlib import Path
from statistics import median
from time import process_time

import letterfit as lf
from tests.benchmarks import charts, memory, tables
from tests.benchmarks.beside import Prepared
from tests.benchmarks.machine import Watch
from tests.benchmarks.power_law import PowerLaw, power_law
from tests.benchmarks.texts import dialogue
from tests.plays import play_names, play_script

SWEEPS = 4

DRAWING = Path(__file__).with_name("growth.svg")

MEMORY_PAGES = (1, 16, 64, 256)


@dataclass(frozen=True, slots=True)
class Measure:
    """What is made larger.

    Args:
        name: What there is more and more of: "words in a balloon".
        call: What is timed.
        sizes: How many there are, ascending.
        work: Prepares the work of a size in a sweep: a few texts or pages of that size.
    """

    name: str
    call: str
    sizes: tuple[int, ...]
    work: Callable[[int, int], Sequence[Prepared]]


@dataclass(frozen=True, slots=True)
class Curve:
    """What a measure cost.

    Args:
        measure: What was made larger.
        sweeps: For each sweep the seconds of each size.
    """

    measure: Measure
    sweeps: tuple[tuple[float, ...], ...]

    @property
    def costs(self) -> tuple[float, ...]:
        """The median over the sweeps, by size."""
        return tuple(map(median, zip(*self.sweeps, strict=True)))

    @property
    def law(self) -> PowerLaw:
        """The power law nearest to the medians."""
        return power_law(self.measure.sizes, self.costs)

    @property
    def upper(self) -> PowerLaw:
        """The same over the upper half of the sizes, the middle one included."""
        half = len(self.costs) // 2
        return power_law(self.measure.sizes[half:], self.costs[half:])

    @property
    def range(self) -> tuple[float, float]:
        """The least and the greatest exponent of a sweep."""
        found = [power_law(self.measure.sizes, sweep).exponent for sweep in self.sweeps]
        return min(found), max(found)


# --- what is measured


def _texts(words: int, sweep: int) -> list[Prepared]:
    """Some 160 words in texts of so many, at most 8 texts."""
    texts = islice(dialogue(words, skip=6 * sweep), max(1, min(8, 160 // words)))
    return [partial(lf.fit_balloon, text) for text in texts]


def _scripts(count: int, sweep: int, *, typed: Callable[[str, int], str]) -> list[Prepared]:
    """Scripts of one size, more of them where they are small."""
    plays = play_names()
    several = max(1, min(6, 12 // count))
    chosen = (plays[(several * sweep + k) % len(plays)] for k in range(several))
    return [partial(lf.preflight, lf.parse_script(typed(play, count))) for play in chosen]


def _balloons(play: str, count: int) -> str:
    return play_script(play, pages=1, panels=(1,), per_panel=(count,), max_words=10)


def _panels(play: str, count: int) -> str:
    return play_script(play, pages=1, panels=(count,), per_panel=(2,), max_words=10)


def _pages(play: str, count: int) -> str:
    return play_script(play, pages=count)


MEASURES = (
    Measure("words in a balloon", "`fit_balloon`", (5, 10, 20, 40, 80, 160, 320, 640), _texts),
    Measure(
        "balloons in a panel",
        "`preflight` of one panel as large as the page, 10 words a balloon at most",
        (1, 2, 3, 4, 6, 8, 12, 16),
        partial(_scripts, typed=_balloons),
    ),
    Measure(
        "panels on a page",
        "`preflight` of one page, 2 balloons a panel, 10 words a balloon at most",
        (1, 2, 4, 6, 9, 12, 16),
        partial(_scripts, typed=_panels),
    ),
    Measure(
        "pages in a script",
        "`preflight`, 5 panels a page, 2 balloons a panel",
        (1, 2, 4, 8, 16, 32, 64),
        partial(_scripts, typed=_pages),
    ),
)


def curve(measure: Measure, *, sweeps: int = SWEEPS) -> Curve:
    """Measure all sizes, sweep by sweep."""
    for size in measure.sizes[:3]:  # nothing is timed cold
        _seconds(measure.work(size, sweeps))
    return Curve(
        measure,
        tuple(
            tuple(_seconds(measure.work(size, sweep)) for size in measure.sizes)
            for sweep in range(sweeps)
        ),
    )


def _seconds(work: Sequence[Prepared]) -> float:
    """Processor seconds of one of them, the mean."""
    gc.collect()
    begin = process_time()
    for prepared in work:
        prepared()
    return (process_time() - begin) / len(work)


# --- what is told

HEAD = ("size", "work", "from", "to", "exponent", "single sweeps", "upper half")


def table(curves: Sequence[Curve]) -> Iterator[str]:
    """A row for each curve: its ends and its exponents."""
    yield from tables.rows(HEAD, map(_row, curves))


def _row(curve: Curve) -> tuple[str, ...]:
    sizes, costs, (least, most) = curve.measure.sizes, curve.costs, curve.range
    return (
        curve.measure.name,
        curve.measure.call,
        f"{sizes[0]}: {tables.time_told(costs[0])}",
        f"{sizes[-1]}: {tables.time_told(costs[-1])}",
        f"**{curve.law.exponent:.2f}**",
        f"{least:.2f} to {most:.2f}",
        f"{curve.upper.exponent:.2f}",
    )


Peaks = dict[str, tuple[int, ...]]
"""For each way the peak of memory by pages, bytes."""


def memory_table(peaks: Peaks) -> Iterator[str]:
    """The peaks of memory by pages, and what a page more takes."""
    head = ("peak of memory, MiB, by pages", *map(str, MEMORY_PAGES), "a page more")
    yield from tables.rows(head, (_memory_row(way, found) for way, found in peaks.items()))


def _memory_row(way: str, found: Sequence[int]) -> tuple[str, ...]:
    more = (found[-1] - found[-2]) / (MEMORY_PAGES[-1] - MEMORY_PAGES[-2])
    name = {"kept": "`preflight`, its report kept", "streamed": "`preflight_stream`, nothing kept"}
    return (name[way], *(f"{peak / memory.MIB:.0f}" for peak in found), f"{more / 1024:.0f} KiB")


def main(*, write: bool) -> None:
    """Measure all, print the tables, and write them and the drawing if that is asked for."""
    watch = Watch()
    curves = tuple(map(curve, MEASURES))
    peaks: Peaks = {
        way: tuple(memory.peak_of(way, pages) for pages in MEMORY_PAGES) for way in memory.WAYS
    }
    told = watch.run().told
    lines = [told, "", *table(curves), "", *memory_table(peaks)]
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    if write:
        tables.write("growth", lines)
        DRAWING.write_text(drawing(curves, peaks, told=told), encoding="utf-8")


def drawing(curves: Sequence[Curve], peaks: Peaks, *, told: str) -> str:
    """The curves and the memory as one SVG drawing."""
    plots = [
        charts.Plot(
            title=one.measure.name,
            sizes=one.measure.sizes,
            sweeps=one.sweeps,
            costs=one.costs,
            law=one.law,
            upper=one.upper,
            range=one.range,
        )
        for one in curves
    ]
    levels = charts.Levels(
        title="peak of memory over pages",
        sizes=MEMORY_PAGES,
        lines={way: tuple(peak / memory.MIB for peak in found) for way, found in peaks.items()},
        unit="MiB",
    )
    return charts.sheet(plots, levels, told=told.replace("**", ""))


if __name__ == "__main__":
    main(write="--write" in sys.argv)
