"""JSON to records: a list of objects, with the names that CSV has as columns."""

import json
from typing import NoReturn

from letterfit.errors import TableError
from letterfit.table.faults import cell_told
from letterfit.table.records import REQUIRED, Record, too_many


def json_records(text: str, *, source: str) -> list[Record]:
    """The rows of a JSON file.

    Args:
        text: The file: a list of objects (RFC 8259). A null is a value left out.
        source: Its name, for messages.

    Raises:
        TableError: When it is no JSON, no list, or has too many rows.

    >>> (record,) = json_records('[{"ID": 7, "text": "Ahoy!"}]', source="")
    >>> record.place, record.cells
    ('row 1', {'id': 7, 'text': 'Ahoy!'})
    """
    try:
        value = json.loads(text, object_pairs_hook=_Pairs, parse_constant=_refuse_constant)
    except json.JSONDecodeError as error:
        raise TableError(
            f"this is no JSON: {error.msg}",
            advice="give a list of objects",
            source=source,
            line=error.lineno,
        ) from None
    except (RecursionError, ValueError) as error:
        raise TableError(
            f"this is no table in JSON: {_why(error)}",
            advice="give a list of objects",
            source=source,
        ) from None
    if not isinstance(value, list) or isinstance(value, _Pairs) or not value:
        raise TableError(
            "the JSON is no list of rows",
            advice=f"give a list of objects with {', '.join(REQUIRED)}",
            source=source,
        )
    too_many(value, source=source)
    return [_record(number, item) for number, item in enumerate(value, start=1)]


class _Pairs(list[tuple[str, object]]):
    """The names and values of an object, in order: a name may stand twice."""


def _record(number: int, item: object) -> Record:
    place = f"row {number}"
    if not isinstance(item, _Pairs):
        return Record(place=place, faults=("it is no object",))
    pairs = [(name.strip().casefold(), value) for name, value in item]
    names = [name for name, _ in pairs]
    twice = [cell_told(name) for name in dict.fromkeys(names) if names.count(name) > 1]
    faults = (f"{', '.join(twice)} given twice",) if twice else ()
    cells = {name: value for name, value in pairs if value is not None}
    return Record(place=place, cells=cells, faults=faults)


class _NoNumberError(ValueError):
    """RFC 8259, section 6: NaN and infinities are no numbers."""


def _refuse_constant(name: str) -> NoReturn:
    message = f"{name} is no number"
    raise _NoNumberError(message)


def _why(error: Exception) -> str:
    if isinstance(error, _NoNumberError):
        return str(error)
    if isinstance(error, RecursionError):
        return "it is nested too deep"
    return "a number has too many digits"  # Python reads no whole number of over 4,300
