"""Faults of a table: all rows that cannot be used are named at once, so that one mending does."""

from collections.abc import Sequence

from letterfit.errors import TableError

MOST_NAMED = 12
"""Faults named one by one; of more, the rest is counted."""

MOST_SHOWN = 24
"""Characters told of a cell at fault."""


def refuse(faults: Sequence[tuple[str, str]], *, source: str = "", advice: str = "") -> None:
    """Raise one error that names every row at fault; return when there is none.

    Args:
        faults: Where, such as "line 3", and what is wrong there.
        source: The file's name; may be empty.
        advice: What to do about it; may be empty.

    Raises:
        TableError: When there is a fault.

    >>> refuse([("line 3", "no text"), ("line 7", "no width")], source="texts.csv")
    Traceback (most recent call last):
    letterfit.errors.TableError: texts.csv: 2 rows cannot be used: line 3: no text; line 7: no width
    """
    if not faults:
        return
    rows = "1 row" if len(faults) == 1 else f"{len(faults):,} rows"
    named = "; ".join(f"{where}: {what}" for where, what in faults[:MOST_NAMED])
    more = len(faults) - MOST_NAMED
    rest = f"; and {more:,} more" if more > 0 else ""
    raise TableError(f"{rows} cannot be used: {named}{rest}", advice=advice, source=source)


def cell_told(cell: object) -> str:
    r"""What stands in a cell, cut short, on one line and without control characters.

    >>> cell_told("-4"), cell_told("a" * 30), cell_told("x\x1b[2J")
    ("'-4'", "'aaaaaaaaaaaaaaaaaaaaaaaa...'", "'x\\x1b[2J'")
    """
    if isinstance(cell, list):
        return "of several values"  # a list, or an object, which is read as a list of pairs
    if not isinstance(cell, str):
        return f"{cell:.6g}" if isinstance(cell, float) else str(cell)[:MOST_SHOWN]
    return ascii(cell if len(cell) <= MOST_SHOWN else f"{cell[:MOST_SHOWN]}...")
