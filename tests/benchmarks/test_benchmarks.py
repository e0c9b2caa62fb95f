"""The benchmarks are in order, though none is run here: they load, and say what they do."""

import ast
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from importlib import import_module
from itertools import count
from pathlib import Path

import pytest

from tests.benchmarks import __main__ as entry
from tests.benchmarks import qt_layout
from tests.benchmarks.beside import Benchmark, Prepared, Row, compare
from tests.benchmarks.laying import commands, layouts
from tests.benchmarks.texts import typed_script, typed_scripts

HERE = Path(__file__).parent


def test_every_benchmark_is_run() -> None:
    """The entry's list is that of the files."""
    assert sorted(entry.FILES) == sorted(file.name for file in HERE.glob("bench_*.py"))


@pytest.mark.parametrize("name", entry.FILES)
def test_a_file_of_benchmarks_loads_and_each_says_what_it_times(name: str) -> None:
    """A library that moved a name is seen here, not in the next run."""
    module = import_module(f"tests.benchmarks.{name.removesuffix('.py')}")
    tree = ast.parse((HERE / name).read_text("utf-8"))
    found = [one for one in tree.body if isinstance(one, ast.FunctionDef)]
    timed = [one for one in found if one.name.startswith("test_")]
    assert timed
    assert all(ast.get_docstring(one) and hasattr(module, one.name) for one in timed)
    assert module.__doc__


@dataclass
class Kept:
    """Seconds of each round."""

    data: Sequence[float]


@dataclass
class Measured:
    """What is kept of a benchmark."""

    stats: Kept


@dataclass
class Fake:
    """A fixture whose clock says what it is told: the seconds of our rounds."""

    seconds: Sequence[float]
    extra_info: dict[str, object] = field(default_factory=dict)
    group: str | None = None
    stats: Measured | None = None

    def pedantic(
        self,
        target: Callable[[Prepared], object],
        *,
        setup: Callable[[], tuple[tuple[Prepared], dict[str, object]]],
        teardown: Callable[[Prepared], None],
        rounds: int,
        warmup_rounds: int,
    ) -> object:
        """Run all rounds."""
        for _ in range(warmup_rounds + rounds):
            (prepared,), _none = setup()
            target(prepared)
            teardown(prepared)
        self.stats = Measured(Kept(self.seconds[-rounds:]))
        return None


def test_ratios_are_those_of_the_same_round() -> None:
    """Whether others are timed before or after a round, each round meets its own work's floor."""
    done: list[int] = []
    fake = Fake(seconds=(99.0, 2.0, 12.0, 24.0))

    def floor(batch: int) -> float:
        return float(batch)

    def work(batch: int) -> Prepared:
        return lambda: done.append(batch)

    benchmark: Benchmark = fake
    compare(
        benchmark,
        count(),
        work,
        row=Row(group="a", work="count", unit="number", per=2, floor="numbers"),
        floor=floor,
        others={"twice": lambda batch: 2.0 * batch},
        rounds=3,
        warm=1,
    )
    assert done == [0, 1, 2, 3]
    assert fake.group == "a"
    # 2/1, 12/2, 24/3: the middle one is 6.
    assert fake.extra_info == {
        "work": "count",
        "unit": "number",
        "seconds": 6.0,
        "floor": {"name": "numbers", "seconds": 1.0, "ratio": 6.0},
        "beside": {"twice": {"seconds": 2.0, "ratio": 3.0}},
    }


def test_scripts_are_of_the_plays_they_name() -> None:
    """24 pages of 5 panels on average and 2 balloons in each, as many texts as the script has."""
    script = typed_script("hamlet", pages=24)
    assert script.text.count("\nPanel ") == 120
    assert len(script.texts) == 240
    assert script.texts[0] in script.text
    scripts = typed_scripts(pages=1)
    assert len({one.name for one, _ in zip(scripts, range(3), strict=False)}) == 3


def test_other_layouts_that_are_installed_take_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each lays two texts out and says how long it took; there is a process for each of them.

    Qt is left out: its application would stay in this process for all tests that follow.
    """
    monkeypatch.setattr(qt_layout, "is_installed", lambda: False)
    texts = ["The tide turned.", "Nobody came."]
    took = {name: layout(texts) for name, layout in layouts().items()}
    assert all(seconds > 0 for seconds in took.values())
    assert list(took) == list(commands(Path("texts.txt")))
