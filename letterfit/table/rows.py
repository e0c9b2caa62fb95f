"""Records to rows: every cell checked, every outline made, every fault named at once."""

import math
import re
from collections.abc import Sequence

from letterfit.errors import LetterfitError, TableError
from letterfit.families import FAMILIES
from letterfit.lettering.style.cleaning import LONGEST_TEXT
from letterfit.outline import Outline, RoundedRect, Superellipse
from letterfit.table.faults import cell_told, refuse
from letterfit.table.model import TextRow
from letterfit.table.records import REQUIRED, Record

LEAST_SIDE, MOST_SIDE = 0.1, 10_000.0
"""Sides in mm: from what no letter fits into to what no press prints."""

LONGEST_ID = 200

NO_OUTLINE = "no outline is called"

_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d{1,3})?", re.ASCII | re.IGNORECASE)
_TAG = re.compile(r"[A-Za-z]{2,8}([-_][A-Za-z0-9]{1,8})*")
"""A language tag that looks like one (BCP 47, section 2.1)."""


class _FaultError(Exception):
    """What is wrong with a cell."""


def rows_of(records: Sequence[Record], *, source: str = "") -> tuple[TextRow, ...]:
    """The rows of a table, checked.

    Args:
        records: The rows as read.
        source: The file's name, for messages.

    Raises:
        TableError: When there are none, or some cannot be used: all are named, with their places.

    >>> cells = {"id": "a", "text": "Ahoy!", "outline": "ellipse", "width": "20", "height": "-1"}
    >>> rows_of([Record(place="line 2", cells=cells)])
    Traceback (most recent call last):
    letterfit.errors.TableError: 1 row cannot be used: line 2: height '-1' is no length from 0.1 \
to 10,000 mm
    """
    if not records:
        raise TableError("the table has no rows", advice="give a row for each text", source=source)
    rows: list[TextRow] = []
    faults: list[tuple[str, str]] = []
    first: dict[str, str] = {}
    for record in records:
        try:
            row = _row(record)
        except _FaultError as fault:
            faults.append((record.place, str(fault)))
            continue
        if first.setdefault(row.id, record.place) != record.place:
            again = f"the id {cell_told(row.id)} again, as in {first[row.id]}"
            faults.append((record.place, again))
        rows.append(row)
    unknown = any(what.startswith(NO_OUTLINE) for _, what in faults)
    refuse(faults, source=source, advice=f"outlines are {', '.join(FAMILIES)}" * unknown)
    return tuple(rows)


def _row(record: Record) -> TextRow:
    if record.faults:
        raise _FaultError(", ".join(record.faults))
    missing = [name for name in REQUIRED if name not in record.cells]
    if missing:
        raise _FaultError(f"no {', '.join(missing)}")
    language = record.cells.get("language")
    if language is not None and not (
        isinstance(language, str) and _TAG.fullmatch(language.strip())
    ):
        raise _FaultError(f"{cell_told(language)} is no language tag such as fr or pt-BR")
    return TextRow(
        id=_id(record.cells["id"]),
        text=_text(record.cells["text"]),
        outline=_outline(record),
        language=language.strip() if isinstance(language, str) else None,
        place=record.place,
    )


def _id(cell: object) -> str:
    if isinstance(cell, int) and not isinstance(cell, bool):
        return str(cell)
    if not isinstance(cell, str) or not cell.strip():
        raise _FaultError(f"the id {cell_told(cell)} is no text")
    if len(cell) > LONGEST_ID:
        raise _FaultError(f"an id of {len(cell):,} characters, {LONGEST_ID} at most")
    return cell.strip()


def _text(cell: object) -> str:
    if not isinstance(cell, str):
        raise _FaultError(f"the text {cell_told(cell)} is no text")
    if not cell.strip():
        raise _FaultError("the text is empty")
    if len(cell) > LONGEST_TEXT:
        raise _FaultError(f"a text of {len(cell):,} characters, {LONGEST_TEXT:,} at most")
    return cell


def _outline(record: Record) -> Outline:
    """The outline of a row: of a family, or with its own exponent or radius."""
    name = record.cells["outline"]
    name = name.strip().casefold() if isinstance(name, str) else name
    if not isinstance(name, str) or name not in FAMILIES:
        raise _FaultError(f"{NO_OUTLINE} {cell_told(name)}")
    a, b = _side(record, "width") / 2, _side(record, "height") / 2
    exponent, radius = _number(record, "exponent"), _number(record, "radius")
    if exponent is not None and name != "superellipse":
        raise _FaultError(f"an exponent goes with superellipse, not with {name}")
    if radius is not None and name != "rounded":
        raise _FaultError(f"a radius goes with rounded, not with {name}")
    try:
        if exponent is not None:
            return Superellipse(half_width=a, half_height=b, exponent=exponent)
        if radius is not None:
            return RoundedRect(half_width=a, half_height=b, radius=radius)
        return FAMILIES[name].within(a, b)
    except LetterfitError as error:
        raise _FaultError(error.what) from error


def _side(record: Record, name: str) -> float:
    side = _number(record, name)
    if side is None or not LEAST_SIDE <= side <= MOST_SIDE:
        cell = cell_told(record.cells.get(name))
        raise _FaultError(f"{name} {cell} is no length from {LEAST_SIDE:g} to {MOST_SIDE:,.0f} mm")
    return side


def _number(record: Record, name: str) -> float | None:
    """A finite number; None where none is given."""
    cell = record.cells.get(name)
    if cell is None:
        return None
    if isinstance(cell, str):
        written = cell.strip().replace(",", ".") if record.decimal_comma else cell.strip()
        value = float(written) if _NUMBER.fullmatch(written) else math.nan
    elif isinstance(cell, int | float) and not isinstance(cell, bool):
        value = float(cell) if abs(cell) < 1e300 else math.inf
    else:
        value = math.nan
    if not math.isfinite(value):
        raise _FaultError(f"{name} {cell_told(cell)} is no number")
    return value
