"""Whole lines against `hb-shape`, HarfBuzz's own program: another build, mostly an older release.

Debian 12 carries 6.0, where the wheels of uharfbuzz carry 10 or later. Glyphs, places and advances
of the fonts and texts here are the same in both. Between releases HarfBuzz may change what it does
where no specification decides: the order of several marks on one letter, dotted circles put under
marks without a letter, and the fractions it makes of 1⁄2 (its release notes name each change).
"""

import json
import re
import subprocess
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from unicodedata import normalize

import pytest

from letterfit import Lettering, open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.words import SetLine
from tests.lettering.oracle import DIALOGUE, HB_SHAPE
from tests.lettering.outside import (
    LineSet,
    Placed,
    font_bytes,
    plain_font,
    same_glyphs,
    scripts,
    translations,
)

pytestmark = pytest.mark.skipif(
    HB_SHAPE is None, reason="hb-shape (Debian: libharfbuzz-bin) is not on PATH"
)

EXACT = 1e-9
"""em."""

LATIN = (
    "Grandstander/Grandstander-Regular.ttf",
    "Grandstander/Grandstander-BoldItalic.ttf",
    "ComicNeue/ComicNeue-Regular.ttf",
    "ComicNeue/ComicNeue-Bold.ttf",
    "BalsamiqSans/BalsamiqSans-Italic.ttf",
    "ComicRelief/ComicRelief-Regular.ttf",
    "Bangers/Bangers-Regular.ttf",
)

CAPITALS = (
    "A LITTLE TATTOO, ATTA-ATTA TATTLE.",
    "THE TIDE TURNED AN HOUR AGO--NOBODY ASKS...",
    "AAAAAAH! HOLD, HOLD, HOLD. BOOKKEEPER’S LEVEE",
)
"""Letters that come twice: the font with contextual alternates varies them."""


@dataclass(frozen=True, slots=True)
class Case:
    """Lines in one font, script, direction and language."""

    font: str
    script: str
    direction: str
    language: str
    lines: tuple[str, ...]


def cases() -> list[Case]:
    """Latin dialogue in the bundled fonts; every translation of one script in a font of its own."""
    plain = tuple(line for line in DIALOGUE if not re.search(r"\bI\b|[\"'_*]", line))
    found = [Case(path, "Latn", "ltr", "en", plain) for path in LATIN]
    found.append(Case("PlaypenSans/PlaypenSans-400Regular.ttf", "Latn", "ltr", "en", CAPITALS))
    for text in translations():
        (script, *others) = dict.fromkeys(scripts(text.text))
        if not others and "\u2010" not in text.text:
            words = normalize("NFC", text.text).split()
            halves = (" ".join(words[:12]), " ".join(words[12:]) or words[0])
            found.append(Case(text.font, script, text.direction, text.language, halves))
    return found


def by_program(case: Case) -> list[LineSet]:
    """Width and glyphs with ink of each line, in em, as the program prints them."""
    with tempfile.TemporaryDirectory() as folder:
        font, lines = Path(folder) / "font.ttf", Path(folder) / "lines.txt"
        font.write_bytes(font_bytes(case.font))
        lines.write_text("\n".join(case.lines) + "\n", encoding="utf-8")
        command = [str(HB_SHAPE), str(font), f"--text-file={lines}", "--output-format=json"]
        options = [f"--script={case.script}", f"--direction={case.direction}"]
        options += [f"--language={case.language}", "--no-glyph-names"]
        done = subprocess.run(  # noqa: S603 - the program found on PATH, with files made here
            [*command, *options], capture_output=True, text=True, check=True
        )
    return [_as_printed(json.loads(line), case.font) for line in done.stdout.splitlines()]


def _as_printed(printed: list[dict[str, int]], path: str) -> LineSet:
    font, pen, glyphs = plain_font(path), 0, []
    for glyph in printed:
        x, y = pen + glyph.get("dx", 0), glyph.get("dy", 0)
        if font.box(glyph["g"]):
            glyphs.append(Placed(glyph["g"], x / font.upem, y / font.upem))
        pen += glyph["ax"]
    return LineSet(pen / font.upem, glyphs)


@cache
def lettering(path: str) -> Lettering:
    """One font, as typed, 1 mm to the em."""
    return Lettering(typeface=open_typeface(font_bytes(path)), size_pt=72 / 25.4, case="as-typed")


def by_us(case: Case) -> list[SetLine]:
    """Each line set whole."""
    found = []
    for text in case.lines:
        words = measure(text, lettering(case.font), language=case.language)
        assert words.text == text
        found.append(words.line(0, len(words) - 1))
    return found


def differences(ours: SetLine, theirs: LineSet) -> list[str]:
    """What is not the same in our line and the program's."""
    found = []
    if abs(ours.width_mm - theirs.width) > EXACT:
        found.append(f"{ours.text!r} is {theirs.width} em wide, not {ours.width_mm}")
    if not same_glyphs(theirs, ours.glyphs):
        found.append(f"{ours.text!r} has other glyphs or places")
    return found


@pytest.mark.parametrize("case", cases(), ids=lambda case: f"{case.language}-{case.font[:12]}")
def test_whole_lines_are_those_of_hb_shape(case: Case) -> None:
    """Advances, glyphs and their places are the program's."""
    for ours, theirs in zip(by_us(case), by_program(case), strict=True):
        assert not differences(ours, theirs)


def test_most_fonts_and_scripts_are_compared() -> None:
    """The selection leaves out only texts of several scripts and of a hyphen fonts lack."""
    chosen = cases()
    assert len({case.script for case in chosen}) >= 20
    assert len({case.font for case in chosen}) >= 25


def test_another_font_is_seen() -> None:
    """The checker is not content with a line of the wrong weight, nor with a moved glyph."""
    path = "ComicNeue/ComicNeue-Regular.ttf"
    case = Case(path, "Latn", "ltr", "en", ("TO THE TIDE LOCK",))
    (ours,), (theirs,) = by_us(case), by_program(case)
    assert not differences(ours, theirs)
    moved = [theirs.glyphs[0]._replace(x=0.001), *theirs.glyphs[1:]]
    assert len(differences(ours, LineSet(theirs.width, moved))) == 1
    assert len(differences(ours, LineSet(theirs.width, theirs.glyphs[1:]))) == 1
    bold = Case("ComicNeue/ComicNeue-Bold.ttf", "Latn", "ltr", "en", case.lines)
    assert len(differences(ours, by_program(bold)[0])) == 2
