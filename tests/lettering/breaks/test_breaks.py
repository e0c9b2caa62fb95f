"""Line breaks: each rule of comics text, scripts without spaces, and what always holds."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.breaks.breaks import COMICS, icu_locale, line_breaks
from letterfit.lettering.breaks.icu import LONGEST_PHRASED, unicode_breaks
from letterfit.lettering.breaks.prices import BreakPrices
from letterfit.lettering.breaks.rules import RULES, BreakRules

PRICES = BreakPrices()
NONE = BreakRules(without=tuple(RULES))
LETTERS = BreakRules(without=("short_phrases",))

ALPHABET = (
    "ABnoé .…-—–―♪«»!?'\"“”’0１١٠12%/#@\u00ad\u00a0\u202f\u2060\u200b\n\u0301"
    "😀👨\u200d👩🇫🇷ไทยか゚っーא־"
)
ANY_TEXT = st.text(alphabet=st.sampled_from(ALPHABET), max_size=30)
LANGUAGE = st.sampled_from(["en", "fr", "es", "ja", "zh-Hant", "ko", "th", "tlh"])


def cut(text: str, *, language: str = "en", rules: BreakRules = COMICS) -> list[str]:
    """The text's pieces, their spaces left on."""
    ends = [turn.at for turn in line_breaks(text, language=language, rules=rules)]
    return [text[a:b] for a, b in zip([0, *ends], [*ends, len(text)], strict=True)]


def price(text: str, *, language: str = "en") -> float:
    """The price of the break at the bar."""
    left, right = text.split("|")
    prices = {turn.at: turn.price for turn in line_breaks(left + right, language=language)}
    return prices[len(left)]


