"""Good input for every door, from which a fuzzer begins."""

import io
import re
import zipfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path

from docx import Document

from tests.box_font import box_font
from tests.existing import pages
from tests.lettering.hostile_fonts import cff_font

TOP = Path(__file__).parents[2]
PLANS = (
    b'paper = "a5"\ngutter = 3.5\n[all]\ntiers = "2/3"\n',
    b'[page.3]\ntiers = "3 @1.35 / 2:1(1/1) / 1~ / 1[top-left 0.3x0.3]"\n',
    (
        b'{"paper": {"trim": [170, 260], "live": [5, 5, 160, 250]}, "gutter_mm": 3, '
        b'"every_page": {"tiers": [{"height": 2, "places": [{"width": 2, "bleeds": true}]}]}, '
        b'"pages": [{"page": 3, "tiers": "3/2"}]}'
    ),
)
RULES = b"[balloon]\nwords_per_balloon = 20\n[panel]\ncoverage = 0.3\n[type]\nleast_size_pt = 6.5\n"
SHORT = (
    (
        b"PAGE 1\nTIERS: 2\nPanel 1. Gate.\nWENNA (OFF): Hold *on*!\nCAPTION: Dawn.\n"
        b"Panel 2. Lock.\nSFX: KRRK\n"
    ),
    b"PAGE 1\nPanel 1.\nPILOT (THOUGHT): It turned -- an hour a-ago . . .\n",
    b"Page 2\nPanel 1.\nSIGN: SHUT\nPanel 2.\nTOBY: Go?\nWENNA: No!\nTOBY: But\n",
)
PIECE = 200
"""Bytes of a script that a piece of it has: longer ones show nothing more, and take longer."""

LETTERS = "ACEFHILOTYx -,!"
"""What `targets.font` sets, but for one letter that is to be taken from another family."""

EDITS = 8
"""So many places of a font are changed at a time."""

_WORDS = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
_KIND = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument"
RELATIONS = (
    f'<Relationships xmlns="{_LINKS}"><Relationship Id="a" Type="{_KIND}" Target="d.xml"/>'
    "</Relationships>"
).encode()
TOLD = (
    f'<w:document xmlns:w="{_WORDS}"><w:body><w:p><w:r><w:t>PAGE 1</w:t></w:r></w:p>'
    "</w:body></w:document>"
).encode()
PAGES = (pages.in_mm, pages.in_px, pages.in_pt, pages.by_matrices, pages.by_symbols)
ROWS = (
    b'id,text,outline,width,height\n1.1,"Ahoy, ""lock""!",ellipse,20,10\n',
    b'[{"id": "1.1", "text": "Ahoy!", "outline": "ellipse", "width": 20, "height": 10}]',
)


def seeds(name: str) -> Iterator[bytes]:
    """Good input to begin with, short, and no two that show the same."""
    yield from SEEDS[name]()


def scripts() -> Iterator[bytes]:
    """Scripts of many habits, and one typed in a word processor."""
    yield from pieces()
    yield packed(TOLD)


def pieces() -> Iterator[bytes]:
    """Scripts of many habits, cut between panels."""
    yield from SHORT
    for path in sorted(TOP.glob("tests/data/scripts/*.txt")):
        piece = b""
        for line in path.read_bytes().splitlines(keepends=True):
            if len(piece) > PIECE and line.lower().startswith((b"panel", b"case")):
                yield piece
                piece = b""
            piece += line
        yield piece


def edits() -> Iterator[bytes]:
    """Each sound font with edits that change nothing: its first byte is set to what it is."""
    for number, content in enumerate(sound_fonts()):
        yield bytes([number]) + EDITS * bytes([0, 0, 0, content[0]])


@cache
def sound_fonts() -> tuple[bytes, ...]:
    """Fonts of a few letters: TrueType, one that kerns and one whose letters change, and CFF."""
    return (
        box_font(characters=LETTERS),
        box_font(characters=LETTERS, kerning=(("A", "H", -50), ("T", "O", -80)), contextual=True),
        cff_font(characters=LETTERS),
    )


def packed(data: bytes) -> bytes:
    """An archive as a .docx is one, with this main part."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, content in (("_rels/.rels", RELATIONS), ("d.xml", data)):
            archive.writestr(zipfile.ZipInfo(name), content)
    return file.getvalue()


def dictionary(begun: Iterable[bytes]) -> str:
    """The words of good input that is text, as libFuzzer reads them: it puts them in anywhere."""
    found: set[bytes] = set()
    for seed in begun:
        if b"\0" not in seed:
            found |= set(re.findall(rb"[^\W\d_]{2,16}|[^\w\s]+", seed))
    quoted = ("".join(f"\\x{byte:02x}" for byte in word) for word in sorted(found))
    return "".join(f'"{word}"\n' for word in quoted)


def document() -> bytes:
    """The main part of a .docx with a heading, emphasis and a list."""
    made = Document()
    for line in ("PAGE 1", "Panel 1. Wide.", "WENNA: Hold."):
        made.add_paragraph(line)
    made.paragraphs[-1].add_run(" Now!").bold = True
    made.add_paragraph("The gate.", style="List Number")
    part: bytes = made.element.xml.encode()
    return part


SEEDS: Mapping[str, Callable[[], Iterable[bytes]]] = {
    "document": lambda: (document(),),
    "drawing": lambda: (make().encode() for make in PAGES),
    "edited_font": edits,
    "font": sound_fonts,
    "house_rules": lambda: (RULES,),
    "lettered": lambda: SHORT,
    "plans": lambda: PLANS,
    "script": scripts,
    "script_shown": scripts,
    "table": lambda: ROWS,
}
"""What a fuzzer of each door begins from."""
