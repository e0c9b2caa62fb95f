"""Word-processor files as archives: what is no .docx, and what a hostile one may cost."""

import io
import os
import sys
import tracemalloc
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from docx import Document

from letterfit.errors import ScriptError
from letterfit.script import docx_package
from letterfit.script.docx_package import MOST_UNPACKED_BYTES, parse_part
from letterfit.script.sources import parse_script_bytes, read_script

TRANSITIONAL = b"http://schemas.openxmlformats.org/wordprocessingml/2006/main"
OLD = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600
"""The beginning of a compound file, as word processors wrote them (MS-CFB, 2.2)."""

RELATIONS = b"http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def typed(*paragraphs: str) -> bytes:
    """A .docx of paragraphs, as python-docx writes it."""
    document = Document()
    for paragraph in paragraphs:
        document.add_paragraph(paragraph)
    file = io.BytesIO()
    document.save(file)
    return file.getvalue()


GOOD = typed("PAGE 1", "Panel 1. Wide.", "WENNA: Hold.")


def parts_of(data: bytes) -> dict[str, bytes]:
    """Every part of an archive."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {entry.filename: archive.read(entry) for entry in archive.infolist()}


def packed(parts: Mapping[str, bytes], *, way: int = zipfile.ZIP_DEFLATED) -> bytes:
    """An archive of parts."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", way) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return file.getvalue()


def with_part(name: str, content: bytes) -> bytes:
    """The good file with one part replaced or added."""
    return packed({**parts_of(GOOD), name: content})


def complaint(data: bytes) -> str:
    """The one line that a file is refused with."""
    with pytest.raises(ScriptError) as caught:
        parse_script_bytes(data, source="gate.docx")
    told = str(caught.value)
    assert told.startswith("gate.docx: ")
    assert told.isprintable()
    return told


def claiming(data: bytes, name: str, size: int) -> bytes:
    """The archive whose list says that a part has so many bytes unpacked, whatever it has."""
    at = -1
    while (at := data.index(b"PK\x01\x02", at + 1)) >= 0:
        length = int.from_bytes(data[at + 28 : at + 30], "little")  # APPNOTE 4.3.12
        if data[at + 46 : at + 46 + length] == name.encode():
            break
    return data[: at + 24] + size.to_bytes(4, "little") + data[at + 28 :]


def test_a_docx_is_read_with_nothing_else_installed(monkeypatch: pytest.MonkeyPatch) -> None:
    """python-docx only writes the files of these tests."""
    monkeypatch.setitem(sys.modules, "docx", None)
    monkeypatch.setitem(sys.modules, "lxml", None)
    assert parse_script_bytes(GOOD).pages[0].panels[0].elements[0].text == "Hold."


def test_a_part_with_more_than_the_limit_is_never_unpacked() -> None:
    """A zip bomb is refused by what its list says."""
    bomb = with_part("word/document.xml", b"0" * (MOST_UNPACKED_BYTES + 1))
    assert len(bomb) < 200_000
    assert "larger than 50 MB unpacked" in complaint(bomb)


def test_a_list_that_lies_costs_no_memory() -> None:
    """A part that claims to be small and is not is cut off where it claims to end."""
    bomb = with_part("word/document.xml", b"0" * MOST_UNPACKED_BYTES)
    lying = claiming(bomb, "word/document.xml", 1000)
    tracemalloc.start()
    try:
        assert "damaged" in complaint(lying)
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < MOST_UNPACKED_BYTES / 10


