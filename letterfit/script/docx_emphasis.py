"""Emphasis in a word processor: words that stand out of their line get the marks of a typed script.

Bold becomes `**so**`, italic and underlined `*so*`, all of it `***so***`. A line that is in bold
or italic as a whole, or all after its name, is formatted so and not emphasised; a name or heading
that stands out at the beginning of a line is no emphasis either. Marks go round whole words, since
a mark inside a word is none; a line with typed marks is left as it is typed.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from letterfit.script.docx_package import Node

_OFF = {"0", "false", "off", "none"}
"""What switches a property off (ECMA-376 part 1, 22.9.2.7, ST_OnOff; 17.18.99, ST_Underline)."""

_MOST_BASED = 10
"""Styles in a row that are each based on the next."""

_LABELLED = re.compile(r".{0,100}?[:：\t]", re.DOTALL)
_LABEL_END = re.compile(r"[:：\t]\s*$")
_UNSPACED = re.compile(
    "[\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u3005-\u3007\u3040-\u30ff\u3400-\u9fff"
    "\uf900-\ufaff\uff66-\uff9d\U00020000-\U0003ffff]"
)
"""Letters of scripts without spaces, beside which a mark may stand (as `lettering` reads them)."""


class Piece(NamedTuple):
    """A stretch of typed text, and the mark that its formatting stands for, if any."""

    text: str
    mark: str


class Stretch(NamedTuple):
    """Where emphasis begins and ends in a line, and its mark."""

    start: int
    end: int
    mark: str


def character_styles(styles: Node | None) -> dict[str, str]:
    """The marks that character styles stand for, by their ids."""
    if styles is None:
        return {}
    found = {
        style.attributes.get("styleId", ""): style
        for style in styles.children
        if style.tag == "w:style" and style.attributes.get("type") == "character"
    }
    return {name: _style_mark(name, found) for name in found}


def _style_mark(name: str, styles: Mapping[str, Node]) -> str:
    """The mark of a style: what it says itself, else what it is based on (17.7.2)."""
    bold = italic = None
    for _ in range(_MOST_BASED):
        style = styles.get(name)
        if style is None:
            break
        properties = style.child("w:rPr")
        bold = _stated(properties, "w:b") if bold is None else bold
        italic = _slanted(properties) if italic is None else italic
        based = style.child("w:basedOn")
        name = "" if based is None else based.attributes.get("val", "")
    return _mark(bold=bool(bold), italic=bool(italic))


def mark_of(properties: Node | None, styles: Mapping[str, str]) -> str | None:
    """The mark that a run's formatting stands for; "" for none, and None where it is hidden.

    Args:
        properties: The run's properties.
        styles: The marks of character styles.
    """
    if properties is None:
        return ""
    if _stated(properties, "w:vanish"):
        return None
    style = properties.child("w:rStyle")
    inherited = "" if style is None else styles.get(style.attributes.get("val", ""), "")
    bold, italic = _stated(properties, "w:b"), _slanted(properties)
    return _mark(
        bold=len(inherited) >= 2 if bold is None else bold,
        italic=len(inherited) % 2 == 1 if italic is None else italic,
    )


def _stated(properties: Node | None, tag: str) -> bool | None:
    """Whether a property is switched on or off; None where nothing is said of it."""
    element = None if properties is None else properties.child(tag)
    return None if element is None else element.attributes.get("val", "true") not in _OFF


def _slanted(properties: Node | None) -> bool | None:
    """Whether a run is italic or underlined, which stands for italic in typescripts."""
    italic, under = _stated(properties, "w:i"), _stated(properties, "w:u")
    return under if italic is None else italic or bool(under)


def _mark(*, bold: bool, italic: bool) -> str:
    return "*" * (2 * bold + italic)


def marked(pieces: Sequence[Piece]) -> str:
    """The text of a paragraph with emphasis marks round the words that stand out of their line.

    >>> marked([Piece("WENNA: ", "**"), Piece("It is ", ""), Piece("not", "*"), Piece(" so.", "")])
    'WENNA: It is *not* so.'
    >>> marked([Piece("WENNA: ", ""), Piece("Hold on.", "**")])
    'WENNA: Hold on.'
    """
    text = "".join(piece.text for piece in pieces)
    if not any(piece.mark for piece in pieces) or "*" in text or "_" in text:
        return text
    done, at = [], 0
    for start, end, mark in _stretches(pieces, text):
        done += [text[at:start], mark, text[start:end], mark]
        at = end
    return "".join([*done, text[at:]])


def _stretches(pieces: Sequence[Piece], text: str) -> Iterator[Stretch]:
    """Where marks go: stretches of each line that stand out, whole words, apart from each other."""
    start = 0
    last = Stretch(-1, -1, "")
    for line in text.split("\n"):
        end = start + len(line)
        stretches = list(_on_line(pieces, start, end))
        plain = _outside(stretches, text, start, end)
        for stretch in stretches if plain else ():
            words = _whole_words(stretch, text, start, end)
            if words is None or _is_form(words, text, start, end):
                continue
            if last.mark and words.start <= last.end:  # they touch, or share a word
                last = Stretch(last.start, max(last.end, words.end), last.mark)
                continue
            if last.mark:
                yield last
            last = words
        start = end + 1
    if last.mark:
        yield last


def _on_line(pieces: Sequence[Piece], start: int, end: int) -> Iterator[Stretch]:
    """The stretches with one mark between two places; the white space between two is theirs."""
    at = 0
    for mark, group in groupby(pieces, key=lambda piece: piece.mark):
        length = sum(len(piece.text) for piece in group)
        first, past = max(at, start), min(at + length, end)
        if mark and first < past:
            yield Stretch(first, past, mark)
        at += length


def _outside(stretches: Sequence[Stretch], text: str, start: int, end: int) -> bool:
    """Whether any letter of a line stands outside all stretches."""
    at = start
    for stretch in stretches:
        if any(char.isalnum() for char in text[at : stretch.start]):
            return True
        at = stretch.end
    return any(char.isalnum() for char in text[at:end])


def _whole_words(stretch: Stretch, text: str, first: int, last: int) -> Stretch | None:
    """The stretch without white space at its ends, grown or cut to end beside no letter."""
    start, end, mark = stretch
    if not any(char.isalnum() for char in text[start:end]):
        return None
    while start > first and _in_word(text[start - 1]):
        start += -1 if text[start].isalnum() else 1
    while end < last and _in_word(text[end]):
        end += 1 if text[end - 1].isalnum() else -1
    while text[start].isspace():
        start += 1
    while text[end - 1].isspace():
        end -= 1
    return Stretch(start, end, mark)


def _in_word(char: str) -> bool:
    """Whether a mark beside the character would be inside a word."""
    if _UNSPACED.match(char) or char.isspace():
        return False
    return char.isalnum() or unicodedata.category(char)[0] not in "PS"


def _is_form(stretch: Stretch, text: str, first: int, last: int) -> bool:
    """Whether a stretch is how a line is formatted: all of it, its name, or all after its name."""
    before = text[first : stretch.start]
    to_end = not any(char.isalnum() for char in text[stretch.end : last])
    if not before.strip():
        return to_end or _LABELLED.match(text, first, last) is not None
    return to_end and _LABEL_END.search(before) is not None
