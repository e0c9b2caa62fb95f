"""Bytes become text, and text becomes numbered lines in one normal form."""

import codecs
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import ScriptError
from letterfit.script.lines import MOST_MARKS, split_lines
from letterfit.script.parse import parse_script
from letterfit.script.reading import MOST_TEXT_BYTES, decode
from letterfit.script.sources import parse_script_bytes, read_script

FRENCH = "PAGE 1\nCASE 1 : L’écluse.\nODILE : « Ohé ! »\n"
JAPANESE = "1ページ\n1コマ目、水門。\nウェンナ「潮が、変わった。」\n"


@pytest.mark.parametrize(
    "data",
    [
        FRENCH.encode(),
        codecs.BOM_UTF8 + FRENCH.encode(),
        FRENCH.encode("utf-16"),
        codecs.BOM_UTF16_BE + FRENCH.encode("utf-16-be"),
        FRENCH.encode("utf-32"),
        FRENCH.encode("cp1252"),
    ],
)
def test_the_same_script_in_every_encoding(data: bytes) -> None:
    """UTF-8, -16 and -32 with their marks, and Windows-1252, give the same text."""
    assert decode(data).text == FRENCH


def test_a_guessed_encoding_is_reported() -> None:
    """Windows-1252 and Shift_JIS are read with a finding; UTF-8 has none."""
    assert decode(JAPANESE.encode("cp932")).text == JAPANESE
    for data in (FRENCH.encode("cp1252"), JAPANESE.encode("cp932")):
        assert [finding.code for finding in decode(data).findings] == ["encoding-guessed"]
    assert decode(FRENCH.encode()).findings == ()


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "empty"),
        (b" \r\n\t\n", "empty"),
        (b"\xef\xbb\xbf", "empty"),
        ("\u00a0\n".encode(), "empty"),
        (b"PAGE 1\0Panel 1", "binary"),
        (bytes(range(256)), "binary"),
        (b"\x81\x8d\x8f\x90\x9d\xff" * 9, "binary"),
        (b"\x01\x02\x03 PAGE 1", "binary"),
        (b"%PDF-1.7 x", "PDF"),
        (rb"{\rtf1 x", "RTF"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1", "word-processor"),
        (codecs.BOM_UTF16_LE + b"a", "breaks at byte"),
        (b"Only a note about nothing in particular.", "no page and no panel"),
        (b"x" * (MOST_TEXT_BYTES + 1), "larger than 20 MB"),
    ],
)
def test_what_is_no_script_is_refused_in_one_line(data: bytes, what: str) -> None:
    """The message names the source, says what is wrong and what to do, on one line."""
    with pytest.raises(ScriptError, match=what) as caught:
        parse_script_bytes(data, source="gate.txt")
    message = str(caught.value)
    assert message.startswith("gate.txt")
    assert caught.value.advice
    assert message.isprintable()


def test_text_that_is_too_long_is_refused() -> None:
    """The limit holds for text given as such, too."""
    with pytest.raises(ScriptError, match="larger than 20 MB"):
        parse_script("x" * (MOST_TEXT_BYTES + 1))


def test_text_as_long_as_may_be_is_read() -> None:
    """The last byte of 20 MB is read like the first."""
    assert MOST_TEXT_BYTES == 20_000_000
    assert len(decode(b"x" * MOST_TEXT_BYTES).text) == MOST_TEXT_BYTES


def test_files_that_cannot_be_read_are_refused(tmp_path: Path) -> None:
    """Missing files, folders, and names no file can have."""
    for path, what in (
        (tmp_path / "none.txt", "no such file"),
        (tmp_path, "folder"),
        ("a\0b", "cannot be read"),
        (tmp_path / ("x" * 5000), "cannot be read"),
    ):
        with pytest.raises(ScriptError, match=what):
            read_script(path)


def test_a_file_is_read_whatever_its_name(tmp_path: Path) -> None:
    """The content says what a file is; the script remembers its name."""
    path = tmp_path / "gate.docx"
    path.write_bytes(FRENCH.encode("utf-16"))
    script = read_script(path)
    assert script.source == str(path)
    assert script.pages[0].panels[0].elements[0].text == "« Ohé ! »"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_are_counted_as_editors_count_them(end: str) -> None:
    """LF, CR LF and CR end a line; other separators part lines that share its number."""
    lines, _ = split_lines(end.join(["a", "", "b\u2028c\fd\x0be\u2029f\x85g", "h"]))
    assert [(line.number, line.text) for line in lines] == [
        (1, "a"), (2, ""), *((3, letter) for letter in "bcdefg"), (4, "h"),
    ]  # fmt: skip


def test_no_break_spaces_stay_inside_and_go_round_a_line() -> None:
    """U+00A0 and U+202F inside a line are the letterer's; round it they are white space."""
    (line,), _ = split_lines("\u00a0\tODILE\u00a0: Ohé\u202f!\u00a0 ")
    assert line.text == "ODILE\u00a0: Ohé\u202f!"
    assert line.indent == 9


def test_characters_that_cannot_be_printed_are_dropped_and_reported() -> None:
    """Controls vanish, lone surrogates and non-characters become U+FFFD; a stray mark is silent."""
    lines, findings = split_lines("a\x01b\nc\ud800d\ne\ufffff\ng\ufeffh")
    assert [line.text for line in lines] == ["ab", "c\ufffdd", "e\ufffdf", "gh"]
    assert [finding.line for finding in findings] == [1, 2, 3]


def test_piled_accents_are_left_as_they_are_and_reported() -> None:
    """Sorting many marks on one letter takes quadratic time; UAX #15 stops at thirty."""
    few, many = "e" + "\u0301\u0316" * 10, "e" + "\u0301\u0316" * 10_000
    lines, findings = split_lines(f"{few}\n{many}")
    assert lines[0].text == unicodedata.normalize("NFC", few)
    assert lines[1].text == many
    assert len(many) > MOST_MARKS
    assert [(finding.code, finding.line) for finding in findings] == [("piled-accents", 2)]


@given(st.text())
def test_lines_are_composed_and_hold_no_control(text: str) -> None:
    """Every line is NFC (Unicode's own test), printable or space, and free of outer blanks."""
    for line in split_lines(text)[0]:
        assert unicodedata.is_normalized("NFC", line.text)
        assert line.text == line.text.strip()
        assert not any(
            unicodedata.category(sign) in {"Cc", "Cs"} - {"\t"}
            for sign in line.text
            if sign != "\t"
        )
        line.text.encode("utf-8")


@given(st.binary(max_size=400))
def test_any_bytes_parse_or_raise_script_error(data: bytes) -> None:
    """Nothing else is ever raised."""
    for start in (b"", b"PAGE 1\n", b"PK\x03\x04", codecs.BOM_UTF16_LE):
        try:
            parse_script_bytes(start + data)
        except ScriptError as error:
            assert str(error).isprintable()  # noqa: PT017 - one line, whatever was found