@pytest.mark.parametrize(
    ("rule", "barred"),
    [
        ("after_dots", "NO...|YES"),
        ("after_dots", "NO..|YES"),
        ("after_dashes", "WAIT--|5 |MEN"),
        ("after_dashes", "WAIT―|WHAT"),
        ("before_leading_dots", "WAIT |...AND |THEN"),
        ("clusters", "A |\u0301B"),
        ("leading_dots", "…|AND |THEN"),
        ("leading_dots", "“…|AND |THEN”"),
        ("leading_dots", "... |NO"),
        ("dots_alone", "WELL |… |NO"),
        ("stutters", "NN-|NO"),
        ("stutters", "TH-|THE |GATE"),
        ("stutters", "STR-|STRANGE"),
        ("stutters", "É-|ECOUTE"),
        ("one_letter_parts", "X-|RAY"),
        ("one_letter_parts", "PLAN-|B |NOW"),
        ("one_letter_parts", "W/|O"),
        ("before_dashes", "WAIT |-- |WHAT"),
        ("before_dashes", "WAIT|—|WHAT"),
        ("before_dashes", "WAIT |- |WHAT"),
        ("after_first_dash", "— |BONJOUR |TOI"),
        ("after_first_dash", "--|AND |THEN"),
        ("number_ranges", "1904–|1914"),
        ("number_groups", "EN |1 |000 |000 |ANS"),
        ("curses", "#@!|$|%&! |NO"),
        ("notes", "♪ |LA |LA |♪"),
        ("notes", "SING |♪ |LA |♪ |NOW"),
        ("french_spaces", "10 |% |DE"),
    ],
)
def test_a_rule_of_comics_text_and_what_is_left_without_it(rule: str, barred: str) -> None:
    """With that rule alone its breaks go or come; the bars are what Unicode or the rule allows."""
    text = barred.replace("|", "")
    others = BreakRules(without=tuple(name for name in RULES if name != rule))
    bars = {len("".join(barred.split("|")[:k])) for k in range(1, barred.count("|") + 1)}
    plain = {turn.at for turn in line_breaks(text, rules=NONE)}
    ruled = {turn.at for turn in line_breaks(text, rules=others)}
    if RULES[rule].kind == "allowed":
        assert ruled == bars
        assert plain < bars
    else:
        assert plain == bars
        assert ruled < bars


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("NO...YES", ["NO...", "YES"]),
        ("NO…YES", ["NO…", "YES"]),
        ("NO...\u2060YES", ["NO...\u2060YES"]),
        ("WELL...!", ["WELL...!"]),
        ("...AND THEN", ["...AND ", "THEN"]),
        ("“…AND THEN”", ["“…AND ", "THEN”"]),
        ("... NO WAY", ["... NO ", "WAY"]),
        ("WELL ... NO", ["WELL ... ", "NO"]),
        ("WAIT ...AND THEN", ["WAIT ", "...AND ", "THEN"]),
        ("N-NO", ["N-NO"]),
        ("Th-the", ["Th-the"]),
        ("W-W-WHAT?", ["W-W-WHAT?"]),
        ("W...WAIT", ["W...WAIT"]),
        ("NO...NOT ME", ["NO...", "NOT ", "ME"]),
        ("HA-HA-HA", ["HA-", "HA-", "HA"]),
        ("WELL-KNOWN", ["WELL-", "KNOWN"]),
        ("వివేచన-అంతఃకరణ", ["వివేచన-", "అంతఃకరణ"]),
        ("X-RAY", ["X-RAY"]),
        ("WAIT--WHAT", ["WAIT--", "WHAT"]),
        ("WAIT -- WHAT", ["WAIT -- ", "WHAT"]),
        ("WAIT—WHAT", ["WAIT—", "WHAT"]),
        ("WAIT — WHAT", ["WAIT — ", "WHAT"]),
        ("— BONJOUR TOI", ["— BONJOUR ", "TOI"]),
        ("“—¿QUÉ DICES?", ["“—¿QUÉ ", "DICES?"]),
        ("SING ♪LA LA♪ NOW", ["SING ", "♪LA ", "LA♪ ", "NOW"]),
        ("♪", ["♪"]),
        ("NON ! OUI : « SI »", ["NON ! ", "OUI : ", "« SI »"]),
        ("NON\u202f! «\u00a0SI\u00a0»", ["NON\u202f! ", "«\u00a0SI\u00a0»"]),
        ("NON\u2009! SI", ["NON\u2009! ", "SI"]),
        ("EIN »JA« SAGT »MEIN« VATER", ["EIN ", "»JA« ", "SAGT ", "»MEIN« ", "VATER"]),
        ("¡¿CÓMO?! ¡NO!", ["¡¿CÓMO?! ", "¡NO!"]),
        ("ΤΙ ΛΕΣ; ΟΧΙ", ["ΤΙ ", "ΛΕΣ; ", "ΟΧΙ"]),
        ("AT 9:30 P.M.", ["AT ", "9:30 ", "P.M."]),
        ("A\u00a0B\u202fC\u2060D", ["A\u00a0B\u202fC\u2060D"]),
        ("A\u200bB", ["A\u200b", "B"]),
        ("RE\u00adTURN", ["RE\u00ad", "TURN"]),
        ("DON'T", ["DON'T"]),
        ("I’LL ‘TIS", ["I’LL ", "‘TIS"]),
        ("👨\u200d👩\u200d👧🇫🇷🇩🇪👍🏽", ["👨\u200d👩\u200d👧", "🇫🇷", "🇩🇪", "👍🏽"]),
        ("ОДИН ДВА", ["ОДИН ", "ДВА"]),
        ("水門です", ["水", "門", "で", "す"]),
    ],
)
def test_where_comics_text_breaks(text: str, pieces: list[str]) -> None:
    """All rules together, in the languages as they are really typed."""
    assert cut(text) == pieces


def test_the_dash_of_a_spanish_aside_goes_with_the_word_after_it() -> None:
    """In Spanish dashes set tight open and close an aside; in English no line begins so."""
    text = "¡NO! —DIJO ELLA—. ¡SÍ!"
    assert cut(text, language="es") == ["¡NO! ", "—DIJO ", "ELLA—. ", "¡SÍ!"]
    assert cut(text, language="en") == ["¡NO! —", "DIJO ", "ELLA—. ", "¡SÍ!"]


@pytest.mark.parametrize(
    ("language", "text", "pieces"),
    [
        ("th", "สวัสดีชาวโลก", ["สวัสดี", "ชาว", "โลก"]),
        ("km", "សួស្តីពិភពលោក", ["សួស្តី", "ពិភពលោក"]),
        ("lo", "ສະບາຍດີຊາວໂລກ", ["ສະບາຍດີ", "ຊາວໂລກ"]),
        ("my", "မင်္ဂလာပါကမ္ဘာ", ["မင်္ဂလာ", "ပါ", "ကမ္ဘာ"]),
        ("en", "SAY สวัสดีชาวโลก NOW", ["SAY ", "สวัสดี", "ชาว", "โลก ", "NOW"]),
        ("th", "เร็วๆ เข้า", ["เร็วๆ ", "เข้า"]),
    ],
)
def test_scripts_without_spaces_break_between_words(
    language: str, text: str, pieces: list[str]
) -> None:
    """By ICU's dictionaries, whatever the language of the text round them: "hello, world"."""
    assert cut(text, language=language) == pieces


