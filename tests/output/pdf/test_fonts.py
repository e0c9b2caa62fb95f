"""Fonts in the file: each kind cut down and embedded, drawn where it may or can not be."""

import functools
import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pytest
from fontTools.cffLib import CFFFontSet
from fontTools.pens.areaPen import AreaPen
from fontTools.ttLib import TTFont
from scipy.ndimage import binary_dilation

from letterfit.lettering.fonts.bundled import BUNDLED, read_bundled
from letterfit.lettering.fonts.choice import FontChoice
from letterfit.lettering.fonts.typeface import Typeface, open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.output.pdf.proof import to_pdf
from letterfit.output.pdf.subset import subset, why_not
from letterfit.output.svg.page import to_svg
from letterfit.paper.sheet import Paper
from letterfit.report.model import ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.lettering import hostile_fonts
from tests.output.pdf import seen
from tests.output.pdf.cff_font import cff_font
from tests.output.svg import raster

VARIABLE = Path(__file__).parents[2] / "data" / "variable" / "Grandstander-wght-latin.woff2"
SPEECH = "Hold the gate, the tide is turning!"
SCRIPT = f"PAGE 1\n\nPanel 1. Dawn.\n\nWENNA: {SPEECH}\n"
PAPER = Paper(trim=(50.8, 50.8), bleed=0.0, live=(4, 4, 42, 42))
"""Two inches square: whole pixels."""


def report(typeface: Typeface) -> ScriptReport:
    """One balloon on a small page."""
    return preflight(parse_script(SCRIPT), lettering=Lettering(typeface=typeface), paper=PAPER)


def bundled() -> bytes:
    """The bundled Grandstander's regular."""
    return read_bundled(BUNDLED["Grandstander"].path_of("regular"))


@functools.cache
def stating(bits: int) -> bytes:
    """The same, saying of its embedding what these bits say (OpenType 1.9.1, OS/2 fsType)."""
    font = TTFont(io.BytesIO(bundled()))
    font["OS/2"].fsType = bits
    font["name"].setName("Gate", 1, 3, 1, 0x409)
    font["name"].setName("Gate", 16, 3, 1, 0x409)
    return hostile_fonts.saved(font)


KINDS: dict[str, Callable[[], Typeface]] = {
    "bundled": lambda: open_typeface("Grandstander"),
    "TrueType": lambda: open_typeface(bundled()),
    "CFF": lambda: open_typeface(cff_font(by_cid=False)),
    "CFF by CID": lambda: open_typeface(cff_font(by_cid=True)),
    "variable": lambda: open_typeface(FontChoice(VARIABLE, axes={"wght": 800})),
}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_font_is_embedded_and_looks_as_measured(kind: str) -> None:
    """Text can be read, and its ink is that of the outlines in the SVG, to a pixel at 600 dpi."""
    found = report(KINDS[kind]())
    data = to_pdf(found)
    assert SPEECH.upper() in seen.texts(data)[0]
    name = found.pages[0].panels[0].balloons[0].fitted.lines[0].glyphs[0].face.replace(" ", "-")
    assert seen.fonts(data)[name] == "/CIDFontType0"
    lettering = seen.ink(seen.lettering_alone(data)) > 0.5
    drawn = raster.letters(to_svg(found.pages[0], lettering=found.lettering)) > 0.5
    assert lettering.shape == drawn.shape
    assert lettering.sum() > 5_000
    for one, other in ((lettering, drawn), (drawn, lettering)):
        assert not (one & ~binary_dilation(other, np.ones((3, 3), dtype=bool))).any()


def test_another_weight_of_a_variable_font_is_told_apart() -> None:
    """Negative control: a proof at weight 400 is not the one at 800."""
    inks = []
    for weight in (400, 800):
        found = report(open_typeface(FontChoice(VARIABLE, axes={"wght": weight})))
        inks.append(seen.ink(seen.lettering_alone(to_pdf(found))).sum())
    assert inks[1] > 1.2 * inks[0]


