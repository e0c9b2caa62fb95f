"""Who speaks: the one rule that tells a speaker's line from a description with a colon in it.

A line is ``head: words`` (or ``head<TAB>words``, or in Japanese ``head「words」``). The head is a
name, perhaps with brackets behind it. The line is lettered when the first of these holds, in
this order; otherwise the colon belongs to the description:

1. The head is a label (CAPTION, BRUITAGE): see `letterfit.script.labels` for which count in
   small letters.
2. The head is a direction (NOTE, CLOSE ON ..., GROS PLAN): never a speaker.
3. The head is no name at all: longer than MOST_NAME_WORDS words or LONGEST_NAME letters, ending
   in a sentence, or with small words in it ("From behind her"): never a speaker.
4. It stands in capitals: a speaker. Behind a panel heading on the same line only if the name
   also opens a line of its own somewhere, because descriptions begin with names in capitals.
5. Its name is known, in another case, from lines in capitals ("Odile (pense) :" after "ODILE :").
6. It is emphasised (``**Wenna:**``), or a bracket behind it says how it is spoken ("(off)").
7. It begins with capital letters ("Barge Pilot") and the script is typed that way: no name stands
   in capitals anywhere, and the head comes back or the words do not go on in small letters;
   or, in a script with names in capitals, it comes back at least OFTEN times.
8. It is in a script without capital letters (Japanese), short, and no phrase with a particle.

A name alone on a line, as in screenplays, is judged by `is_alone_name`.
"""

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from letterfit.script.folding import fold
from letterfit.script.labels import is_direction

LONGEST_NAME = 40
MOST_NAME_WORDS = 6
OFTEN = 3
"""Times a mixed-case head must open a line where other names stand in capitals."""

_LONGEST_HEAD = 100
_COLONS = ":：﹕︰"
_QUOTES = {"「": "」", "『": "』"}
_OPEN, _CLOSE = "([（［【", ")]）］】"
_SMALL_WORDS = frozenset(
    fold(word)
    for word in "of the and de la le les du des d l van von der den da do dos di del della el los "
    "y et und e en & on in à from mit no the a".split()
)
_WORD = re.compile(r"[^\W_]+")
_SENTENCE_END = re.compile(r"[!?;…。！？、]|\.(?=\s|$)|\.\.")
_ABBREVIATION = re.compile(r"(?<![^\W_])(?:[^\W\d_]{1,4})\.")
_PARTICLES = ("は", "が", "を", "に", "で", "と", "も", "の", "へ", "て", "から")
_CASED_INDEX = re.compile(r"\(?#?(?:\d{1,3}\.)*(\d{1,3})(?:[.):]\)?\s*|\)?\s+[-–—]?\s*)(?=\D)")

Look = Literal["capitals", "title", "uncased", "other"]


@dataclass(frozen=True, slots=True)
class Head:
    """What stands before the words of a speech.

    Args:
        name: The name or label, as typed, without brackets.
        brackets: What stands in brackets behind it, without them.
        words: What follows the colon; empty where the words stand on the next lines.
        parted_by: What stands between head and words.
    """

    name: str
    brackets: tuple[str, ...]
    words: str
    parted_by: Literal["colon", "tab", "quotes"] = "colon"


@dataclass(frozen=True, slots=True)
class Cast:
    """The names a script uses, and how it is typed.

    Args:
        spellings: For each folded name the spelling to show: the one in capitals if there is one.
        capitals: How often each folded name opens a line in capitals.
        titles: How often each folded name opens a line with capital initials.
        alone: How often each folded name stands alone on a line, in capitals, over words.
    """

    spellings: Mapping[str, str]
    capitals: Mapping[str, int]
    titles: Mapping[str, int]
    alone: Mapping[str, int]

    def spelling(self, name: str) -> str:
        """The one spelling of a name throughout the script."""
        return self.spellings.get(fold(name), name)


def split_head(text: str) -> Head | None:
    """The head and the words of a line that might be spoken, whoever speaks.

    >>> split_head("WENNA (OFF): The tide turned.")
    Head(name='WENNA', brackets=('OFF',), words='The tide turned.', parted_by='colon')
    >>> split_head("It is 12:30 and she waits.") is None
    True
    """
    depth = 0
    for at, sign in enumerate(text[:_LONGEST_HEAD]):
        if sign in _OPEN:
            depth += 1
        elif sign in _CLOSE:
            depth -= 1
        elif depth > 0:
            continue
        elif sign in _COLONS and _parts(text, at):
            return _head(text[:at], text[at + 1 :].strip())
        elif sign == "\t":
            return _tabbed(text, at)
        elif sign in _QUOTES:
            return _quoted(text, at)
    return None


def split_index(text: str) -> tuple[int | None, str]:
    """A balloon's number typed before the element, and the element.

    >>> split_index("3. WENNA: Hold."), split_index("12 WENNA: Hold."), split_index("WENNA: 3")
    ((3, 'WENNA: Hold.'), (12, 'WENNA: Hold.'), (None, 'WENNA: 3'))
    """
    number = _CASED_INDEX.match(text)
    return (int(number.group(1)), text[number.end() :].lstrip()) if number else (None, text)


