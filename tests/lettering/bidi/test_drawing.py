"""What is drawn stands in the order UAX #9 demands, read back from where the glyphs stand.

Lines of mixed text are set again from outside, run by run in visual order, and compared glyph by
glyph; a few are read as the eye reads them, from left to right. Levels and order themselves are
held to Unicode's own tests in `test_bidi_conformance.py`.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit import Lettering, Typeface, fit_balloon, open_typeface
from letterfit.lettering.bidi.levels import (
    balloon_levels,
    embedding_levels,
    line_levels,
    visual_order,
)
from letterfit.lettering.measuring import measure
from letterfit.lettering.shaping import cutting
from letterfit.lettering.shaping.runs import itemise
from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.style.habits import Habits
from letterfit.lettering.words import Words
from tests.lettering.outside import (
    PlainFont,
    Stretch,
    font_bytes,
    plain_font,
    same_glyphs,
    shape_line,
)
from tests.lettering.test_outside_declaration import FLAT, polygon

HEBREW = "PlaypenSansHebrew/PlaypenSansHebrew-400Regular.ttf"
ARABIC = "Marhey/Marhey-400Regular.ttf"
LATIN = "BalsamiqSans/BalsamiqSans-Regular.ttf"
FONTS = {"Playpen Sans Hebrew Regular": HEBREW, "Marhey Regular": ARABIC}
"""The test fonts' names; they have no Latin letters, which come from the fallback."""

ONE_MM = 72 / 25.4
"""The type size whose em is 1 mm."""

EXACT = 1e-9
"""mm. Sums of some hundred advances in double precision."""


def lettering(path: str, *, size_pt: float = ONE_MM) -> Lettering:
    """One font with a Latin one behind it, words as typed."""
    typeface = open_typeface(font_bytes(path), fallback=["Balsamiq Sans"])
    return Lettering(
        typeface=typeface, size_pt=size_pt, case="as-typed", habits=Habits(quotes="as-typed")
    )


class Setting(NamedTuple):
    """The font and the script a character is set in."""

    font: PlainFont
    script: str


def settings_of(text: str, typeface: Typeface) -> list[Setting]:
    """Font and script of each character; what is checked here is the order."""
    return [
        Setting(plain_font(FONTS.get(run.face.name, LATIN)), run.script)
        for run in itemise([Span(text, "regular")], typeface).runs
        for _ in range(run.start, run.end)
    ]


def visual_parts(
    text: str, chosen: Sequence[Setting], *, base: int, start: int, end: int
) -> list[Stretch]:
    """The parts of one line of a text, from left to right, each of one level, script and font."""
    levels = line_levels(text, embedding_levels(text, base=base), start=start, end=end)
    kinds = [
        (level, setting.script, id(setting.font))
        for level, setting in zip(levels, chosen[start:end], strict=True)
    ]
    runs: list[tuple[int, Stretch]] = []
    for (level, script, _), group in groupby(range(len(kinds)), lambda k: kinds[k]):
        places = list(group)
        font = chosen[start + places[0]].font
        runs.append((level, Stretch(places[0], places[-1] + 1, font, script, level % 2 == 1)))
    return [runs[k][1] for k in visual_order([level for level, _ in runs])]


def spans(words: Words) -> Iterator[tuple[int, int, int, int]]:
    """Every candidate line: first piece, last piece, and where it stands in the text."""
    starts = []
    at = 0
    for p in range(len(words)):
        starts.append(at)
        at += len(words.piece_text(p)) + len(words.joiners[p])
    for first, start in enumerate(starts):
        for last in range(first, len(words)):
            yield first, last, start, starts[last] + len(words.piece_text(last))


