"""Word-processor files: the paragraphs and tables of a .docx in document order.

Text is read as it stands once all changes under review are accepted (ECMA-376 part 1,
WordprocessingML, 17.13.5): what was inserted or moved here is there, what was deleted or moved away
is not. A paragraph or a table row counts as one line; text boxes follow the paragraph they hang on.
Words that stand out in bold, italic or underlined get the emphasis marks that a typed script has
(`letterfit.script.docx_emphasis`), and numbered paragraphs their numbers
(`letterfit.script.docx_numbers`). Not read: headers, footers, notes, comments, hidden text, the
prompts of empty forms, and the small readings beside Japanese.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from letterfit.findings import Finding
from letterfit.script.blocks import Block, Row
from letterfit.script.docx_emphasis import Piece, character_styles, mark_of, marked
from letterfit.script.docx_numbers import Numbering
from letterfit.script.docx_package import Node, open_package
from letterfit.script.lines import Line, split_lines
from letterfit.script.reading import check_size
from letterfit.script.tables import table_blocks

_SIGNS = {
    "w:tab": "\t",
    "w:ptab": "\t",
    "w:br": "\n",
    "w:cr": "\n",
    "w:noBreakHyphen": "\u2011",
    "w:softHyphen": "\u00ad",
    "w:sym": "\ufffd",  # a sign of a font of symbols: only that font knows what it is
}
_UNREAD = {"w:del", "w:moveFrom", "w:tabs", "w:rt", "mc:Fallback"}
_GONE = ("w:del", "w:moveFrom")
_MOST_COLUMNS = 100

Paragraph = list[Piece]


def docx_blocks(data: bytes, *, source: str = "") -> tuple[tuple[Block, ...], tuple[Finding, ...]]:
    """The lines and table rows of a .docx, numbered by paragraph and row from 1.

    Args:
        data: The whole file.
        source: Its name, for messages.

    Raises:
        ScriptError: It is no .docx, is damaged, has a password, or is too large.
    """
    package = open_package(data, source=source)
    numbering = Numbering(package.numbering, package.styles)
    reader = _Reader(character_styles(package.styles), numbering)
    findings: list[Finding] = []
    blocks: list[Block] = []
    number = size = 0
    for item in reader.items(package.document):
        size += 0 if isinstance(item, Node) else len(item)
        check_size(size, source=source)
        if isinstance(item, Node):
            rows = [
                Row(number + at, tuple(_cell(text, number + at, findings) for text in cells))
                for at, cells in enumerate(map(reader.cells, _rows(item)), start=1)
            ]
            number += len(rows)
            blocks += table_blocks(rows)
        else:
            number += 1
            blocks += _lines(item, number, findings)
    return tuple(blocks), tuple(findings)


class _Reader:
    """Reads paragraphs and cells with the styles and lists of one document."""

    def __init__(self, styles: Mapping[str, str], numbering: Numbering) -> None:
        self._styles = styles
        self._numbering = numbering

    def items(self, container: Node) -> Iterator[str | Node]:
        """Texts of paragraphs, with those of their boxes, and tables, in order.

        A paragraph whose end was deleted under review runs on into the next one.
        """
        begun: Paragraph = []
        boxes: list[Node] = []
        label = ""
        for element in _flow(container):
            if element.tag == "w:p":
                ends = not _end_is_gone(element)
                added = list(self._pieces(element, boxes))
                if not begun and (ends or added):  # what was deleted whole is not counted
                    label = self._numbering.label(element)
                begun += added
                if ends:
                    yield f"{label}{self._told(begun, boxes)}"
                    begun, boxes, label = [], [], ""
                continue
            if begun or boxes:
                yield f"{label}{self._told(begun, boxes)}"
                begun, boxes, label = [], [], ""
            yield element
        if begun or boxes:
            yield f"{label}{self._told(begun, boxes)}"

    def cells(self, row: Node) -> tuple[str, ...]:
        """The text of a row's cells, one for each column of the grid."""
        cells: list[str] = []
        for child in row.children:
            room = max(_MOST_COLUMNS - len(cells), 0)  # for columns that hold nothing
            if child.tag == "w:trPr":
                cells += [""] * min(_integer(child, "w:gridBefore"), room)
            elif child.tag == "w:tc":
                properties = child.child("w:tcPr") or Node("", {})
                if properties.child("w:cellDel") is not None:
                    continue
                cells.append(self._text(child))
                cells += [""] * min((_integer(properties, "w:gridSpan") or 1) - 1, room)
            elif child.tag not in _UNREAD:
                cells += self.cells(child)
        return tuple(cells)

    def _text(self, container: Node) -> str:
        """All that is typed in a cell or a box, tables in it a cell a line."""
        parts: list[str] = []
        for item in self.items(container):
            if isinstance(item, str):
                parts.append(item)
            else:
                parts += (cell for row in _rows(item) for cell in self.cells(row))
        return "\n".join(parts)

    def _told(self, paragraph: Paragraph, boxes: Iterable[Node]) -> str:
        return "\n".join([marked(paragraph), *map(self._text, boxes)])

    def _pieces(self, element: Node, boxes: list[Node], mark: str = "") -> Iterator[Piece]:
        """What is typed in a paragraph, with the mark of each piece; boxes are put aside."""
        for child in element.children:
            tag = child.tag
            if tag == "w:t":
                yield Piece(child.text, mark)
            elif tag in _SIGNS:
                yield Piece(_SIGNS[tag], mark)
            elif tag == "w:txbxContent":
                boxes.append(child)
            elif tag == "w:r":
                own = mark_of(child.child("w:rPr"), self._styles)
                if own is not None:
                    yield from self._pieces(child, boxes, own)
            elif tag not in _UNREAD and not _is_prompt(child):
                yield from self._pieces(child, boxes, mark)


def _flow(container: Node) -> Iterator[Node]:
    """Paragraphs and tables in order, also those inside content controls and insertions."""
    for child in container.children:
        if child.tag in {"w:p", "w:tbl"}:
            yield child
        elif child.tag not in _UNREAD and not _is_prompt(child):
            yield from _flow(child)


def _rows(table: Node) -> Iterator[Node]:
    for child in table.children:
        if child.tag == "w:tr":
            properties = child.child("w:trPr")
            if properties is None or properties.child("w:del") is None:
                yield child
        elif child.tag not in _UNREAD:
            yield from _rows(child)


def _end_is_gone(paragraph: Node) -> bool:
    """Whether the paragraph's own mark was deleted or moved away under review (17.13.5.15)."""
    properties = paragraph.child("w:pPr")
    run = None if properties is None else properties.child("w:rPr")
    return run is not None and any(run.child(tag) is not None for tag in _GONE)


def _is_prompt(element: Node) -> bool:
    """Whether a content control shows its prompt, which nobody typed (17.5.2.39)."""
    properties = element.child("w:sdtPr")
    return properties is not None and properties.child("w:showingPlcHdr") is not None


def _integer(properties: Node, tag: str) -> int:
    value = properties.value(tag)
    plain = value.isascii() and value.isdigit() and len(value) < 5
    return int(value) if plain else 0


def _cell(text: str, number: int, findings: list[Finding]) -> str:
    lines = [line.text for line in _lines(text, number, findings)]
    return "\n".join(line for line in lines if line)


def _lines(text: str, number: int, findings: list[Finding]) -> list[Line]:
    """The lines of one paragraph: a line break typed in it parts them, all with its number."""
    lines, found = split_lines(text)
    findings += [replace(finding, line=number) for finding in found]
    return [Line(number, line.text, line.indent) for line in lines]
