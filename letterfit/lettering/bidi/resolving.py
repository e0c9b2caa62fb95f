"""Weak, neutral and bracket characters of one isolating run sequence take a direction.

UAX #9 (revision 50, Unicode 17), rules W1 to W7, N0 to N2, I1 and I2, as patterns over the letters
of `classes.LETTERS`: every rule reads its sequence once, so that the time grows with the
length alone. The sequence is wrapped in its sos and eos; what X9 removes is not in it.
"""

import re
from collections.abc import Iterator
from functools import cache

from letterfit.lettering.bidi.classes import BRACKET, CANONICAL, CLOSERS

MOST_OPEN = 63
"""Brackets that may be open at a time (BD16)."""

_MARKS = re.compile("([^M])M+")
_AFTER_ARABIC = re.compile("A[^LRA]*")
_BETWEEN_EUROPEAN = re.compile("(?<=E)[SC](?=E)")
_BETWEEN_ARABIC = re.compile("(?<=N)C(?=N)")
_TERMINATORS = re.compile("[ET]+")
_AFTER_LATIN = re.compile("L[^LR]*")
_AMID_RIGHT = re.compile("(?<=[REN])[OWGB]++(?=[REN])")
_AMID_LEFT = re.compile("(?<=L)[OWGB]++(?=L)")
_ARABIC_IS_RIGHT = str.maketrans("A", "R")
_NEUTRAL_LEFT_OVER = str.maketrans("STC", "OOO")
_NUMBERS_ARE_RIGHT = str.maketrans("EN", "RR")


def resolved_levels(letters: str, text: str, *, level: int, sos: str, eos: str) -> bytes:
    """The levels of one isolating run sequence.

    Args:
        letters: The class of each character as a letter, isolate formatting as "O".
        text: Its characters, for the brackets; "" when it has none.
        level: Its embedding level.
        sos: "L" or "R", what it starts as (X10).
        eos: "L" or "R", what it ends as.

    >>> list(resolved_levels("RRWEC", "אב 1,", level=1, sos="R", eos="R"))
    [1, 1, 1, 2, 1]
    """
    found = _weak(sos + letters + eos)
    if text:
        found = _bracketed(found, letters, text, level)
    alone = _AMID_LEFT.sub(_all_left, found) if level % 2 else _AMID_RIGHT.sub(_all_right, found)
    return alone[1:-1].encode().translate(_implicit(level))


def _weak(letters: str) -> str:
    """Rules W1 to W7."""
    if "M" in letters:
        letters = _MARKS.sub(_as_before, letters)
    if "A" in letters:
        letters = _AFTER_ARABIC.sub(_arabic_numbers, letters).translate(_ARABIC_IS_RIGHT)
    if "E" in letters:
        letters = _BETWEEN_EUROPEAN.sub("E", letters)
        letters = _TERMINATORS.sub(_with_number, _BETWEEN_ARABIC.sub("N", letters))
        return _AFTER_LATIN.sub(_latin_numbers, letters.translate(_NEUTRAL_LEFT_OVER))
    return _BETWEEN_ARABIC.sub("N", letters).translate(_NEUTRAL_LEFT_OVER)


def _as_before(found: re.Match[str]) -> str:
    """W1: marks become what they stand on."""
    return found[1] * len(found[0])


def _arabic_numbers(found: re.Match[str]) -> str:
    """W2: European numbers after an Arabic letter become Arabic ones."""
    return found[0].replace("E", "N")


def _with_number(found: re.Match[str]) -> str:
    """W5: terminators that touch European numbers go with them."""
    return "E" * len(found[0]) if "E" in found[0] else found[0]


def _latin_numbers(found: re.Match[str]) -> str:
    """W7: European numbers after a left-to-right letter become like it."""
    return found[0].replace("E", "L")


def _all_left(found: re.Match[str]) -> str:
    """N1 in a right-to-left sequence; what is left over takes the embedding's direction (N2)."""
    return "L" * len(found[0])


def _all_right(found: re.Match[str]) -> str:
    """N1 in a left-to-right sequence."""
    return "R" * len(found[0])


@cache
def _implicit(level: int) -> bytes:
    """I1 and I2: from letter to level; neutrals take that of the embedding (N2)."""
    table = bytearray([level]) * 256
    for letter in b"EN":
        table[letter] = level + 2 - level % 2
    table[ord("L")] = level + level % 2
    table[ord("R")] = level + 1 - level % 2
    return bytes(table)


def _bracketed(found: str, letters: str, text: str, level: int) -> str:
    """N0: paired brackets take the direction of what they hold, or of what stands before them."""
    strong = found.translate(_NUMBERS_ARE_RIGHT)
    own, other = "RL" if level % 2 else "LR"
    now = bytearray(strong, "ascii")  # with the brackets resolved so far
    answer = bytearray(found, "ascii")
    seen, before = 0, strong[0]
    for opening, closing in sorted(bracket_pairs(found, text)):
        last = max(now.rfind(b"L", seen, opening), now.rfind(b"R", seen, opening))
        seen, before = opening, chr(now[last]) if last >= 0 else before
        if strong.find(own, opening, closing) >= 0:
            direction = own
        elif strong.find(other, opening, closing) >= 0:
            direction = other if before == other else own
        else:
            continue
        for place in (opening, closing):
            end = place + _marks_after(letters, place)
            now[place:end] = answer[place:end] = direction.encode() * (end - place)
    return answer.decode()


def _marks_after(letters: str, place: int) -> int:
    """How many characters a bracket and its nonspacing marks are; `place` counts sos in."""
    rest = letters[place:]
    return 1 + len(rest) - len(rest.lstrip("M"))


def bracket_pairs(found: str, text: str) -> Iterator[tuple[int, int]]:
    """The pairs of brackets (BD16), in order of their ends, as places in `found`.

    Args:
        found: sos, the letters after W7, eos; a bracket with another class than "O" is none.
        text: The characters.

    >>> list(bracket_pairs("ROOOOR", "([)]"))
    [(1, 3)]
    """
    waiting: list[tuple[str, int]] = []
    for match in BRACKET.finditer(text):
        place, char = match.start() + 1, match[0]
        if found[place] != "O":
            continue
        if char in CLOSERS:
            if len(waiting) == MOST_OPEN:
                return
            waiting.append((CLOSERS[char], place))
            continue
        char = CANONICAL.get(char, char)
        depth = next((k for k, (c, _) in enumerate(reversed(waiting)) if c == char), None)
        if depth is not None:
            del waiting[len(waiting) - depth :]
            yield waiting.pop()[1], place
