"""The Declaration of Human Rights in 69 languages and 23 scripts, laid into balloons.

What is checked of every balloon: no letter is lost; every line ends where Unicode's line breaks
(UAX #14, as ICU makes them) let it, never inside a grapheme cluster (UAX #29); every line is as
wide as its characters shaped alone, and its glyphs are those; and no ink, by the font's own
outlines, comes closer to the outline than was asked. Sources of texts and fonts: the README in
`tests/data`.
"""

import math
import unicodedata
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely

from letterfit import FittedBalloon, Lettering, Typeface, open_typeface
from letterfit.fit.dressing import fit_words
from letterfit.lettering.measuring import measure
from letterfit.outline import Ellipse, Outline, Superellipse
from tests.lettering.laid import line_spans, losses, wrong_breaks
from tests.lettering.outside import (
    PlainFont,
    Translation,
    fallback_fonts,
    font_bytes,
    plain_font,
    same_glyphs,
    shape_line,
    stretches,
    translations,
)

EM_MM = 7.5 * 25.4 / 72
AIR_MM = 1.2

EXACT = 1e-9
"""mm. Sums of some hundred advances in double precision."""

FLAT = 1e-5
"""mm: how far a chord of the sampled outlines stays inside the curve, at most."""


@cache
def own_face(path: str) -> Typeface:
    """A typeface of one font."""
    return open_typeface(font_bytes(path))


@cache
def everywhere() -> Typeface:
    """A bundled typeface with the test fonts behind it."""
    return open_typeface("Comic Neue", fallback=fallback_fonts())


def set_as_typed(translation: Translation, outline: str = "ellipse") -> FittedBalloon:
    """A translation in a font of its own, as typed."""
    lettering = Lettering(
        typeface=own_face(translation.font), size_pt=7.5, case="as-typed", air_mm=AIR_MM
    )
    words = measure(translation.text, lettering, language=translation.language)
    return fit_words(words, outline=outline, air_mm=AIR_MM)


# --- the checkers: each says what is wrong


def wrong_lines(balloon: FittedBalloon, translation: Translation) -> Iterator[str]:
    """Lines that are not as wide as their characters shaped alone, or have other glyphs."""
    font, rtl = plain_font(translation.font), translation.direction == "rtl"
    for line in balloon.lines:
        text = line.text if "\u2010" in font.chars else line.text.replace("\u2010", "-")
        parts = list(stretches(text, [font] * len(text), rtl=rtl))
        alone = shape_line(text, parts, language=translation.language, rtl=rtl)
        if abs(alone.width * EM_MM - line.width_mm) > EXACT:
            yield f"{line.text!r} is {alone.width * EM_MM} mm wide, not {line.width_mm}"
        if not same_glyphs(alone, line.glyphs, em_mm=EM_MM):
            yield f"{line.text!r} has other glyphs or places than when it is set alone"


def polygon(outline: Outline) -> shapely.Polygon:
    """An outline sampled by its parametric formula: x = a cos^(2/n) t, y = b sin^(2/n) t."""
    exponent = outline.exponent if isinstance(outline, Superellipse) else 2.0
    assert isinstance(outline, Ellipse | Superellipse)
    t = np.linspace(0, 2 * math.pi, 8001)[:-1]
    x, y = (np.sign(f(t)) * np.abs(f(t)) ** (2 / exponent) for f in (np.cos, np.sin))
    return shapely.Polygon(np.stack([outline.half_width * x, outline.half_height * y], axis=-1))


def least_air(balloon: FittedBalloon, font: PlainFont) -> float:
    """The least distance from the ink to the outline, negative where ink is outside."""
    corners = [
        (line.x_mm + g.x_mm + x * EM_MM, line.baseline_mm + g.y_mm - y * EM_MM)
        for line in balloon.lines
        for g in line.glyphs
        if (box := font.box(g.glyph_id))
        for x in (box[0], box[2])
        for y in (box[1], box[3])
    ]
    shape = polygon(balloon.outline)
    hull = shapely.MultiPoint(corners).convex_hull
    if not shape.contains(hull):
        return -float(hull.difference(shape).area)
    return float(hull.distance(shape.exterior))


# --- the texts


@pytest.mark.parametrize("translation", translations(), ids=lambda t: t.code)
def test_a_translation_is_laid_into_balloons_without_a_fault(translation: Translation) -> None:
    """In a font of its script: nothing lost, no wrong break, exact lines, ink inside."""
    for outline in ("ellipse", "superellipse"):
        balloon = set_as_typed(translation, outline)
        assert balloon.fits
        assert not list(losses(balloon, translation.text))
        assert not list(wrong_breaks(balloon, translation.language))
        assert not list(wrong_lines(balloon, translation))
        air = least_air(balloon, plain_font(translation.font))
        assert air >= AIR_MM - FLAT
        assert air == pytest.approx(balloon.clearance_mm, abs=0.01)


