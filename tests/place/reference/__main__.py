"""Find the reference layouts again: `python -m tests.place.reference`, an hour on one core.

Writes tests/data/place_reference.json: for each usual panel the best layout found, its cost and
whether the search was complete on its grid; for each heavy panel some layout, or none.
"""

import json
import sys
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor

from tests.benchmarks.panels import HEAVY_SEED, SEED, Task, heavy_panels, usual_panels
from tests.place.reference.board import Board, Layouts
from tests.place.reference.objective import layout_cost
from tests.place.reference.search import any_layout, best_layout
from tests.place.reference.stored import DATA

Row = dict[str, object]

JOBS = 2


def solved(task: Task) -> Row:
    """The best layout of a panel."""
    board = Board(task)
    found = best_layout(board)
    if not len(found.layout):
        return {"placed": None, "complete": found.complete}
    items = board.placed(found.layout)
    cost = layout_cost(task.panel, items, speakers=task.speakers)
    return {"placed": _rows(found.layout, board), "complete": found.complete, "cost": cost}


def filled(task: Task) -> Row:
    """Some layout of a panel."""
    board = Board(task)
    layouts = any_layout(board)
    return {"placed": _rows(layouts, board) if len(layouts) else None}


def _rows(layouts: Layouts, board: Board) -> list[list[float]]:
    """Choice, x and y of each balloon of the first layout."""
    items = board.placed(layouts)
    return [[item.choice, round(item.x_mm, 9), round(item.y_mm, 9)] for item in items]


def _all(work: Callable[[Task], Row], tasks: Sequence[Task]) -> str:
    """Every task's result as JSON, in order, one a line."""
    lines = []
    with ProcessPoolExecutor(JOBS) as pool:
        for number, result in enumerate(pool.map(work, tasks)):
            lines.append(json.dumps(result))
            sys.stderr.write(f"{number + 1} of {len(tasks)}\n")
    return "[\n" + ",\n".join(lines) + "\n]"


if __name__ == "__main__":
    found = {"usual": _all(solved, usual_panels()), "heavy": _all(filled, heavy_panels())}
    body = ",\n".join(f'"{name}": {rows}' for name, rows in found.items())
    DATA.write_text(f'{{"seeds": {json.dumps([SEED, HEAVY_SEED])},\n{body}}}\n', encoding="utf-8")
