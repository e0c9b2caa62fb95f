"""Greek capitals: without accents, but with the diaeresis that tells two vowels apart.

As ICU does it (ICU 78, `GreekUpper` in ustrcase.cpp; CLDR's transform el-Upper has the same rules):

- accents and breathings go away, an iota below becomes a letter;
- a diaeresis stays, and one appears on Ι or Υ after a vowel that loses its accent and has none
  itself: the accent had said that the two are not one sound ("μάιος", "ΜΑΪΟΣ");
- the word "ή" (or) alone keeps an accent, so that it is not "η" (the).
"""

import re
import unicodedata

_DIAERESIS, _TONOS, _IOTA_BELOW = "\u0308", "\u0301", "\u0345"
_ACCENTS = frozenset("\u0300\u0301\u0302\u0303\u0311\u0342")
_LETTER = re.compile(
    "([\u0370-\u0373\u0376\u0377\u037b-\u037d\u0386-\u03e1\u03f0-\u03ff\u1f00-\u1fff])"
    "([\u0300-\u0304\u0306\u0308\u0311\u0313\u0314\u0342-\u0345]+)"
    "([\u0399\u03a5\u03b9\u03c5](?![\u0300-\u0304\u0306\u0308\u0311\u0313\u0314\u0342-\u0345]))?"
)
"""A letter with its marks, and an iota or ypsilon without any that follows it."""

_VOWELS = frozenset("ΑΕΗΙΟΥΩ")
_IGNORABLE = frozenset("'’‘.:·\u0387\u2024\u2027")
"""Word_Break MidLetter, MidNumLet and Single_Quote (UAX #29): case looks through them."""


def greek_capitals(text: str) -> str:
    """The text with those Greek letters in capitals that lose or gain a mark by it.

    Returns:
        Normalisation form D; the other letters are left to the full mapping.

    >>> greek_capitals("ή ρολόι").upper() == unicodedata.normalize("NFD", "Ή ΡΟΛΟΪ")
    True
    """
    loose = unicodedata.normalize("NFD", text)
    parts: list[str] = []
    at = 0
    accented = -1  # where the last vowel ended that loses its accent
    for match in _LETTER.finditer(loose):
        capital, marks, second = (
            match[1].upper(),
            match[2].replace("\u0344", "\u0308\u0301"),
            match[3],
        )
        parts += [loose[at : match.start()], capital]
        at = match.end()
        parted = capital in "ΙΥ" and accented == match.start()
        iotas = marks.count(_IOTA_BELOW)
        accent = not _ACCENTS.isdisjoint(marks)
        if capital == "Η" and accent and not (iotas or second) and _stands_alone(match):
            parts.append(_TONOS)
        elif _DIAERESIS in marks or parted:
            parts.append(_DIAERESIS)
        parts.append("Ι" * iotas)
        two = parted or (capital in "ΙΥ" and _DIAERESIS in marks)
        loses = accent and capital in _VOWELS and not two
        if second:
            parts += [second.upper(), _DIAERESIS if loses else ""]
        elif loses:
            accented = at
    return "".join((*parts, loose[at:]))


def _stands_alone(match: re.Match[str]) -> bool:
    """Whether no letter with a case stands before or after (The Unicode Standard, D135 to D137)."""
    text = match.string
    before = match.start() - 1
    while before >= 0 and _is_ignorable(text[before]):
        before -= 1
    after = match.end()
    while after < len(text) and _is_ignorable(text[after]):
        after += 1
    return not (before >= 0 and _is_cased(text[before])) and not (
        after < len(text) and _is_cased(text[after])
    )


def _is_ignorable(char: str) -> bool:
    return char in _IGNORABLE or unicodedata.category(char) in {"Mn", "Me", "Cf", "Lm", "Sk"}


def _is_cased(char: str) -> bool:
    return unicodedata.category(char) in {"Lu", "Ll", "Lt"} or char.lower() != char.upper()
