"""Drawings in a notebook: an image that carries its own sheet, its words underneath.

A drawing is a whole SVG file inside an `img`: its ids are its own, so that any number of them stand
in one document; the notebook's style sheet does not reach into it; it can be saved as it is; and
whatever it may hold, a browser runs and fetches nothing for an image (SVG Integration, section 2.3,
secure animated mode). It is drawn on white, since a notebook may be dark.
"""

import re
from base64 import b64encode
from collections.abc import Iterable

from letterfit.output.html.markup import element, words
from letterfit.output.svg import style
from letterfit.shown import SideBySide, as_html, as_text

_WIDTH = re.compile(r'<svg[^>]* width="([0-9.]+)mm"')

CAPTION = "width:0;min-width:max(100%,14em);margin:.3em 0 0;font-size:90%;line-height:1.4"
"""No wider than the drawing beside others; alone, it has the whole line."""

FIGURE = "margin:.4em 0;max-width:100%"
ROW = "display:flex;flex-wrap:wrap;gap:1em;align-items:flex-start"
PLAIN = "margin:0;white-space:pre-wrap;line-height:1.25"


def image(svg: str, *, scale: float, alt: str) -> str:
    """A drawing as an image, never wider than its place.

    Args:
        svg: A whole SVG file in mm.
        scale: How many times larger than in print it is shown where there is room.
        alt: What is said in its place.
    """
    found = _WIDTH.search(svg)
    assert found is not None  # noqa: S101 - every drawing of ours says its width
    look = f"width:{scale * float(found[1]):.1f}mm;max-width:100%;height:auto;display:block"
    shown = {
        "src": f"data:image/svg+xml;base64,{b64encode(svg.encode()).decode('ascii')}",
        "alt": alt,
        "style": f"{look};background:{style.PAPER}",
    }
    return element("img", attributes=shown)


def figure(drawn: str, told: Iterable[str] = ()) -> str:
    """An image with lines of words underneath, each escaped here."""
    lines = "<br>".join(words(line) for line in told if line)
    caption = element("figcaption", [lines], attributes={"style": CAPTION}) if lines else ""
    return element("figure", [drawn, caption], attributes={"style": FIGURE})


def beside(parts: Iterable[str], *, least: str = "auto") -> str:
    """Figures beside each other, as many as go on a line.

    Args:
        parts: The figures.
        least: How wide each is, as CSS has it.
    """
    held = [element("div", [part], attributes={"style": f"flex:0 1 {least}"}) for part in parts]
    return element("div", held, attributes={"style": ROW})


def pre(text: str) -> str:
    """Text as it stands, letter under letter."""
    lines = "\n".join(words_kept(line) for line in text.splitlines())
    return element("pre", [lines], attributes={"style": PLAIN})


def words_kept(line: str) -> str:
    """A line escaped, its spaces kept.

    >>> words_kept("  a < b")
    '  a &lt; b'
    """
    spaces = len(line) - len(line.lstrip(" "))
    return " " * spaces + re.sub(r"\S+", lambda word: words(word[0]), line.lstrip(" "))


@as_html.register
def _row(value: SideBySide) -> str:
    return beside(as_html(one) or pre(as_text(one)) for one in value.values)


@as_text.register
def _column(value: SideBySide) -> str:
    return "\n\n".join(as_text(one) for one in value.values)
