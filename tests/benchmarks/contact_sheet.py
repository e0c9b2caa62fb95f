"""Balloons to look at: `python -m tests.benchmarks.contact_sheet FILE.png [BALLOONS]`.

Sixty balloons and captions of play speeches on one sheet: what no figure tells of a stack, an eye
does. Needs resvg-py and Pillow (`pip install '.[test]'`).
"""

import io
import sys
from pathlib import Path

import resvg_py
from PIL import Image

import letterfit as lf
from tests.benchmarks.looks import spoken

BALLOONS = 60

SHEET_PX, GAP_PX, DPI = 1800, 10, 110

OUTLINES = ("ellipse", "ellipse", "superellipse", "rounded", "caption", "cloud")
"""Families by turns."""


def picture(text: str, outline: str) -> Image.Image:
    """One balloon, drawn."""
    svg = lf.balloon_to_svg(lf.fit_balloon(text, outline=outline))
    png = bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=DPI, background="white"))
    return Image.open(io.BytesIO(png))


def sheet(count: int) -> Image.Image:
    """So many balloons, row by row."""
    texts = list(spoken(count))
    pictures = [picture(text, OUTLINES[k % len(OUTLINES)]) for k, text in enumerate(texts)]
    places, x, y, high = [], 0, 0, 0
    for one in pictures:
        if x + one.width > SHEET_PX:
            x, y, high = 0, y + high + GAP_PX, 0
        places.append((x, y))
        x, high = x + one.width + GAP_PX, max(high, one.height)
    whole = Image.new("RGB", (SHEET_PX, y + high), "white")
    for one, place in zip(pictures, places, strict=True):
        whole.paste(one, place)
    return whole


if __name__ == "__main__":
    sheet(int(sys.argv[2]) if len(sys.argv) > 2 else BALLOONS).save(Path(sys.argv[1]))
