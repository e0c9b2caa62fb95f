"""SVG text: elements with escaped content, lengths in mm, ids that are names and never repeat."""

import re
from collections.abc import Iterable, Mapping
from html import escape

from letterfit.geometry import Rect
from letterfit.output.plain import one_line

Attributes = dict[str, str | float]
"""Values by name; numbers are lengths."""

NAMESPACE = "http://www.w3.org/2000/svg"
DIGITS = 3
"""Decimals of a coordinate: a micrometre."""


def length(value: float) -> str:
    """A coordinate in mm, to a micrometre, without idle noughts.

    >>> length(3.14159), length(-0.0001), length(20)
    ('3.142', '0', '20')
    """
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def tag(name: str, attributes: Mapping[str, str | float], children: Iterable[str] = ()) -> str:
    """One element: attributes escaped, numbers as lengths, children as they are.

    Args:
        name: The element's name.
        attributes: Values by name; numbers are lengths.
        children: Elements already written.

    >>> tag("rect", {"width": 2.5, "class": "a<b"})
    '<rect width="2.5" class="a&lt;b"/>'
    """
    written = "".join(
        f' {key}="{_quoted(value) if isinstance(value, str) else length(value)}"'
        for key, value in attributes.items()
    )
    inside = "\n".join(child for child in children if child)
    return f"<{name}{written}>\n{inside}\n</{name}>" if inside else f"<{name}{written}/>"


def _quoted(text: str) -> str:
    # Path data is long and plain: a look is quicker than a rewrite.
    tame = text.isascii() and text.isprintable() and "  " not in text and text == text.strip()
    return escape(text if tame else one_line(text))


def box(rect: Rect) -> Attributes:
    """The attributes of a rectangle."""
    return {"x": rect.x, "y": rect.y, "width": rect.width, "height": rect.height}


def title(text: str) -> str:
    """A title: what a reader sees when pointing at its group, and what a search finds."""
    return f"<title>{escape(one_line(text), quote=False)}</title>"


def document(*, width: float, height: float, heading: str, children: Iterable[str]) -> str:
    """A whole SVG file whose user unit is one mm (SVG 2, sections 5.1.2 and 8.2).

    Args:
        width: Of the sheet, in mm.
        height: Of the sheet, in mm.
        heading: Its title.
        children: What is drawn, back to front.
    """
    size = {
        "xmlns": NAMESPACE,
        "version": "1.1",
        "width": f"{length(width)}mm",
        "height": f"{length(height)}mm",
        "viewBox": f"0 0 {length(width)} {length(height)}",
    }
    head = '<?xml version="1.0" encoding="UTF-8"?>\n'
    return head + tag("svg", size, [title(heading), *children]) + "\n"


class Names:
    """Ids for one file: each is an XML name and given out once.

    >>> names = Names()
    >>> names.new("panel-1.2"), names.new("panel-1.2"), names.new("panel-1 <b>")
    ('panel-1.2', 'panel-1.2_2', 'panel-1__b_')
    """

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def new(self, wanted: str) -> str:
        """An id like the one wanted, with what an id may not hold replaced, and never repeated."""
        # XML 1.0, 5th ed., production [5] Name, narrowed to ASCII: every program reads it.
        base = re.sub(r"[^A-Za-z0-9_.-]", "_", wanted)
        base = base if re.match(r"[A-Za-z_]", base) else f"_{base}"
        name, count = base, 1
        while name in self._taken:
            count += 1
            name = f"{base}_{count}"
        self._taken.add(name)
        return name