@pytest.mark.parametrize("way", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_parts_packed_in_ways_that_no_docx_has_are_refused(way: int) -> None:
    """ECMA-376 part 2 knows stored and deflated parts; the others unpack without a bound."""
    assert "damaged" in complaint(packed(parts_of(GOOD), way=way))


def test_pictures_and_all_else_stay_packed() -> None:
    """What is not read is not unpacked, however large it would be."""
    large = with_part("word/media/image1.png", b"0" * (MOST_UNPACKED_BYTES + 1))
    assert parse_script_bytes(large).pages[0].panels[0].elements[0].text == "Hold."


def test_too_many_parts_and_too_large_a_file_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Both before the archive's list is read."""
    monkeypatch.setattr(docx_package, "MOST_PARTS", 5)
    assert "larger than 5 parts" in complaint(GOOD)
    monkeypatch.setattr(docx_package, "MOST_FILE_BYTES", 1000)
    assert "without pictures" in complaint(GOOD)


@pytest.mark.parametrize(
    "content",
    [
        b"<a>" * 200 + b"</a>" * 200,
        b"<a>" + b"<b/>" * 300 + b"</a>",
    ],
    ids=["deep", "wide"],
)
def test_deep_and_wide_documents_are_refused(
    monkeypatch: pytest.MonkeyPatch, content: bytes
) -> None:
    """Elements are counted, and how deep they stand in each other."""
    monkeypatch.setattr(docx_package, "MOST_ELEMENTS", 250)
    with pytest.raises(ScriptError, match="larger than any script"):
        parse_part(content)


@pytest.mark.parametrize(
    "declared",
    [
        b'<!ENTITY g "' + b"A" * 1000 + b'">',
        b'<!ENTITY g SYSTEM "file:///etc/hostname">',
        b'<!ENTITY % g SYSTEM "http://127.0.0.1:9/x.dtd"> %g;',
        b"",
    ],
)
def test_no_entity_is_declared_expanded_or_fetched(declared: bytes) -> None:
    """A part with a document type is refused as it begins (ECMA-376 part 2: it may have none)."""
    part = b'<?xml version="1.0"?><!DOCTYPE x [' + declared + b"]><x>&g;</x>"
    assert "damaged" in complaint(with_part("word/document.xml", part))


def test_relationships_that_lead_outside_are_not_followed(tmp_path: Path) -> None:
    """The document is a part of the archive: no address, no file beside it, nothing above it."""
    secret = tmp_path / "secret.xml"
    secret.write_bytes(parts_of(GOOD)["word/document.xml"])
    link = (
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
        f'<Relationship Id="r" Type="{RELATIONS.decode()}/officeDocument" {{}}/></Relationships>'
    )
    for target in (
        f'Target="file://{secret}" TargetMode="External"',
        f'Target="{secret}"',
        f'Target="../../../../..{secret}"',
        'Target="http://127.0.0.1:9/document.xml"',
    ):
        assert "damaged" in complaint(with_part("_rels/.rels", link.format(target).encode()))


def strict() -> bytes:
    """The good file in the strict namespaces of ISO/IEC 29500, part 1."""
    return packed(
        {
            name: content.replace(
                TRANSITIONAL, b"http://purl.oclc.org/ooxml/wordprocessingml/main"
            ).replace(RELATIONS, b"http://purl.oclc.org/ooxml/officeDocument/relationships")
            for name, content in parts_of(GOOD).items()
        }
    )


def test_strict_files_are_read_alike() -> None:
    """A word processor saves in either namespace."""
    assert TRANSITIONAL not in b"".join(parts_of(strict()).values())
    assert parse_script_bytes(strict()) == parse_script_bytes(GOOD)


def encrypted() -> bytes:
    """The good file whose document says that it is encrypted (APPNOTE 4.4.4, bit 0)."""
    data = bytearray(GOOD)
    for sign, flags, name in ((b"PK\x01\x02", 8, 46), (b"PK\x03\x04", 6, 30)):
        at = -1
        while (at := data.find(sign, at + 1)) >= 0:
            if data[at + name :].startswith(b"word/document.xml"):
                data[at + flags] |= 1
    return bytes(data)


def sealed() -> bytes:
    """The beginning and a stream's name of a compound file with a password (MS-CFB, 2.6.1)."""
    return OLD + "EncryptedPackage".encode("utf-16-le")


OPEN_DOCUMENT = {"mimetype": b"application/vnd.oasis.opendocument.text", "content.xml": b"<x/>"}
SHEET = parts_of(GOOD) | {"word/document.xml": b"<workbook/>"}


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (lambda: b"PK\x05\x06" + b"\0" * 18, "an archive, not a script"),
        (lambda: b"PK\x03\x04 and then nothing", "damaged"),
        (lambda: packed({"notes.txt": b"PAGE 1"}), "an archive, not a script"),
        (lambda: packed(SHEET), "an archive, not a script"),
        (lambda: packed(OPEN_DOCUMENT), "an OpenDocument text; save the script as .docx"),
        (encrypted, "protected by a password; save it without one"),
        (sealed, "protected by a password; save it without one"),
        (lambda: OLD, "an old word-processor file"),
        (lambda: b"{\\rtf1 PAGE 1}", "an RTF file"),
        (lambda: GOOD[: len(GOOD) // 2], "damaged"),
    ],
)
def test_each_kind_of_file_that_is_no_script_is_named(make: Callable[[], bytes], told: str) -> None:
    """One line names the file, what it is and what to do."""
    line = complaint(make())
    assert told in line
    assert "; " in line


def test_a_pipe_with_a_name_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    """Nobody writes to it; a device, and a folder, are refused as well."""
    pipe = tmp_path / "gate.docx"
    os.mkfifo(pipe)
    for path in (pipe, Path("/dev/zero")):
        with pytest.raises(ScriptError, match="pipe or a device, no file; give a file, or -"):
            read_script(path)
    with pytest.raises(ScriptError, match="this is a folder"):
        read_script(tmp_path)
