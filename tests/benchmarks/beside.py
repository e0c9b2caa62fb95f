"""A benchmark beside its floor and other programs: the same work in turn, in the same run.

What slows the machine for a moment slows them all, so their ratios hold where times do not. Every
round has work that no round before it had. The floor and the others are timed before one round and
after the next, so that none always finds the processor's caches as the same other has left them.
"""

import gc
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from statistics import median
from typing import Generic, Protocol, TypeVar

from tests.benchmarks.timing import ratio, seconds

T = TypeVar("T")

Prepared = Callable[[], object]
"""The thing to be timed."""

Timed = Callable[[T], float]
"""Does some work, and says how many seconds it took."""

WARM = 2
"""Rounds that nothing is counted of."""


class Spread(Protocol):
    """The times of a benchmark."""

    @property
    def data(self) -> Sequence[float]:
        """Seconds of each round."""


class Measured(Protocol):
    """What pytest-benchmark keeps of a benchmark."""

    @property
    def stats(self) -> Spread:
        """Its times."""


class Benchmark(Protocol):
    """pytest-benchmark's fixture, as far as it is used here."""

    extra_info: dict[str, object]
    group: str | None

    @property
    def stats(self) -> Measured | None:
        """What was measured; None where it is switched off."""

    def pedantic(
        self,
        target: Callable[[Prepared], object],
        *,
        setup: Callable[[], tuple[tuple[Prepared], dict[str, object]]],
        teardown: Callable[[Prepared], None],
        rounds: int,
        warmup_rounds: int,
    ) -> object:
        """Time a function in rounds, each after its setup and before its teardown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What the table says of a benchmark.

    Args:
        group: Which part of the table it stands in.
        work: What is done.
        unit: What its time is that of: "text".
        per: How many of these a round does.
        floor: The floor's name.
    """

    group: str
    work: str
    unit: str
    per: int
    floor: str


class InTurn(Generic[T]):
    """The work of each round, with the floor and the others timed before or after it.

    Args:
        batches: The work of the rounds, one after the other.
        work: Prepares a round's work, and gives the thing to be timed.
        timed: The floor and the others, by name.
    """

    def __init__(
        self,
        batches: Iterable[T],
        work: Callable[[T], Prepared],
        timed: Mapping[str, Timed[T]],
    ) -> None:
        self._batches = iter(batches)
        self._work, self._timed = work, timed
        self._waiting: list[T] = []
        self._turn = 0
        self.times: dict[str, list[float]] = {name: [] for name in timed}

    def before(self) -> tuple[tuple[Prepared], dict[str, object]]:
        """Prepare the next round, and time the others if it is their turn."""
        batch = next(self._batches)
        if self._turn % 2:
            self._waiting.append(batch)
        else:
            self._time(batch)
        self._turn += 1
        prepared = self._work(batch)
        gc.collect()
        return (prepared,), {}

    def after(self, _: Prepared) -> None:
        """Time the others if it was not their turn before."""
        while self._waiting:
            self._time(self._waiting.pop())

    def _time(self, batch: T) -> None:
        for name, timed in self._timed.items():
            gc.collect()
            self.times[name].append(timed(batch))


def compare(
    benchmark: Benchmark,
    batches: Iterable[T],
    work: Callable[[T], Prepared],
    *,
    row: Row,
    floor: Timed[T],
    others: Mapping[str, Timed[T]] | None = None,
    rounds: int,
    warm: int = WARM,
) -> None:
    """Time some work in rounds, and note its ratios to the floor and to others.

    Args:
        benchmark: pytest-benchmark's fixture.
        batches: The work of each round, at least `rounds + warm`; no two the same.
        work: Prepares a round's work, and gives the thing to be timed.
        row: What the table says of it.
        floor: Times the floor of a round's work.
        others: Time the same work, or what there is of it, by other means; by name.
        rounds: How many rounds are counted.
        warm: How many come before them.
    """
    turns = InTurn(batches, work, {row.floor: floor, **(others or {})})
    benchmark.group = row.group
    benchmark.pedantic(
        _call, setup=turns.before, teardown=turns.after, rounds=rounds, warmup_rounds=warm
    )
    if benchmark.stats is None:
        return
    ours = list(benchmark.stats.stats.data)
    noted = {
        name: {"seconds": median(some[warm:]) / row.per, "ratio": ratio(ours, some[warm:])}
        for name, some in turns.times.items()
    }
    benchmark.extra_info |= {
        "work": row.work,
        "unit": row.unit,
        "seconds": median(ours) / row.per,
        "floor": {"name": row.floor, **noted.pop(row.floor)},
        "beside": noted,
    }


def _call(prepared: Prepared) -> None:
    prepared()


def blocks(texts: Iterator[T], size: int) -> Iterator[list[T]]:
    """Texts in blocks, for as long as there are any."""
    while block := list(islice(texts, size)):
        yield block


def each(step: Callable[[T], Prepared]) -> Callable[[Iterable[T]], Prepared]:
    """A step for one text as a step for a block of them."""

    def prepare(texts: Iterable[T]) -> Prepared:
        prepared = [step(text) for text in texts]

        def run() -> None:
            for one in prepared:
                one()

        return run

    return prepare


def timed(step: Callable[[T], Prepared]) -> Timed[T]:
    """The seconds of a step, without what prepares it."""
    return lambda batch: seconds(step(batch))
