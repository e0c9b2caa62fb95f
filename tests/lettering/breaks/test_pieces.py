"""Pieces: a text cut at its breaks, and its words counted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.breaks.breaks import Break, line_breaks
from letterfit.lettering.breaks.pieces import HANGING, cut_pieces, text_pieces


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("THE GATE", [1, 1]),
        ("WELL-KNOWN", [1, 0]),
        ("ONCE--NEVER", [1, 1]),
        ("NO...YES", [1, 1]),
        ("NO…YES", [1, 1]),
        ("WAIT — WHAT", [1, 1]),
        ("...", [0]),
        ("I'D SAY 5:30.", [1, 1, 1]),
        ("A\u00a0B C", [2, 1]),
        ("RE\u00adTURN", [1, 0]),
        ("“«SO»”", [1]),
    ],
)
def test_words_are_counted_where_they_start(text: str, counts: list[int]) -> None:
    """A word cut at a hyphen counts once; dashes and dots alone are no words."""
    assert cut_pieces(text, line_breaks(text)).word_counts.tolist() == counts


def test_trailing_spaces_hang_and_are_kept_between_pieces() -> None:
    """Pieces end before their spaces; the spaces are what joins them."""
    pieces = cut_pieces("A \u2003B", (Break(3, 0.25),))
    assert pieces.stretches == ((0, 1), (3, 4))
    assert pieces.joiners == (" \u2003", "")
    assert pieces.penalties.tolist() == [0.25, 0.0]
    assert pieces.forced.tolist() == [False, True]


def test_a_piece_of_nothing_but_spaces_goes_to_the_one_before() -> None:
    """A break between spaces makes no piece of its own."""
    pieces = cut_pieces("A \u200b B", (Break(2, 0.0), Break(4, 0.0)))
    assert [("A \u200b B")[a:b] for a, b in pieces.stretches] == ["A", "B"]
    assert cut_pieces("A \u200b", (Break(2, 0.5),)).penalties.tolist() == [0.0]


def test_lines_run_on_up_to_a_forced_break() -> None:
    """No line runs over a forced break."""
    pieces = cut_pieces("A B C", (Break(2, 0.0, forced=True), Break(4, 0.0)))
    assert pieces.runs_on() == [0, 2, 2]


def test_an_empty_line_forces_the_line_before_it_to_end() -> None:
    """Two forced breaks after each other make no empty piece, and no line runs over them."""
    pieces = text_pieces("A\n\nB C")
    assert [pieces.text[a:b] for a, b in pieces.stretches] == ["A", "B", "C"]
    assert pieces.forced.tolist() == [True, False, True]
    assert pieces.joiners == ("  ", " ", "")


@given(
    st.text(alphabet=st.sampled_from("ABé 水か.-—…\u00a0\u00ad\u200b\u2003\n😀'!0"), max_size=24),
    st.sampled_from(["en", "fr", "ja"]),
)
def test_pieces_lose_no_character(text: str, language: str) -> None:
    """Pieces and what stands between them are the text, but for the spaces at its ends."""
    pieces = text_pieces(text, language=language)
    assert pieces.text == text.replace("\n", " ")
    if not len(pieces):
        assert all(char.isspace() or char in "\u00a0\u00ad\u200b" for char in text)
        return
    shown = zip(pieces.stretches, pieces.joiners, strict=True)
    inner = "".join(pieces.text[a:b] + joiner for (a, b), joiner in shown)
    assert pieces.text.startswith(inner, pieces.starts[0])
    assert not pieces.text[: pieces.starts[0]].strip(HANGING)
    assert not pieces.text[pieces.ends[-1] :].strip(HANGING)
    assert all(b > a and text[b - 1] not in HANGING for a, b in pieces.stretches)
    assert all(not joiner.strip(HANGING) for joiner in pieces.joiners)
    assert len(pieces) == len(pieces.prices) == len(pieces.musts) == len(pieces.counts)
    assert pieces.musts[-1]


@given(st.text(alphabet=st.sampled_from("AB0é -—….'\n!\u00a0"), max_size=24))
def test_words_are_counted_as_they_are_read(text: str) -> None:
    """As many as stand between spaces, dashes and runs of dots and hold a letter or digit."""
    parts = [""]
    for k, char in enumerate(text):
        doubled = char in "-." and char in (text[k - 1 : k], text[k + 1 : k + 2])
        if char.isspace() or char in "—…" or doubled:
            parts.append("")
        else:
            parts[-1] += char
    words = [part for part in parts if any(char.isalnum() for char in part)]
    assert sum(text_pieces(text).counts) == len(words)
