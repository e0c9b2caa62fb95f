"""Word-processor files, made in memory with python-docx and by hand (ECMA-376 part 1)."""

import io
import re
import zipfile
from collections.abc import Sequence

from docx import Document
from docx.document import Document as DocumentType
from docx.oxml import parse_xml
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import ScriptError
from letterfit.script.blocks import Row
from letterfit.script.docx import docx_blocks
from letterfit.script.lines import split_lines
from letterfit.script.model import Script
from letterfit.script.sources import parse_script_bytes

RUN = "<w:r><w:t xml:space='preserve'>{}</w:t></w:r>"
GONE = "<w:r><w:delText>{}</w:delText></w:r>"
MC = 'xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"'
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
    reviewed = (
        f"<w:p {W}>{RUN.format('WENNA: ')}<w:ins w:id='1'>{RUN.format('Hold ')}</w:ins>"
        "<w:del w:id='2'><w:r><w:delText>never</w:delText></w:r></w:del>"
        f"<w:hyperlink>{RUN.format('on')}</w:hyperlink>"
        "<w:r><w:noBreakHyphen/><w:t>x</w:t></w:r></w:p>"
    )
    controlled = (
        f"<w:sdt {W}><w:sdtContent><w:p>{RUN.format('PILOT: Ahoy!')}</w:p></w:sdtContent></w:sdt>"
    )
    boxed = (
        f"<w:p {W}><w:r><w:pict><w:txbxContent><w:p>{RUN.format('SFX: KRRK')}</w:p>"
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


def test_changes_under_review_read_as_accepted() -> None:
    """What was deleted or moved away is gone, with its paragraph's end or its row (17.13.5)."""
    document = typed("PAGE 1", "Panel 1")
    body = document.element.body
    gone = "<w:pPr><w:rPr><w:{}/></w:rPr></w:pPr>"
    moved = (
        f"<w:moveFromRangeStart/><w:moveFrom>{RUN.format('PILOT: Ahoy!')}</w:moveFrom>"
        "<w:moveFromRangeEnd/>"
    )
    for inner in (
        # The end of the first paragraph was deleted: it runs on into the second.
        f"<w:p {W}>{gone.format('del')}{RUN.format('WENNA: Hold ')}</w:p>",
        f"<w:p {W}>{RUN.format('the gate.')}</w:p>",
        # A paragraph that was deleted whole, and one that was moved from here to there.
        f"<w:p {W}>{gone.format('del')}<w:del>{GONE.format('PILOT: Never.')}</w:del></w:p>",
        f"<w:p {W}>{gone.format('moveFrom')}{moved}</w:p>",
        f"<w:p {W}>{RUN.format('TOBY: Eels.')}</w:p>",
        f"<w:p {W}><w:moveTo>{RUN.format('PILOT: Ahoy!')}</w:moveTo></w:p>",
    ):
        body.insert(len(body) - 1, parse_xml(inner))
    script = parse_script_bytes(saved(document))
    assert said(script) == [
        (3, "WENNA", "Hold the gate."),
        (4, "TOBY", "Eels."),
        (5, "PILOT", "Ahoy!"),
    ]


def test_rows_and_cells_deleted_under_review_are_gone() -> None:
    """A row that was inserted is there."""
    document = typed("PAGE 1")
    rows = [("", "", "", "WENNA", word) for word in ("Hold.", "Never.", "Now.")]
    add_table(document, [HEADER, ("1", "Wide.", "", "WENNA", "Go."), *rows])
    table = document.tables[0]
    for at, change in ((2, "ins"), (3, "del")):
        properties = table.rows[at]._tr.get_or_add_trPr()
        properties.append(parse_xml(f"<w:{change} {W} w:id='1'/>"))
    cell = table.rows[4].cells[3]._tc.get_or_add_tcPr()
    cell.append(parse_xml(f"<w:cellDel {W} w:id='2'/>"))
    blocks, _ = docx_blocks(saved(document))
    told = [block.cells for block in blocks if isinstance(block, Row)]
    assert told[1:] == [
        ("1", "Wide.", "", "WENNA", "Go."),
        ("", "", "", "WENNA", "Hold."),
        ("", "", "", "Now."),
    ]


def test_text_boxes_follow_the_paragraph_they_hang_on() -> None:
    """Wherever in it they are anchored, their words are lines of their own, told once."""
    box = f"<w:txbxContent><w:p>{RUN.format('SFX: KRRK')}</w:p></w:txbxContent>"
    choice = (
        f"<mc:AlternateContent {MC}><mc:Choice Requires='wps'><w:drawing>{box}</w:drawing>"
        f"</mc:Choice><mc:Fallback><w:pict>{box}</w:pict></mc:Fallback></mc:AlternateContent>"
    )
    document = typed("PAGE 1", "Panel 1")
    body = document.element.body
    paragraph = f"<w:p {W}>{RUN.format('WENNA: Hold')}<w:r>{choice}</w:r>{RUN.format(' on.')}</w:p>"
    body.insert(len(body) - 1, parse_xml(paragraph))
    script = parse_script_bytes(saved(document))
    assert said(script) == [(3, "WENNA", "Hold on."), (3, None, "KRRK")]


def test_notes_comments_and_what_nobody_typed_are_not_read() -> None:
    """Marks of notes and comments, hidden text, prompts of forms, codes of fields, readings."""
    document = typed("PAGE 1", "Panel 1")
    body = document.element.body
    inner = (
        f"<w:p {W}>{RUN.format('WENNA: Hold')}"
        "<w:commentRangeStart w:id='0'/><w:r><w:footnoteReference w:id='1'/>"
        "<w:commentReference w:id='0'/></w:r><w:commentRangeEnd w:id='0'/>"
        "<w:r><w:rPr><w:vanish/></w:rPr><w:t>hidden</w:t></w:r>"
        "<w:r><w:fldChar w:fldCharType='begin'/><w:instrText>PAGE 7</w:instrText></w:r>"
        "<w:sdt><w:sdtPr><w:showingPlcHdr/></w:sdtPr><w:sdtContent>"
        f"{RUN.format('Click here')}</w:sdtContent></w:sdt>"
        f"<w:r><w:ruby><w:rt>{RUN.format('みず')}</w:rt>"
        f"<w:rubyBase>{RUN.format(' 水')}</w:rubyBase></w:ruby></w:r>"
        f"{RUN.format('.')}</w:p>"
    )
    body.insert(len(body) - 1, parse_xml(inner))
    document.sections[0].header.paragraphs[0].text = "PILOT: In the header."
    assert [t for _, _, t in said(parse_script_bytes(saved(document)))] == ["Hold 水."]


def test_a_sign_of_a_symbol_font_is_not_lost_silently() -> None:
    """Only its font knows what it is: it becomes U+FFFD, which the report tells of."""
    document = typed("PAGE 1", "Panel 1")
    body = document.element.body
    sign = (
        f"<w:p {W}>{RUN.format('WENNA: Hold ')}<w:r><w:sym w:font='X' w:char='F0E0'/></w:r></w:p>"
    )
    body.insert(len(body) - 1, parse_xml(sign))
    assert [t for _, _, t in said(parse_script_bytes(saved(document)))] == ["Hold \ufffd"]


@given(st.data())
def test_any_damage_to_a_docx_is_a_script_error_or_read(data: st.DataObject) -> None:
    """Bytes changed or cut anywhere in the file."""
    good = bytearray(SMALL)
    for _ in range(data.draw(st.integers(1, 4))):
        good[data.draw(st.integers(4, len(good) - 1))] = data.draw(st.integers(0, 255))
    cut = data.draw(st.sampled_from([len(good), len(good) // 2, len(good) - 10]))
    try:
        parse_script_bytes(bytes(good[:cut]))
    except ScriptError as error:
        assert str(error).isprintable()  # noqa: PT017 - one line, whatever was found


@given(st.data())
def test_any_damage_to_the_document_is_a_script_error_or_read(data: st.DataObject) -> None:
    """Tags of its XML lost, doubled or exchanged: the archive is whole, its content is not."""
    parts = TAG.split(DOCUMENT)
    for _ in range(data.draw(st.integers(1, 3))):
        one, other = (data.draw(st.integers(0, len(parts) - 1)) for _ in range(2))
        parts[one] = data.draw(st.sampled_from([b"", parts[other], parts[one] * 2]))
    try:
        parse_script_bytes(with_part(SMALL, "word/document.xml", b"".join(parts)))
    except ScriptError as error:
        assert str(error).isprintable()  # noqa: PT017 - one line, whatever was found


def without_styles(data: bytes) -> bytes:
    """The archive with as little in it as can be read."""
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(file, "w") as new:
        for name in ("_rels/.rels", "word/document.xml"):
            new.writestr(name, old.read(name))
    return file.getvalue()


SMALL = without_styles(saved(typed("PAGE 1", "Panel 1. Wide.", "WENNA: Hold.")))
DOCUMENT = zipfile.ZipFile(io.BytesIO(SMALL)).read("word/document.xml")
TAG = re.compile(rb"(<[^>]*>)")


def test_rows_and_lines_are_numbered_from_one() -> None:
    """An empty paragraph counts; a break inside one does not."""
    document = typed("a", "", "b\nc")
    add_table(document, [("x",), ("y",)])
    blocks, findings = docx_blocks(saved(document))
    numbers = [block.number for block in blocks if getattr(block, "text", "")]
    assert numbers == [1, 3, 3, 4, 5]
    assert findings == ()


SIGNS = st.text(st.sampled_from("abÉ水 \t\n.:-–“”"), max_size=12)


@settings(max_examples=8)
@given(st.lists(st.lists(SIGNS, max_size=3), min_size=1, max_size=6))
def test_plain_paragraphs_read_as_another_reader_reads_them(runs: list[list[str]]) -> None:
    """python-docx gives the same text of every paragraph that has no review, boxes or lists."""
    document = Document()
    for texts in runs:
        paragraph = document.add_paragraph()
        for text in texts:
            paragraph.add_run(text)
    data = saved(document)
    theirs = [paragraph.text for paragraph in Document(io.BytesIO(data)).paragraphs]
    blocks, _ = docx_blocks(data)
    ours: dict[int, list[str]] = {}
    for block in blocks:
        ours.setdefault(block.number, []).append(getattr(block, "text", ""))
    assert len(ours) == len(theirs)
    for text, lines in zip(theirs, ours.values(), strict=True):
        assert lines == [line.text for line in split_lines(text)[0]]
