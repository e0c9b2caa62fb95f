"""The rules of comics text that allow or forbid a line break, each one function.

They stand on top of UAX #14 and are common practice, no source. A rule takes a text and gives the
offsets at which a next line could begin; an *allowed* place is a break though Unicode has none
there, a *forbidden* one is none though Unicode has it. Each says in `MARKS` by which characters
alone it can find anything, so that most texts ask few rules. A rule is told the text's language
(without script and region); most do not care.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from itertools import pairwise

from letterfit.lettering.breaks.icu import FIRST_CJK, cluster_ends, phrase_ends
from letterfit.lettering.breaks.stuttering import stutter_hyphens

SPACES = " \t\n\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2008\u2009\u200a\u205f\u3000"
"""White space that a line may end in (UAX #14, classes SP and BA); no-break spaces are not here."""

OPENING_DASHES = frozenset({"es", "ca", "gl", "eu", "pt"})
"""Languages that open and close an aside in dialogue with dashes set tight (from memory: RAE,
Ortografía, 2010, "raya")."""

SHORT_PHRASE, LEAST_PART = 6, 3
"""Characters of the longest phrase that is never broken, and of the least part of a longer one."""

_OPENERS = frozenset("'\"‘“„«‹([{¡¿")
_SYMBOLS = "@#$%&*☠"
_CJK = "\u2e80"
_QUOTED = frozenset("」』")
_QUOTES = frozenset("'’")
_DASHES = frozenset("–—―-")

# Each begins with its own characters, so that the search skips to them; what must stand round them
# is asked of the few that are found.
_DOTS = re.compile(r"\.{2,}+|…++")
_JOINT = re.compile(r"[-‐־/]")
_DASH = re.compile(r"[–—―⸺⸻]|-++")
_ASIDE = re.compile(r"—(?=[^\s—])")
_MAY_CLUSTER = re.compile(r"[^\0-\u02ff‘’“”„…–—―♪♫]")
_WIDE = re.compile(r"[０-９．，][０-９]++")
_RANGE = re.compile(r"[–—](?=\d)")
_GROUPS = re.compile(rf"\d{{1,3}}+(?:[{SPACES}]\d{{3}}(?!\d))+")
_CURSE = re.compile(rf"[{_SYMBOLS}!?+=~^§]{{3,}}+")
_NOTES = re.compile(r"[♩♪♫♬🎵🎶]++")
_FRENCH = re.compile(rf"[{SPACES}](?=[!?:;%‰]|[»›](?![^\W_]))|[«‹][{SPACES}]++")


def after_dots(text: str, _: str) -> Iterator[int]:
    """After a run of dots between two words, "NO...|YES"."""
    for match in _DOTS.finditer(text):
        start, end = match.span()
        if text[start] == "." and _follows_word(text, start) and _is_word(text, end):
            yield end


def after_dashes(text: str, _: str) -> Iterator[int]:
    """After a double hyphen or a bar between two words, "WAIT--|5 MEN", "WAIT―|WHAT"."""
    for match in _DASH.finditer(text):
        start, end = match.span()
        if match[0] != "-" and _follows_word(text, start) and _is_word(text, end):
            yield end


def before_leading_dots(text: str, _: str) -> Iterator[int]:
    """Before dots that lead into a word, "WAIT |...AND THEN"."""
    for match in _DOTS.finditer(text):
        start, end = match.span()
        if start and text[start - 1] in SPACES and _is_word(text, end):
            yield start


def leading_dots(text: str, _: str) -> Iterator[int]:
    """After dots that lead into a word, "...AND THEN": they would end a line alone."""
    for match in _DOTS.finditer(text):
        if _leads(text, match.start()):
            yield match.end()
            if _opens_line(text, match.start()):
                yield _after_spaces(text, match.end())


def dots_alone(text: str, _: str) -> Iterator[int]:
    """Before dots that stand alone, "WELL ... NO"."""
    for match in _DOTS.finditer(text):
        start, end = match.span()
        if (not start or text[start - 1].isspace()) and (end == len(text) or text[end].isspace()):
            yield start


def stutters(text: str, _: str) -> Iterator[int]:
    """Inside a stutter, "N-NO", "W-W-WAIT", "TH-THE", "W...WAIT"."""
    return stutter_hyphens(text)


def one_letter_parts(text: str, _: str) -> Iterator[int]:
    """Between a compound and a part of it that is one letter or digit, "X-RAY", "PLAN-B", "W/O"."""
    for match in _JOINT.finditer(text):
        end = match.end()
        if not (text[end - 2 : end - 1].isalnum() and text[end : end + 1].isalnum()):
            continue
        head = end < 3 or not _continues_word(text, end - 3)
        tail = end + 1 == len(text) or not (_is_letter(text[end + 1]) or text[end + 1] in _QUOTES)
        if head or tail:
            yield end


def before_dashes(text: str, language: str) -> Iterator[int]:
    """Before a dash, "--", or a hyphen that stands alone: no line begins with one.

    But for the dash of Spanish that opens an aside, "—preguntó": it goes with the word after it.
    """
    asides = set(_asides(text, language))
    for match in _DASH.finditer(text):
        start, end = match.span()
        is_dash = match[0] != "-" or end == len(text) or text[end].isspace()
        if is_dash and start not in asides:
            yield start


def after_opening_dashes(text: str, language: str) -> Iterator[int]:
    """After the dash of Spanish that opens an aside, "¡NO! | —DIJO ELLA—"."""
    return (at + 1 for at in _asides(text, language))


def after_first_dash(text: str, _: str) -> Iterator[int]:
    """After a dash that opens the text, as dialogue in French or Spanish: no line is only that."""
    end = 0
    for match in _DASH.finditer(text):
        start = match.start()
        if start != end and not _opens_line(text, start):
            continue  # neither the first of a line's dashes nor one that follows such a dash
        end = match.end()
        if match[0] != "-" or not text[end : end + 1].isdigit():
            yield _after_spaces(text, end)


def _asides(text: str, language: str) -> Iterator[int]:
    if language in OPENING_DASHES:
        for match in _ASIDE.finditer(text):
            if match.start() and text[match.start() - 1] in SPACES:
                yield match.start()


def number_ranges(text: str, _: str) -> Iterator[int]:
    """After the dash of a range of numbers, "1904–1914"."""
    for match in _RANGE.finditer(text):
        if text[match.start() - 1 : match.start()].isdigit():
            yield match.end()


def wide_digits(text: str, _: str) -> Iterator[int]:
    """Inside a number of full-width digits, "１０"."""
    for match in _WIDE.finditer(text):
        yield from range(match.start() + 1, match.end())


def number_groups(text: str, _: str) -> Iterator[int]:
    """Between the groups of a long number, "1 000 000"."""
    for match in _GROUPS.finditer(text):
        before = text[match.start() - 1 : match.start()]
        if before not in {".", ","} and not before.isdigit():
            yield from range(match.end() - 3, match.start() + 1, -4)


def clusters(text: str, _: str) -> Iterator[int]:
    """Inside what a reader takes for one character (UAX #29), such as a space with an accent."""
    if _MAY_CLUSTER.search(text):
        ends = set(cluster_ends(text))
        yield from (at for at in range(1, len(text)) if at not in ends)


def short_phrases(text: str, language: str) -> Iterator[int]:
    """Inside a short phrase of Japanese or word of Chinese or Korean, or near a long one's ends.

    Up to six characters are short, and a long one keeps three together on each side of a break. A
    particle goes with the quotation before it.
    """
    if not text or max(text) < FIRST_CJK:
        return
    for start, end in pairwise([0, *phrase_ends(text, language)]):
        if text[start - 1 : start] in _QUOTED and "\u3041" <= text[start] <= "\u3096":
            yield start
        letters = [at for at in range(start, end) if text[at].isalnum()]
        is_short = len(letters) <= SHORT_PHRASE
        for count, at in enumerate(letters[1:], start=1):
            near = min(count, len(letters) - count) < LEAST_PART
            if (is_short or near) and is_inside_word(text, at):
                yield at


def curses(text: str, _: str) -> Iterator[int]:
    """Inside a curse made of symbols, "@#$%!!"."""
    for match in _CURSE.finditer(text):
        if any(char in _SYMBOLS for char in match[0]):
            yield from range(match.start() + 1, match.end())


def notes(text: str, _: str) -> Iterator[int]:
    """Between sung words and the notes round them; notes open and close in turn."""
    groups = list(_NOTES.finditer(text))
    for count, group in enumerate(groups):
        start, end = group.span()
        left, right = start, end
        while left and text[left - 1] in SPACES:
            left -= 1
        while right < len(text) and text[right] in SPACES:
            right += 1
        if count % 2 == 0 and (count + 1 < len(groups) or left == 0):
            yield right
        else:
            yield start
            yield left  # a note against the word before it, without a space
        yield from range(start + 1, end)


def french_spaces(text: str, _: str) -> Iterator[int]:
    """Between a word and the mark that French sets off by a space, "NON !", "« OUI »"."""
    for match in _FRENCH.finditer(text):
        start = match.start()
        if (
            text[start] not in "«‹" or _leads(text, start) or text[start - 1] in _DASHES
        ):  # "»JA« SAGT SIE": German closes with it
            yield match.end()


def is_inside_word(text: str, at: int) -> bool:
    """Whether two letters or digits meet, one of them of Chinese, Japanese or Korean."""
    before, after = text[at - 1], text[at]
    return before.isalnum() and after.isalnum() and max(before, after) >= FIRST_CJK


def _follows_word(text: str, at: int) -> bool:
    """Whether a mark stands against what is before it."""
    return at > 0 and not text[at - 1].isspace() and text[at - 1] not in ".…–—―-"


def _is_word(text: str, at: int) -> bool:
    """Whether a letter or digit stands there that is none of Chinese or Japanese."""
    return at < len(text) and text[at].isalnum() and text[at] < _CJK


def _leads(text: str, at: int) -> bool:
    """Whether nothing stands against a mark but what opens a quotation."""
    return not at or text[at - 1].isspace() or text[at - 1] in _OPENERS


def _opens_line(text: str, at: int) -> bool:
    """Whether only quotation marks stand between the beginning of a line and a mark."""
    while at and text[at - 1] in _OPENERS:
        at -= 1
    return not at or text[at - 1] == "\n"


def _after_spaces(text: str, at: int) -> int:
    while at < len(text) and text[at] in SPACES:
        at += 1
    return at


def _continues_word(text: str, at: int) -> bool:
    """Whether a character belongs to the word after it: a letter, or its apostrophe."""
    return _is_letter(text[at]) or (text[at] in _QUOTES and at > 0 and _is_letter(text[at - 1]))


def _is_letter(char: str) -> bool:
    """Whether it is a letter, a digit, or a sign that goes with a letter."""
    return char.isalnum() or unicodedata.category(char)[0] == "M"


MARKS: Mapping[str, tuple[str, ...]] = {
    "after_dots": ("..",),
    "after_dashes": ("--", "―"),
    "before_leading_dots": ("..", "…"),
    "leading_dots": ("..", "…"),
    "dots_alone": ("..", "…"),
    "stutters": ("-", "‐", "–", "—", "..", "…"),
    "one_letter_parts": ("-", "‐", "־", "/"),
    "before_dashes": ("-", "–", "—", "―", "⸺", "⸻"),
    "after_first_dash": ("-", "–", "—", "―", "⸺", "⸻"),
    "clusters": ("",),
    "short_phrases": ("",),
    "after_opening_dashes": ("—",),
    "wide_digits": tuple("０１２３４５６７８９"),
    "number_ranges": ("–", "—"),
    "number_groups": tuple("0123456789"),
    "curses": tuple(_SYMBOLS),
    "notes": tuple("♩♪♫♬🎵🎶"),
    "french_spaces": (*(f" {mark}" for mark in "!?:;%‰»›"), *SPACES[1:], "«", "‹"),
}
"""A text with none of a rule's marks has nothing for it; "" stands for what is not ASCII."""
