"""Names: how the words before a colon are typed, and whether they can be a name at all."""

import re
from functools import lru_cache
from typing import Literal

from letterfit.script.folding import fold

LONGEST_NAME = 40
MOST_NAME_WORDS = 6

_SMALL_WORDS = frozenset(
    "of the and de la le les du des d l van von der den da do dos di del della el los "  # noqa: SIM905
    "y et und e en & on in a from mit no".split()  # a list of 33 quoted words reads worse
)
_WORD = re.compile(r"[^\W_]+")
_SENTENCE_END = re.compile(r"[!?;…。！？、]|\.(?=\s|$)|\.\.")
_ABBREVIATION = re.compile(r"(?<![^\W_])(?:[^\W\d_]{1,4})\.")
_SPACED_DASH = re.compile(r"\s[-–—]{1,3}\s")
_PARTICLES = ("は", "が", "を", "に", "で", "と", "も", "の", "へ", "て", "から")
_PHRASE = re.compile("[\u30a0-\u30ff\u4e00-\u9fff][はがを]")  # "she" + topic mark: no name

Look = Literal["capitals", "title", "uncased", "other"]


@lru_cache(maxsize=2048)
def look_of(name: str) -> Look:
    """How a name is typed; "other" is no name.

    >>> look_of("BARGE PILOT"), look_of("Barge Pilot"), look_of("From behind her"), look_of("頁")
    ('capitals', 'title', 'other', 'uncased')
    """
    words = _WORD.findall(name)
    if not _could_be_name(name, words):
        return "other"
    lettered = [word for word in words if not word.isdecimal()]
    if not any(word.upper() != word.lower() for word in lettered):
        plain = len(name) <= 12 and not name.endswith(_PARTICLES) and not _PHRASE.search(name)
        return "uncased" if plain else "other"
    weighty = [word for word in lettered if fold(word) not in _SMALL_WORDS] or lettered
    if all(_in_capitals(word) for word in weighty):
        return "capitals"
    if all(not word[0].islower() for word in weighty) and not _SPACED_DASH.search(name):
        return "title"
    return "other"


def _could_be_name(name: str, words: list[str]) -> bool:
    if not words or len(words) > MOST_NAME_WORDS or not is_short(name):
        return False
    if not any(sign.isalpha() for sign in name):
        return False
    return not _SENTENCE_END.search(_ABBREVIATION.sub("", name))


def is_short(name: str) -> bool:
    """Whether a head is short enough for a name, and no bracket of it is left open."""
    return len(name) <= LONGEST_NAME and "\t" not in name and "(" not in name


def _in_capitals(word: str) -> bool:
    """WENNA, 9TH, and McKAY or DeVRIES: at most the head of the word in small letters."""
    if word.isupper():
        return True
    upper = sum(sign.isupper() for sign in word)
    lower = sum(sign.islower() for sign in word)
    if not upper and not lower:
        return True
    return word[0].isupper() and lower <= 2 and upper > 2