def misdrawn(text: str, path: str, *, language: str) -> list[str]:
    """The candidate lines that are not drawn in visual order."""
    style = lettering(path)
    words, chosen = measure(text, style, language=language), settings_of(text, style.typeface)
    assert words.text == text
    found = []
    for first, last, start, end in spans(words):
        line = words.line(first, last)
        parts = visual_parts(text, chosen, base=int(words.rtl), start=start, end=end)
        alone = shape_line(line.text, parts, language=language)
        if abs(alone.width - line.width_mm) > EXACT or not same_glyphs(alone, line.glyphs):
            found.append(line.text)
    return found


TEXTS = [
    ("he", HEBREW, "מי מחזיק את המפתח של Lock Nine בשעה 12:30? (אני לא!)"),
    ("he", HEBREW, "השער נסגר ב-19.5.1987, 40% מהסירות בחוץ."),
    ("he", HEBREW, "היא אמרה “Hold the gate now” ואז הלכה [בלי Wenna] הביתה..."),
    ("he", HEBREW, "קוראים לה Wenna of Lock Nine, נכון?"),
    ("he", HEBREW, "שָׁלוֹם לָךְ, Wenna!"),
    ("en", HEBREW, "Wenna said “שלום לך” and left (אולי) at 12:30."),
    ("en", HEBREW, "The word שער means gate, and שער סגור a shut one."),
    ("ar", ARABIC, "البوابة مغلقة منذ ساعة (ولم يأت أحد) ليسأل لماذا."),
    ("ar", ARABIC, "رقم الهاويس 9 [Lock Nine] في الساعة ١٢:٣٠!"),
    ("ar", ARABIC, "قالت Wenna of Lock Nine: «لا تفتح (the gate) الآن»."),
    ("en", ARABIC, "Lock Nine (هاويس ٩) opens at ١٢:٣٠ or 13:15."),
]


@pytest.mark.parametrize(("language", "path", "text"), TEXTS)
def test_every_candidate_line_is_drawn_in_visual_order(language: str, path: str, text: str) -> None:
    """Hebrew with English and numbers, Arabic with brackets, English with Hebrew: every line."""
    assert misdrawn(text, path, language=language) == []


HEBREW_WORDS = ["שער", "סָגוּר,", "(אני", "לא)", "“מי?”", "ב-12", "Lock", "Nine,", "(the", "gate)"]
ARABIC_WORDS = ["بوابة", "مغلقة،", "(ولم", "أحد)", "«لا»", "٩", "[Lock", "Nine]", "12:30", "لا"]
MORE_WORDS = ["7", "3.5%", "-4", "...", "A", "“No”", "?!"]


@settings(max_examples=25)
@given(st.lists(st.sampled_from(HEBREW_WORDS + MORE_WORDS), min_size=1, max_size=8))
def test_any_mixture_of_hebrew_and_english_is_drawn_in_visual_order(words: list[str]) -> None:
    """Whatever words meet, every line they may form."""
    assert misdrawn(" ".join(words), HEBREW, language="he") == []


@settings(max_examples=25)
@given(st.lists(st.sampled_from(ARABIC_WORDS + MORE_WORDS), min_size=1, max_size=8))
def test_any_mixture_of_arabic_and_english_is_drawn_in_visual_order(words: list[str]) -> None:
    """Whatever words meet, every line they may form."""
    assert misdrawn(" ".join(words), ARABIC, language="ar") == []


def test_a_wrong_order_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    """Planted: runs drawn in the order of the text are seen in every mixed text from the right."""
    monkeypatch.setattr(cutting, "visual_order", lambda levels: tuple(range(len(levels))))
    rtl = [case for case in TEXTS if balloon_levels(case[2], language=case[0]).rtl]
    mixed = [case for case in rtl if re.search("[A-Za-z0-9]", case[2])]
    assert len(mixed) == 7
    assert all(misdrawn(text, path, language=language) for language, path, text in mixed)


# --- read as the eye reads


