"""What of an element's style matters for measuring: whether it is drawn, and how its text is set.

Presentation attributes, then the rules of style sheets, then the style attribute, the later over
the earlier (CSS Cascade 4, section 6; SVG 2, section 6.6). Of selectors, those of one element,
class or id are read, and "*"; others are left out. Nothing is imported.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from letterfit.existing.lengths import length, number
from letterfit.existing.markup import Node

MOST_RULES = 20_000
MOST_CHARACTERS = 2_000_000
"""Characters of style sheets that are read."""

_SELECTOR = re.compile(r"(\*|[A-Za-z][\w-]*)?([.#][\w.-]+)?")

READ = (
    *("display", "visibility", "opacity", "fill", "stroke", "fill-rule", "fill-opacity"),
    *("stroke-opacity", "font-size", "text-anchor", "letter-spacing", "text-transform", "font"),
)
"""The properties that are read."""

ABSOLUTE_SIZES = {
    "xx-small": 9.0,
    "x-small": 10.0,
    "small": 13.0,
    "medium": 16.0,
    "large": 18.0,
    "x-large": 24.0,
    "xx-large": 32.0,
}
"""In px (CSS Fonts 4, section 2.5: a medium of 16 px)."""

Sheet = Mapping[str, Mapping[str, str]]
"""Declarations by selector: "rect", ".panel", "#gate", "*"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """The computed values that are inherited, and whether the element is there at all.

    Args:
        shown: Whether it and all it stands in are displayed and not wholly transparent.
        visible: Whether its own ink is visible.
        filled: Whether its fill is drawn.
        stroked: Whether its stroke is drawn.
        even_odd: Whether its inside is told by the even-odd rule.
        font_size: In user units.
        anchor: "start", "middle" or "end".
        spacing: Space after each letter, user units.
        capitals: Whether its text is shown in capitals.
    """

    shown: bool = True
    visible: bool = True
    filled: bool = True
    stroked: bool = False
    even_odd: bool = False
    font_size: float = 16.0
    anchor: str = "start"
    spacing: float = 0.0
    capitals: bool = False


def parse_sheet(text: str) -> dict[str, dict[str, str]]:
    """The declarations of a style sheet by selector; of one given twice, the later hold.

    >>> parse_sheet(".st0, #gate { fill: none } @import 'x.css';")
    {'.st0': {'fill': 'none'}, '#gate': {'fill': 'none'}}
    """
    sheet: dict[str, dict[str, str]] = {}
    plain, *commented = text[:MOST_CHARACTERS].split("/*")
    plain += "".join(part.partition("*/")[2] for part in commented)
    for block in plain.split("}", MOST_RULES)[:MOST_RULES]:
        before, _, body = block.rpartition("{")
        selectors = before.rpartition("{")[2].rpartition(";")[2]
        said = dict(_declarations(body))
        for one in selectors.split(","):
            match = _SELECTOR.fullmatch(one.strip())
            if said and match and one.strip():
                sheet.setdefault(match[2] or match[1], {}).update(said)
    return sheet


def _declarations(text: str) -> Iterator[tuple[str, str]]:
    for part in text.split(";"):
        name, colon, value = part.partition(":")
        if colon and name.strip().lower() in READ:
            yield name.strip().lower(), value.replace("!important", "").strip()


def style_of(node: Node, parent: Style, *, sheet: Sheet) -> Style:
    """The style of an element inside one of a given style.

    Args:
        node: The element.
        parent: The style that it inherits.
        sheet: The drawing's style sheets.

    >>> style_of(Node("g", {"style": "display:none"}, 1), Style(), sheet={}).shown
    False
    """
    said = _said(node, sheet)
    if not said:
        return parent
    size = _size(said, parent)
    fill, stroke = said.get("fill"), said.get("stroke")
    see_through = number(said.get("opacity")) == 0
    spacing = said.get("letter-spacing")
    return replace(
        parent,
        shown=parent.shown and said.get("display") != "none" and not see_through,
        visible=_is(said.get("visibility"), "visible", inherited=parent.visible),
        filled=_painted(fill, said.get("fill-opacity"), inherited=parent.filled),
        stroked=_painted(stroke, said.get("stroke-opacity"), inherited=parent.stroked),
        even_odd=_is(said.get("fill-rule"), "evenodd", inherited=parent.even_odd),
        font_size=size,
        anchor=said.get("text-anchor", parent.anchor),
        spacing=parent.spacing if spacing is None else length(spacing, em=size) or 0.0,
        capitals=_is(said.get("text-transform"), "uppercase", inherited=parent.capitals),
    )


def _said(node: Node, sheet: Sheet) -> dict[str, str]:
    """What is said of an element, the stronger over the weaker."""
    own = node.attributes
    said = {name: own[name].strip() for name in READ if name in own}
    if sheet:
        selectors = ["*", node.tag]
        selectors += [f".{one}" for one in own.get("class", "").split()[:100]]
        if "id" in own:
            selectors.append(f"#{own['id']}")
        for selector in selectors:
            said |= sheet.get(selector, {})
    if "style" in own:
        said |= dict(_declarations(own["style"]))
    return {name: value for name, value in said.items() if value != "inherit"}


def _size(said: Mapping[str, str], parent: Style) -> float:
    text = said.get("font-size")
    if text is None and "font" in said:  # the shorthand: style, weight, then size/leading family
        text = next((w.partition("/")[0] for w in said["font"].split() if w[0].isdigit()), None)
    if text is None:
        return parent.font_size
    if text in ABSOLUTE_SIZES:
        return ABSOLUTE_SIZES[text]
    size = length(text, whole=parent.font_size, em=parent.font_size)
    return parent.font_size if size is None or size < 0 else size


def _painted(paint: str | None, opacity: str | None, *, inherited: bool) -> bool:
    if number(opacity) == 0:
        return False
    return inherited if paint is None else paint not in ("none", "transparent")


def _is(value: str | None, wanted: str, *, inherited: bool) -> bool:
    return inherited if value is None else value == wanted