@pytest.mark.parametrize("translation", translations(), ids=lambda t: t.code)
def test_with_fallback_every_translation_is_set_in_capitals_without_a_missing_glyph(
    translation: Translation,
) -> None:
    """A Latin typeface borrows what it lacks: nothing is missing, nothing lost."""
    lettering = Lettering(typeface=everywhere(), size_pt=7.5)
    words = measure(translation.text, lettering, language=translation.language)
    assert "missing-glyph" not in {finding.code for finding in words.findings}
    balloon = fit_words(words, air_mm=lettering.air_mm)
    assert all(glyph.glyph_id for line in balloon.lines for glyph in line.glyphs)
    line_spans(balloon)
    assert plain(balloon.text) == plain(translation.text)


def plain(text: str) -> str:
    """Letters without case and accents: what capitals leave as it was.

    Greek capitals have no accents, the Armenian ligature becomes two capitals, of which the second
    is the one that Armenia writes (Unicode CLDR, the transforms el-Upper and hy-Upper).
    """
    loose = unicodedata.normalize("NFD", text.replace("և", "եվ").casefold())
    return "".join(char for char in loose if unicodedata.category(char)[0] in "LN").replace(
        "ı", "i"
    )


def test_there_are_as_many_languages_and_scripts_as_promised() -> None:
    """At least 40 languages in 12 scripts."""
    assert len({translation.language for translation in translations()}) >= 40
    assert len({translation.script for translation in translations()}) >= 12


# --- planted faults: the checkers see them


@pytest.fixture
def english() -> tuple[FittedBalloon, Translation]:
    """A balloon without a fault, and its text."""
    translation = next(t for t in translations() if t.code == "eng")
    return set_as_typed(translation), translation


def test_a_lost_letter_is_seen(english: tuple[FittedBalloon, Translation]) -> None:
    """A letter left out of a line, or of text and line both."""
    balloon, translation = english
    first, *rest = balloon.lines
    short = replace(first, text=first.text[1:])
    assert list(losses(replace(balloon, lines=(short, *rest)), translation.text))
    both = replace(balloon, lines=(short, *rest), text=balloon.text[1:])
    assert list(losses(both, translation.text))
    assert list(losses(replace(balloon, lines=balloon.lines[:-1]), translation.text))


def test_a_wrong_break_is_seen(english: tuple[FittedBalloon, Translation]) -> None:
    """A letter carried over to the next line."""
    balloon, translation = english
    first, second, *rest = balloon.lines
    moved = (
        replace(first, text=first.text[:-1]),
        replace(second, text=f"{first.text[-1]} {second.text}"),
    )
    broken = replace(balloon, lines=(*moved, *rest))
    assert list(wrong_breaks(broken, translation.language))


def test_a_cut_cluster_is_seen() -> None:
    """A vowel sign that begins a line."""
    hindi = next(t for t in translations() if t.code == "hin")
    balloon = set_as_typed(hindi)
    at = next(k for k, char in enumerate(balloon.text) if unicodedata.category(char) == "Mc")
    line = balloon.lines[0]
    cut = (replace(line, text=balloon.text[:at]), replace(line, text=balloon.text[at:]))
    found = list(wrong_breaks(replace(balloon, lines=cut), "hi"))
    assert any("cluster" in fault for fault in found)


def test_a_wrong_width_and_a_wrong_place_are_seen(
    english: tuple[FittedBalloon, Translation],
) -> None:
    """One font unit too wide; one glyph a thousandth of a millimetre off."""
    balloon, translation = english
    first, *rest = balloon.lines
    wide = replace(first, width_mm=first.width_mm + EM_MM / 1000)
    assert len(list(wrong_lines(replace(balloon, lines=(wide, *rest)), translation))) == 1
    glyphs = (first.glyphs[0].moved(0.001), *first.glyphs[1:])
    off = replace(first, glyphs=glyphs)
    assert len(list(wrong_lines(replace(balloon, lines=(off, *rest)), translation))) == 1


def test_ink_too_near_the_outline_is_seen(english: tuple[FittedBalloon, Translation]) -> None:
    """The same lines in an outline 2 % smaller, and in one that they do not go into."""
    balloon, translation = english
    font = plain_font(translation.font)
    smaller = replace(balloon, outline=balloon.outline.scaled(0.98))
    assert least_air(smaller, font) < AIR_MM - 0.1
    assert least_air(replace(balloon, outline=balloon.outline.scaled(0.5)), font) < 0
