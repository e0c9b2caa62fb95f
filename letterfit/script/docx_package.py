"""Word-processor files as archives: the few parts that hold typed text, unpacked within bounds.

A .docx is a zip of XML parts (ECMA-376, parts 1 and 2). Only the document, its styles and its
lists are unpacked; pictures and all else stay packed. What a hostile file may cost is bounded:
parts, bytes as they really come out (an archive's own list can lie), elements and depth. No entity
is declared or expanded, since a part may have no document type at all, and no relationship that
leads out of the archive is followed.
"""

import io
import posixpath
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Never
from xml.parsers import expat

from letterfit.errors import ScriptError

MOST_FILE_BYTES = 200_000_000
"""The largest .docx that is looked into: a script with its reference pictures."""

MOST_UNPACKED_BYTES = 50_000_000
"""The most that is unpacked of it; the text of a script of 500 pages has under 10 MB of XML."""

MOST_PARTS = 10_000
MOST_ELEMENTS = 500_000
MOST_DEPTH = 150

_WORDS = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_STRICT_WORDS = "http://purl.oclc.org/ooxml/wordprocessingml/main"
_CHOICES = "http://schemas.openxmlformats.org/markup-compatibility/2006"
_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
_SHORT = {_WORDS: "w", _STRICT_WORDS: "w", _CHOICES: "mc", _LINKS: "rel"}
"""Namespaces that are read; the strict ones (ISO/IEC 29500, part 1) say the same."""

_ENTRY = b"PK\x01\x02"
"""What every entry of an archive's list begins with (ZIP, APPNOTE 4.3.12)."""

_PACKED = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}
"""How parts may be packed (ECMA-376 part 2, annex B); others unpack without a bound."""

_LOCKED = "EncryptedPackage".encode("utf-16-le")
"""The stream in which a file with a password stands (MS-OFFCRYPTO, 2.3.4.4)."""


@dataclass(slots=True, eq=False)
class Node:
    """One element of a part.

    Args:
        tag: Its name with a short prefix, such as "w:p"; only the prefixes of `_SHORT` are read,
            elements of other namespaces have none.
        attributes: Values by local name.
        children: Its elements, in document order.
        text: The characters of a stretch of text (w:t); of other elements none are kept.
    """

    tag: str
    attributes: Mapping[str, str]
    children: list["Node"] = field(default_factory=list)
    text: str = ""

    def child(self, tag: str) -> "Node | None":
        """The first of its elements with this name."""
        return next((child for child in self.children if child.tag == tag), None)

    def value(self, tag: str) -> str:
        """What the first of its elements with this name states (w:val); empty where none does."""
        child = self.child(tag)
        return "" if child is None else child.attributes.get("val", "")


@dataclass(frozen=True, slots=True)
class Package:
    """What is read of a .docx.

    Args:
        document: The root of the document.
        styles: The root of its styles, if it has any.
        numbering: The root of its lists, if it has any.
    """

    document: Node
    styles: Node | None = None
    numbering: Node | None = None


def is_zip(data: bytes) -> bool:
    """Whether the bytes are a zip archive, as every .docx is."""
    return data[:4] in {b"PK\x03\x04", b"PK\x05\x06"}


def is_locked(data: bytes) -> bool:
    """Whether the bytes are a word-processor file with a password: no archive, but a sealed one."""
    return data[:4] == b"\xd0\xcf\x11\xe0" and _LOCKED in data


def locked(source: str) -> ScriptError:
    """The complaint about a file with a password."""
    return ScriptError(
        "the file is protected by a password", advice="save it without one", source=source
    )


def open_package(data: bytes, *, source: str = "") -> Package:
    """The parts of a .docx that hold its text.

    Args:
        data: The whole file.
        source: Its name, for messages.

    Raises:
        ScriptError: It is no .docx, is damaged, has a password, or is too large.
    """
    if len(data) > MOST_FILE_BYTES:
        raise _too_large(source, f"{MOST_FILE_BYTES // 1_000_000} MB")
    if data.count(_ENTRY) > MOST_PARTS:  # before the list is read
        raise _too_large(source, f"{MOST_PARTS:,} parts")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return _Reader(archive, source).package()
    except (
        zipfile.BadZipFile,
        zlib.error,
        EOFError,
        NotImplementedError,
        OSError,
        RuntimeError,
        ValueError,
    ) as error:
        raise damaged(source) from error


def damaged(source: str) -> ScriptError:
    """The complaint about an archive or a part that cannot be read."""
    return ScriptError(
        "the .docx is damaged", advice="open it, save it again and retry", source=source
    )


def _too_large(source: str, what: str) -> ScriptError:
    return ScriptError(
        f"the file is larger than {what}",
        advice="save the script without pictures, or as plain text",
        source=source,
    )


