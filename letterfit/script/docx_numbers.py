"""Numbers that a word processor sets before paragraphs by itself, and that nobody typed.

Whoever types "1. Wide." may get a numbered list, and the number is in no text: it is counted here
as the word processor counts (ECMA-376 part 1, 17.9), so that panels and balloons keep their
numbers. Bullets are none.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from letterfit.script.docx_package import Node

_LEVELS = 9
_MOST_BASED = 10
_MOST_DIGITS = 6
_LONGEST_LABEL = 60
_MOST_LETTERS = 26 * 5
_PLACE = re.compile(r"%([1-9])")
_SUFFIXES = {"tab": "\t", "space": " ", "nothing": ""}
_ROMAN = (
    (1000, "M"), (900, "CM"), (500, "D"), (400, "CD"), (100, "C"), (90, "XC"),
    (50, "L"), (40, "XL"), (10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """One level of a list.

    Args:
        start: The first number.
        form: How numbers are written (17.18.59, ST_NumberFormat).
        text: What is set, such as "%1." or "Panel %2".
        suffix: What stands between it and the words.
        legal: Whether all its numbers are plain figures (w:isLgl).
        style: The paragraph style that takes this level, if one does.
    """

    start: int = 1
    form: str = "decimal"
    text: str = ""
    suffix: str = "\t"
    legal: bool = False
    style: str = ""


@dataclass(slots=True)
class List:
    """A list that paragraphs name: its levels, those it begins anew, and where it counts.

    Args:
        key: The definition (w:abstractNum) whose count it goes on with.
        levels: Its levels by their depth.
        anew: Numbers to begin with where this list is used first, by depth.
    """

    key: str
    levels: Mapping[int, Level]
    anew: dict[int, int] = field(default_factory=dict)


class Numbering:
    """Counts the numbered paragraphs of a document, which are asked for in order.

    Args:
        numbering: The root of the numbering part, if there is one.
        styles: The root of the styles.
    """

    def __init__(self, numbering: Node | None, styles: Node | None) -> None:
        self._lists = _lists(numbering) if numbering else {}
        self._styles = _styles(styles) if styles and self._lists else {}
        self._counts: dict[str, dict[int, int]] = {}

    def label(self, paragraph: Node) -> str:
        """What is set before a paragraph, with what parts it from the words; "" for nothing."""
        if not self._lists:
            return ""
        properties = paragraph.child("w:pPr") or Node("", {})
        style = properties.value("w:pStyle")
        stated = properties.child("w:numPr")
        name = stated.value("w:numId") if stated else ""
        found = self._lists.get(name or self._of_style(style))
        if found is None:
            return ""
        depth = _number(stated.value("w:ilvl") if stated else "", 0)
        if not (stated and stated.child("w:ilvl")):
            named = (at for at, level in found.levels.items() if style and level.style == style)
            depth = next(named, depth)
        return self._counted(found, min(depth, _LEVELS - 1))

    def _of_style(self, style: str) -> str:
        """The list that a paragraph style, or one it is based on, names."""
        for _ in range(_MOST_BASED):
            if style not in self._styles:
                break
            style, name = self._styles[style]
            if name:
                return name
        return ""

    def _counted(self, found: List, depth: int) -> str:
        counts = self._counts.setdefault(found.key, {})
        level = found.levels.get(depth)
        if level is None:
            return ""
        if depth in found.anew:
            counts[depth] = found.anew.pop(depth)
        else:
            counts[depth] = counts.get(depth, level.start - 1) + 1
        for deeper in range(depth + 1, _LEVELS):
            counts.pop(deeper, None)
        if level.form in {"bullet", "none"} or not level.text:
            return ""

        def place(match: re.Match[str]) -> str:
            at = int(match[1]) - 1
            outer = found.levels.get(at, Level())
            return written(counts.get(at, outer.start), "decimal" if level.legal else outer.form)

        label = _PLACE.sub(place, level.text)
        return f"{label}{level.suffix}"


def written(number: int, form: str) -> str:
    """A number in a format of lists; one that is not known is told in figures.

    >>> [written(4, form) for form in ("decimal", "upperRoman", "lowerLetter", "decimalZero")]
    ['4', 'IV', 'd', '04']
    >>> written(28, "upperLetter")
    'BB'
    """
    plain = str(number)
    make = _FORMS.get(form.removeprefix("upper").removeprefix("lower"))
    told = plain if make is None or number < 1 else make(number) or plain
    return told.lower() if form.startswith("lower") else told


def _roman(number: int) -> str:
    if number >= 4000:
        return ""
    told = ""
    for value, letters in _ROMAN:
        while number >= value:
            told += letters
            number -= value
    return told


def _letters(number: int) -> str:
    """A to Z, then AA, BB and so on (17.18.59)."""
    if number > _MOST_LETTERS:
        return ""
    return chr(ord("A") + (number - 1) % 26) * ((number - 1) // 26 + 1)


_FORMS: dict[str, Callable[[int], str]] = {
    "Roman": _roman,
    "Letter": _letters,
    "decimalZero": lambda number: f"{number:02}",
}


def _lists(numbering: Node) -> dict[str, List]:
    """The lists of a document by the ids that paragraphs name."""
    made = {
        node.attributes.get("abstractNumId", ""): _levels(node)
        for node in numbering.children
        if node.tag == "w:abstractNum"
    }
    lists = {}
    for node in numbering.children:
        key = node.value("w:abstractNumId")
        if node.tag != "w:num" or key not in made:
            continue
        levels, anew = dict(made[key]), {}
        for change in node.children:
            depth = _number(change.attributes.get("ilvl", ""), 0)
            if change.tag == "w:lvlOverride":
                levels.update(_levels(change))
                if change.child("w:startOverride") is not None:
                    anew[depth] = _number(change.value("w:startOverride"), 1)
        lists[node.attributes.get("numId", "")] = List(key, levels, anew)
    lists.pop("0", None)  # no list (17.9.18)
    return lists


def _levels(container: Node) -> dict[int, Level]:
    found = {
        _number(node.attributes.get("ilvl", ""), 0): Level(
            start=_number(node.value("w:start"), 0),
            form=node.value("w:numFmt") or "decimal",
            text=node.value("w:lvlText")[:_LONGEST_LABEL],
            suffix=_SUFFIXES.get(node.value("w:suff"), "\t"),
            legal=node.child("w:isLgl") is not None,
            style=node.value("w:pStyle"),
        )
        for node in container.children
        if node.tag == "w:lvl"
    }
    return {depth: level for depth, level in found.items() if depth < _LEVELS}


def _styles(styles: Node) -> dict[str, tuple[str, str]]:
    """Of each paragraph style the one that it is based on, and the list that it names."""
    found = {}
    for node in styles.children:
        if node.tag == "w:style" and node.attributes.get("type") == "paragraph":
            properties = node.child("w:pPr")
            stated = properties.child("w:numPr") if properties else None
            name = stated.value("w:numId") if stated else ""
            found[node.attributes.get("styleId", "")] = node.value("w:basedOn"), name
    return found


def _number(value: str, default: int) -> int:
    whole = value.isascii() and value.isdigit() and len(value) <= _MOST_DIGITS
    return int(value) if whole else default
