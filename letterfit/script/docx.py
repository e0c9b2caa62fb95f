"""Word-processor files: the paragraphs and tables of a .docx in document order.

Text is taken from the XML (ECMA-376 part 1, WordprocessingML), because the paragraph text that
python-docx gives leaves out insertions under review, content controls and text boxes. A
paragraph or a table row counts as one line. Read: `w:t`, `w:tab`, `w:br`, `w:cr`,
`w:noBreakHyphen`; not read: deletions, headers, footers, notes, comments.
"""

import io
import zipfile
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from letterfit.errors import ScriptError
from letterfit.findings import Finding
from letterfit.script.events import Block, Row
from letterfit.script.lines import Line, split_lines
from letterfit.script.tables import table_blocks

if TYPE_CHECKING:
    from collections.abc import Callable

MOST_UNPACKED_BYTES = 50_000_000
"""The largest .docx that is unpacked; a script of 500 pages has under 10 MB."""

_MOST_ENTRIES = 10_000
_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_FALLBACK = "{http://schemas.openxmlformats.org/markup-compatibility/2006}Fallback"
_SIGNS = {f"{_W}tab": "\t", f"{_W}br": "\n", f"{_W}cr": "\n", f"{_W}noBreakHyphen": "\u2011"}
_MOVED_AWAY = {f"{_W}del", f"{_W}moveFrom", _FALLBACK, f"{_W}tabs"}


def is_zip(data: bytes) -> bool:
    """Whether the bytes are a zip archive, as every .docx is."""
    return data[:4] in {b"PK\x03\x04", b"PK\x05\x06"}


def docx_blocks(data: bytes, *, source: str = "") -> tuple[tuple[Block, ...], tuple[Finding, ...]]:
    """The lines and table rows of a .docx, numbered by paragraph and row from 1.

    Args:
        data: The whole file.
        source: Its name, for messages.

    Raises:
        ScriptError: It is no .docx, is damaged, is too large unpacked, or python-docx is missing.
    """
    _check_archive(data, source)
    body = _body(data, source)
    findings: list[Finding] = []
    blocks: list[Block] = []
    number = 0
    for element in _flow(body):
        if element.tag == f"{_W}p":
            number += 1
            blocks += _lines(_text(element), number, findings)
        else:
            rows = [
                Row(number + at, _cells(row, number + at, findings))
                for at, row in enumerate(_rows(element), start=1)
            ]
            number += len(rows)
            blocks += table_blocks(rows)
    return tuple(blocks), tuple(findings)


def _check_archive(data: bytes, source: str) -> None:
    """Refuse what is no .docx, and a zip bomb, by the archive's own list, before unpacking."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            names = {entry.filename for entry in entries}
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OSError, EOFError) as error:
        raise _damaged(source) from error
    # A reader of zipfile never unpacks more of an entry than this list says.
    unpacked = sum(entry.file_size for entry in entries)
    if unpacked > MOST_UNPACKED_BYTES or len(entries) > _MOST_ENTRIES:
        raise ScriptError(
            f"the file is larger than {MOST_UNPACKED_BYTES // 1_000_000} MB unpacked",
            advice="save the script without pictures, or as plain text",
            source=source,
        )
    if "[Content_Types].xml" not in names or not any(n.startswith("word/") for n in names):
        raise ScriptError(
            "this is an archive, not a script",
            advice="give plain text (UTF-8) or .docx",
            source=source,
        )


def _body(data: bytes, source: str) -> Any:  # noqa: ANN401 - lxml has no types
    try:
        from docx import Document  # noqa: PLC0415 - an optional extra, imported when needed
    except ImportError as error:
        raise ScriptError(
            "reading .docx needs python-docx",
            advice="pip install letterfit[docx]",
            source=source,
        ) from error
    opened: Callable[[io.BytesIO], Any] = Document
    try:
        return opened(io.BytesIO(data)).element.body
    except Exception as error:  # a damaged archive makes the parsers raise anything
        raise _damaged(source) from error


def _damaged(source: str) -> ScriptError:
    return ScriptError(
        "the .docx is damaged", advice="open it, save it again and retry", source=source
    )


def _flow(container: Any) -> Iterator[Any]:  # noqa: ANN401 - lxml has no types
    """Paragraphs and tables in order, also those inside content controls and insertions."""
    for child in container:
        if child.tag in {f"{_W}p", f"{_W}tbl"}:
            yield child
        elif child.tag not in _MOVED_AWAY:
            yield from _flow(child)


def _rows(table: Any) -> Iterator[Any]:  # noqa: ANN401 - lxml has no types
    for child in table:
        if child.tag == f"{_W}tr":
            yield child
        elif child.tag not in _MOVED_AWAY:
            yield from _rows(child)


def _cells(row: Any, number: int, findings: list[Finding]) -> tuple[str, ...]:  # noqa: ANN401
    """The text of a row's cells, one for each column of the grid."""
    cells: list[str] = []
    for child in row:
        if child.tag == f"{_W}trPr":
            cells += [""] * _integer(child, "gridBefore")
        elif child.tag == f"{_W}tc":
            parts = [_text(element) for element in _flow(child)]
            lines = [line.text for line in _lines("\n".join(parts), number, findings)]
            cells.append("\n".join(line for line in lines if line))
            properties = child.find(f"{_W}tcPr")
            span = 1 if properties is None else _integer(properties, "gridSpan") or 1
            cells += [""] * (span - 1)
        elif child.tag not in _MOVED_AWAY:
            cells += _cells(child, number, findings)
    return tuple(cells)


def _integer(properties: Any, name: str) -> int:  # noqa: ANN401 - lxml has no types
    element = properties.find(f"{_W}{name}")
    value = "" if element is None else str(element.get(f"{_W}val", ""))
    return min(int(value), 100) if value.isascii() and value.isdigit() and len(value) < 5 else 0


def _text(element: Any) -> str:  # noqa: ANN401 - lxml has no types
    """All that is typed in a paragraph (or, one line a cell, in a table within a cell)."""
    return "".join(_pieces(element))


def _pieces(element: Any) -> Iterator[str]:  # noqa: ANN401 - lxml has no types
    for child in element:
        if child.tag == f"{_W}t":
            yield child.text or ""
        elif child.tag in _SIGNS:
            yield _SIGNS[child.tag]
        elif child.tag not in _MOVED_AWAY:
            yield from _pieces(child)
            if child.tag == f"{_W}p":
                yield "\n"


def _lines(text: str, number: int, findings: list[Finding]) -> list[Line]:
    """The lines of one paragraph: a line break typed in it parts them, all with its number."""
    lines, found = split_lines(text)
    findings += [_at(finding, number) for finding in found]
    return [Line(number, line.text, line.indent) for line in lines]


def _at(finding: Finding, number: int) -> Finding:
    return Finding(
        code=finding.code,
        severity=finding.severity,
        message=finding.message,
        advice=finding.advice,
        where=finding.where,
        line=number,
    )
