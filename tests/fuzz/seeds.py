"""Good input for every door, from which a fuzzer begins."""

from collections.abc import Iterator
from pathlib import Path

from docx import Document

from tests.box_font import box_font
from tests.existing import pages

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
    b"PAGE 1\nTIERS: 2\nPanel 1. Gate.\nWENNA (OFF): Hold *on*!\nCAPTION: Dawn.\n"
    b"Panel 2. Lock.\nSFX: KRRK\n"
)
PAGES = (pages.in_mm, pages.in_px, pages.in_pt, pages.by_matrices, pages.by_symbols)
ROWS = (
    b'id,text,outline,width,height\n1.1,"Ahoy, ""lock""!",ellipse,20,10\n',
    b'[{"id": "1.1", "text": "Ahoy!", "outline": "ellipse", "width": 20, "height": 10}]',
)


def seeds(name: str) -> Iterator[bytes]:
    """Good input to begin with."""
    scripts = [path.read_bytes() for path in sorted(TOP.glob("tests/data/scripts/*.txt"))]
    if name == "script":
        yield from scripts
        yield (TOP / "tests/data/scripts/09_table.docx").read_bytes()
    elif name == "lettered":
        yield SHORT
        yield from (text[at : at + 300] for text in scripts for at in range(0, 1500, 300))
    elif name == "document":
        yield _document()
    elif name == "plans":
        yield from PLANS
    elif name == "house_rules":
        yield RULES
    elif name == "table":
        yield from ROWS
    elif name == "font":
        yield box_font()
    elif name == "drawing":
        yield from (make().encode() for make in PAGES)


def _document() -> bytes:
    """The main part of a .docx with a heading, emphasis and a list."""
    made = Document()
    for line in ("PAGE 1", "Panel 1. Wide.", "WENNA: Hold."):
        made.add_paragraph(line)
    made.paragraphs[-1].add_run(" Now!").bold = True
    made.add_paragraph("The gate.", style="List Number")
    part: bytes = made.element.xml.encode()
    return part
