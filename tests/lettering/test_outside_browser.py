"""Lines as wide as a browser makes them: Chromium's `measureText`, where there is a Chromium.

It shapes with its own copy of HarfBuzz, finds runs and directions by ICU, and reads the fonts by
Skia. A width is compared to 0.01 px at 100 px, a ten-thousandth of an em: it counts in single
precision and in 64ths of a pixel.
"""

import re
import textwrap
from functools import cache
from unicodedata import normalize

import pytest

from letterfit import Lettering, Typeface, open_typeface
from letterfit.lettering.measuring import measure
from tests.lettering.browser import CHROMIUM, PX, BrowserLine, browser_widths_em
from tests.lettering.oracle import DIALOGUE, LATIN_FONTS
from tests.lettering.outside import font_bytes, plain_font, translations

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no Chromium on PATH (Debian: chromium): lines are not compared"
)

CLOSE = 0.01 / PX
"""em: 0.01 px at 100 px."""

PLAIN = tuple(line for line in DIALOGUE if not re.search(r"\bI\b|[\"'_*]", line))
"""Dialogue without the barred pronoun and without marks that are read as emphasis."""

CAPITALS = ("A LITTLE TATTOO, ATTA-ATTA TATTLE.", "AAAAAAH! HOLD, HOLD, HOLD. LEVEE")

MIXED = ("שלום 12 מים", "הגאות (מחר) 5:30", "المد في 12 ساعة", "انتظر... 7/8؟")
"""Numbers and brackets in right-to-left lines."""

LONGEST = 60
"""Characters of a line. The browser rounds a word to 1/64 px: in long lines it adds up."""

SPACINGS = (-0.03, 0.02, 0.125)


def lines() -> list[BrowserLine]:
    """Every bundled font with dialogue, every translation, mixed directions, tracking."""
    found = [BrowserLine(text, path) for path in LATIN_FONTS for text in PLAIN]
    found += [BrowserLine(text, "PlaypenSans/PlaypenSans-400Regular.ttf") for text in CAPITALS]
    for translation in translations():
        found += [
            BrowserLine(text, translation.font, translation.language, translation.direction)
            for text in textwrap.wrap(normalize("NFC", translation.text), LONGEST)
        ]
    hebrew, arabic = (next(t for t in translations() if t.code == code) for code in ("heb", "arb"))
    for own, texts in ((hebrew, MIXED[:2]), (arabic, MIXED[2:])):
        found += [BrowserLine(text, own.font, own.language, "rtl") for text in texts]
    found.append(BrowserLine("AWAY TO THE TOWPATH", LATIN_FONTS[0]))
    return [*tracked_lines(), *found]


def tracked_lines() -> list[BrowserLine]:
    """Dialogue spaced out and drawn together."""
    found = []
    for spacing in SPACINGS:
        found += [BrowserLine(text, LATIN_FONTS[0], spacing=spacing) for text in PLAIN[:6]]
    return found


@cache
def face(path: str) -> Typeface:
    """The typeface of one font."""
    return open_typeface(font_bytes(path))


def width_em(line: BrowserLine) -> float:
    """The advance of the whole line in em, by us."""
    lettering = Lettering(
        typeface=face(line.font), size_pt=72 / 25.4, case="as-typed", tracking=line.spacing
    )
    words = measure(line.text, lettering, language=line.language)
    assert words.text == line.text
    return words.width(0, len(words) - 1)


def text_for(line: BrowserLine) -> BrowserLine:
    """The line as the browser is to set it: a hyphen that the font lacks would be borrowed."""
    if "\u2010" in line.text and "\u2010" not in plain_font(line.font).chars:
        return BrowserLine(
            line.text.replace("\u2010", "-"), line.font, line.language, line.direction
        )
    return line


@cache
def browsers() -> tuple[float, ...]:
    """The widths of all lines by the browser, asked once."""
    return tuple(browser_widths_em([text_for(line) for line in lines()]))


def test_lines_are_as_wide_as_in_a_browser() -> None:
    """All bundled fonts, 69 languages, numbers in Hebrew and Arabic."""
    plain = [k for k, line in enumerate(lines()) if not line.spacing]
    ours = {k: width_em(lines()[k]) for k in plain}
    differ = [
        f"{lines()[k].text!r} in {lines()[k].font}: {browsers()[k]} em, not {ours[k]}"
        for k in plain
        if abs(ours[k] - browsers()[k]) > CLOSE
    ]
    assert not differ


def test_tracked_lines_are_as_wide_as_letterspaced_ones() -> None:
    """The browser adds its space after the last letter too (CSS Text 3, section 8.2)."""
    tracked = [k for k, line in enumerate(lines()) if line.spacing]
    assert len(tracked) >= 12
    for k in tracked:
        line = lines()[k]
        assert width_em(line) == pytest.approx(browsers()[k] - line.spacing, abs=CLOSE)


def test_a_wrong_width_is_seen() -> None:
    """Without kerning the lines would differ by far more than is allowed."""
    line, browser = lines()[-1], browsers()[-1]
    font = plain_font(line.font)
    advances = [font.hb.get_glyph_h_advance(font.hb.get_nominal_glyph(ord(c))) for c in line.text]
    assert abs(sum(advances) / font.upem - browser) > 100 * CLOSE
    assert width_em(line) == pytest.approx(browser, abs=CLOSE)
