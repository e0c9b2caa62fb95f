"""SVG bytes to a tree of elements, by expat, with everything dangerous kept out.

No entity is declared or expanded, no document type is read, nothing is fetched, and bytes,
elements and depth are bounded: a hostile file costs no more than a large honest one.
"""

import zlib
from dataclasses import dataclass, field
from typing import Never
from xml.parsers import expat

from letterfit.errors import DrawingError

MOST_BYTES = 64_000_000
"""Bytes of a file, unpacked: a page with a painting embedded in it."""

MOST_ELEMENTS = 150_000
MOST_DEPTH = 100

SVG = "http://www.w3.org/2000/svg"
XML = "http://www.w3.org/XML/1998/namespace"
_GZIP = b"\x1f\x8b"
"""The first two bytes of a gzip member (RFC 1952, 2.3.1)."""


@dataclass(slots=True, eq=False)
class Node:
    """One element of a drawing.

    Args:
        tag: Its local name; empty for an element of another namespace.
        attributes: Values by local name; of other namespaces only those that SVG has not itself.
        line: Its line in the file, counted from 1.
        children: Elements and pieces of text, in document order.
    """

    tag: str
    attributes: dict[str, str]
    line: int
    children: list["Node | str"] = field(default_factory=list)

    def elements(self) -> list["Node"]:
        """Its child elements."""
        return [child for child in self.children if isinstance(child, Node)]

    def text(self) -> str:
        """All text inside it, white space as it stands."""
        parts, left = [], [*reversed(self.children)]
        while left:
            item = left.pop()
            if isinstance(item, str):
                parts.append(item)
            else:
                left.extend(reversed(item.children))
        return "".join(parts)


def parse_markup(data: bytes, *, source: str = "") -> Node:
    """The root element of an SVG file.

    Args:
        data: The file's bytes; packed ones (.svgz) are unpacked within the same bound.
        source: Its name, for messages.

    Raises:
        DrawingError: When it is no well-formed SVG, declares entities or an internal document type,
            or is too large. The message names the line.

    >>> parse_markup(b'<svg xmlns="http://www.w3.org/2000/svg"><rect/></svg>').elements()[0].tag
    'rect'
    """
    return _Reader(source).read(_unpacked(data, source))


def _unpacked(data: bytes, source: str) -> bytes:
    if data[:2] == _GZIP:
        try:
            data = zlib.decompressobj(wbits=31).decompress(data, MOST_BYTES + 1)
        except zlib.error:
            raise DrawingError(
                "the packed file is broken", advice="save it as plain SVG", source=source
            ) from None
    if len(data) > MOST_BYTES:
        raise DrawingError(
            f"the drawing is over {MOST_BYTES // 1_000_000} MB",
            advice="take the painted layers out, or link them",
            source=source,
        )
    if not data.strip():
        raise DrawingError("the file is empty", advice="give an SVG page", source=source)
    return data


class _Reader:
    """Builds the tree as expat meets its parts."""

    def __init__(self, source: str) -> None:
        self._source = source
        self._parser = expat.ParserCreate(namespace_separator=" ")
        self._parser.buffer_text = True
        self._parser.StartDoctypeDeclHandler = self._doctype
        self._parser.EntityDeclHandler = self._entity
        self._parser.SkippedEntityHandler = self._skipped
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._text
        self._open: list[Node] = []
        self._root: Node | None = None
        self._count = 0

    def read(self, data: bytes) -> Node:
        """The root of the tree that a document's bytes describe."""
        try:
            self._parser.Parse(data, True)
        except expat.ExpatError as error:
            raise DrawingError(
                f"no well-formed XML: {expat.errors.messages.get(error.code, 'unknown')}",
                advice="save the page as plain SVG",
                source=self._source,
                line=error.lineno,
            ) from None
        except (ValueError, LookupError):  # an encoding that nobody knows
            self._refuse("an unknown encoding", "save the page as UTF-8")
        root = self._root
        if root is None or root.tag != "svg":
            raise DrawingError(
                "the file is no SVG drawing",
                advice="give a page saved as SVG: its first element is svg",
                source=self._source,
            )
        return root

    def _refuse(self, what: str, advice: str) -> Never:
        line = self._parser.CurrentLineNumber
        raise DrawingError(what, advice=advice, source=self._source, line=line)

    def _doctype(self, _name: str, _id: str | None, _key: str | None, has_subset: bool) -> None:  # noqa: FBT001 - expat's call
        if has_subset:
            self._refuse(
                "a document type with declarations of its own",
                "save the page as plain SVG, without entities",
            )

    def _entity(self, name: str, *_rest: object) -> None:
        self._refuse(f"an entity {name[:40]!r} is declared", "save the page as plain SVG")

    def _skipped(self, name: str, *_rest: object) -> None:
        self._refuse(f"an entity {name[:40]!r} that is not declared", "save the page as plain SVG")

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._count += 1
        if self._count > MOST_ELEMENTS:
            self._refuse(
                f"more than {MOST_ELEMENTS:,} elements", "take the layers of the artwork out"
            )
        if len(self._open) >= MOST_DEPTH:
            self._refuse(f"groups nested over {MOST_DEPTH} deep", "ungroup some of them")
        node = Node(_local(name), _by_local_name(attributes), self._parser.CurrentLineNumber)
        if self._open:
            self._open[-1].children.append(node)
        elif self._root is None:
            self._root = node
        self._open.append(node)

    def _end(self, _name: str) -> None:
        self._open.pop()

    def _text(self, data: str) -> None:
        if self._open:
            self._open[-1].children.append(data)


def _local(name: str) -> str:
    """The local name of an SVG element; empty for another namespace's; as it is without one."""
    space, _, local = name.rpartition(" ")
    return local if space in ("", SVG) else ""


def _by_local_name(attributes: dict[str, str]) -> dict[str, str]:
    found = {name: value for name, value in attributes.items() if " " not in name}
    for name, value in attributes.items():
        if " " in name:
            found.setdefault(name.rpartition(" ")[2], value)
    return found
