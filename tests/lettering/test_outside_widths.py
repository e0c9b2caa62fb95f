"""Every candidate line is as wide as its characters shaped alone, and drawn with the same glyphs.

The line is shaped by HarfBuzz called plainly (`tests/lettering/outside.py`), each stretch of one
font and direction in sight of its neighbours on the line and of nothing else.
"""

import math
import re
from collections.abc import Iterator, Sequence
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit import Lettering, Typeface, open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.words import Words
from tests.lettering.outside import (
    PlainFont,
    Translation,
    font_bytes,
    plain_font,
    same_glyphs,
    shape_line,
    stretches,
    translations,
)

EM_PT = 72 / 25.4
"""Points that make an em of one millimetre: widths in mm are then widths in em."""

EXACT = 1e-9
"""em. Sums of a few hundred advances in double precision are right to about 1e-13."""

REACH = 6
"""Pieces of a line of a translation that is looked at, those from the first piece set apart."""

FAMILIES = {
    "Grandstander": ("Grandstander-Regular", "Grandstander-BoldItalic"),
    "ComicNeue": ("ComicNeue-Regular", "ComicNeue-BoldItalic"),
    "BalsamiqSans": ("BalsamiqSans-Regular", "BalsamiqSans-BoldItalic"),
    "ComicRelief": ("ComicRelief-Regular", "ComicRelief-Bold"),
    "Bangers": ("Bangers-Regular", "Bangers-Regular"),
    "PlaypenSans": ("PlaypenSans-400Regular", "PlaypenSans-400Regular"),
    "Marhey": ("Marhey-400Regular", "Marhey-700Bold"),
    "Kalam": ("Kalam-Regular", "Kalam-Regular"),
}
"""Two fonts of each family: for plain words, and for emphasised ones (of those there are, the bold
italic, else the bold: weight is what stands out at a few points of size)."""

BUNDLED = frozenset({"Grandstander", "ComicNeue", "BalsamiqSans", "ComicRelief", "Bangers"})


def paths(family: str) -> tuple[str, ...]:
    """Where the fonts of a family are, without repetition."""
    return tuple(dict.fromkeys(f"{family}/{file}.ttf" for file in FAMILIES[family]))


@cache
def face_of(paths: tuple[str, ...]) -> Typeface:
    """The typeface of these fonts."""
    return open_typeface([font_bytes(path) for path in paths])


@cache
def family_of(name: str) -> Typeface:
    """A bundled family by its name, of which more is known beforehand; or the test fonts of one."""
    return open_typeface(name) if name in BUNDLED else face_of(paths(name))


def measured(text: str, face: Typeface, *, language: str, tracking: float = 0.0) -> Words:
    """A text as typed, at 1 mm to the em."""
    lettering = Lettering(typeface=face, size_pt=EM_PT, case="as-typed", tracking=tracking)
    return measure(text, lettering, language=language)


def spans(words: Words) -> list[tuple[int, int]]:
    """Where each piece begins and ends in the text of the words."""
    found, at = [], 0
    for piece in range(len(words)):
        end = at + len(words.slice_text(piece, piece))
        found.append((at, end))
        at = end + len(words.joiners[piece])
    return found


def wrong_lines(
    words: Words,
    fonts: Sequence[PlainFont],
    *,
    language: str,
    rtl: bool = False,
    bars: Sequence[int] = (),
    reach: int = 1000,
    widest: float = math.inf,
) -> Iterator[str]:
    """The candidate lines that are not as wide, or not drawn, as when they are set alone.

    Args:
        words: A text at 1 mm to the em.
        fonts: The font of every character of it.
        language: Its language.
        rtl: Whether it reads from right to left.
        bars: Where the alternate I stands.
        reach: Most pieces of a line, but for those that begin with the first piece.
        widest: Lines wider than this, em, are not looked at.
    """
    places, table = spans(words), words.advances(len(words))
    for first, (start, _) in enumerate(places):
        limit = len(places) if first == 0 else min(len(places), first + reach)
        for last in range(first, limit):
            if words.width(first, last) > widest:
                break
            line = words.line(first, last)
            text = line.text
            own = fonts[start : start + len(text)]
            drawn = drawable(text, own)
            parts = list(stretches(drawn, own, rtl=rtl))
            crossbars = [at - start for at in bars if start <= at < start + len(text)]
            alone = shape_line(drawn, parts, language=language, rtl=rtl, crossbars=crossbars)
            widths = (line.width_mm, words.width(first, last), float(table[first, last - first]))
            if max(abs(width - alone.width) for width in widths) > EXACT:
                yield f"{text!r} is {alone.width} em wide, not {widths}"
            if not same_glyphs(alone, line.glyphs):
                yield f"{text!r} has other glyphs or places than when it is set alone"


