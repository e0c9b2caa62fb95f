"""Emphasis from a word processor, held against the reader of marks and against Markdown."""

import io

import pytest
from docx import Document
from docx.enum.style import WD_STYLE_TYPE
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.style.emphasis import emphasis_spans
from letterfit.script.docx_emphasis import Piece, marked
from letterfit.script.parse import parse_script
from letterfit.script.sources import parse_script_bytes

WORDS = st.text(st.sampled_from("aBé中 .,!?'-…\"()1\n"), min_size=1, max_size=8)
PIECES = st.lists(st.builds(Piece, WORDS, st.sampled_from(["", "", "*", "**", "***"])), max_size=7)


@given(PIECES)
def test_marks_are_read_again_and_nothing_else_changes(pieces: list[Piece]) -> None:
    """Without the marks the text is what was typed; every letter is emphasised that stood out."""
    text = "".join(piece.text for piece in pieces)
    spans = emphasis_spans(marked(pieces), emphasis="as-marked")
    assert "".join(span.text for span in spans) == text


@given(PIECES, PIECES)
def test_letters_that_stand_out_in_a_line_are_emphasised(
    before: list[Piece], after: list[Piece]
) -> None:
    """Between two plain words that no mark can reach, with all of each word that has any."""
    pieces = [Piece("Aye ", ""), *before, *after, Piece(" aye", "")]
    pieces = [Piece(piece.text.replace("\n", " "), piece.mark) for piece in pieces]
    stood = [piece.mark != "" for piece in pieces for _ in piece.text]
    text = "".join(piece.text for piece in pieces)
    spans = emphasis_spans(marked(pieces))
    read = [span.style != "regular" for span in spans for _ in span.text]
    lost = [n for n, char in enumerate(text) if char.isalnum() and stood[n] and not read[n]]
    assert lost == []


def written(*lines: tuple[tuple[str, str], ...]) -> bytes:
    """A .docx with a paragraph for each line of runs: b bold, i italic, u underlined."""
    document = Document()
    loud = document.styles.add_style("Loud", WD_STYLE_TYPE.CHARACTER)
    loud.font.bold = True
    louder = document.styles.add_style("Louder", WD_STYLE_TYPE.CHARACTER)
    louder.base_style = loud
    for line in lines:
        paragraph = document.add_paragraph()
        for text, way in line:
            run = paragraph.add_run(text, style="Louder" if "s" in way else None)
            run.bold = True if "b" in way else False if "n" in way else None
            run.italic = True if "i" in way else None
            run.underline = True if "u" in way else None
    file = io.BytesIO()
    document.save(file)
    return file.getvalue()


HEAD = ((("PAGE 1", "b"),), (("Panel 1.", "b"), (" Wide.", "i")))


@pytest.mark.parametrize(
    ("runs", "text"),
    [
        ((("WENNA: Hold ", ""), ("on", "b"), ("!", "")), "Hold **on**!"),
        ((("WENNA: Hold ", ""), ("on", "i"), (".", "")), "Hold *on*."),
        ((("WENNA: Hold ", ""), ("on", "bi"), (".", "")), "Hold ***on***."),
        ((("WENNA: Hold ", ""), ("on", "u"), (".", "")), "Hold *on*."),
        ((("WENNA: Hold ", ""), ("on", "s"), (".", "")), "Hold **on**."),
        ((("WENNA: Hold ", ""), ("on", "sn"), (".", "")), "Hold on."),
        ((("WENNA: I said ", ""), ("no!", "b")), "I said **no!**"),
        ((("WENNA: un", ""), ("happ", "b"), ("y, me", "")), "**unhappy**, me"),
        ((("WENNA: Hold ", ""), (" on ", "b"), ("now.", "")), "Hold  **on** now."),
        ((("WENNA: A ", ""), ("b", "b"), ("c", "i"), (" d", "")), "A **bc** d"),
        ((("WENNA:", "b"), (" Hold ", ""), ("on", "i"), (" now.", "")), "Hold *on* now."),
        ((("WENNA: Hold on.", "b"),), "Hold on."),
        ((("WENNA: ", ""), ("Hold on.", "i")), "Hold on."),
        ((("WENNA: *Hold* ", ""), ("on", "b"), (" now.", "")), "*Hold* on now."),
        ((("WENNA: Hold", ""), ("...", "b"), (" on.", "")), "Hold... on."),
        ((("ウェンナ「水が", ""), ("引いた", "b"), ("のは昔だ」", "")), "水が**引いた**のは昔だ"),
    ],
)
def test_what_stands_out_of_a_line_gets_its_mark(
    runs: tuple[tuple[str, str], ...], text: str
) -> None:
    """Bold, italic, underlined or by a style; not what is formatted as a whole, nor names."""
    (element,) = parse_script_bytes(written(*HEAD, runs)).pages[0].panels[0].elements
    assert element.text == text


def test_a_speech_under_its_name_begins_with_emphasis() -> None:
    """No name or heading opens that line, so the word that stands out there is meant."""
    lines = ((("WENNA", "b"),), (("No", "i"), (", I will not.", "")))
    again = ((("Panel 2.", ""),), (("WENNA", "b"),), (("Go.", ""),))
    script = parse_script_bytes(written(*HEAD, *lines, *again))
    (element,) = script.pages[0].panels[0].elements
    assert (element.speaker, element.text) == ("WENNA", "*No*, I will not.")


def test_a_docx_reads_as_the_same_script_in_markdown_does() -> None:
    """Pages, panels, names and words are told alike, whichever way emphasis was typed."""
    lines = (
        (("WENNA", "b"), (" (off): The tide ", ""), ("turned", "i"), (" an hour ago.", "")),
        (("Panel 2.", "b"), (" The ", ""), ("barge", "b"), (".", "")),
        (("PILOT: ", ""), ("Ahoy", "bi"), (", the lock!", "")),
    )
    typed = (
        "PAGE 1\n\nPanel 1. Wide.\n\nWENNA (off): The tide *turned* an hour ago.\n\n"
        "Panel 2. The **barge**.\n\nPILOT: ***Ahoy***, the lock!\n"
    )
    read, known = parse_script_bytes(written(*HEAD, *lines)), parse_script(typed)
    told = [
        [(p.description, [(e.kind, e.speaker, e.modifiers, e.text) for e in p.elements])
         for page in script.pages for p in page.panels]
        for script in (read, known)
    ]  # fmt: skip
    assert told[0] == told[1]
