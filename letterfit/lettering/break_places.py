"""The rules of comics text that allow or forbid a line break, each one function.

They stand on top of UAX #14 and are common practice, no source. A rule takes a text and gives the
offsets at which a next line could begin; an *allowed* place is a break though Unicode has none
there, a *forbidden* one is none though Unicode has it.
"""

import re
from collections.abc import Iterator

SPACES = " \t\n\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2008\u2009\u200a\u205f\u3000"
"""White space that a line may end in (UAX #14, classes SP and BA); no-break spaces are not here."""

_LETTER = r"[^\W\d_]"
_DOTS_INSIDE = re.compile(r"(?<=[^\s.…])(?:\.{2,}|…+)(?=[^\s.…!?,;:'\"’”»)\]}])")
_DOTS_LEADING = re.compile(r"(?<![^\s'\"‘“«(¡¿])(?:\.{2,}|…+)")
_DOTS_ALONE = re.compile(r"(?<!\S)(?:\.{2,}|…+)(?!\S)")
_STUTTER = re.compile(
    rf"(?<!{_LETTER})(?=({_LETTER}){_LETTER}?[-‐–—])\1{_LETTER}?[-‐–—]+(?=\1)", re.IGNORECASE
)
_ONE_LETTER = re.compile(rf"(?<![^\W_]){_LETTER}[-‐](?={_LETTER})")
_DASH = re.compile(r"[–—―]|(?<!-)(?:-{2,}|-(?!\S))")
_DASH_FIRST = re.compile(r"(?:^|\n)['\"‘“«(]?(?:-{2,}|[–—―]+|-(?!\S))\s*")
_NOTES = re.compile(rf"[{SPACES}]*([♩♪♫♬]+)[{SPACES}]*")
_FRENCH_CLOSING = re.compile(r"(?<= )[!?:;%»]")
_FRENCH_OPENING = re.compile(r"« +")


def after_dots(text: str) -> Iterator[int]:
    """After a run of dots between two words, "NO...YES"."""
    return (match.end() for match in _DOTS_INSIDE.finditer(text))


def leading_dots(text: str) -> Iterator[int]:
    """After dots that lead into a word, "...AND THEN": they would end a line alone."""
    return (match.end() for match in _DOTS_LEADING.finditer(text))


def dots_alone(text: str) -> Iterator[int]:
    """Before dots that stand alone, "WELL ... NO"."""
    return (match.start() for match in _DOTS_ALONE.finditer(text))


def stutters(text: str) -> Iterator[int]:
    """Inside a stutter, one or two letters and the same letter again, "N-NO"."""
    return (match.end() for match in _STUTTER.finditer(text))


def one_letter_heads(text: str) -> Iterator[int]:
    """After a compound's head of one letter, "X-RAY"."""
    return (match.end() for match in _ONE_LETTER.finditer(text))


def before_dashes(text: str) -> Iterator[int]:
    """Before a dash, "--", or a hyphen that stands alone: no line begins with one."""
    return (match.start() for match in _DASH.finditer(text))


def after_first_dash(text: str) -> Iterator[int]:
    """After a dash that opens the text: no line consists of one."""
    return (match.end() for match in _DASH_FIRST.finditer(text))


def notes(text: str) -> Iterator[int]:
    """Between sung words and the notes round them; notes open and close in turn."""
    groups = list(_NOTES.finditer(text))
    for count, group in enumerate(groups):
        paired = count + 1 < len(groups) or not text[: group.start()].strip()
        if count % 2 == 0 and paired:
            yield group.end()
        else:
            yield group.start(1)
            yield group.start()  # a note against the word before it, without a space


def french_spaces(text: str) -> Iterator[int]:
    """Between a word and the mark that French sets off by a space, "NON !", "« OUI"."""
    yield from (match.start() for match in _FRENCH_CLOSING.finditer(text))
    yield from (match.end() for match in _FRENCH_OPENING.finditer(text))
