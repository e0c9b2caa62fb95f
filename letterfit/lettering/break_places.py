"""The rules of comics text that allow or forbid a line break, each one function.

They stand on top of UAX #14 and are common practice, no source. A rule takes a text and gives the
offsets at which a next line could begin; an *allowed* place is a break though Unicode has none
there, a *forbidden* one is none though Unicode has it. Each says in `MARKS` by which characters
alone it can find anything, so that most texts ask few rules.
"""

import re
from collections.abc import Iterator, Mapping

from letterfit.lettering.stuttering import stutter_hyphens

SPACES = " \t\n\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2008\u2009\u200a\u205f\u3000"
"""White space that a line may end in (UAX #14, classes SP and BA); no-break spaces are not here."""

_OPENERS = "'\"‘“„«‹(\\[{¡¿"
_CLOSERS = "'\"’”»›)\\]}"
_SYMBOLS = "@#$%&*☠"
_CJK = "\u2e80-\uffff"

_DOTS_INSIDE = re.compile(rf"(?<=[^\s.…])\.{{2,}}+(?=[^\W_{_CJK}])")
_DASH_INSIDE = re.compile(rf"(?<=[^\s–—―-])(?:-{{2,}}+|―++)(?=[^\W_{_CJK}])")
_DOTS_LEADING = re.compile(rf"(?<![^\s{_OPENERS}])(?:\.{{2,}}+|…++)")
_DOTS_FIRST = re.compile(rf"(?:^|\n)[{_OPENERS}]*+(?:\.{{2,}}+|…++)[{SPACES}]++")
_DOTS_ALONE = re.compile(r"(?<!\S)(?:\.{2,}+|…++)(?!\S)")
_ONE_LETTER_HEAD = re.compile(r"(?<![^\W_])(?<![^\W_]['’])[^\W_][-‐־/](?=[^\W_])")
_ONE_LETTER_TAIL = re.compile(r"(?<=[^\W_][-‐־/])[^\W_](?![^\W_'’])")
_DASH = re.compile(r"[–—―⸺⸻]|(?<!-)(?:-{2,}+|-(?!\S))")
_DASH_FIRST = re.compile(rf"(?:^|\n)[{_OPENERS}]*+(?:[–—―⸺⸻]++|-++(?!\d))[{SPACES}]*+")
_RANGE = re.compile(r"(?<=\d)[–—](?=\d)")
_GROUPS = re.compile(rf"(?<![\d.,])\d{{1,3}}(?:[{SPACES}]\d{{3}})++(?!\d)")
_CURSE = re.compile(rf"[{_SYMBOLS}!?+=~^§]{{3,}}+")
_NOTES = re.compile(r"[♩♪♫♬🎵🎶]++")
_FRENCH_CLOSING = re.compile(rf"(?<=[{SPACES}])(?:[!?:;%‰]|[»›](?![^\W_]))")
_FRENCH_OPENING = re.compile(rf"(?<![^\s{_OPENERS}–—―-])[«‹][{SPACES}]++")


def after_dots(text: str) -> Iterator[int]:
    """After a run of dots between two words, "NO...|YES"."""
    return (match.end() for match in _DOTS_INSIDE.finditer(text))


def after_dashes(text: str) -> Iterator[int]:
    """After a double hyphen or a bar between two words, "WAIT--|5 MEN", "WAIT―|WHAT"."""
    return (match.end() for match in _DASH_INSIDE.finditer(text))


def leading_dots(text: str) -> Iterator[int]:
    """After dots that lead into a word, "...AND THEN": they would end a line alone."""
    yield from (match.end() for match in _DOTS_LEADING.finditer(text))
    yield from (match.end() for match in _DOTS_FIRST.finditer(text))


def dots_alone(text: str) -> Iterator[int]:
    """Before dots that stand alone, "WELL ... NO"."""
    return (match.start() for match in _DOTS_ALONE.finditer(text))


def stutters(text: str) -> Iterator[int]:
    """Inside a stutter, "N-NO", "W-W-WAIT", "TH-THE", "W...WAIT"."""
    return stutter_hyphens(text)


def one_letter_parts(text: str) -> Iterator[int]:
    """Between a compound and a part of it that is one letter or digit, "X-RAY", "PLAN-B", "W/O"."""
    yield from (match.end() for match in _ONE_LETTER_HEAD.finditer(text))
    yield from (match.start() for match in _ONE_LETTER_TAIL.finditer(text))


def before_dashes(text: str) -> Iterator[int]:
    """Before a dash, "--", or a hyphen that stands alone: no line begins with one."""
    return (match.start() for match in _DASH.finditer(text))


def after_first_dash(text: str) -> Iterator[int]:
    """After a dash that opens the text, as dialogue in French or Spanish: no line is only that."""
    return (match.end() for match in _DASH_FIRST.finditer(text))


def number_ranges(text: str) -> Iterator[int]:
    """After the dash of a range of numbers, "1904–1914"."""
    return (match.end() for match in _RANGE.finditer(text))


def number_groups(text: str) -> Iterator[int]:
    """Between the groups of a long number, "1 000 000"."""
    for match in _GROUPS.finditer(text):
        yield from range(match.end() - 3, match.start() + 1, -4)


def curses(text: str) -> Iterator[int]:
    """Inside a curse made of symbols, "@#$%!!"."""
    for match in _CURSE.finditer(text):
        if any(char in _SYMBOLS for char in match[0]):
            yield from range(match.start() + 1, match.end())


def notes(text: str) -> Iterator[int]:
    """Between sung words and the notes round them; notes open and close in turn."""
    groups = list(_NOTES.finditer(text))
    for count, group in enumerate(groups):
        start, end = group.span()
        left, right = start, end
        while left and text[left - 1] in SPACES:
            left -= 1
        while right < len(text) and text[right] in SPACES:
            right += 1
        if count % 2 == 0 and (count + 1 < len(groups) or left == 0):
            yield right
        else:
            yield start
            yield left  # a note against the word before it, without a space
        yield from range(start + 1, end)


def french_spaces(text: str) -> Iterator[int]:
    """Between a word and the mark that French sets off by a space, "NON !", "« OUI »"."""
    yield from (match.start() for match in _FRENCH_CLOSING.finditer(text))
    yield from (match.end() for match in _FRENCH_OPENING.finditer(text))


MARKS: Mapping[str, tuple[str, ...]] = {
    "after_dots": ("..",),
    "after_dashes": ("--", "―"),
    "leading_dots": ("..", "…"),
    "dots_alone": ("..", "…"),
    "stutters": ("-", "‐", "–", "—", "..", "…"),
    "one_letter_parts": ("-", "‐", "־", "/"),
    "before_dashes": ("-", "–", "—", "―", "⸺", "⸻"),
    "after_first_dash": ("-", "–", "—", "―", "⸺", "⸻"),
    "number_ranges": ("–", "—"),
    "number_groups": tuple("0123456789"),
    "curses": tuple(_SYMBOLS),
    "notes": tuple("♩♪♫♬🎵🎶"),
    "french_spaces": (*(f" {mark}" for mark in "!?:;%‰»›"), *SPACES[1:], "«", "‹"),
}
"""A text with none of a rule's marks has nothing for it."""