@pytest.mark.parametrize("bits", [0x0002, 0x0100, 0x0200])
def test_a_font_that_may_not_be_embedded_is_drawn_and_the_last_page_says_so(bits: int) -> None:
    """Restricted, not to be cut down, bitmaps alone: none of it in the file, all of it seen."""
    found = report(open_typeface(stating(bits)))
    data = to_pdf(found)
    assert [name for name in seen.fonts(data) if name.startswith("Gate")] == []
    page, last = seen.texts(data)
    assert SPEECH.upper() not in page
    assert "Gate Regular" in last
    assert "its letters are drawn as curves" in last
    ours, theirs = seen.ink(data), free_ink()
    assert float((np.abs(ours - theirs) > 1 / 3).mean()) < 1 / 2000
    assert "drawn as curves" not in seen.texts(free())[1]


@functools.cache
def free() -> bytes:
    """The proof in a font that may be embedded."""
    return to_pdf(report(open_typeface(stating(0x0000))))


@functools.cache
def free_ink() -> seen.Ink:
    """Its ink."""
    return seen.ink(free())


@pytest.mark.parametrize("bits", [0x0000, 0x0004, 0x0008])
def test_what_may_be_printed_may_be_embedded(bits: int) -> None:
    """Installable, viewing and printing, editing: a proof is viewed and printed."""
    assert why_not(open_typeface(stating(bits)).faces[0]) == ""


def test_a_user_font_called_like_ours_does_not_change_the_labels() -> None:
    """The variable Grandstander numbers its glyphs otherwise; labels stay in the bundled one."""
    found = report(open_typeface(VARIABLE))
    for text in ("1.1 · ", "figure"):
        assert text in seen.texts(to_pdf(found))[0]
    plain = to_svg(report(open_typeface("Bangers")).pages[0])
    own = to_svg(found.pages[0], lettering=found.lettering)
    label = raster.named(raster.parse(plain), "label")[0][1]
    assert label.get("class") == raster.named(raster.parse(own), "label")[0][1].get("class")


def test_a_subset_holds_the_glyphs_asked_for_and_no_more() -> None:
    """By fontTools' reading of its CFF: areas are those of the font itself, to rounded points."""
    face = open_typeface("Grandstander").styled("regular")
    cut = subset(face, [76, 45, 200])
    assert cut == subset(face, [200, 76, 45, 45])
    (top,) = opened_cff(cut.data)
    assert len(top.CharStrings) == 4
    whole = TTFont(io.BytesIO(bundled()))
    for glyph in (45, 76, 200):
        ours = area(top.CharStrings[f"g{cut.codes[glyph]}"])
        theirs = area(whole.getGlyphSet()[whole.getGlyphName(glyph)])
        finer = whole["head"].unitsPerEm / 1000
        assert ours == pytest.approx(theirs / finer**2, rel=0.002)


def opened_cff(data: bytes) -> list[Any]:
    """The fonts of a bare CFF table."""
    fonts = CFFFontSet()
    fonts.decompile(io.BytesIO(data), None)
    return [fonts[name] for name in fonts.fontNames]


def area(shape: Any) -> float:  # noqa: ANN401 - fontTools has no types
    """The area that an outline encloses, in square font units."""
    pen = AreaPen()
    shape.draw(pen)
    return abs(float(pen.value))


@pytest.mark.parametrize(
    "make",
    [
        hostile_fonts.million_groups,
        hostile_fonts.many_glyphs,
        hostile_fonts.looping_composite,
        hostile_fonts.bursting_composite,
        hostile_fonts.looping_subroutine,
        lambda: hostile_fonts.bursting_substitution(rounds=7),
        lambda: hostile_fonts.named_font(hostile_fonts.LINE_ENDS),
    ],
)
def test_fonts_made_to_harm_come_to_a_sound_file(make: Callable[[], bytes]) -> None:
    """Loops and explosions end in HarfBuzz; none of them gets into the file."""
    data = to_pdf(report(open_typeface(make())))
    assert pikepdf.open(io.BytesIO(data)).check_pdf_syntax() == []
    assert len(seen.texts(data)) == 2
    assert len(data) < 60_000


def test_a_script_of_24_pages_stays_small() -> None:
    """Under 2 MB: fonts once, not once a page."""
    page = f"Panel 1. Dawn.\n\nWENNA: {SPEECH}\n\nPanel 2. Noon.\n\nPILOT: Aye.\n\n"
    script = parse_script("".join(f"PAGE {number}\n\n{page}" for number in range(1, 25)))
    data = to_pdf(preflight(script))
    assert len(seen.texts(data)) == 25
    assert len(data) < 100_000
