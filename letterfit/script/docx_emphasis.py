"""Emphasis in a word processor: words that stand out of their line get the marks of a typed script.

Bold becomes `**so**`, italic and underlined `*so*`, all of it `***so***`. A line that is in bold
or italic as a whole, or all after its name, is formatted so and not emphasised; a name or heading
that stands out at the beginning of a line is no emphasis either. Marks go round whole words, since
a mark inside a word is none; a line with typed marks is left as it is typed.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple

from letterfit.script.docx_package import Node

_OFF = {"0", "false", "off", "none"}
"""What switches a property off (ECMA-376 part 1, 22.9.2.7, ST_OnOff; 17.18.99, ST_Underline)."""

_MOST_BASED = 10
"""Styles in a row that are each based on the next."""

_LABELLED = re.compile(r".{0,100}?[:：\t]", re.DOTALL)
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
        style.attributes.get("styleId", ""): _style(style)
        for style in styles.children
        if style.tag == "w:style" and style.attributes.get("type") == "character"
    }
    return {name: _style_mark(name, found) for name in found}


class _Style(NamedTuple):
    """What a style says of itself, and the style that it is based on."""

    bold: bool | None
    italic: bool | None
    based: str


def _style(style: Node) -> _Style:
    properties = style.child("w:rPr")
    return _Style(_stated(properties, "w:b"), _slanted(properties), style.value("w:basedOn"))


def _style_mark(name: str, styles: Mapping[str, _Style]) -> str:
    """The mark of a style: what it says itself, else what it is based on (17.7.2)."""
    bold = italic = None
    for _ in range(_MOST_BASED):
        style = styles.get(name)
        if style is None:
            break
        bold = style.bold if bold is None else bold
        italic = style.italic if italic is None else italic
        name = style.based
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
    style = properties.value("w:rStyle")
    inherited = styles.get(style, "") if style else ""
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
    last: Stretch | None = None
    seen = 0
    for line in _lines(pieces, text):
        for stretch in line.stretches if line.is_mixed(text) else ():
            words = None if stretch.end <= seen else _whole_words(stretch, text, line)
            if words is None:  # without letters, or in a word that was looked at whole
                continue
            seen = words.end
            if line.is_form(words, text):
                continue
            if last is None or words.start > last.end:
                if last is not None:
                    yield last
                last = words
            else:  # they touch, or share a word
                last = Stretch(last.start, words.end, last.mark)
    if last is not None:
        yield last


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of a paragraph: where it stands in the text, and what stands out in it.

    Args:
        start: Where it begins.
        end: Where it ends.
        letters_end: Where its last letter ends.
        stretches: What stands out.
    """

    start: int
    end: int
    letters_end: int
    stretches: tuple[Stretch, ...]

    def is_mixed(self, text: str) -> bool:
        """Whether some letter of the line stands outside all stretches."""
        starts = [*(stretch.start for stretch in self.stretches), self.end]
        ends = [self.start, *(stretch.end for stretch in self.stretches)]
        between = (text[a:b] for a, b in zip(ends, starts, strict=True))
        return any(any(map(str.isalnum, part)) for part in between)

    def is_form(self, stretch: Stretch, text: str) -> bool:
        """Whether a stretch is how the line is formatted: its name, or all after its name."""
        before = stretch.start
        while before > self.start and text[before - 1].isspace():
            before -= 1
        to_end = stretch.end >= self.letters_end
        if before == self.start:
            return to_end or _LABELLED.match(text, self.start, self.end) is not None
        return to_end and (text[before - 1] in ":：" or "\t" in text[before : stretch.start])


def _lines(pieces: Sequence[Piece], text: str) -> Iterator[_Line]:
    """The lines in which something stands out, each with its stretches; the text is read once."""
    start, end = 0, _line_end(text, 0)
    at, found = 0, list[Stretch]()
    for mark, group in groupby(pieces, key=lambda piece: piece.mark):
        past = at + sum(len(piece.text) for piece in group)
        while at < past:
            if mark and at < min(past, end):
                found.append(Stretch(at, min(past, end), mark))
            if past <= end:
                break
            if found:
                yield _line(text, start, end, found)
                found = []
            at = start = end + 1
            end = _line_end(text, start)
        at = past
    if found:
        yield _line(text, start, end, found)


def _line(text: str, start: int, end: int, found: Sequence[Stretch]) -> _Line:
    last = end
    while last > start and not text[last - 1].isalnum():
        last -= 1
    return _Line(start, end, last, tuple(found))


def _line_end(text: str, start: int) -> int:
    end = text.find("\n", start)
    return len(text) if end < 0 else end


def _whole_words(stretch: Stretch, text: str, line: _Line) -> Stretch | None:
    """The stretch without white space at its ends, grown or cut to end beside no letter."""
    start, end, mark = stretch
    if not any(map(str.isalnum, text[start:end])):
        return None
    while start > line.start and _in_word(text[start - 1]):
        start += -1 if text[start].isalnum() else 1
    while end < line.end and _in_word(text[end]):
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
