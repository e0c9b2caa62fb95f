"""Numbers as typed in headings: digits, words of eight languages, kanji, roman numerals.

Sources: the cardinal numbers of each language, from memory, checked by composing all of them
from 1 to 99 and by three independent spot lists in the tests.
"""

import re
from collections.abc import Iterator
from functools import cache

from letterfit.script.folding import fold

GREATEST = 9999
"""A heading that counts further is no heading."""

_LONGEST_NUMBER = 40  # letters; "quatre-vingt-dix-neuf" has 21
_UNITS = {
    "en": "one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen",
    "fr": "un deux trois quatre cinq six sept huit neuf dix onze douze treize quatorze "
    "quinze seize dix-sept dix-huit dix-neuf",
    "es": "uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce "
    "quince dieciséis diecisiete dieciocho diecinueve",
    "de": "eins zwei drei vier fünf sechs sieben acht neun zehn elf zwölf dreizehn vierzehn "
    "fünfzehn sechzehn siebzehn achtzehn neunzehn",
    "it": "uno due tre quattro cinque sei sette otto nove dieci undici dodici tredici "
    "quattordici quindici sedici diciassette diciotto diciannove",
    "pt": "um dois três quatro cinco seis sete oito nove dez onze doze treze catorze "
    "quinze dezesseis dezessete dezoito dezenove",
    "nl": "een twee drie vier vijf zes zeven acht negen tien elf twaalf dertien veertien "
    "vijftien zestien zeventien achttien negentien",
}

_TENS = {
    "en": "twenty thirty forty fifty sixty seventy eighty ninety",
    "fr": "vingt trente quarante cinquante soixante septante huitante nonante",
    "es": "veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa",
    "de": "zwanzig dreißig vierzig fünfzig sechzig siebzig achtzig neunzig",
    "it": "venti trenta quaranta cinquanta sessanta settanta ottanta novanta",
    "pt": "vinte trinta quarenta cinquenta sessenta setenta oitenta noventa",
    "nl": "twintig dertig veertig vijftig zestig zeventig tachtig negentig",
}

_OTHER_SPELLINGS = {
    "fourty": 40,  # a common slip
    "une": 1, "una": 1, "uma": 1, "ein": 1, "eine": 1, "één": 1,
    "zwo": 2, "duas": 2,
    "quatorze": 14, "dezasseis": 16, "dezassete": 17, "dezanove": 19,
    "diez y seis": 16, "diez y siete": 17, "diez y ocho": 18, "diez y nueve": 19,
    "octante": 80, "quatre-vingts": 80,
}  # fmt: skip

_KANJI = {sign: value for value, sign in enumerate("〇一二三四五六七八九")}
_ROMAN = re.compile(r"(?:c{0,3})(?:xc|xl|l?x{0,3})(?:ix|iv|v?i{0,3})")
_ROMAN_VALUES = {"i": 1, "v": 5, "x": 10, "l": 50, "c": 100}


def number_of(text: str) -> int | None:
    """The number that a digit string, number word, kanji or roman numeral stands for.

    Args:
        text: Nothing but the number, such as "12", "１２", "TWENTY-ONE", "vingt et un", "XII".

    Returns:
        1 to GREATEST, or None where the text is no such number.

    >>> [number_of(t) for t in ("12", "Twenty-One", "vingt et un", "XIV", "二十三", "gate")]
    [12, 21, 21, 14, 23, None]
    """
    if len(text) > _LONGEST_NUMBER:
        return None
    key = fold(text)
    if key.isdecimal():
        value: int | None = int(key) if len(key) <= len(str(GREATEST)) else None
    else:
        value = _words().get(_key(key)) or _kanji(key) or _roman(text.strip())
    return value if value and value <= GREATEST else None


def _key(folded: str) -> str:
    return folded.replace(" ", "").replace("-", "")


@cache
def _words() -> dict[str, int]:
    table = {_key(fold(word)): value for word, value in _OTHER_SPELLINGS.items()}
    for language, spelled in _UNITS.items():
        units = spelled.split()
        table |= {_key(fold(word)): value for value, word in enumerate(units, start=1)}
        for place, ten in enumerate(_TENS[language].split(), start=2):
            table[_key(fold(ten))] = 10 * place
            for unit in range(1, 10):
                for word in _compounds(language, ten, units[unit - 1]):
                    table[_key(fold(word))] = 10 * place + unit
    return table | {_key(fold(word)): value for word, value in _french_scores()}


def _compounds(language: str, ten: str, unit: str) -> Iterator[str]:
    """How a language says ten + unit; spaces and hyphens do not count."""
    match language:
        case "en" | "fr":
            yield ten + unit
            yield ten + "et" + unit
        case "es":
            # 21-29 are written in one word, and so, of late, may be 31-99.
            yield ten[:-1] + "i" + unit
            yield ten + "y" + unit
        case "de":
            yield unit.removesuffix("s") + "und" + ten if unit == "eins" else unit + "und" + ten
        case "it":
            yield (ten[:-1] if unit in {"uno", "otto"} else ten) + unit
        case "pt":
            yield ten + "e" + unit
        case "nl":
            yield unit + "en" + ten


def _french_scores() -> Iterator[tuple[str, int]]:
    """70-79 on sixty, 80-99 on four twenties."""
    units = _UNITS["fr"].split()
    for value, word in enumerate(units, start=1):
        yield "quatre-vingt" + word, 80 + value
        if value >= 10:
            yield "soixante" + word, 60 + value
            yield "soixante et " + word, 60 + value


def _kanji(key: str) -> int | None:
    """Kanji up to 99, positional (二三) or with ten (二十三)."""
    tens, ten, units = key.partition("十")
    if not key or len(key) > 3 or any(sign not in _KANJI for sign in tens + units):
        return None
    if not ten:
        return int("".join(str(_KANJI[sign]) for sign in key))
    if len(tens) > 1 or len(units) > 1:
        return None
    return 10 * (_KANJI[tens] if tens else 1) + (_KANJI[units] if units else 0)


def _roman(text: str) -> int | None:
    """A roman numeral in its one regular spelling, up to 399 (below 40 in small letters)."""
    key = fold(text)
    if not key or not _ROMAN.fullmatch(key):
        return None
    if not text.isupper() and not set(key) <= set("ivx"):
        return None  # "li", "ci" and "mi" are words of French and Italian
    values = [_ROMAN_VALUES[sign] for sign in key]
    following = [*values[1:], 0]
    return sum(-v if v < after else v for v, after in zip(values, following, strict=True))
