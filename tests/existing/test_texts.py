"""Live text: its ink stands where an independent renderer puts it, lines and words as typed."""

import io
from pathlib import Path

import numpy as np
import pytest
import resvg_py
from PIL import Image

import letterfit as lf
from letterfit.existing.model import DrawnLettering

FONTS = Path(__file__).parents[2] / "fonts_open" / "Grandstander"
ROOT = '<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60">'
DPI = 400
PIXEL_MM = 25.4 / DPI


def lettered(inside: str) -> tuple[lf.DrawnPage, tuple[DrawnLettering, ...]]:
    """A page of 80 x 60 mm, and what is lettered on it."""
    page = lf.parse_drawn_page(f"{ROOT}{inside}</svg>".encode())
    return page, page.panels[0].effects


def inked(inside: str) -> tuple[float, float, float, float]:
    """The box of what resvg draws, in mm: left, top, right, bottom."""
    png = resvg_py.svg_to_bytes(
        svg_string=f"{ROOT}{inside}</svg>",
        dpi=DPI,
        skip_system_fonts=True,
        font_files=[str(FONTS / "Grandstander-Regular.ttf")],
        font_family="Grandstander",
        serif_family="Grandstander",
        sans_serif_family="Grandstander",
    )
    with Image.open(io.BytesIO(bytes(png))) as image:
        rows, columns = np.nonzero(np.asarray(image.convert("RGBA"))[:, :, 3] > 100)
    edges = (columns.min(), rows.min(), columns.max() + 1, rows.max() + 1)
    left, top, right, bottom = (float(edge) * PIXEL_MM for edge in edges)
    return left, top, right, bottom


FACE = 'font-family="Grandstander"'


PIECES = f'<text {FACE} x="10" y="20" font-size="4">  THE\n <tspan>TIDE </tspan> '
PIECES += '<tspan dy="3" font-size="6">TURNED</tspan></text>'
LINES = f'<text {FACE} font-size="4"><tspan x="10" y="20">THE TIDE</tspan>'
LINES += '<tspan x="10" dy="1.2em">TURNED.</tspan></text>'
SCALED = f'<text {FACE} x="4" y="9" font-size="3">AHOY</text>'


@pytest.mark.parametrize(
    "text",
    [
        f'<text {FACE} x="10" y="20" font-size="4">HOLD THE GATE!</text>',
        f'<text {FACE} x="40" y="20" font-size="4" text-anchor="middle">HOLD THE GATE!</text>',
        f'<text {FACE} x="70" y="20" font-size="4" text-anchor="end">HOLD THE GATE!</text>',
        f'<text {FACE} x="10" y="20" font-size="4" letter-spacing="0.6">AHOY</text>',
        f'<text {FACE} x="10" y="20" style="font-size:15px">AHOY</text>',
        f'<text {FACE} transform="rotate(90)" x="10" y="-20" font-size="4">AHOY</text>',
        f'<text {FACE} x="10" y="20" font-size="4">Ahoy &amp; away, Wenna</text>',
        f'<g transform="translate(5 8) scale(2)">{SCALED}</g>',
        LINES,
        PIECES,
    ],
)
def test_ink_stands_where_a_renderer_draws_it(text: str) -> None:
    """Within 0.1 mm each way: pixels of 0.06 mm."""
    _, (block,) = lettered(text)
    box = block.box
    assert (box.x, box.y, box.right, box.bottom) == pytest.approx(inked(text), abs=0.1)


def test_lines_and_words_are_as_typed() -> None:
    """A line starts at an x or a y of its own; white space is one space."""
    _, (block,) = lettered(
        '<text font-size="4"><tspan x="5" y="9">THE  TIDE</tspan>\n<tspan x="5" y="14">TURNED '
        "<tspan>AN</tspan> HOUR</tspan></text>"
    )
    assert [line.text for line in block.lines] == ["THE TIDE", "TURNED AN HOUR"]
    assert block.words == 5
    assert block.text == "THE TIDE TURNED AN HOUR"
    assert block.size_pt == pytest.approx(4 * 72 / 25.4)


def test_capitals_that_a_style_asks_for_are_measured() -> None:
    """text-transform: uppercase."""
    _, (block,) = lettered('<text y="9" style="text-transform:uppercase">hold</text>')
    assert block.text == "HOLD"


@pytest.mark.parametrize(
    "text",
    [
        '<text y="9" visibility="hidden">HOLD</text>',
        '<text y="9" display="none">HOLD</text>',
        '<text y="9" font-size="0">HOLD</text>',
        '<text y="9"> \n </text>',
        "<defs><text>HOLD</text></defs>",
    ],
)
def test_text_that_is_not_seen_is_not_there(text: str) -> None:
    """Hidden, empty, of no size, or only defined."""
    _, blocks = lettered(f'{text}<rect class="panel" width="70" height="50"/>')
    assert blocks == ()


def test_letters_that_the_typeface_lacks_are_told() -> None:
    """A note that names the text."""
    page, _ = lettered('<text y="9" font-size="4" id="sign">水門</text>')
    notes = [f.message for f in page.findings if f.code == "missing-glyph"]
    assert notes
    assert all(note.startswith("sign: ") for note in notes)


def test_thousands_of_lines_are_measured_so_far_and_no_further() -> None:
    """The rest is told, not measured."""
    lines = "".join(f'<tspan x="1" y="{n % 50}">A</tspan>' for n in range(5100))
    page, (block,) = lettered(f'<text font-size="1">{lines}</text>')
    assert len(block.lines) == 5000
    assert "drawing-not-read" in [f.code for f in page.findings]


def test_a_line_without_end_is_measured_to_a_limit() -> None:
    """A hundred thousand characters on one line: no hang, no error."""
    _, (block,) = lettered(f'<text x="1" y="9" font-size="1">{"HO " * 33_000}</text>')
    assert block.box.width < 1000
