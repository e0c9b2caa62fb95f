"""Word-processor files, made in memory with python-docx and by hand (ECMA-376 part 1)."""

import io
import sys
import zipfile
from collections.abc import Sequence

import pytest
from docx import Document
from docx.document import Document as DocumentType
from docx.oxml import parse_xml
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import ScriptError
from letterfit.script import Script, parse_script_bytes
from letterfit.script.docx import MOST_UNPACKED_BYTES, docx_blocks

W = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'
HEADER = ("Panel", "Picture", "No.", "Speaker", "Text")


def saved(document: DocumentType) -> bytes:
    """The bytes of a document."""
    file = io.BytesIO()
    document.save(file)
    return file.getvalue()


def typed(*paragraphs: str) -> DocumentType:
    """A document of paragraphs."""
    document = Document()
    for paragraph in paragraphs:
        document.add_paragraph(paragraph)
    return document


def add_table(document: DocumentType, rows: Sequence[Sequence[str]]) -> None:
    """A table at the end of a document."""
    table = document.add_table(rows=0, cols=len(rows[0]))
    for row in rows:
        for cell, text in zip(table.add_row().cells, row, strict=True):
            cell.text = text


def with_part(data: bytes, name: str, content: bytes) -> bytes:
    """The archive with one of its parts replaced."""
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(file, "w") as new:
        for entry in old.infolist():
            new.writestr(entry, content if entry.filename == name else old.read(entry))
    return file.getvalue()


def said(script: Script) -> list[tuple[int, str | None, str]]:
    """Line, speaker and text of all that is lettered."""
    return [(e.line, e.speaker, e.text) for p in script.pages for q in p.panels for e in q.elements]


def test_paragraphs_and_tables_in_document_order() -> None:
    """Each paragraph and each row counts as one line; breaks and tabs are kept as such."""
    document = typed(
        "LOW WATER", "PAGE 1", "Panel 1. Wide.", "WENNA: Hold\na little.", "WENNA:\tNow."
    )
    add_table(document, [HEADER, ("2", "Her hand.", "7", "PILOT (off)", "Ahoy!")])
    document.add_paragraph("Panel 3")
    document.add_paragraph("WENNA: Go.")
    script = parse_script_bytes(saved(document), source="gate.docx")
    assert said(script) == [
        (4, "WENNA", "Hold a little."), (5, "WENNA", "Now."),
        (7, "PILOT", "Ahoy!"), (9, "WENNA", "Go."),
    ]  # fmt: skip
    assert (script.title, script.source) == ("LOW WATER", "gate.docx")
    assert [panel.number for panel in script.pages[0].panels] == [1, 2, 3]
    assert script.findings == ()


def test_a_table_with_pages_and_continued_cells() -> None:
    """A page column opens pages; an empty speaker goes on speaking; a dash is no lettering."""
    document = Document()
    rows = [
        ("Page", "Panel", "Description", "Character", "Dialogue"),
        ("1", "1", "Wide.", "WENNA", "Hold."),
        ("", "", "", "", "And hold."),
        ("", "2", "Hand.", "", "—"),
        ("2", "1", "Gate.", "Caption", "Later."),
        ("", "", "", "", "PILOT: Ahoy!"),
    ]
    add_table(document, rows)
    document.add_paragraph("She turns.")
    script = parse_script_bytes(saved(document))
    assert script.pages[1].panels[0].description == "Gate. She turns."
    assert [(p.numbers, len(p.panels)) for p in script.pages] == [((1,), 2), ((2,), 1)]
    assert [text for _, _, text in said(script)] == ["Hold.", "And hold.", "Later.", "Ahoy!"]
    assert script.pages[0].panels[1].note == "—"


def test_a_table_without_header_is_read_as_lines() -> None:
    """Name and words side by side; headings and descriptions in cells of their own."""
    document = typed("PAGE 1")
    add_table(
        document, [("Panel 1", "Wide."), ("WENNA", "Hold."), ("SFX", "KRRK"), ("She turns.", "")]
    )
    script = parse_script_bytes(saved(document))
    assert [(s, t) for _, s, t in said(script)] == [("WENNA", "Hold."), (None, "KRRK")]
    assert script.pages[0].panels[0].description == "Wide. She turns."


def test_insertions_controls_and_boxes_are_read_and_deletions_are_not() -> None:
    """Text under review, in content controls, in links and in text boxes is typed text."""
    document = typed("PAGE 1", "Panel 1")
    body = document.element.body
    run = "<w:r><w:t xml:space='preserve'>{}</w:t></w:r>"
    reviewed = (
        f"<w:p {W}>{run.format('WENNA: ')}<w:ins w:id='1'>{run.format('Hold ')}</w:ins>"
        "<w:del w:id='2'><w:r><w:delText>never</w:delText></w:r></w:del>"
        f"<w:hyperlink>{run.format('on')}</w:hyperlink>"
        "<w:r><w:noBreakHyphen/><w:t>x</w:t></w:r></w:p>"
    )
    controlled = (
        f"<w:sdt {W}><w:sdtContent><w:p>{run.format('PILOT: Ahoy!')}</w:p></w:sdtContent></w:sdt>"
    )
    boxed = (
        f"<w:p {W}><w:r><w:pict><w:txbxContent><w:p>{run.format('SFX: KRRK')}</w:p>"
        "</w:txbxContent></w:pict></w:r></w:p>"
    )
    for inner in (reviewed, controlled, boxed):
        body.insert(len(body) - 1, parse_xml(inner))
    script = parse_script_bytes(saved(document))
    assert [t for _, _, t in said(script)] == ["Hold on\u2011x", "Ahoy!", "KRRK"]


