"""Upper case by language, as the letters on the page have it.

The default is Unicode's full mapping (Unicode 17, section 3.13; "ß" becomes "SS"), which Python's
`str.upper` follows. Some languages differ, by SpecialCasing.txt and as ICU does it (the C library,
`u_strToUpper`):

- Turkish and Azerbaijani: i becomes İ, ı becomes I.
- Lithuanian: the dot above that is kept under an accent goes away.
- Greek: capitals carry no accent (`greek_capitals`).
- Eastern Armenian: the ligature և becomes ԵՎ; in Western Armenian (hyw) it is ԵՒ.
- Georgian has capitals for headings only, which few fonts have: its letters stay as they are,
  unless the caller says that there are capitals.

Names keep small letters among capitals where the habits say so: McCOY, MacLAREN, d'ARC.
"""

import re
import unicodedata
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import NamedTuple

from letterfit.lettering.style.greek import greek_capitals

GEORGIAN = re.compile("[\u10d0-\u10fa\u10fd-\u10ff]+")
"""Georgian letters that Unicode gives capitals (Mtavruli), U+1C90 and on."""

_LITHUANIAN_DOT = re.compile("([ij])([\u0300-\u036f]*?)\u0307")


def upper(text: str, language: str, *, keep: Sequence[str] = (), georgian: bool = False) -> str:
    """The text in capitals.

    Args:
        text: Any text.
        language: BCP 47 tag, such as "en", "fr-CA", "tr".
        keep: Words that keep small letters, see `Habits.keep_case`.
        georgian: Whether there are capitals for Georgian letters.

    Returns:
        The capitals in normalisation form C.

    >>> upper("Die Straße", "de"), upper("ikinci", "tr"), upper("Μαΐου, Άννα", "el")
    ('DIE STRASSE', 'İKİNCİ', 'ΜΑΪΟΥ, ΑΝΝΑ')
    >>> upper("Old McCoy, Maclaren", "en", keep=("Mc*", "MacLAREN"))
    'OLD McCOY, MacLAREN'
    """
    if keep:
        exceptions = _exceptions(tuple(keep))
        if exceptions.may_stand_in(text):
            return _upper_around(text, language, exceptions, georgian=georgian)
    rule = _RULES.get(base_language(language))
    if text.isascii() and rule is None:
        return text.upper()
    spared = rule(text) if rule else text
    if georgian or not GEORGIAN.search(spared):
        return unicodedata.normalize("NFC", spared.upper())
    parts, at = [], 0
    for match in GEORGIAN.finditer(spared):
        parts += [spared[at : match.start()].upper(), match[0]]
        at = match.end()
    return unicodedata.normalize("NFC", "".join((*parts, spared[at:].upper())))


@lru_cache(maxsize=256)
def base_language(language: str) -> str:
    """The language alone, without script and region.

    >>> base_language("pt-BR"), base_language("en_GB")
    ('pt', 'en')
    """
    return language.replace("_", "-").partition("-")[0].lower()


class _Exceptions(NamedTuple):
    """The words that keep small letters.

    `pattern` finds them, `shown` has each by its folded letters as it is lettered, `starts` the
    beginnings of names.
    """

    pattern: re.Pattern[str]
    shown: dict[str, str]
    starts: tuple[str, ...]

    def may_stand_in(self, text: str) -> bool:
        """Whether it is worth while to look for them, found out fast."""
        for start in self.starts:
            if start in text:
                return True
        if not self.shown:
            return False
        folded = text.casefold()
        return any(word in folded for word in self.shown)


@lru_cache(maxsize=32)
def _exceptions(keep: tuple[str, ...]) -> _Exceptions:
    """How to find the words that keep small letters.

    The beginning of a name is kept as it is typed, before a capital: "Mc*" in "McCoy".
    """
    words = sorted((w for w in keep if not w.endswith("*")), key=len, reverse=True)
    starts = sorted((w[:-1] for w in keep if w.endswith("*")), key=len, reverse=True)
    ways = [rf"(?i:{re.escape(word)})(?!\w)" for word in words]
    ways += [rf"{re.escape(start)}(?=[^\W\d_])" for start in starts]
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(ways)})")
    return _Exceptions(pattern, {word.casefold(): word for word in words}, tuple(starts))


def _upper_around(text: str, language: str, exceptions: _Exceptions, *, georgian: bool) -> str:
    """Capitals, but for the words and beginnings that keep small letters."""
    done, at = [], 0
    for match in exceptions.pattern.finditer(text):
        word = exceptions.shown.get(match[0].casefold())
        if word is None:
            if not text[match.end()].isupper():
                continue
            word = match[0]
        done += [upper(text[at : match.start()], language, georgian=georgian), word]
        at = match.end()
    return "".join((*done, upper(text[at:], language, georgian=georgian)))


def _turkic(text: str) -> str:
    """SpecialCasing.txt, conditional mappings for tr and az; the rest is the full mapping's."""
    return text.replace("i\u0307", "i").replace("i", "İ")


def _lithuanian(text: str) -> str:
    """SpecialCasing.txt, conditional mappings for lt: remove the dot above soft-dotted letters."""
    return _LITHUANIAN_DOT.sub(_undotted, unicodedata.normalize("NFD", text))


def _undotted(match: re.Match[str]) -> str:
    """The letter without its dot, unless another mark stands between it and the dot above it."""
    between = all(unicodedata.combining(mark) not in (0, 230) for mark in match[2])
    return match[1] + match[2] if between else match[0]


def _armenian(text: str) -> str:
    """ICU 78, ustrcase.cpp: ech and vew in today's spelling, where the Unicode mapping has yiwn."""
    return text.replace("և", "ԵՎ")


_RULES: dict[str, Callable[[str], str]] = {
    "tr": _turkic,
    "az": _turkic,
    "lt": _lithuanian,
    "el": greek_capitals,
    "hy": _armenian,
}
