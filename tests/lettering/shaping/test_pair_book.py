"""A book of pairs: texts measured pair by pair are those shaped in one piece."""

import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.lettering import measuring
from letterfit.lettering.fonts.plainness import PAIRWISE_FAMILIES
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping.pair_book import BARRED, PairBook, pair_book
from letterfit.lettering.shaping.pair_setter import PairSetter
from letterfit.lettering.words import Words
from tests.box_font import box_font

TOKENS = [
    *("I", "I'M", "I'LL", "AVA", "TO,", "THE", "tide?", "WAIT!", "gate's", "Ünder", "«NO»"),
    *("ÀÇ", "12", "(YES)", "VA.", "Ty.", "L'Y", "A", "--", "N-NO", "well-to-do"),
    *("so--TO", "NO...YES", "I’ll", "“VAT”", "so—TO", "NO…YES"),
]  # fmt: skip
TEXTS = st.lists(st.sampled_from(TOKENS), min_size=1, max_size=9).map(" ".join)
ANY_LATIN = st.text(st.characters(min_codepoint=32, max_codepoint=0x24F), min_size=1, max_size=20)
EXACT = 1e-9
"""mm: sums of some ten advances in double precision."""


def long_way(text: str, lettering: Lettering) -> Words:
    """The text measured without a book."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(measuring, "letter_book", lambda *_: None)
        patch.setattr(measuring, "short_way", lambda *_: None)
        return measure(text, lettering)


def assert_same(short: Words, long: Words) -> None:
    """Pieces, advances, ink and glyphs of every line are the same."""
    assert short.cut.stretches == long.cut.stretches
    for first in range(len(short)):
        for last in range(first, len(short)):
            mine, other = short.line(first, last), long.line(first, last)
            assert mine.text == other.text
            assert short.width(first, last) == pytest.approx(long.width(first, last), abs=EXACT)
            assert mine.ink == pytest.approx(other.ink, abs=EXACT)
            assert [g[:2] for g in mine.glyphs] == [g[:2] for g in other.glyphs]
            places = [[g[2:5] for g in line.glyphs] for line in (mine, other)]
            assert np.array(places[0]) == pytest.approx(np.array(places[1]), abs=EXACT)


@pytest.mark.parametrize("family", sorted(PAIRWISE_FAMILIES))
@given(text=TEXTS, as_typed=st.booleans())
@settings(max_examples=30)
def test_a_text_by_the_book_is_the_text_shaped_whole(
    family: str, text: str, *, as_typed: bool
) -> None:
    """Words, stutters and compounds of dialogue, in capitals and as typed."""
    lettering = Lettering(typeface=family, size_pt=8, case="as-typed" if as_typed else "upper")
    short, long = measure(text, lettering), long_way(text, lettering)
    assert isinstance(short.setter, PairSetter)
    assert not isinstance(long.setter, PairSetter)
    assert_same(short, long)


@pytest.mark.parametrize("family", sorted(PAIRWISE_FAMILIES))
@given(text=ANY_LATIN)
@settings(max_examples=40)
def test_any_latin_text_is_the_same_both_ways(family: str, text: str) -> None:
    """Whatever characters meet, ligatures and marks among them."""
    lettering = Lettering(typeface=family, size_pt=8, case="as-typed")
    assert_same(measure(text, lettering), long_way(text, lettering))


@pytest.mark.parametrize(
    "text", ["so *much*", "ЖДИ", "l·l", "♪ la", "a\u00adb", "a_b c", "א ב", "  ", "o\u0301\u0302x"]
)
def test_what_is_not_simple_goes_the_long_way(text: str) -> None:
    """Emphasis, other scripts, symbols, soft hyphens and loose marks want more."""
    assert not isinstance(measure(text, Lettering()).setter, PairSetter)


def test_a_ligature_goes_the_long_way() -> None:
    """The default face melts two letters into one: their pair says so."""
    face = Lettering().typeface.styled("regular")
    book = pair_book(face, "en", "auto")
    assert book is not None
    pairs = [a + b for a in "ft" for b in "fijklt"]
    assert any(np.isinf(book.advance(pair[0], pair[1])) for pair in pairs)


def test_only_pairwise_faces_have_a_book() -> None:
    """A display face with contexts, and a user's font, whatever it is called, have none."""
    for typeface in ("Bangers", box_font(family="Grandstander")):
        face = Lettering(typeface=typeface).typeface.styled("regular")
        assert pair_book(face, "en", "auto") is None


def test_tracking_and_columns_go_the_long_way() -> None:
    """What changes the places of letters is not in the book."""
    for lettering in (Lettering(tracking=0.05), Lettering(writing="vertical")):
        assert not isinstance(measure("HOLD THE GATE", lettering).setter, PairSetter)


def test_a_barred_i_is_another_letter_than_a_plain_one() -> None:
    """The pronoun and the letter are told apart."""
    book = PairBook(Lettering().typeface.styled("regular"), "en", "auto")
    assert book.advance(BARRED) != book.advance("I")
    plain = PairBook(Lettering().typeface.styled("regular"), "en", "none")
    assert plain.advance(BARRED) == plain.advance("I")


def test_a_text_can_be_sent_to_another_process() -> None:
    """It is set there as here."""
    words = measure("HOLD THE GATE", Lettering())
    again = pickle.loads(pickle.dumps(words))  # noqa: S301 - our own bytes
    assert again.line(0, 2).ink == pytest.approx(words.line(0, 2).ink)


def test_a_text_grows_as_a_whole() -> None:
    """At another size ink and glyphs are the same, larger."""
    words = measure("HOLD THE GATE", Lettering())
    larger = words.scaled(1.5)
    assert larger.line(0, 2).ink == pytest.approx(words.line(0, 2).ink * 1.5)
    assert larger.line(0, 2).glyphs[3].x_mm == pytest.approx(words.line(0, 2).glyphs[3].x_mm * 1.5)


def test_a_book_of_too_many_letters_leaves_the_rest_to_the_long_way() -> None:
    """More letters than it has numbers for: nothing is mixed up."""
    book = PairBook(Lettering().typeface.styled("regular"), "en", "auto")
    many = "".join(map(chr, range(0xA1, 0x24F)))
    assert book.pens(many) is None
    assert book.pens("Ĳ") is None
    assert book.advance("é") == book.advance("e")
    assert np.isinf(book.advance("ȳ"))
