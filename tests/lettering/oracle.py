"""Widths by other ways than ours: HarfBuzz called plainly, its own program, and font arithmetic."""

import json
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

import uharfbuzz as hb

from letterfit.lettering.fonts.bundled import fonts_folder
from letterfit.lettering.words import Words

HB_SHAPE = shutil.which("hb-shape")
"""HarfBuzz's own program (Debian: libharfbuzz-bin)."""

DATA = Path(__file__).parent.parent / "data" / "lettering"

DIALOGUE = (DATA / "dialogue.txt").read_text(encoding="utf-8").splitlines()

LATIN_FONTS = [
    f"{family}/{family}-{style}.ttf"
    for family, styles in {
        "Grandstander": ("Regular", "Bold", "Italic", "BoldItalic"),
        "ComicNeue": ("Regular", "BoldItalic"),
        "BalsamiqSans": ("Regular", "BoldItalic"),
        "ComicRelief": ("Regular", "Bold"),
        "Bangers": ("Regular",),
    }.items()
    for style in styles
]


def font_bytes(path: str) -> bytes:
    """A bundled font by its path in the folder of fonts."""
    return (fonts_folder() / path).read_bytes()


def plain_font(content: bytes) -> hb.Font:
    """The font as HarfBuzz opens it."""
    return hb.Font(hb.Face(content))


def fresh_width_em(font: hb.Font, text: str, *, crossbars: Sequence[int] = ()) -> float:
    """The advance in em of a Latin text shaped on its own."""
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.direction, buffer.script, buffer.language = "ltr", "Latn", "en"
    hb.shape(font, buffer, {"ss01": [(at, at + 1, 1) for at in crossbars]} if crossbars else {})
    return float(sum(place.x_advance for place in buffer.glyph_positions) / font.face.upem)


def program_widths_em(content: bytes, texts: Sequence[str]) -> list[float]:
    """The advances in em of English lines, by the program hb-shape."""
    with tempfile.TemporaryDirectory() as folder:
        font, lines = Path(folder) / "font.ttf", Path(folder) / "lines.txt"
        font.write_bytes(content)
        lines.write_text("\n".join(texts) + "\n", encoding="utf-8")
        command = [str(HB_SHAPE), str(font), f"--text-file={lines}", "--output-format=json"]
        options = ["--script=Latn", "--direction=ltr", "--language=en"]
        done = subprocess.run(  # noqa: S603 - the program found on PATH, with files made here
            [*command, *options], capture_output=True, text=True, check=True
        )
    upem = plain_font(content).face.upem
    lines_shaped = [json.loads(line) for line in done.stdout.splitlines()]
    return [sum(glyph["ax"] for glyph in glyphs) / upem for glyphs in lines_shaped]


def candidate_lines(words: Words) -> list[tuple[int, int]]:
    """Every run of pieces that may be a line."""
    lines = []
    for first in range(len(words)):
        for last in range(first, len(words)):
            lines.append((first, last))
            if words.forced[last]:
                break
    return lines
