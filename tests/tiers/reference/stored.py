"""The best grids that scipy's optimisers found for pages by lot, as they are stored."""

import json
from dataclasses import asdict, dataclass
from pathlib import Path

DATA = Path(__file__).parents[2] / "data" / "tier_reference.json"


@dataclass(frozen=True, slots=True)
class Row:
    """A page, and the least change found.

    Args:
        seed: The page's seed.
        figure_mm: The figure asked of it.
        evolved: The change by differential evolution and the simplex alone.
        tabled: The change with the table of all sizes besides.
        heights_mm: The tiers of the latter's grid.
        widths_mm: And its places.
    """

    seed: int
    figure_mm: float
    evolved: float
    tabled: float
    heights_mm: tuple[float, ...]
    widths_mm: tuple[tuple[float, ...], ...]


def stored() -> list[Row]:
    """All rows."""
    return [
        Row(
            seed=row["seed"],
            figure_mm=row["figure_mm"],
            evolved=row["evolved"],
            tabled=row["tabled"],
            heights_mm=tuple(row["heights_mm"]),
            widths_mm=tuple(map(tuple, row["widths_mm"])),
        )
        for row in json.loads(DATA.read_text(encoding="utf-8"))
    ]


def store(rows: list[Row]) -> None:
    """Write all rows, one a line."""
    lines = ",\n".join(json.dumps(asdict(row)) for row in rows)
    DATA.write_text(f"[\n{lines}\n]\n", encoding="utf-8")
