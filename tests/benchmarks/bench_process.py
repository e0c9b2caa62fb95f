"""Whole processes by the clock, from start to end, each a new one; files are in the system's cache.

The floor is a Python that imports numpy and uharfbuzz and ends. The others lay the script's texts
out in lines of one width, each started by Python (`laying.py`).
"""

import sys
from collections.abc import Callable, Mapping
from itertools import islice, repeat
from pathlib import Path
from time import perf_counter

import pytest

from tests.benchmarks import laying
from tests.benchmarks.beside import Benchmark, Prepared, Row, Timed, compare
from tests.benchmarks.floors import START, STARTING, run
from tests.benchmarks.texts import typed_script, typed_scripts

pytestmark = pytest.mark.benchmark(timer=perf_counter)

LETTERFIT = (sys.executable, "-m", "letterfit")

PLAY, PAGES = "hamlet", 24

ROUNDS, FEW, LEAST, WARM = 9, 5, 3, 1


def running(*command: str) -> Callable[[object], Prepared]:
    """A process to be timed, the same whatever the round."""
    return lambda _: lambda: run(command)


def process(*command: str) -> Timed[object]:
    """The seconds that a process takes, by the clock."""

    def timed(_: object) -> float:
        begin = perf_counter()
        run(command)
        return perf_counter() - begin

    return timed


def compare_processes(
    benchmark: Benchmark,
    work: str,
    command: tuple[str, ...],
    *,
    others: Mapping[str, tuple[str, ...]],
    rounds: int,
) -> None:
    """A command beside the bare start of Python and beside others."""
    compare(
        benchmark,
        repeat(None),
        running(*command),
        row=Row(group="processes", work=work, unit="", per=1, floor=STARTING),
        floor=process(*START),
        others={name: process(*other) for name, other in others.items()},
        rounds=rounds,
        warm=WARM,
    )


@pytest.mark.parametrize(
    ("work", "command"),
    [
        ("`import letterfit`", (sys.executable, "-c", "import letterfit")),
        ("`letterfit --version`", (*LETTERFIT, "--version")),
        (
            "`letterfit fit` of 12 words",
            (*LETTERFIT, "fit", "The tide turned an hour ago, and nobody has come to ask."),
        ),
    ],
)
def test_starts(benchmark: Benchmark, work: str, command: tuple[str, ...], tmp_path: Path) -> None:
    """What a user waits for before anything is done."""
    nothing = tmp_path / "nothing.txt"
    nothing.write_text("The tide turned.\n", encoding="utf-8")
    others = laying.commands(nothing)
    compare_processes(benchmark, work, command, others=others, rounds=ROUNDS)


def test_preflight(benchmark: Benchmark, tmp_path: Path) -> None:
    """A script of 24 pages, about 120 panels and 240 balloons, and its report on the screen."""
    script = typed_script(PLAY, pages=PAGES)
    typed, texts = tmp_path / "script.txt", tmp_path / "texts.txt"
    typed.write_text(script.text, encoding="utf-8")
    texts.write_text("\n".join(script.texts) + "\n", encoding="utf-8")
    compare_processes(
        benchmark,
        f"`letterfit preflight` of {PAGES} pages, {len(script.texts)} balloons",
        (*LETTERFIT, "preflight", str(typed)),
        others=laying.commands(texts),
        rounds=FEW,
    )


def test_catalogue(benchmark: Benchmark, tmp_path: Path) -> None:
    """Two scripts of 24 pages in one process."""
    scripts = list(islice(typed_scripts(pages=PAGES), 2))
    files = []
    for script in scripts:
        file = tmp_path / f"{script.name}.txt"
        file.write_text(script.text, encoding="utf-8")
        files.append(str(file))
    texts = tmp_path / "texts.txt"
    texts.write_text("".join(f"{t}\n" for script in scripts for t in script.texts), "utf-8")
    compare_processes(
        benchmark,
        f"`letterfit catalogue` of {len(files)} scripts of {PAGES} pages",
        (*LETTERFIT, "catalogue", *files, "--jsonl", "-"),
        others=laying.commands(texts),
        rounds=LEAST,
    )
