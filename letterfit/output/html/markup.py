"""HTML text: elements with escaped content, nothing else.

Whatever comes from a script passes through `words` or an attribute; both leave one line of
printable text in which no markup can begin.
"""

from collections.abc import Iterable, Mapping
from html import escape
from types import MappingProxyType

from letterfit.output.plain import one_line

VOID = frozenset({"br", "img", "link", "meta"})
"""Elements that have no content and no end tag (HTML, section 13.1.2), of those used here."""

INLINE = frozenset({"a", "b", "bdi", "del", "small", "span", "strong", "td", "th"})
"""Elements after which no line is broken, so that no space comes between words."""

LANGUAGE = "en"
"""The document's own."""

NONE: Mapping[str, str] = MappingProxyType({})
"""No attributes."""


def words(text: str) -> str:
    """A text as content: escaped, on one line.

    >>> words("<b>HOLD</b> & wait")
    '&lt;b&gt;HOLD&lt;/b&gt; &amp; wait'
    """
    return escape(one_line(text), quote=False)


def element(
    name: str, children: Iterable[str] = (), *, attributes: Mapping[str, str] = NONE
) -> str:
    """One element: attributes escaped, children as they are.

    Args:
        name: The element's name.
        children: Elements already written, or one text already escaped.
        attributes: Values by name.

    >>> element("a", words("3 < 4"), attributes={"href": "#a", "title": 'say "3"'})
    '<a href="#a" title="say &quot;3&quot;">3 &lt; 4</a>'
    """
    written = "".join(f' {key}="{escape(one_line(value))}"' for key, value in attributes.items())
    end = "" if name in INLINE else "\n"
    if name in VOID:
        return f"<{name}{written}>{end}"
    return f"<{name}{written}>{''.join(children)}</{name}>{end}"


def classed(kind: str, children: Iterable[str]) -> str:
    """An element of one or more classes.

    Args:
        kind: The element's name and its classes, as "span.state fits".
        children: As in `element`.

    >>> classed("span.state fits", "fits")
    '<span class="state fits">fits</span>'
    """
    name, _, classes = kind.partition(".")
    return element(name, children, attributes={"class": classes})


def quoted(name: str, text: str, *, kind: str, language: str) -> str:
    """An element with a text of the script, as typed, in the script's language.

    Args:
        name: The element's name.
        text: The text.
        kind: The element's class.
        language: A BCP 47 tag.

    Returns:
        The element, its direction that of its own first letters.
    """
    own = {"class": kind, "dir": "auto", **spoken(language)}
    return element(name, words(text), attributes=own)


def spoken(language: str) -> dict[str, str]:
    """The attribute of a text in a language; none in the document's own."""
    return {} if language == LANGUAGE else {"lang": language}
