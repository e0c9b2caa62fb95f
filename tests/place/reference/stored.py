"""The reference layouts as they are stored, read as values."""

import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from letterfit.place.model import PlacedOutline
from tests.benchmarks.panels import Task, heavy_panels, usual_panels

DATA = Path(__file__).parents[2] / "data" / "place_reference.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """The best that is known of one panel.

    Args:
        task: The panel and its balloons.
        placed: Its best layout; empty when none was found.
        cost: Its cost; infinite when none was found, and for heavy panels not told.
        complete: Whether the search was complete on its grid.
    """

    task: Task
    placed: tuple[PlacedOutline, ...]
    cost: float = float("inf")
    complete: bool = False


@cache
def usual() -> tuple[Reference, ...]:
    """The usual panels with their best layouts."""
    stored = json.loads(DATA.read_text("utf-8"))["usual"]
    return tuple(
        Reference(
            task=task,
            placed=_placed(task, row["placed"]),
            cost=row.get("cost", float("inf")),
            complete=row["complete"],
        )
        for task, row in zip(usual_panels(), stored, strict=True)
    )


@cache
def heavy() -> tuple[Reference, ...]:
    """The heavy panels, each with some layout where one was found."""
    stored = json.loads(DATA.read_text("utf-8"))["heavy"]
    return tuple(
        Reference(task=task, placed=_placed(task, row["placed"]))
        for task, row in zip(heavy_panels(), stored, strict=True)
    )


def _placed(task: Task, rows: list[list[float]] | None) -> tuple[PlacedOutline, ...]:
    return tuple(
        PlacedOutline(
            index=i, choice=int(choice), outline=task.menus[i][int(choice)], x_mm=x, y_mm=y
        )
        for i, (choice, x, y) in enumerate(rows or ())
    )
