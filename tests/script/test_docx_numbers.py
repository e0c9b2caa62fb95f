"""Numbers that the word processor counts: lists as python-docx writes them, and by hand (17.9)."""

import io
import zipfile

import pytest
from docx import Document
from hypothesis import given
from hypothesis import strategies as st

from letterfit.script.docx import docx_blocks
from letterfit.script.docx_numbers import written
from letterfit.script.lines import Line
from letterfit.script.sources import parse_script_bytes

W = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'
KIND = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
LINKS = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="r" Type="{KIND}/{{}}" Target="{{}}"/></Relationships>'
)


def level(depth: int, text: str, *, form: str = "decimal", more: str = "") -> str:
    """One level of a list."""
    return (
        f'<w:lvl w:ilvl="{depth}"><w:start w:val="1"/><w:numFmt w:val="{form}"/>{more}'
        f'<w:lvlText w:val="{text}"/></w:lvl>'
    )


def document(body: str, *, levels: str, lists: str = "") -> bytes:
    """A .docx of this body and one definition of a list, named 1; more lists may name it."""
    numbering = (
        f'<w:numbering {W}><w:abstractNum w:abstractNumId="7">{levels}</w:abstractNum>'
        f'<w:num w:numId="1"><w:abstractNumId w:val="7"/></w:num>{lists}</w:numbering>'
    )
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("_rels/.rels", LINKS.format("officeDocument", "word/document.xml"))
        archive.writestr(
            "word/document.xml", f"<w:document {W}><w:body>{body}</w:body></w:document>"
        )
        archive.writestr("word/_rels/document.xml.rels", LINKS.format("numbering", "numbering.xml"))
        archive.writestr("word/numbering.xml", numbering)
    return file.getvalue()


def item(text: str, depth: int = 0, *, of: int = 1, run: str = "") -> str:
    """A paragraph of a list."""
    return (
        f'<w:p><w:pPr><w:numPr><w:ilvl w:val="{depth}"/><w:numId w:val="{of}"/></w:numPr>{run}'
        f"</w:pPr><w:r><w:t>{text}</w:t></w:r></w:p>"
    )


def lines(data: bytes) -> list[str]:
    """The texts of the paragraphs."""
    return [block.text for block in docx_blocks(data)[0] if isinstance(block, Line)]


def test_panels_typed_as_a_numbered_list_keep_their_numbers() -> None:
    """What the word processor made a list of is a script all the same."""
    made = Document()
    made.add_paragraph("PAGE 1")
    for text, speech in (("Wide.", "Hold."), ("Her hand.", "Now.")):
        made.add_paragraph(text, style="List Number")
        made.add_paragraph(f"WENNA: {speech}")
    file = io.BytesIO()
    made.save(file)
    panels = parse_script_bytes(file.getvalue()).pages[0].panels
    assert [(panel.number, panel.description) for panel in panels] == [
        (1, "Wide."),
        (2, "Her hand."),
    ]


def test_levels_count_within_each_other() -> None:
    """An inner level begins anew under each outer one, and may tell both."""
    levels = level(0, "Page %1") + level(1, "%1.%2", more='<w:suff w:val="space"/>')
    body = "".join(item(*one) for one in (("", 0), ("a", 1), ("b", 1), ("", 0), ("c", 1)))
    assert lines(document(body, levels=levels)) == ["Page 1", "1.1 a", "1.2 b", "Page 2", "2.1 c"]


def test_a_list_goes_on_unless_it_begins_anew() -> None:
    """Two lists of one definition share their count; one with a start of its own does not."""
    lists = "".join(
        f'<w:num w:numId="{name}"><w:abstractNumId w:val="7"/>{change}</w:num>'
        for name, change in (
            (2, ""),
            (3, '<w:lvlOverride w:ilvl="0"><w:startOverride w:val="5"/></w:lvlOverride>'),
        )
    )
    body = "".join(item("x", of=of) for of in (1, 2, 3, 3, 0, 9))
    found = lines(document(body, levels=level(0, "%1)"), lists=lists))
    assert [text.split("\t")[0] for text in found] == ["1)", "2)", "5)", "6)", "x", "x"]


def test_bullets_and_levels_that_are_not_there_set_nothing() -> None:
    """Nor does a level without a text."""
    body = item("a") + item("b", 1) + item("c", 2)
    levels = level(0, "•", form="bullet") + level(1, "")
    assert lines(document(body, levels=levels)) == ["a", "b", "c"]


def test_a_paragraph_deleted_under_review_is_not_counted() -> None:
    """The next one takes its number."""
    gone = "<w:rPr><w:del/></w:rPr>"
    dead = item("never", run=gone).replace("<w:r>", "<w:del>").replace("</w:r>", "</w:del>")
    body = item("a") + dead + item("b")
    assert lines(document(body, levels=level(0, "%1."))) == ["1.\ta", "2.\tb"]


@pytest.mark.parametrize(
    ("form", "told"),
    [
        ("decimal", ["1", "4", "27", "1999"]),
        ("decimalZero", ["01", "04", "27", "1999"]),
        ("upperRoman", ["I", "IV", "XXVII", "MCMXCIX"]),
        ("lowerRoman", ["i", "iv", "xxvii", "mcmxcix"]),
        ("upperLetter", ["A", "D", "AA", "1999"]),
        ("lowerLetter", ["a", "d", "aa", "1999"]),
        ("ideographDigital", ["1", "4", "27", "1999"]),
    ],
)
def test_numbers_are_written_as_the_list_says(form: str, told: list[str]) -> None:
    """ST_NumberFormat (17.18.59), from memory; a format that is not known is told in figures."""
    assert [written(number, form) for number in (1, 4, 27, 1999)] == told


@given(st.integers(0, 10**6), st.sampled_from(["upperRoman", "lowerLetter", "decimal", "x"]))
def test_no_number_is_long(number: int, form: str) -> None:
    """Whatever a list begins with."""
    assert len(written(number, form)) <= 15
