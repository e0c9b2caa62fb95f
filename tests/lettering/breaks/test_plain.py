"""Plain text: the short way gives what the long way gives, to the last price."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.lettering.breaks import plain as plain_breaks
from letterfit.lettering.breaks.breaks import COMICS, Break, line_breaks, ruled_breaks
from letterfit.lettering.breaks.phrases import PHRASES, TITLES, UNITS
from letterfit.lettering.breaks.pieces import Pieces, cut_pieces, text_pieces
from letterfit.lettering.breaks.plain import plain_cut
from letterfit.lettering.breaks.rules import BreakRules
from tests.plays import play_names, speeches

LETTERS = "ABcéÉœßřŁİıΆΐωЩђҐĳDZ"
WORDS = sorted(
    {
        *TITLES,
        *UNITS,
        *(w for lists in PHRASES.values() for w in (*lists.weak_ends, *lists.openers)),
        *("wait", "known", "gate", "x", "ii", "no", "nr", "000", "12", "1914", "5:30", "a.m"),
        *("i'll", "o’clock", "'tis", "‘tis", "’tis", "“so", "¿qué", "(or)", "w-wait", "ha-ha"),
        *("well-known", "either/or", "wait--what", "know...that", "know…that", "wait—what"),
        *(
            "wait–what",
            "uh-huh",
            "x-ray",
            "w-w-what",
            "n-x",
            "don't--the",
            "n...no",
            "-",
            "—",
            "–",
            "…",
            "...and",
            "…and",
            "“...so",
            "",
            "--",
            "...",
            "«so»",
            "水",
        ),
    }
)
TAILS = st.text(alphabet=st.sampled_from(".,:;!?…'\"’”)–—-"), max_size=3)


def long_way(text: str, language: str, rules: BreakRules) -> tuple[Break, ...]:
    """The breaks by ICU and every rule."""
    return ruled_breaks(text, language, rules)


def lists(pieces: Pieces) -> tuple[object, ...]:
    """All that pieces hold."""
    return (
        pieces.text,
        pieces.starts,
        pieces.ends,
        pieces.prices,
        pieces.musts,
        pieces.counts,
        pieces.joiners,
    )


def same_both_ways(text: str, language: str, rules: BreakRules = COMICS) -> bool:
    """Whether breaks and pieces of a text are the same by both ways."""
    slow = long_way(text, language, rules)
    quick = line_breaks(text, language=language, rules=rules)
    pieces = text_pieces(text, language=language, rules=rules)
    return quick == slow and lists(pieces) == lists(cut_pieces(text, slow))


@settings(max_examples=250)
@given(
    st.lists(st.tuples(st.sampled_from(WORDS), TAILS), max_size=8),
    st.sampled_from(["en", "fr", "es", "de", "pl", "ru", "el", "tr", "fi", "ko", "th", "ja", "zh"]),
    st.sampled_from([str.upper, str.title, str]),
)
def test_words_break_the_same_both_ways(
    words: list[tuple[str, str]], language: str, case: Callable[[str], str]
) -> None:
    """Function words, titles, numbers, compounds, stutters, with any punctuation after them."""
    text = " ".join(word + tail for word, tail in words)
    assert same_both_ways(case(text), language)


@settings(max_examples=250)
@given(
    st.text(alphabet=st.sampled_from(LETTERS + "  .,'’-—…\"(5!¿"), max_size=24),
    st.sampled_from(["en", "fr", "el", "ja"]),
)
def test_any_characters_break_the_same_both_ways(text: str, language: str) -> None:
    """Letters of three scripts and the marks round them, in any order."""
    assert same_both_ways(text, language)


def test_every_letter_of_the_short_way_is_one() -> None:
    """No character that it takes for a letter breaks by itself or holds a break."""
    letters = [c for c in map(chr, range(0x530)) if plain_breaks._ONLY_LETTERS.fullmatch(c + c)]
    assert len(letters) > 600
    for char in letters:
        text = f"A{char} {char}{char}A A.{char} {char}' 5{char} {char}5 {char}-- ABCD-{char * 4}"
        assert same_both_ways(text, "en"), ascii(char)


def test_three_thousand_speeches_break_the_same_both_ways() -> None:
    """Dialogue nobody here wrote; nearly all of it goes the short way."""
    texts = [s.text.upper() for play in play_names()[::3] for s in speeches(play)][:3000]
    assert len(texts) == 3000
    assert [text for text in texts[::3] if not same_both_ways(text, "en")] == []
    plain = [text for text in texts if plain_cut(text, "en", COMICS)]
    assert len(plain) > 0.9 * len(texts)


@pytest.mark.parametrize(
    "text",
    ["", " ", "A  B", "A\nB", "TH-THE", "UH-HUH", "NO —SO", "♪ LA ♪", "«SO»", "1 000",
     "A\u00a0B", "A\u0301B", "水門", "NON !", "A\u00adB", "50 %"],
)  # fmt: skip
def test_what_is_not_plain_goes_the_long_way(text: str) -> None:
    """Wherever a rule or ICU has something to say the short way stands back."""
    assert plain_cut(text, "en", COMICS) is None


def test_with_a_placing_rule_off_all_goes_the_long_way() -> None:
    """The short way knows all rules that allow or forbid, or none."""
    assert plain_cut("NO WAY", "en", BreakRules(without=("notes",))) is None
    assert plain_cut("NO WAY", "en", BreakRules(without=("rests",))) is not None


def test_a_planted_fault_of_the_short_way_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """A dash taken for a letter, or a title forgotten: both ways differ then."""
    text = "ABCD--EFGH, MR. WELD"
    assert same_both_ways(text, "en")
    words = plain_breaks.KnownWords(PHRASES["en"])
    monkeypatch.setattr(words, "special", frozenset())
    monkeypatch.setattr(plain_breaks, "known_words", lambda _: words)
    assert not same_both_ways(text, "en")


def test_words_without_end_are_not_remembered(monkeypatch: pytest.MonkeyPatch) -> None:
    """The memory is bounded, and forgetting changes nothing."""
    words = plain_breaks.KnownWords(PHRASES["en"])
    monkeypatch.setattr(plain_breaks, "known_words", lambda _: words)
    monkeypatch.setattr(plain_breaks, "MOST_KNOWN", 5)
    text = " ".join(f"WORD{chr(65 + k)} ABCD-EFG{chr(65 + k)}" for k in range(20)) + " A" * 60
    assert same_both_ways(text, "en")
    assert len(words) <= 5
    assert len(words.parts) <= 5
    assert same_both_ways("A" * 1000, "en")
    assert "A" * 1000 not in words
