"""Blocks: what a script is made of before anybody reads it, numbered lines and rows of tables."""

from dataclasses import dataclass

from letterfit.script.lines import Line


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table.

    Args:
        number: Where it stands in the source, counted from 1.
        cells: The text of each cell in the table's grid, empty where a cell continues.
        columns: For each cell the kind of its column, or "" (see `letterfit.script.tables`);
            empty for a header row.
    """

    number: int
    cells: tuple[str, ...]
    columns: tuple[str, ...] = ()


Block = Line | Row
