"""Pages read the way their balloons do."""

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

import letterfit as lf
from letterfit.lettering.measuring import measure
from letterfit.report.model import BalloonReport
from letterfit.report.reading import reading_of, written_language
from letterfit.script.parse import parse_script

HEBREW = "השער סגור כבר שעה."
ARABIC = "البوابة مغلقة منذ ساعة."
ENGLISH = "The gate has been shut for an hour."


def script_of(*texts: str) -> lf.Script:
    """A script of one panel with these balloons."""
    spoken = "\n\n".join(f"WENNA: {text}" for text in texts)
    return parse_script(f"PAGE 1\n\nPanel 1. Lock Nine at dawn.\n\n{spoken}\n")


@pytest.mark.parametrize(
    ("texts", "reading"),
    [
        ([ENGLISH], "ltr"),
        ([HEBREW], "rtl"),
        ([ARABIC], "rtl"),
        ([HEBREW, HEBREW, ENGLISH], "rtl"),
        ([HEBREW, ENGLISH], "ltr"),
        (["Lock Nine נעול", ENGLISH], "ltr"),
        ([f"{HEBREW} Lock Nine!"], "rtl"),
        ([HEBREW, "?!", "...", "1234"], "rtl"),
        (["?!"], "ltr"),
        (["閘門已經關了。"], "ltr"),
    ],
)
def test_pages_read_as_most_balloons_do(texts: list[str], reading: str) -> None:
    """A foreign phrase turns no balloon, one foreign balloon no page; signs alone do not count."""
    assert reading_of(script_of(*texts)) == reading


@pytest.mark.parametrize(
    ("texts", "language"),
    [
        ([ENGLISH], "en"),
        ([HEBREW, f"{HEBREW} Lock Nine!"], "he"),
        ([ARABIC], "ar"),
        ([HEBREW, ENGLISH, ENGLISH], "en"),
        (["?!"], "en"),
    ],
)
def test_the_language_is_that_of_most_balloons(texts: list[str], language: str) -> None:
    """Headings in English do not make Hebrew words English."""
    assert written_language(script_of(*texts)) == language


def test_a_language_that_is_told_stays() -> None:
    """A script said to be in Persian is not taken for Arabic."""
    assert written_language(replace(script_of(ARABIC), language="fa")) == "fa"


def test_a_short_balloon_with_a_long_latin_name_reads_as_its_page() -> None:
    """In a Hebrew script a word and a name stand from right to left, though the name is longer."""
    report = lf.preflight(script_of(HEBREW, HEBREW, "תודה, Wenna."))
    line = report.pages[0].panels[0].balloons[2].fitted.lines[0]
    leftmost = min(line.glyphs, key=lambda glyph: glyph.x_mm)
    alone = lf.fit_balloon("תודה, Wenna.", language="he").lines[0]
    assert leftmost.glyph_id == min(alone.glyphs, key=lambda glyph: glyph.x_mm).glyph_id


def test_vertical_pages_read_from_right_to_left() -> None:
    """Columns run from right to left, and so do panels."""
    assert (
        reading_of(script_of("閘門已經關了。"), lettering=lf.Lettering(writing="vertical")) == "rtl"
    )


def test_a_script_without_words_reads_from_left_to_right() -> None:
    """No balloon at all leaves the pages as they are."""
    assert reading_of(lf.Script(pages=())) == "ltr"


def test_the_report_says_which_way_and_is_told_otherwise() -> None:
    """Preflight decides by the text unless asked for a way; terminal and JSON state it."""
    script = script_of(HEBREW)
    found = lf.preflight(script)
    told = lf.preflight(script, reading="ltr")
    assert (found.reading, told.reading) == ("rtl", "ltr")
    assert "read right to left" in lf.to_text(found)
    assert "read right to left" not in lf.to_text(told)
    assert '"reading": "rtl"' in lf.to_json(found)


DATA = Path(__file__).parents[1] / "data"
PAGES = [
    ("gate_hebrew.txt", "PlaypenSansHebrew/PlaypenSansHebrew-400Regular.ttf"),
    ("gate_arabic.txt", "Marhey/Marhey-400Regular.ttf"),
]


def place(balloon: BalloonReport) -> tuple[float, float]:
    """The centre of a placed balloon."""
    assert balloon.x_mm is not None
    assert balloon.y_mm is not None
    return balloon.x_mm, balloon.y_mm


@pytest.mark.parametrize(("name", "font"), PAGES)
def test_a_page_from_right_to_left_has_panels_and_balloons_in_that_order(
    name: str, font: str
) -> None:
    """The first panel of a tier stands at the right; each balloon is read before the next.

    A balloon comes before another that is lower, or as high and farther left (common practice).
    """
    lettering = lf.Lettering(typeface=lf.open_typeface(DATA / "fonts" / font))
    script = lf.read_script(DATA / "texts" / name)
    report = lf.preflight(script, lettering=lettering, paper=lf.Paper.named("a5"), check=True)
    panels = report.pages[0].panels
    assert report.reading == "rtl"
    assert report.fits
    assert [panel.rect.x > 74 for panel in panels] == [True, False, True, False]
    assert all(panel.reading_certain for panel in panels)
    for panel in panels:
        for first, second in pairwise(panel.balloons):
            (x1, y1), (x2, y2) = place(first), place(second)
            assert x2 < x1 or y2 > y1


@pytest.mark.parametrize(("name", "font"), PAGES)
def test_balloons_of_a_page_from_the_right_begin_there(name: str, font: str) -> None:
    """The first letter of the first balloon stands at the right end of its first line."""
    lettering = lf.Lettering(typeface=lf.open_typeface(DATA / "fonts" / font))
    script = lf.read_script(DATA / "texts" / name)
    balloon = lf.fit_balloon(script.pages[0].panels[0].elements[0].text, lettering)
    line = balloon.lines[0]
    # The word as it is set in its line: the font has other letters for other neighbours.
    word = measure(line.text, lettering).pieces[0]
    assert word.text == line.text.split()[0]
    rightmost = sorted(line.glyphs, key=lambda g: g.x_mm)[-len(word.glyphs) :]
    first = sorted(word.glyphs, key=lambda g: g.x_mm)
    assert [g.glyph_id for g in rightmost] == [g.glyph_id for g in first]
