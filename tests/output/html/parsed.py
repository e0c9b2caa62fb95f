"""An HTML document read strictly: every element closed where it should be, no attribute twice.

The parser is Python's own (html.parser); what it lets pass is held against the standard here.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "wbr"}
"""Elements without an end tag (HTML, section 13.1.2)."""

FOREIGN = {"svg", "path", "rect", "circle", "ellipse", "use", "g", "defs", "clippath"}
"""SVG elements, which may close themselves (HTML, section 13.1.2.1)."""


@dataclass
class Node:
    """An element."""

    name: str
    attributes: dict[str, str]
    children: list["Node | str"] = field(default_factory=list)

    def walk(self) -> Iterator["Node"]:
        """Itself and all elements in it, in document order."""
        yield self
        for child in self.children:
            if isinstance(child, Node):
                yield from child.walk()

    def named(self, *names: str) -> list["Node"]:
        """The elements of some names."""
        return [node for node in self.walk() if node.name in names]

    def classed(self, kind: str) -> list["Node"]:
        """The elements of a class."""
        return [n for n in self.walk() if kind in n.attributes.get("class", "").split()]

    @property
    def text(self) -> str:
        """All text in it."""
        return "".join(c if isinstance(c, str) else c.text for c in self.children)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.stack = [Node("document", {})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = self._add(tag, attrs)
        if tag not in VOID:
            self.stack.append(node)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in FOREIGN, f"<{tag}/> does not close itself"
        self._add(tag, attrs)

    def handle_endtag(self, tag: str) -> None:
        assert self.stack[-1].name == tag, f"</{tag}> closes <{self.stack[-1].name}>"
        self.stack.pop()

    def handle_data(self, data: str) -> None:
        self.stack[-1].children.append(data)

    def _add(self, tag: str, attrs: list[tuple[str, str | None]]) -> Node:
        names = [name for name, _ in attrs]
        assert len(names) == len(set(names)), f"<{tag}> has an attribute twice"
        node = Node(tag, {name: value or "" for name, value in attrs})
        self.stack[-1].children.append(node)
        return node


def parse(document: str) -> Node:
    """The document as a tree; whatever is not closed, or closed twice, is an error."""
    reader = _Reader()
    reader.feed(document)
    reader.close()
    assert [node.name for node in reader.stack] == ["document"], "an element is not closed"
    return reader.stack[0]