@pytest.mark.parametrize(
    ("rules", "pieces"),
    [
        (LETTERS, "ちょっ|と|チー|ズ|を！？"),
        (replace(LETTERS, japanese="normal"), "ち|ょ|っ|と|チ|ー|ズ|を！？"),
        (replace(LETTERS, japanese="loose"), "ち|ょ|っ|と|チ|ー|ズ|を|！|？"),
        (BreakRules(), "ちょっと|チーズを！？"),
        (BreakRules(phrases=True), "ちょっと|チーズを！？"),
    ],
)
def test_japanese_breaks_as_strictly_as_asked(rules: BreakRules, pieces: str) -> None:
    """Small kana and the long-vowel mark begin no line unless that is asked for."""
    text = pieces.replace("|", "")
    assert cut(text, language="ja", rules=rules) == pieces.split("|")


def test_short_phrases_are_kept_whole_and_long_ones_at_a_price() -> None:
    """Japanese breaks between phrases, Chinese and Korean between words, while they are short."""
    assert cut("水門が閉まって", language="ja") == ["水門が", "閉まって"]
    assert cut("今天天气很好", language="zh") == ["今天", "天气", "很好"]
    assert cut("수문이 닫혀", language="ko") == ["수문이 ", "닫혀"]
    assert cut("だから、ね", language="ja") == ["だから、", "ね"]
    assert cut("「ニューヨーク」へ行く", language="ja") == ["「ニューヨーク」へ", "行く"]
    long = "聞きにこないのか？"
    assert cut(long, language="ja") == ["聞きに", "こ", "な", "いのか？"]
    assert {turn.price for turn in line_breaks(long, language="ja")} == {PRICES.phrase}
    assert line_breaks("水門が", language="ja", rules=NONE)[0].price == PRICES.ordinary
    prices = [turn.price for turn in line_breaks("水門が閉まって", language="ja", rules=LETTERS)]
    assert prices == [PRICES.phrase, PRICES.phrase, PRICES.ordinary, *[PRICES.phrase] * 2]


def test_phrases_of_a_text_too_long_for_a_balloon_are_not_looked_for() -> None:
    """Where looking would take too long the text breaks as without phrases."""
    text = "水門が閉まって" * LONGEST_PHRASED
    turns = line_breaks(text, language="ja", rules=BreakRules(phrases=True))
    assert {turn.price for turn in turns} == {PRICES.ordinary}
    assert len(turns) == 6 * LONGEST_PHRASED - 1


def test_full_width_numbers_are_kept_whole() -> None:
    """Full-width digits break like ideographs by Unicode, but they are one number."""
    assert cut("を１０人", language="ja", rules=LETTERS) == ["を", "１０", "人"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ASK MR. |SMITH", PRICES.name),
        ("ASK MRS |SMITH", PRICES.name),
        ("J. |SMITH", PRICES.name),
        ("SMITH, |JR.", PRICES.name),
        ("SO AM I. |THEN", PRICES.free),
        ("DO 'T. |THEN", PRICES.free),
        ("TELL ME. |NOW", PRICES.free),
        ("OPEN THE |GATE", PRICES.weak_end),
        ("SO I |WILL", PRICES.weak_end),
        ("YOU AND I, |THEN", PRICES.free),
        ("WELL, |NO", PRICES.free),
        ("NO...|YES", PRICES.free),
        ("STOP |AND WAIT", PRICES.free),
        ("THE GATE |OPENS", PRICES.ordinary),
        ("WELL-|KNOWN", PRICES.compound),
        ("EITHER/|NEITHER", PRICES.compound),
        ("UH-|HUH", PRICES.soft_hyphen),
        ("HEIGH-|HO!", PRICES.soft_hyphen),
        ("SON-|IN-LAW", PRICES.compound),
        ("ONCE--|NEVER", PRICES.free),
        ("RE\u00ad|TURN", PRICES.soft_hyphen),
        ("40 |KM", PRICES.number),
        ("9:30 |P.M.", PRICES.number),
        ("LOCK NO. |9", PRICES.number),
        ("NO. |NEVER", PRICES.free),
        ("40 |BOATS", PRICES.ordinary),
    ],
)
def test_prices(text: str, expected: float) -> None:
    """What a break costs by the words round it."""
    assert price(text) == expected


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        ("fr-CA", "OUVRE LA |PORTE", PRICES.weak_end),
        ("de", "OUVRE LA |PORTE", PRICES.ordinary),
        ("de", "WARTE |UND SIEH", PRICES.free),
        ("pl", "W |DOMU", PRICES.weak_end),
        ("ru", "ЗНАЛ |БЫ", PRICES.weak_end),
        ("el", "ΑΠΟ |ΠΟΥ", PRICES.weak_end),
        ("th", "พูดว่าอะไรนะ |ประตู", PRICES.free),
        ("hi", "बंद है। |चलो", PRICES.free),
        ("ar", "لا، |انتظر", PRICES.free),
        ("tlh", "OPEN THE |GATE", PRICES.weak_end),
    ],
)
def test_prices_follow_the_language(language: str, text: str, expected: float) -> None:
    """Function words are those of the language; one without a list is priced as English."""
    assert price(text, language=language) == expected


