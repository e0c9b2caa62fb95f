"""A file of texts and outlines to rows: CSV (RFC 4180) or JSON (RFC 8259), told by its content."""

import os

from letterfit.errors import TableError
from letterfit.files import read_ordinary
from letterfit.table.csv_records import csv_records
from letterfit.table.json_records import json_records
from letterfit.table.model import TextRow
from letterfit.table.rows import rows_of

MOST_BYTES = 20_000_000
"""Bytes of a file: ten thousand rows of long texts."""


def read_table(path: str | os.PathLike[str]) -> tuple[TextRow, ...]:
    r"""The rows of a file.

    Args:
        path: A CSV or JSON file; which of them, is told from its content.

    Returns:
        As `parse_table`.

    Raises:
        TableError: As `parse_table`.
        OSError: When the file cannot be read.

    >>> import tempfile
    >>> from pathlib import Path
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder, "table.csv")
    ...     rows = "id,text,outline,width,height\n1.1,Ahoy!,ellipse,20,10\n"
    ...     _ = file.write_text(rows, encoding="utf-8")
    ...     (row,) = read_table(file)
    >>> row.text, row.place
    ('Ahoy!', 'line 2')
    """
    source = os.fspath(path)
    if "\0" in source:
        raise TableError("a file name holds no NUL", advice="check the name")
    return parse_table(read_ordinary(source, most_bytes=MOST_BYTES + 1), source=source)


def parse_table(data: bytes, *, source: str = "") -> tuple[TextRow, ...]:
    r"""The rows of a file's bytes.

    Args:
        data: CSV with a row of column names, its cells parted by commas, semicolons or tabs, or a
            JSON list of objects with the same names. Columns: id, text, outline (a family's name),
            width and height (whole sides in mm); and if wanted exponent (of a superellipse), radius
            (of a rounded box, mm) and language (a BCP 47 code). Other columns are not read.
        source: The file's name, for messages.

    Returns:
        The rows in the order of the file, each with the line or item where it stands.

    Raises:
        TableError: When the file is no such table, or rows of it cannot be used: all are named.

    >>> (row,) = parse_table(b"id,text,outline,width,height\n1.1,Ahoy!,ellipse,20,10\n")
    >>> row.id, row.text, row.outline, row.place
    ('1.1', 'Ahoy!', Ellipse(half_width=10.0, half_height=5.0), 'line 2')
    """
    if len(data) > MOST_BYTES:
        raise TableError(
            f"the file is over {MOST_BYTES // 1_000_000} MB", advice="split it", source=source
        )
    text = _decoded(data, source=source)
    if not text.strip():
        raise TableError(
            "the table is empty",
            advice="give a row of column names, then a row for each text",
            source=source,
        )
    records = json_records if text.lstrip()[0] in "[{" else csv_records
    return rows_of(records(text, source=source), source=source)


def _decoded(data: bytes, *, source: str) -> str:
    """UTF-8, or UTF-16 that says so by a byte order mark, as spreadsheets write it."""
    encoding = "utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise TableError(
            "the file is not in UTF-8", advice="save it as UTF-8", source=source, line=line
        ) from None
    if "\0" in text:
        raise TableError(
            "a NUL character",
            advice="save the table as text, CSV or JSON in UTF-8",
            source=source,
            line=text.count("\n", 0, text.index("\0")) + 1,
        )
    return text
