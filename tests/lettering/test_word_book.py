"""A book of words: texts put together from words are those shaped in one piece."""

import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.lettering import Lettering, Words, measure, measuring
from letterfit.lettering.pieces import text_pieces
from letterfit.lettering.styling import styled
from letterfit.lettering.word_book import BookSetter, WordBook, book_text, word_book
from tests.box_font import box_font

WORDS = st.sampled_from(
    "I I'M I'LL AVA TO, THE tide? WAIT! gate's Ünder «NO» ÀÇ 12 (YES) fi Ty. L'Y A -- N-NO".split()  # noqa: SIM905 - reads better
)
TEXTS = st.lists(WORDS, min_size=1, max_size=12).map(" ".join)
EXACT = 1e-9
"""mm: sums of some ten advances in double precision."""


def long_way(text: str, lettering: Lettering) -> Words:
    """The text measured without a book."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(measuring, "word_book", lambda *_: None)
        return measure(text, lettering)


@pytest.mark.parametrize("family", ["Grandstander", "Comic Relief"])
@given(text=TEXTS, as_typed=st.booleans())
@settings(max_examples=60)
def test_a_text_from_the_book_is_the_text_shaped_whole(
    family: str, text: str, *, as_typed: bool
) -> None:
    """Pieces, advances, ink and glyphs of every line are the same both ways."""
    lettering = Lettering(typeface=family, size_pt=8, case="as-typed" if as_typed else "upper")
    short, long = measure(text, lettering), long_way(text, lettering)
    assert isinstance(short.setter, BookSetter)
    assert not isinstance(long.setter, BookSetter)
    assert short.cut.stretches == long.cut.stretches
    assert not long.reshaped
    assert short.starts == pytest.approx(long.starts, abs=EXACT)
    assert short.ends == pytest.approx(long.ends, abs=EXACT)
    for found, wanted in zip(short.ink_boxes(), long.ink_boxes(), strict=True):
        assert found == pytest.approx(wanted, abs=EXACT)
    for first in range(len(short)):
        for last in range(first, len(short)):
            mine, other = short.line(first, last), long.line(first, last)
            assert mine.text == other.text
            assert mine.ink == pytest.approx(other.ink, abs=EXACT)
            assert [g[:2] for g in mine.glyphs] == [g[:2] for g in other.glyphs]
            places = [[g[2:5] for g in line.glyphs] for line in (mine, other)]
            assert np.array(places[0]) == pytest.approx(np.array(places[1]), abs=EXACT)


@pytest.mark.parametrize(
    "text",
    [
        "well-to-do",
        "so *much*",
        "ЖДИ",
        "♪ la",
        "a\u00adb",
        "a_b c",
        "א ב",
        "  ",
    ],
)
def test_what_is_not_simple_goes_the_long_way(text: str) -> None:
    """Breaks inside words, emphasis, other scripts, symbols and soft hyphens want more."""
    words = measure(text, Lettering())
    assert not isinstance(words.setter, BookSetter)


def test_only_plain_faces_have_a_book() -> None:
    """A face that kerns spaces, and a user's font, whatever it is called, have none."""
    for typeface in ("Balsamiq Sans", box_font(family="Grandstander")):
        face = Lettering(typeface=typeface).typeface.styled("regular")
        assert word_book(face, "en", "auto") is None


def test_tracking_and_columns_go_the_long_way() -> None:
    """What changes the places of letters is not in the book."""
    for lettering in (Lettering(tracking=0.05), Lettering(writing="vertical")):
        assert not isinstance(measure("HOLD THE GATE", lettering).setter, BookSetter)


def test_a_full_book_forgets_and_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """Results do not depend on what was forgotten."""
    monkeypatch.setattr("letterfit.lettering.word_book.MOST_WORDS", 3)
    lettering = Lettering()
    book = WordBook(lettering.typeface.styled("regular"), "en", "auto")
    texts = ["THE TIDE TURNED", "A GATE", "THE TIDE", "AN HOUR AGO NOW", "A GATE"]
    for text in texts:
        pieces = text_pieces(text)
        found = book_text(pieces, book, (), em_mm=1.0)
        assert found is not None
        whole = long_way(text, lettering)
        assert found.ends * lettering.em_mm == pytest.approx(whole.ends, abs=EXACT)


def test_a_barred_i_is_another_word_than_a_plain_one() -> None:
    """The pronoun and the letter are told apart in the book."""
    lettering = Lettering()
    words = styled("I saw Henry I.", lettering, language="en")
    assert len(words.crossbars) >= 1
    pronoun, numeral = (measure(text, lettering).width(0, 0) for text in ("I", "II"))
    assert pronoun != pytest.approx(numeral / 2)


def test_a_book_can_be_sent_to_another_process() -> None:
    """It arrives as the book of that process, with no words of its own."""
    words = measure("HOLD THE GATE", Lettering())
    again = pickle.loads(pickle.dumps(words))  # noqa: S301 - our own bytes
    assert again.line(0, 2).ink == pytest.approx(words.line(0, 2).ink)