class _Reader:
    """Unpacks parts of one archive and keeps count of what came out."""

    def __init__(self, archive: zipfile.ZipFile, source: str) -> None:
        self._archive = archive
        self._source = source
        # Names of parts are the same in any case (ECMA-376 part 2, 6.2.2.3).
        self._entries = {entry.filename.lower(): entry for entry in archive.infolist()}
        self._left = MOST_UNPACKED_BYTES

    def package(self) -> Package:
        """The document's parts that are read, as trees."""
        if "_rels/.rels" not in self._entries:
            self._refuse_archive()
        name = self._target("", "/officeDocument")
        root = self._tree(name) if name in self._entries else None
        if root is None:
            raise damaged(self._source)
        if root.tag != "w:document":
            self._refuse_archive()
        styles, numbering = (self._target(name, kind) for kind in ("/styles", "/numbering"))
        return Package(
            root,
            self._tree(styles) if styles in self._entries else None,
            self._tree(numbering) if numbering in self._entries else None,
        )

    def _refuse_archive(self) -> Never:
        """Say what an archive is that is no .docx, where its own first words tell."""
        what, advice = "an archive, not a script", "give plain text (UTF-8) or .docx"
        if "mimetype" in self._entries:
            kind = self._part("mimetype")[:100]
            if b"opendocument.text" in kind:
                what, advice = "an OpenDocument text", "save the script as .docx or plain text"
        raise ScriptError(f"this is {what}", advice=advice, source=self._source)

    def _target(self, name: str, kind: str) -> str:
        """The part inside the archive that a part's relationship of this kind names, or ""."""
        folder, _, base = name.rpartition("/")
        links = posixpath.join(folder, "_rels", f"{base}.rels")
        if links not in self._entries:
            return ""
        for link in self._tree(links).children:
            values = link.attributes
            if values.get("Type", "").endswith(kind) and values.get("TargetMode") != "External":
                path = posixpath.join("/", folder, values.get("Target", ""))
                return posixpath.normpath(path).lstrip("/").lower()
        return ""

    def _tree(self, name: str) -> Node:
        return parse_part(self._part(name), source=self._source)

    def _part(self, name: str) -> bytes:
        """The bytes of a part, counted as they come out."""
        entry = self._entries[name]
        if entry.flag_bits & 0x1:  # encrypted (APPNOTE 4.4.4)
            raise locked(self._source)
        if entry.compress_type not in _PACKED:
            raise damaged(self._source)
        if entry.file_size > self._left:
            raise _too_large(self._source, f"{MOST_UNPACKED_BYTES // 1_000_000} MB unpacked")
        with self._archive.open(entry) as part:
            data = part.read(entry.file_size + 1)  # without a number, read unpacks all there is
        self._left -= len(data)
        return data


def parse_part(data: bytes, *, source: str = "") -> Node:
    """The tree of one XML part.

    Args:
        data: The part's bytes.
        source: The file's name, for messages.

    Raises:
        ScriptError: It is no XML, has a document type, or has more elements than any script.

    >>> parse_part(b"<a><b at='1'/></a>").children[0].attributes
    {'at': '1'}
    """
    builder = _Builder(source)
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = builder.refuse
    parser.StartElementHandler = builder.start
    parser.EndElementHandler = builder.end
    parser.CharacterDataHandler = builder.characters
    try:
        parser.Parse(data, True)
    except (expat.ExpatError, ValueError, LookupError) as error:  # or an encoding nobody knows
        raise damaged(source) from error
    return builder.root


class _Builder:
    """Makes the tree as the parser meets its parts."""

    def __init__(self, source: str) -> None:
        self._source = source
        self._count = 0
        self._names = _Names()
        self._open = [Node("", {})]
        self._characters: list[str] = []

    @property
    def root(self) -> Node:
        return self._open[0].children[0]

    def refuse(self, *_declared: object) -> None:
        """No part has a document type (ECMA-376 part 2, 6.2.5): it could declare entities."""
        raise damaged(self._source)

    def start(self, name: str, attributes: dict[str, str]) -> None:
        self._count += 1
        if self._count > MOST_ELEMENTS or len(self._open) > MOST_DEPTH:
            raise _too_large(self._source, "any script")
        values = {key.rpartition(" ")[2]: value for key, value in attributes.items()}
        node = Node(self._names[name], values)
        self._open[-1].children.append(node)
        self._open.append(node)

    def end(self, _name: str) -> None:
        node = self._open.pop()
        if node.tag == "w:t":
            node.text = "".join(self._characters)
            self._characters.clear()

    def characters(self, text: str) -> None:
        if self._open[-1].tag == "w:t":
            self._characters.append(text)


class _Names(dict[str, str]):
    """Names of elements with short prefixes, each worked out once."""

    def __missing__(self, name: str) -> str:
        space, _, local = name.rpartition(" ")
        prefix = _SHORT.get(space)
        self[name] = local if prefix is None else f"{prefix}:{local}"
        return self[name]