def drawable(text: str, fonts: Sequence[PlainFont]) -> str:
    """The text with the Unicode hyphens that a font lacks as the plain hyphen."""
    pairs = zip(text, fonts, strict=True)
    return "".join("-" if c in "\u2010\u2011" and c not in font.chars else c for c, font in pairs)


# --- Latin: all bundled families and one with contextual alternates, emphasis mixed in

LETTERS = "ABCDEFGHJKLMNOPQRSTUVWXYZÀÉÑÖŠabehknotvwy"
"""No capital I: as a pronoun it is another glyph in one of the fonts."""

JOINTS = (
    " ",
    " ",
    " ",
    "-",
    "/",
    "--",
    "—",
    "...",
    ", ",
    "! ",
    "’",
    "'",
    '" "',
    " “",
    "” ",
    "\u2011",
)
SOFT = ("\u00ad", "\u00a0", "\u200b", "\u2060", "\u202f")

WORD = st.text(alphabet=LETTERS, min_size=1, max_size=6)
TOKEN = st.tuples(WORD, st.booleans(), st.sampled_from(JOINTS))

BARE_WORD = st.text(alphabet="ABEFKLORTVWYafhiltvy", min_size=1, max_size=6)
BARE_TOKEN = st.tuples(BARE_WORD, st.booleans(), st.sampled_from((" ", " ", "-", "/", "--", "'")))
"""Without accents and dashes of other kinds: plain text may take a shorter way."""


def typed(tokens: Sequence[tuple[str, bool, str]]) -> tuple[str, list[bool]]:
    """The text with its marks, and for each character that is set whether it is emphasised."""
    text, strong = "", []
    for word, emphasised, joint in tokens:
        # Marks stand between a space and a word; elsewhere they might be no marks at all.
        own = emphasised and (not text or text[-1] == " ") and joint[0] in " .,!"
        text += f"**{word}**{joint}" if own else f"{word}{joint}"
        strong += [own] * len(word) + [False] * len(joint)
    return text, strong[: len(strong) - (len(text) - len(text.rstrip()))]


def settable(
    tokens: Sequence[tuple[str, bool, str]], fonts: Sequence[PlainFont]
) -> list[tuple[str, bool, str]]:
    """The tokens without characters that one of the fonts lacks."""
    known = frozenset.intersection(*(font.chars for font in fonts)) | {"\u2011", *SOFT}
    kept = [("".join(c for c in word if c in known), own, joint) for word, own, joint in tokens]
    return [(word, own, joint if set(joint) <= known else " ") for word, own, joint in kept if word]


@pytest.mark.parametrize("family", [name for name in FAMILIES if name not in {"Marhey", "Kalam"}])
@given(
    tokens=st.lists(TOKEN, min_size=1, max_size=7) | st.lists(BARE_TOKEN, min_size=1, max_size=7)
)
@settings(max_examples=40)
def test_latin_lines_are_cut_exactly(family: str, tokens: list[tuple[str, bool, str]]) -> None:
    """Hyphens, dashes, dots, quotes and emphasis anywhere, in every bundled family."""
    plain, strong = (plain_font(f"{family}/{file}.ttf") for file in FAMILIES[family])
    # Of a family with one font emphasis is not shown, and nothing is asked of it here.
    tokens = [(word, own and strong is not plain, joint) for word, own, joint in tokens]
    text, marked = typed(settable(tokens, (plain, strong)))
    words = measured(text, family_of(family), language="en")
    assert len(words.text) == len(marked)
    fonts = [strong if own else plain for own in marked]
    assert not list(wrong_lines(words, fonts, language="en"))


