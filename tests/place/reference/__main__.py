"""Find the reference layouts again: `python -m tests.place.reference`, an hour on one core.

Writes tests/data/place_reference.json: for each usual panel the best layout found, its cost and
whether the search was complete on its grid; for each heavy panel some layout, or none. A layout
already stored stays where it is better.
"""

import json
import math
import sys
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor

from letterfit.place.model import PlacedOutline
from tests.benchmarks.panels import HEAVY_SEED, SEED, heavy_panels, usual_panels
from tests.place.reference import stored
from tests.place.reference.board import Board
from tests.place.reference.objective import layout_cost
from tests.place.reference.search import any_layout, best_layout

Row = dict[str, object]

JOBS = 2


def solved(number: int) -> Row:
    """The best layout of a usual panel."""
    task = usual_panels()[number]
    board = Board(task)
    found = best_layout(board)
    known = stored.usual()[number] if stored.DATA.exists() else None
    items = board.placed(found.layout) if len(found.layout) else ()
    cost = layout_cost(task.panel, items, speakers=task.speakers) if items else math.inf
    complete = found.complete
    if known is not None and known.cost < cost:
        items, cost, complete = known.placed, known.cost, complete or known.complete
    if not items:
        return {"placed": None, "complete": complete}
    return {"placed": _rows(items), "complete": complete, "cost": cost}


def filled(number: int) -> Row:
    """Some layout of a heavy panel."""
    board = Board(heavy_panels()[number])
    layouts = any_layout(board)
    if not len(layouts):
        known = stored.heavy()[number].placed if stored.DATA.exists() else ()
        return {"placed": _rows(known) if known else None}
    return {"placed": _rows(board.placed(layouts))}


def _rows(items: Sequence[PlacedOutline]) -> list[list[float]]:
    """Choice, x and y of each balloon."""
    return [[item.choice, round(item.x_mm, 9), round(item.y_mm, 9)] for item in items]


def _all(work: Callable[[int], Row], *, count: int) -> str:
    """Every panel's result as JSON, in order, one a line."""
    lines = []
    with ProcessPoolExecutor(JOBS) as pool:
        for number, result in enumerate(pool.map(work, range(count))):
            lines.append(json.dumps(result))
            sys.stderr.write(f"{number + 1} of {count}\n")
    return "[\n" + ",\n".join(lines) + "\n]"


if __name__ == "__main__":
    rows = {
        "usual": _all(solved, count=len(usual_panels())),
        "heavy": _all(filled, count=len(heavy_panels())),
    }
    body = ",\n".join(f'"{name}": {row}' for name, row in rows.items())
    seeds = json.dumps([SEED, HEAVY_SEED])
    stored.DATA.write_text(f'{{"seeds": {seeds},\n{body}}}\n', encoding="utf-8")
