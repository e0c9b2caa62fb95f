"""Faults of a table: named at once, cut short, counted past a dozen."""

import pytest

from letterfit.errors import TableError
from letterfit.table.faults import MOST_NAMED, cell_told, refuse


def test_no_fault_is_no_error() -> None:
    """A clean table passes."""
    refuse([])


def test_a_dozen_are_named_and_the_rest_counted() -> None:
    """The thirteenth and what follows are a number."""
    faults = [(f"line {n}", "no text") for n in range(2, 2 + MOST_NAMED + 3)]
    with pytest.raises(TableError) as caught:
        refuse(faults, source="texts.csv", advice="write some")
    told = str(caught.value)
    assert told.startswith("texts.csv: 15 rows cannot be used: line 2: no text; line 3")
    assert told.endswith("line 13: no text; and 3 more; write some")


def test_what_is_shown_cannot_reach_the_terminal() -> None:
    """Escapes, line ends and right-to-left marks are written out."""
    assert cell_told("\x1b[2J\n\u202e").isascii()
    assert "\x1b" not in cell_told("\x1b[2J")