def test_merged_cells_hold_their_text_once() -> None:
    """A cell over two rows continues empty; a cell over two columns leaves the second empty."""
    document = typed("PAGE 1")
    add_table(
        document, [HEADER, ("1", "Wide.", "1", "WENNA", "Hold."), ("", "", "2", "WENNA", "Now.")]
    )
    table = document.tables[0]
    for column in (0, 1):
        table.cell(1, column).merge(table.cell(2, column))
    script = parse_script_bytes(saved(document))
    (panel,) = script.pages[0].panels
    assert panel.description == "Wide."
    assert [e.index for e in panel.elements] == [1, 2]


def test_without_python_docx_the_message_says_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The extra is named; nothing else of letterfit needs it."""
    data = saved(typed("PAGE 1", "Panel 1"))
    monkeypatch.setitem(sys.modules, "docx", None)
    with pytest.raises(ScriptError, match="pip install letterfit\\[docx\\]"):
        parse_script_bytes(data)


def test_a_zip_bomb_is_refused_by_its_list() -> None:
    """More than the limit unpacked, in one part or in many, is never unpacked."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", "<Types/>")
        archive.writestr("word/document.xml", b"0" * (MOST_UNPACKED_BYTES + 1))
    assert len(file.getvalue()) < 200_000
    with pytest.raises(ScriptError, match="larger than 50 MB unpacked"):
        parse_script_bytes(file.getvalue())


def test_entities_are_not_expanded() -> None:
    """A document whose entities would grow to gigabytes is read without them, or refused."""
    bomb = (
        b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "' + b"A" * 1000 + b'">'
        + b"".join(b'<!ENTITY %c "%s">' % (98 + n, b"&%c;" % (97 + n) * 50) for n in range(6))
        + b"]><w:document " + W.encode() + b"><w:body><w:p><w:r><w:t>PAGE 1 &g;</w:t></w:r></w:p>"
        b"<w:sectPr/></w:body></w:document>"
    )  # fmt: skip
    data = with_part(saved(typed("PAGE 1")), "word/document.xml", bomb)
    try:
        script = parse_script_bytes(data)
    except ScriptError:
        return
    assert "AAAA" not in repr(script)


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"PK\x05\x06" + b"\0" * 18, "archive, not a script"),
        (b"PK\x03\x04 and then nothing", "damaged"),
    ],
)
def test_archives_that_are_no_script_are_refused(data: bytes, what: str) -> None:
    """An empty archive, and one that breaks off."""
    with pytest.raises(ScriptError, match=what):
        parse_script_bytes(data, source="gate.docx")


@pytest.mark.parametrize("name", ["word/document.xml", "[Content_Types].xml", "_rels/.rels"])
@pytest.mark.parametrize("content", [b"", b"<x>", b"<x/>", b"\0\xff"])
def test_damaged_parts_are_refused_in_one_line(name: str, content: bytes) -> None:
    """Broken XML or missing pieces inside the archive never raise anything else."""
    data = with_part(saved(typed("PAGE 1", "Panel 1")), name, content)
    with pytest.raises(ScriptError):
        parse_script_bytes(data, source="gate.docx")


@given(st.data())
def test_any_damage_to_a_docx_is_a_script_error_or_read(data: st.DataObject) -> None:
    """Bytes changed or cut anywhere in the file."""
    good = bytearray(GOOD)
    for _ in range(data.draw(st.integers(1, 4))):
        good[data.draw(st.integers(4, len(good) - 1))] = data.draw(st.integers(0, 255))
    cut = data.draw(st.sampled_from([len(good), len(good) // 2, len(good) - 10]))
    try:
        parse_script_bytes(bytes(good[:cut]))
    except ScriptError as error:
        assert str(error).isprintable()  # noqa: PT017 - one line, whatever was found


GOOD = saved(typed("PAGE 1", "Panel 1. Wide.", "WENNA: Hold."))


def test_rows_and_lines_are_numbered_from_one() -> None:
    """An empty paragraph counts; a break inside one does not."""
    document = typed("a", "", "b\nc")
    add_table(document, [("x",), ("y",)])
    blocks, findings = docx_blocks(saved(document))
    numbers = [block.number for block in blocks if getattr(block, "text", "")]
    assert numbers == [1, 3, 3, 4, 5]
    assert findings == ()
