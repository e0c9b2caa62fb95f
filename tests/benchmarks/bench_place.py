"""Placing: the balloons of a page in its panels, beside a general solver on boxes.

The solver, CP-SAT of OR-tools, is asked for less: whether the balloons' bounding boxes, the widest
of each, go in on a grid of 1 mm in reading order; no shapes to choose from, no gaps, no tails.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from time import process_time

import pytest

import letterfit as lf
from tests.benchmarks.beside import Benchmark, Row, compare, timed
from tests.benchmarks.floors import SHAPING, capitals_shaped
from tests.benchmarks.texts import typed_scripts
from tests.place.grid import Boxes, Grid

pytestmark = pytest.mark.benchmark(timer=process_time)

ROUNDS = 12


@dataclass(frozen=True, slots=True)
class Page:
    """A page to be placed.

    Args:
        texts: What its balloons say.
        tasks: Its panels.
    """

    texts: tuple[str, ...]
    tasks: tuple[lf.PanelTask, ...]


def pages() -> Iterator[Page]:
    """The first page of each play, its balloons fitted in every shape they can take."""
    for script in typed_scripts(pages=1):
        (page,) = lf.preflight(lf.parse_script(script.text)).pages
        yield Page(script.texts, tuple(map(_task, page.panels)))


def _task(panel: lf.PanelReport) -> lf.PanelTask:
    fronts = [lf.balloon_front(balloon.fitted.text) for balloon in panel.balloons]
    return lf.PanelTask(
        panel=panel.rect,
        menus=[[balloon.outline for balloon in front] for front in fronts],
        speakers=[
            None if one.speaker is None else lf.Speaker(name=one.speaker) for one in panel.balloons
        ],
    )


def _boxes(task: lf.PanelTask) -> Boxes:
    sides = [
        (math.ceil(2 * menu[0].half_width), math.ceil(2 * menu[0].half_height))
        for menu in task.menus
    ]
    return Boxes(int(task.panel.width), int(task.panel.height), tuple(sides))


def _solve(tasks: Sequence[lf.PanelTask]) -> list[bool]:
    return [Grid(_boxes(task), ordered=True).goes_in() for task in tasks]


def test_page(benchmark: Benchmark) -> None:
    """The panels of a page in one call, shapes, reading order, figures and tails."""
    compare(
        benchmark,
        pages(),
        lambda page: lambda: lf.place_panels(page.tasks),
        row=Row(group="place", work="place a page of 5 panels", unit="page", per=1, floor=SHAPING),
        floor=timed(lambda page: capitals_shaped(page.texts)),
        others={"OR-tools CP-SAT, boxes": timed(lambda page: lambda: _solve(page.tasks))},
        rounds=ROUNDS,
    )
