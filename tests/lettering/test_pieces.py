"""Pieces: a text cut at its breaks, and its words counted."""

import pytest

from letterfit.lettering.breaks import Break, line_breaks
from letterfit.lettering.pieces import cut_pieces


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
