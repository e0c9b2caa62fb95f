"""Line breaks: Unicode's own test, and each rule of comics text with a case for and against."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.break_prices import BreakPrices
from letterfit.lettering.breaks import line_breaks, unicode_breaks
from tests.lettering.oracle import DATA

PRICES = BreakPrices()


def cut(text: str, *, language: str = "en") -> list[str]:
    """The text's pieces, their spaces left on."""
    ends = [turn.at for turn in line_breaks(text, language=language)]
    return [text[a:b] for a, b in zip([0, *ends], [*ends, len(text)], strict=True)]


def price(text: str, *, language: str = "en") -> float:
    """The price of the break at the bar."""
    left, right = text.split("|")
    prices = {turn.at: turn.price for turn in line_breaks(left + right, language=language)}
    return prices[len(left)]


def unicode_samples() -> list[tuple[str, list[int]]]:
    """Texts of Unicode's line break test with the offsets of their breaks."""
    path = DATA / "line_break_test_sample.txt"
    samples = []
    for row in path.read_text(encoding="utf-8").splitlines():
        text, ends = "", []
        for mark in "" if row.startswith("#") else row.split():
            if mark == "÷":
                ends.append(len(text))
            elif mark != "×":
                text += chr(int(mark, 16))
        if text:
            samples.append((text, ends))
    return samples


def test_unicode_line_break_samples() -> None:
    """The base breaks are those of UAX #14: a sample of its own test file."""
    samples = unicode_samples()
    assert len(samples) > 400
    assert any(max(text) > "\uffff" for text, _ in samples)
    assert [unicode_breaks(text, "en") for text, _ in samples] == [ends for _, ends in samples]


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("NO...YES", ["NO...", "YES"]),
        ("NO…YES", ["NO…", "YES"]),
        ("WELL...!", ["WELL...!"]),
        ("...AND THEN", ["...AND ", "THEN"]),
        ("“…AND THEN”", ["“…AND ", "THEN”"]),
        ("WELL ... NO", ["WELL ... ", "NO"]),
        ("N-NO", ["N-NO"]),
        ("Th-the", ["Th-the"]),
        ("W-W-WHAT?", ["W-W-WHAT?"]),
        ("WELL-KNOWN", ["WELL-", "KNOWN"]),
        ("X-RAY", ["X-RAY"]),
        ("WAIT--WHAT", ["WAIT--", "WHAT"]),
        ("WAIT -- WHAT", ["WAIT -- ", "WHAT"]),
        ("WAIT—WHAT", ["WAIT—", "WHAT"]),
        ("WAIT — WHAT", ["WAIT — ", "WHAT"]),
        ("WAIT - WHAT", ["WAIT - ", "WHAT"]),
        ("— BONJOUR TOI", ["— BONJOUR ", "TOI"]),
        ("--AND THEN", ["--AND ", "THEN"]),
        ("♪ LA LA ♪", ["♪ LA ", "LA ♪"]),
        ("SING ♪LA LA♪ NOW", ["SING ", "♪LA ", "LA♪ ", "NOW"]),
        ("♪", ["♪"]),
        ("NON ! OUI : « SI »", ["NON ! ", "OUI : ", "« SI »"]),
        ("10 % DE", ["10 % ", "DE"]),
        ("A\u00a0B\u202fC\u2060D", ["A\u00a0B\u202fC\u2060D"]),
        ("A\u200bB", ["A\u200b", "B"]),
        ("RE\u00adTURN", ["RE\u00ad", "TURN"]),
        ("DON'T", ["DON'T"]),
        ("ОДИН ДВА", ["ОДИН ", "ДВА"]),
        ("水門です", ["水", "門", "で", "す"]),
    ],
)
def test_where_comics_text_breaks(text: str, pieces: list[str]) -> None:
    """Allowed and forbidden breaks, one rule a line."""
    assert cut(text) == pieces


def test_thai_breaks_between_words() -> None:
    """A script without spaces breaks by ICU's dictionary: "hello world" in Thai."""
    assert cut("สวัสดีชาวโลก", language="th") == ["สวัสดี", "ชาว", "โลก"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ASK MR. |SMITH", PRICES.name),
        ("ASK MRS |SMITH", PRICES.name),
        ("J. |SMITH", PRICES.name),
        ("TELL ME. |NOW", PRICES.free),
        ("OPEN THE |GATE", PRICES.weak_end),
        ("SO I |WILL", PRICES.weak_end),
        ("YOU AND I, |THEN", PRICES.free),
        ("WELL, |NO", PRICES.free),
        ("NO...|YES", PRICES.free),
        ("STOP |AND WAIT", PRICES.free),
        ("THE GATE |OPENS", PRICES.ordinary),
        ("WELL-|KNOWN", PRICES.compound),
        ("ONCE--|NEVER", PRICES.free),
        ("RE\u00ad|TURN", PRICES.soft_hyphen),
        ("40 |KM", PRICES.number),
        ("40 |BOATS", PRICES.ordinary),
    ],
)
def test_prices(text: str, expected: float) -> None:
    """What a break costs by the words round it."""
    assert price(text) == expected


def test_prices_follow_the_language() -> None:
    """Articles and conjunctions are those of the language; a foreign one means nothing."""
    assert price("OUVRE LA |PORTE", language="fr-CA") == PRICES.weak_end
    assert price("OUVRE LA |PORTE", language="de") == PRICES.ordinary
    assert price("WARTE |UND SIEH", language="de") == PRICES.free


def test_the_order_of_prices() -> None:
    """A rest costs nothing, and each price is dearer than the one before it."""
    order = [
        PRICES.free,
        PRICES.ordinary,
        PRICES.compound,
        PRICES.weak_end,
        PRICES.number,
        PRICES.soft_hyphen,
        PRICES.name,
    ]
    assert order == sorted(order)
    assert order[0] == 0


def test_a_line_end_in_the_text_is_forced() -> None:
    """Only a typed line end forces a break."""
    assert [turn.forced for turn in line_breaks("ONE TWO\nTHREE")] == [False, True]


@given(st.text(alphabet=st.sampled_from("AB .…-—♪«!\u00ad\n😀"), max_size=30))
def test_breaks_are_in_order_and_inside_the_text(text: str) -> None:
    """Every offset is inside, none comes twice, and prices are ratios from 0 to 1."""
    turns = line_breaks(text)
    ends = [turn.at for turn in turns]
    assert ends == sorted(set(ends))
    assert all(0 < at < len(text) for at in ends)
    assert all(0 <= turn.price <= 1 for turn in turns)


@given(st.text(alphabet=st.sampled_from("AB -—"), min_size=1, max_size=20))
def test_no_line_begins_with_a_dash_or_consists_of_one(text: str) -> None:
    """Wherever words and dashes stand, a dash goes with the word before it."""
    pieces = [piece.strip() for piece in cut(text)]
    assert not any(piece.startswith(("--", "—")) for piece in pieces[1:])
    assert not any(piece == "-" for piece in pieces[1:])