@pytest.mark.parametrize("family", ["Grandstander", "ComicNeue", "PlaypenSans"])
@given(
    words=st.lists(WORD, min_size=2, max_size=6), joints=st.lists(st.sampled_from(SOFT), min_size=5)
)
@settings(max_examples=20)
def test_lines_with_characters_that_are_not_seen_are_cut_exactly(
    family: str, words: list[str], joints: list[str]
) -> None:
    """A soft hyphen is seen at the end of its line only; joiners and odd spaces change nothing."""
    font = plain_font(paths(family)[0])
    tokens = [(word, False, joint) for word, joint in zip(words, joints, strict=False)]
    tokens = [*settable(tokens, (font,)), ("TO", False, "")]
    found = measured(typed(tokens)[0], family_of(family), language="en")
    assert not list(wrong_lines(found, [font] * len(found.text), language="en"))


PLAIN_WORD = st.text(alphabet="ABEFKLORTVWYafhiltvy.,!?-'", min_size=1, max_size=6)


@pytest.mark.parametrize("family", ["BalsamiqSans", "ComicRelief", "Grandstander"])
@given(data=st.lists(st.lists(PLAIN_WORD, min_size=1, max_size=7), min_size=2, max_size=4))
@settings(max_examples=15)
def test_words_that_come_back_are_cut_exactly(family: str, data: list[list[str]]) -> None:
    """Plain words, of which some came in a text before: what was measured then changes nothing."""
    font = plain_font(paths(family)[0])
    for text in (" ".join(words) for words in [*data, *reversed(data)]):
        found = measured(text, family_of(family), language="en")
        assert not list(wrong_lines(found, [font] * len(found.text), language="en"))


@given(
    words=st.lists(
        st.sampled_from(("I", "I'M", "I’LL", "TIDE", "AV", "WELL-TO")), min_size=1, max_size=8
    )
)
@settings(max_examples=30)
def test_lines_with_the_barred_pronoun_are_cut_exactly(words: list[str]) -> None:
    """The pronoun takes the alternate I of the default face, and kerns as that one."""
    text = " ".join(words)
    bars = [found.start() for found in re.finditer(r"\bI(?=['’ ]|$)", text)]
    font = plain_font("Grandstander/Grandstander-Regular.ttf")
    found = measured(text, open_typeface("Grandstander"), language="en")
    assert not list(wrong_lines(found, [font] * len(text), language="en", bars=bars))


# --- Arabic and Devanagari


def vocabulary(*codes: str) -> list[str]:
    """The words of translations, with the marks that touch them."""
    chosen = [translation for translation in translations() if translation.code in codes]
    return sorted({word for translation in chosen for word in translation.text.split()})


@given(
    tokens=st.lists(
        st.tuples(
            st.sampled_from(vocabulary("arb", "pes_1", "urd")),
            st.booleans(),
            st.sampled_from((" ", " ", "، ", "-", "/", "... ", " 12 ", "؟ ", "\u00ad")),
        ),
        min_size=1,
        max_size=7,
    )
)
@settings(max_examples=50)
def test_arabic_lines_are_cut_exactly(tokens: list[tuple[str, bool, str]]) -> None:
    """Joining letters, hyphens between them, and bold words among the others."""
    plain, bold = (plain_font(path) for path in paths("Marhey"))
    text, marked = typed(tokens)
    words = measured(text, face_of(paths("Marhey")), language="ar")
    assert len(words.text) == len(marked)
    fonts = [bold if own else plain for own in marked]
    assert not list(wrong_lines(words, fonts, language="ar", rtl=True))


