"""CSV to records: comma, semicolon or tab, whichever makes most of the column names."""

import csv
import io
from collections.abc import Iterator

from letterfit.errors import TableError
from letterfit.table.faults import cell_told
from letterfit.table.records import NAMES, Record, check_names, too_many

DELIMITERS = (",", ";", "\t")
"""RFC 4180, section 2, has the comma; spreadsheets write the others."""


def csv_records(text: str, *, source: str) -> list[Record]:
    r"""The rows of a CSV file, each cell by its column's name.

    Args:
        text: The file; the first row that is not blank names the columns.
        source: Its name, for messages.

    Raises:
        TableError: When a quote is not closed, columns are missing or named twice, or there are too
            many rows.

    >>> text = "id;text;outline;width;height\n7;Hm, no.;caption;32,5;8\n"
    >>> (record,) = csv_records(text, source="")
    >>> record.place, record.cells["text"], record.cells["width"], record.decimal_comma
    ('line 2', 'Hm, no.', '32,5', True)
    """
    limit = csv.field_size_limit(max(len(text), 1))  # a long cell is refused by its row's name
    try:
        return _records(text, source=source)
    finally:
        csv.field_size_limit(limit)


def _records(text: str, *, source: str) -> list[Record]:
    found = max(DELIMITERS, key=lambda mark: len(NAMES.intersection(_header(text, mark))))
    rows = _rows(text, found, source=source)
    _, heads = next(rows, (1, []))
    names = [head.strip().casefold() for head in heads]
    check_names([name for name in names if name], source=source)
    records = []
    for line, cells in rows:
        extra = [cell for cell in cells[len(names) :] if cell.strip()]
        faults = tuple(f"{cell_told(cell)} stands under no column's name" for cell in extra[:1])
        kept = zip(names, cells, strict=False)
        records.append(
            Record(
                place=f"line {line}",
                cells={name: cell for name, cell in kept if cell.strip()},
                decimal_comma=found != ",",
                faults=faults,
            )
        )
        too_many(records, source=source)
    return records


def _header(text: str, delimiter: str) -> list[str]:
    """The names of the columns, were the cells parted so; none where they cannot be."""
    try:
        _, heads = next(_rows(text, delimiter, source=""), (1, []))
    except TableError:
        return []
    return [head.strip().casefold() for head in heads]


def _rows(text: str, delimiter: str, *, source: str) -> Iterator[tuple[int, list[str]]]:
    """Every row that is not blank, with the line it begins on."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    line = 1
    while True:
        try:
            cells = next(reader, None)
        except csv.Error as error:
            raise TableError(
                f"this is no CSV: {error}",
                advice="close every quote, and double quotes inside one",
                source=source,
                line=line,
            ) from None
        if cells is None:
            return
        if any(cell.strip() for cell in cells):
            yield line, cells
        line = reader.line_num + 1