def glyph_chars(path: str) -> dict[int, str]:
    """The character each glyph shows: by the cmap, or the one it is an alternate of."""
    tables = plain_font(path).tables
    shows = {glyph: chr(code) for code, glyph in tables.getBestCmap().items()}
    for lookup in tables["GSUB"].table.LookupList.Lookup:
        for subtable in lookup.SubTable:
            plain = getattr(subtable, "ExtSubTable", subtable)
            if plain.LookupType == 1:
                for glyph, alternate in plain.mapping.items():
                    if glyph in shows:
                        shows.setdefault(alternate, shows[glyph])
    return {tables.getGlyphID(glyph): char for glyph, char in shows.items()}


def seen(text: str, path: str, *, language: str) -> str:
    """The characters of a text on one line, from left to right, by where the glyphs stand."""
    known = {
        (name, glyph): char
        for name, font in (("", LATIN), *FONTS.items())
        for glyph, char in glyph_chars(font).items()
    }
    words = measure(text, lettering(path), language=language)
    glyphs = sorted(words.line(0, len(words) - 1).glyphs, key=lambda g: g.x_mm)
    return "".join(known[g.face if g.face in FONTS else "", g.glyph_id] for g in glyphs)


READ = [
    ("he", "אב 12", "12בא"),
    ("he", "אב (גד)", "(דג)בא"),
    ("he", "אב Lock Nine גד", "דגLockNineבא"),
    ("he", "אב Lock Nine (12) גד!", "!דגLockNine(12)בא"),
    ("he", "אב: 12:30, 40%", "40%,12:30:בא"),
    ("en", "Lock אב גד Nine", "LockדגבאNine"),
    ("en", "ALL (אב) 12", "ALL(בא)12"),
    ("en", "A (אב 12) B", "A(12בא)B"),
    ("he", "אב (A) 12", "12(A)בא"),
    ("en", "Nine 12 אב 34 5", "Nine12534בא"),
]


@pytest.mark.parametrize(("language", "text", "left_to_right"), READ)
def test_the_eye_reads_it_so(language: str, text: str, left_to_right: str) -> None:
    """Short lines whose order follows from UAX #9 by hand; brackets are mirrored."""
    assert seen(text, HEBREW, language=language) == left_to_right


# --- in a balloon


@pytest.mark.parametrize(("language", "path", "text"), TEXTS)
def test_ink_of_mixed_text_stays_inside_its_balloon(language: str, path: str, text: str) -> None:
    """No glyph's ink comes closer to the outline than asked, by the font's own outlines."""
    style = lettering(path, size_pt=7.5)
    balloon = fit_balloon(text, style, language=language)
    boxes = [
        (line, g, box)
        for line in balloon.lines
        for g in line.glyphs
        if (box := plain_font(FONTS.get(g.face, LATIN)).box(g.glyph_id))
    ]
    corners = [
        (line.x_mm + g.x_mm + x * g.em_mm, line.baseline_mm + g.y_mm - y * g.em_mm)
        for line, g, box in boxes
        for x in (box[0], box[2])
        for y in (box[1], box[3])
    ]
    ink = shapely.MultiPoint(corners).convex_hull
    shape = polygon(balloon.outline)
    assert balloon.fits
    assert shape.contains(ink)
    assert ink.distance(shape.exterior) >= style.air_mm - FLAT


def test_an_emphasised_word_stands_where_the_plain_one_stood() -> None:
    """A bold word in an Arabic line: to the right of what follows it, to the left of the first."""
    bold = font_bytes("Marhey/Marhey-700Bold.ttf")
    faces = open_typeface([font_bytes(ARABIC), bold], fallback=["Balsamiq Sans"])
    style = Lettering(typeface=faces, size_pt=ONE_MM, case="as-typed")
    words = measure("البوابة **مغلقة** منذ Lock ٩", style, language="ar")
    glyphs = sorted(words.line(0, len(words) - 1).glyphs, key=lambda g: g.x_mm)
    assert [name for name, _ in groupby(g.face for g in glyphs)] == [
        "Marhey Regular",
        "Balsamiq Sans Regular",
        "Marhey Regular",
        "Marhey Bold",
        "Marhey Regular",
    ]
