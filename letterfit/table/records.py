"""A record: a row as it was read, its cells by name, whatever file it comes from."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from letterfit.errors import TableError
from letterfit.table.faults import cell_told

REQUIRED = ("id", "text", "outline", "width", "height")
OPTIONAL = ("exponent", "radius", "language")
NAMES = frozenset((*REQUIRED, *OPTIONAL))

MOST_ROWS = 10_000
"""Rows of a table: some ten books of balloons."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A row as it was read.

    Args:
        place: Where it stands, such as "line 3".
        cells: What it holds, by the names of columns; without those left empty.
        decimal_comma: Whether 32,5 is a number, as in files whose cells no comma parts.
        faults: What reading found wrong with it.
    """

    place: str
    cells: Mapping[str, object] = field(default_factory=dict)
    decimal_comma: bool = False
    faults: tuple[str, ...] = ()


def check_names(names: Sequence[str], *, source: str) -> None:
    """Refuse column names that lack one that every row needs, or have one twice.

    Raises:
        TableError: The message lists them.
    """
    missing = [name for name in REQUIRED if name not in names]
    if missing:
        raise TableError(
            f"no column is called {', '.join(missing)}",
            advice=f"give {', '.join(REQUIRED[:-1])} and {REQUIRED[-1]}, and if wanted "
            f"{', '.join(OPTIONAL[:-1])} and {OPTIONAL[-1]}",
            source=source,
        )
    twice = [cell_told(n) for n in dict.fromkeys(names) if n in NAMES and names.count(n) > 1]
    if twice:
        raise TableError(
            f"two columns are called {', '.join(twice)}", advice="rename one", source=source
        )


def too_many(rows: Collection[object], *, source: str) -> None:
    """Refuse a table of more than `MOST_ROWS` rows.

    Raises:
        TableError: When it has more.
    """
    if len(rows) > MOST_ROWS:
        raise TableError(f"a table of over {MOST_ROWS:,} rows", advice="split it", source=source)