@given(
    tokens=st.lists(
        st.tuples(
            st.sampled_from(vocabulary("hin", "mar", "nep")),
            st.just(False),
            st.sampled_from((" ", " ", "-", "/", "। ", "... ", "")),
        ),
        min_size=1,
        max_size=7,
    )
)
@settings(max_examples=40)
def test_devanagari_lines_are_cut_exactly(tokens: list[tuple[str, bool, str]]) -> None:
    """Stacks, reordered vowel signs and a danda."""
    font = plain_font(paths("Kalam")[0])
    words = measured(typed(tokens)[0], face_of(paths("Kalam")), language="hi")
    assert not list(wrong_lines(words, [font] * len(words.text), language="hi"))


# --- all scripts


@pytest.mark.parametrize("translation", translations(), ids=lambda t: t.code)
def test_lines_of_every_translation_are_cut_exactly(translation: Translation) -> None:
    """The Declaration in 69 languages, each in a font of its script."""
    font, language = plain_font(translation.font), translation.language
    words = measured(translation.text, face_of((translation.font,)), language=language)
    rtl = translation.direction == "rtl"
    fonts = [font] * len(words.text)
    bound = math.sqrt(28 * 1.08 * words.width(0, len(words) - 1))
    # Lines too wide for any balloon of the text may be left as they are in the unbroken text.
    wrong = wrong_lines(words, fonts, language=language, rtl=rtl, reach=REACH, widest=bound)
    assert not list(wrong)


# --- emphasis is measured


@pytest.mark.parametrize("family", ["Grandstander", "BalsamiqSans", "ComicNeue", "ComicRelief"])
def test_bold_words_have_the_advances_of_the_bold_face(family: str) -> None:
    """An emphasised word is as wide as HarfBuzz makes it in the bold font given, to 1e-9 em."""
    files = (f"{family}/{family}-Regular.ttf", f"{family}/{family}-Bold.ttf")
    plain, bold = (plain_font(path) for path in files)
    differ = []
    for word in ("TOWPATH", "LOCK-KEEPER", "AWAY", "QUICKSILVER"):
        found = measured(f"**{word}**", face_of(files), language="en")
        line = found.line(0, len(found) - 1)
        alone = {
            font: shape_line(
                word, list(stretches(word, [font] * len(word), rtl=False)), language="en"
            )
            for font in (plain, bold)
        }
        assert line.width_mm == pytest.approx(alone[bold].width, abs=EXACT)
        assert [glyph.glyph_id for glyph in line.glyphs] == [g.glyph for g in alone[bold].glyphs]
        differ.append(abs(alone[plain].width - alone[bold].width) > 1e-3)
    assert any(differ)


# --- planted faults


def test_a_line_measured_in_another_font_is_seen() -> None:
    """The checker tells the bold of a family from its regular, and kerned from unkerned lines."""
    words = measured("AWAY FROM THE TOWPATH", open_typeface("Grandstander"), language="en")
    bold = plain_font("Grandstander/Grandstander-Bold.ttf")
    wrong = list(wrong_lines(words, [bold] * len(words.text), language="en"))
    assert len(wrong) >= 8
    assert any(fault.startswith("'AWAY FROM THE TOWPATH' is") for fault in wrong)


def test_a_slice_of_a_contextual_font_is_seen() -> None:
    """Left as slices of the unbroken text, lines of a font with alternates are wrong."""
    path = paths("PlaypenSans")[0]
    text = "A LITTLE TATTOO, ATTA-ATTA TATTLE"
    words = measured(text, face_of((path,)), language="en")
    font = plain_font(path)
    whole = shape_line(text, list(stretches(text, [font] * len(text), rtl=False)), language="en")
    begins = [start for start, _ in spans(words)]
    parts = [text[a:b].rstrip() for a, b in zip(begins, [*begins[1:], len(text)], strict=True)]
    glyphs = [
        shape_line(part, list(stretches(part, [font] * len(part), rtl=False)), language="en")
        for part in parts
    ]
    alone = [glyph.glyph for part in glyphs for glyph in part.glyphs]
    unbroken = [glyph.glyph for glyph in whole.glyphs if font.box(glyph.glyph)]
    assert alone != unbroken
    assert not list(wrong_lines(words, [font] * len(text), language="en"))