def take_brackets(text: str) -> tuple[str, tuple[str, ...]]:
    """A head without its brackets, and what stood in them.

    >>> take_brackets("WENNA (OFF) [WHISPER]")
    ('WENNA', ('OFF', 'WHISPER'))
    """
    kept: list[str] = []
    brackets: list[str] = []
    depth = start = 0
    for at, sign in enumerate(text):
        if sign in _OPEN:
            if depth == 0:
                kept.append(text[start:at])
                start = at + 1
            depth += 1
        elif sign in _CLOSE and depth:
            depth -= 1
            if depth == 0:
                brackets.append(text[start:at].strip())
                start = at + 1
    # A bracket that is never closed stays in the name, which is then no name.
    kept.append(("(" if depth else "") + text[start:])
    return " ".join("".join(kept).split()), tuple(b for b in brackets if b)


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
        plain = len(name) <= 12 and not name.endswith(_PARTICLES)
        return "uncased" if plain else "other"
    weighty = [word for word in lettered if fold(word) not in _SMALL_WORDS] or lettered
    if all(_in_capitals(word) for word in weighty):
        return "capitals"
    if all(not word[0].islower() for word in weighty):
        return "title"
    return "other"


def is_speaker(head: Head, *, cast: Cast, marked: bool, known_modifier: bool) -> bool:
    """Rules 2 to 8 for a line of its own.

    Args:
        head: What stands before the colon.
        cast: The names of the script.
        marked: Whether the head was emphasised.
        known_modifier: Whether one of its brackets says how the words are spoken.
    """
    look = look_of(head.name)
    if is_direction(head.name) or (look == "other" and not (marked and _is_short(head.name))):
        return False
    if look in {"capitals", "uncased"} or marked or known_modifier:
        return True
    key = fold(head.name)
    if cast.capitals.get(key) or cast.alone.get(key):
        return True
    if head.parted_by == "tab":
        return False
    times = cast.titles.get(key, 0)
    if cast.capitals or cast.alone:
        return times >= OFTEN
    return times > 1 or not head.words[:1].islower()


def is_known_speaker(head: Head, *, cast: Cast) -> bool:
    """Rule 4 behind a panel heading: the name opens a line of its own somewhere."""
    return look_of(head.name) in {"capitals", "uncased"} and fold(head.name) in cast.spellings


def is_alone_name(name: str, *, cast: Cast, indent: int, known_modifier: bool) -> bool:
    """Whether a name alone on a line, over words, is a speaker as in a screenplay.

    It must stand in capitals and be known from other lines, or be indented, or have a bracket
    that says how it is spoken, or the script must be typed that way (a name that comes back).
    """
    if look_of(name) != "capitals" or is_direction(name):
        return False
    key = fold(name)
    if cast.capitals.get(key) or cast.alone.get(key, 0) > 1 or known_modifier:
        return True
    screenplay = not cast.capitals and (indent > 0 or max(cast.alone.values(), default=0) > 1)
    return screenplay and bool(cast.alone.get(key))


def cast_of(heads: Iterable[str], alone: Iterable[str]) -> Cast:
    """The cast of a script.

    Args:
        heads: The heads before colons of all lines, without brackets.
        alone: The lines in capitals that stand alone over words.
    """
    names: dict[str, dict[str, str]] = {"capitals": {}, "uncased": {}, "title": {}}
    counts: dict[str, Counter[str]] = {look: Counter() for look in names}
    for name in heads:
        look = look_of(name)
        if look != "other" and not is_direction(name):
            counts[look][fold(name)] += 1
            names[look].setdefault(fold(name), name)
    alone_names = [name for name in alone if look_of(name) == "capitals" and not is_direction(name)]
    spellings = names["title"] | {fold(name): name for name in reversed(alone_names)}
    return Cast(
        spellings=spellings | names["uncased"] | names["capitals"],
        capitals=counts["capitals"],
        titles=counts["title"],
        alone=Counter(fold(name) for name in alone_names),
    )


EMPTY_CAST = Cast({}, {}, {}, {})


def _head(before: str, words: str) -> Head | None:
    name, brackets = take_brackets(before.strip())
    return Head(name, brackets, words) if name else None


def _tabbed(text: str, at: int) -> Head | None:
    """WENNA<TAB>words, or WENNA:<TAB>words, which has a colon after all."""
    head = _head(text[:at], text[at + 1 :].strip())
    return replace(head, parted_by="tab") if head else None


def _quoted(text: str, at: int) -> Head | None:
    """ウェンナ「潮が変わった」: the quotes stand for the colon and are no part of the words."""
    head = _head(text[:at], text[at:])
    if head is None or look_of(head.name) != "uncased":
        return None
    close = _QUOTES[text[at]]
    inner = text[at + 1 : -1] if text.endswith(close) else text[at:]
    whole = close not in inner
    return Head(head.name, head.brackets, inner if whole else text[at:], "quotes")


def _parts(text: str, at: int) -> bool:
    """Whether a colon parts a head from words: not in 12:30, not in "a://b"."""
    after = text[at + 1 : at + 2]
    if text[at - 1 : at].isdecimal() and after.isdecimal():
        return False
    return not text.startswith("//", at + 1)


def _could_be_name(name: str, words: list[str]) -> bool:
    if not words or len(words) > MOST_NAME_WORDS or not _is_short(name):
        return False
    if not any(sign.isalpha() for sign in name):
        return False
    return not _SENTENCE_END.search(_ABBREVIATION.sub("", name))


def _is_short(name: str) -> bool:
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