def test_the_order_of_prices() -> None:
    """A rest costs nothing, and each price is dearer than the one before it."""
    order = [
        PRICES.free,
        PRICES.ordinary,
        PRICES.compound,
        PRICES.weak_end,
        PRICES.number,
        PRICES.name,
        PRICES.soft_hyphen,
    ]
    assert order == sorted(order)
    assert order[0] == 0


def test_prices_may_be_overridden() -> None:
    """A letterer's own price stands in the place of ours, by the short way and by the long one."""
    rules = BreakRules(prices=BreakPrices(ordinary=0.3, compound=2.5))
    assert [turn.price for turn in line_breaks("GATE OPENS", rules=rules)] == [0.3]
    assert [turn.price for turn in line_breaks("WELL-KNOWN", rules=rules)] == [2.5]
    assert [turn.price for turn in line_breaks("AIR-SICK «WE»", rules=rules)] == [2.5, 0.3]


def test_a_line_end_in_the_text_is_forced() -> None:
    """Only a typed line end forces a break, and no rule takes it away."""
    assert [turn.forced for turn in line_breaks("ONE TWO\nTHREE")] == [False, True]
    assert [turn.forced for turn in line_breaks("— \nTHREE")] == [True]


@given(ANY_TEXT, LANGUAGE)
def test_breaks_are_in_order_and_inside_the_text(text: str, language: str) -> None:
    """Every offset is inside, none comes twice, prices are ratios, and the same comes out again."""
    turns = line_breaks(text, language=language)
    ends = [turn.at for turn in turns]
    assert ends == sorted(set(ends))
    assert all(0 < at < len(text) for at in ends)
    assert all(0 <= turn.price <= PRICES.soft_hyphen for turn in turns)
    assert line_breaks(text, language=language) == turns


@given(ANY_TEXT, LANGUAGE)
def test_without_rules_the_breaks_are_those_of_unicode(text: str, language: str) -> None:
    """All rules off, what is left is ICU's own answer, and every break costs the same."""
    turns = line_breaks(text, language=language, rules=NONE)
    assert [turn.at for turn in turns] + [len(text)] * bool(text) == unicode_breaks(
        text, icu_locale(language)
    )
    assert {turn.price for turn in turns} <= {PRICES.ordinary}


@given(ANY_TEXT, LANGUAGE, st.sampled_from(sorted(RULES)))
def test_one_rule_off_changes_only_what_it_says(text: str, language: str, rule: str) -> None:
    """Without an allowing rule breaks only go, without a forbidding one they only come."""
    every = {turn.at for turn in line_breaks(text, language=language)}
    fewer = {
        turn.at for turn in line_breaks(text, language=language, rules=BreakRules(without=(rule,)))
    }
    kind = RULES[rule].kind
    assert fewer <= every if kind == "allowed" else every <= fewer
    assert kind != "price" or fewer == every


@given(st.text(alphabet=st.sampled_from("ABMRTHEé. -—'…♪!,0123"), max_size=30))
def test_case_makes_no_difference(text: str) -> None:
    """Dialogue in capitals breaks as the same typed in small letters, at the same prices."""
    assert line_breaks(text.upper()) == line_breaks(text.lower())


@given(st.text(alphabet=st.sampled_from("AB -—"), min_size=1, max_size=20))
def test_no_line_begins_with_a_dash_or_consists_of_one(text: str) -> None:
    """Wherever words and dashes stand, a dash goes with the word before it."""
    pieces = [piece.strip() for piece in cut(text)]
    assert not any(piece.startswith(("--", "—")) for piece in pieces[1:])
    assert not any(piece == "-" for piece in pieces[1:])
