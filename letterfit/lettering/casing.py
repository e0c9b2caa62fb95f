"""Upper case by language, as the letters on the page have it.

The default is Unicode's full mapping (Unicode 17, section 3.13; "ß" becomes "SS"), which Python's
`str.upper` follows. Four languages differ, by SpecialCasing.txt and CLDR's transforms:

- Turkish and Azerbaijani: i becomes İ, ı becomes I.
- Lithuanian: the dot above that is kept under an accent goes away.
- Greek: capitals carry no accent; a diaeresis stays, and appears where an accent had parted a
  vowel from the next (CLDR el-Upper).
- Dutch: "ij" becomes "IJ", as it does by the full mapping.
"""

import re
import unicodedata
from collections.abc import Callable, Sequence
from functools import lru_cache

_GREEK_ACCENTS = "\u0300\u0301\u0302\u0303\u0304\u0306\u0311\u0313\u0314\u0342\u0343"
_DIAERESIS = "\u0308"
_IOTA = "\u0345"
_GREEK_LETTER = re.compile(
    rf"([\u0370-\u03ff\u1f00-\u1fff])([{_GREEK_ACCENTS}{_DIAERESIS}{_IOTA}\u0344]+)"
    r"(?:([\u0399\u03a5\u03b9\u03c5])(?![\u0300-\u036f]))?"
)
_LITHUANIAN_DOT = re.compile(r"([ij][\u0323\u0328\u0330]?)\u0307")


def upper(text: str, language: str, *, keep: Sequence[str] = ()) -> str:
    """The text in capitals.

    Args:
        text: Any text.
        language: BCP 47 tag, such as "en", "fr-CA", "tr".
        keep: Words that keep small letters, see `Habits.keep_case`.

    Returns:
        The capitals in normalisation form C.

    >>> upper("Die Straße", "de"), upper("ikinci", "tr"), upper("Μαΐου, Άννα", "el")
    ('DIE STRASSE', 'İKİNCİ', 'ΜΑΪΟΥ, ΑΝΝΑ')
    """
    if keep:
        pattern, shown = _exceptions(tuple(keep))
        if pattern.search(text):
            return _upper_around(text, language, pattern, shown)
    rule = _RULES.get(base_language(language))
    if text.isascii() and rule is None:
        return text.upper()
    return unicodedata.normalize("NFC", rule(text) if rule else text.upper())


def _upper_around(text: str, language: str, pattern: re.Pattern[str], shown: dict[str, str]) -> str:
    """Capitals, but for the words and beginnings that keep small letters."""
    done, at = [], 0
    for match in pattern.finditer(text):
        done.append(upper(text[at : match.start()], language))
        done.append(shown.get(match[0].casefold(), match[0]))
        at = match.end()
    return "".join((*done, upper(text[at:], language)))


@lru_cache(maxsize=32)
def _exceptions(keep: tuple[str, ...]) -> tuple[re.Pattern[str], dict[str, str]]:
    """A pattern for the words that keep small letters, and how each is shown.

    The beginning of a name is kept as it is typed, before a capital: "Mc*" in "McCoy".
    """
    words = sorted((w for w in keep if not w.endswith("*")), key=len, reverse=True)
    starts = sorted((w[:-1] for w in keep if w.endswith("*")), key=len, reverse=True)
    ways = [rf"(?i:{re.escape(word)})(?!\w)" for word in words]
    ways += [rf"{re.escape(start)}(?=[^\W\d_a-zß-öø-ÿ])" for start in starts]
    return re.compile(rf"(?<!\w)(?:{'|'.join(ways)})"), {w.casefold(): w for w in words}


def base_language(language: str) -> str:
    """The language alone, without script and region.

    >>> base_language("pt-BR"), base_language("en_GB")
    ('pt', 'en')
    """
    return language.replace("_", "-").partition("-")[0].lower()


def _turkic(text: str) -> str:
    """SpecialCasing.txt, conditional mappings for tr and az."""
    return text.replace("i\u0307", "i").replace("i", "İ").upper()


def _lithuanian(text: str) -> str:
    """SpecialCasing.txt, conditional mappings for lt: remove the dot above soft-dotted letters."""
    return _LITHUANIAN_DOT.sub(r"\1", unicodedata.normalize("NFD", text)).upper()


def _greek(text: str) -> str:
    """CLDR el-Upper: letters lose their accents; the disjunctive eta (the word "ή") keeps its."""
    loose = unicodedata.normalize("NFD", text)
    return _GREEK_LETTER.sub(_unaccented, loose).upper()


def _unaccented(match: re.Match[str]) -> str:
    letter, marks, following = match[1], match[2].replace("\u0344", "\u0308\u0301"), match[3] or ""
    if letter in "ηΗ" and marks == "\u0301" and not following and _stands_alone(match):
        return letter + marks
    kept = "".join(mark for mark in (_DIAERESIS, _IOTA) if mark in marks)
    # "μάιος": the accent on the first vowel says that the two are not one sound.
    parted = letter in "αεοηΑΕΟΗ" and "\u0301" in marks and following
    return letter + kept + following + (_DIAERESIS if parted else "")


def _stands_alone(match: re.Match[str]) -> bool:
    text = match.string
    before, after = text[match.start() - 1 : match.start()], text[match.end() : match.end() + 1]
    return not before.isalpha() and not after.isalpha()


_RULES: dict[str, Callable[[str], str]] = {
    "tr": _turkic,
    "az": _turkic,
    "lt": _lithuanian,
    "el": _greek,
}
