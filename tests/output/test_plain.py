"""Text made safe to print: nothing that a terminal, XML or UTF-8 would choke on, nothing else."""

from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from letterfit.output.plain import one_line, plain

anything = st.text(st.characters(exclude_categories=()))


@given(text=anything)
def test_plain_text_goes_into_xml_and_utf_8(text: str) -> None:
    """Any text, surrogates and controls included, becomes XML that a strict parser reads back."""
    safe = plain(text)
    wanted = safe.replace("\r\n", "\n").replace("\r", "\n")  # XML 1.0, 2.11: end-of-line handling
    escaped = safe.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    root = ET.fromstring(f"<t>{escaped}</t>".encode())  # noqa: S314 - our own text
    assert (root.text or "") == wanted


@given(text=anything)
def test_plain_text_has_no_escape_and_keeps_its_length(text: str) -> None:
    """Every unprintable character is replaced by one other: nothing is lost, nothing hidden."""
    safe = plain(text)
    assert len(safe) == len(text)
    assert not any(ord(c) < 32 and c not in "\t\n\r" for c in safe)
    assert plain(safe) == safe


PRINTABLE = "Aé ñßЖωאع水門かなไทย👩🏽\u0301\u00a0\u202f\u200d\u2060\u200f<&>\"'[]—…♪¡¿½€\n\t"
"""Letters, marks, digits, signs, spaces and layout characters of many scripts."""


@given(text=st.text(PRINTABLE))
def test_printable_text_is_kept_as_it_is(text: str) -> None:
    """Letters, marks, signs, spaces and layout characters pass unchanged."""
    assert plain(text) == text


@given(text=anything)
def test_one_line_is_one_line(text: str) -> None:
    """No line break is left, and no run of spaces."""
    line = one_line(text)
    assert "\n" not in line
    assert "\r" not in line
    assert "  " not in line


def test_no_break_spaces_stay() -> None:
    """A no-break space is typed on purpose, as before a French exclamation mark."""
    assert one_line("NON\u00a0!\u202fOUI") == "NON\u00a0!\u202fOUI"
