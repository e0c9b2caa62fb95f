"""Bidirectional classes against the Unicode Character Database 17.0."""

import lzma
import re
import sys
import unicodedata
from pathlib import Path

import pytest

from letterfit.lettering.bidi.classes import BRACKET, CLOSERS, LETTERS, PLAIN, bidi_letter

DATA = Path(__file__).parents[2] / "data" / "unicode" / "bidi_classes-17.0.0.txt.xz"


def published() -> list[tuple[int, int, str]]:
    """Every code point's class in Unicode 17.0, as ranges, defaults included."""
    rows = lzma.decompress(DATA.read_bytes()).decode().split()
    cut = [re.split("[.;]+", row) for row in rows]
    return [(int(first, 16), int(last, 16), name) for first, last, name in cut]


@pytest.mark.skipif(
    int(unicodedata.unidata_version.split(".")[0]) > 17,
    reason="this Python rightly knows characters that Unicode 17.0 had not assigned",
)
def test_every_code_point_has_its_class_of_unicode_17() -> None:
    """All ranges, unassigned ones too, whatever Unicode this Python has.

    Of the planes in use every code point; of the others the ends of every range, and every 101st.
    """
    rows = published()
    find = bidi_letter.__wrapped__
    wrong = [
        (hex(code), name)
        for first, last, name in rows
        for code in {*range(first, last + 1, 1 if first < 0x32000 else 101), last}
        if find(chr(code)) != LETTERS[name]
    ]
    assert sum(last - first + 1 for first, last, _ in rows) == 0x110000
    assert wrong == []


def test_plain_text_holds_nothing_that_could_turn() -> None:
    """The early exit lets through no letter, number or formatting that raises a level."""
    turning = "RANlropijkdq"
    plain = [chr(code) for code in range(sys.maxunicode + 1) if PLAIN.fullmatch(chr(code))]
    assert len(plain) > 60_000
    assert [hex(ord(char)) for char in plain if bidi_letter(char) in turning] == []


def test_bracket_pairs_mirror_each_other() -> None:
    """All 64 opening brackets (BidiBrackets 17.0) open, are neutral, and mirror."""
    assert len(CLOSERS) == 64
    for opening, closing in CLOSERS.items():
        assert unicodedata.category(opening) == "Ps"
        assert unicodedata.category(closing) == "Pe"
        assert bidi_letter(opening) == bidi_letter(closing) == "O"
        assert unicodedata.mirrored(opening)
        assert BRACKET.fullmatch(opening)
        assert BRACKET.fullmatch(closing)


def test_canonical_equivalents_pair() -> None:
    """U+2329 closes with U+3009, its decomposition (UAX #9, BD16)."""
    assert CLOSERS["\u2329"] == CLOSERS["\u3008"] == unicodedata.normalize("NFC", "\u232a")
