"""Punctuation: dashes, ellipses and quotes brought to the one way a book keeps to.

A writer's typing is never changed unless asked for: each policy is "as-typed" by default. Chinese
and Japanese keep their own long dashes and six dots (W3C, Requirements for Chinese, and for
Japanese, Text Layout, from memory). So does a dash that opens a speech in other languages than
English: it says that someone speaks (common practice, no source).
"""

import re
from collections.abc import Iterator

from letterfit.lettering.style.casing import base_language
from letterfit.lettering.style.edits import Edit, edited
from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.style.habits import Dashes, Ellipses, Habits
from letterfit.lettering.style.quotes import curly, straight

OWN_WAYS = frozenset({"ja", "yue", "zh"})
"""Languages whose dashes and ellipses are two characters wide and no matter of policy."""

_DASHES: dict[Dashes, tuple[re.Pattern[str], str]] = {
    # Between digits an en dash is a range, no break in speech.
    "double-hyphen": (re.compile(r"[—―]|(?<!\d)–|–(?!\d)"), "--"),
    "em-dash": (re.compile(r"(?<!-)-{2,3}(?!-)|―|(?<!\d)–|–(?!\d)"), "—"),
}
_ELLIPSES: dict[Ellipses, tuple[re.Pattern[str], str]] = {
    "three-dots": (re.compile("…"), "..."),
    "ellipsis-character": (re.compile(r"\.{3}"), "…"),
}


def punctuate(spans: tuple[Span, ...], habits: Habits, language: str) -> tuple[Span, ...]:
    """The spans with dashes, ellipses and quotes by the habits; styles stay where they were.

    Args:
        spans: A text, cut where its style changes.
        habits: Its policies.
        language: BCP 47 tag.

    Returns:
        The spans themselves when nothing is changed. No letter, digit or space is touched; French
        quotes get their no-break spaces.

    >>> punctuate((Span("No… wait—", "bold"),), Habits(dashes="double-hyphen"), "en")
    (Span(text='No… wait--', style='bold'),)
    """
    if habits.dashes == habits.ellipses == habits.quotes == "as-typed":
        return spans
    text = "".join([span.text for span in spans])
    edits = sorted((*_dashes(text, habits, language), *_quotes(text, habits, language)))
    return edited(spans, edits) if edits else spans


def _dashes(text: str, habits: Habits, language: str) -> Iterator[Edit]:
    """The changes to dashes and ellipses."""
    base = base_language(language)
    if base in OWN_WAYS:
        return
    if habits.dashes in _DASHES:
        pattern, mark = _DASHES[habits.dashes]
        for match in pattern.finditer(text):
            if match.start() or base == "en":
                yield Edit(match.start(), match.end(), mark)
    if habits.ellipses in _ELLIPSES:
        pattern, mark = _ELLIPSES[habits.ellipses]
        yield from (Edit(match.start(), match.end(), mark) for match in pattern.finditer(text))


def _quotes(text: str, habits: Habits, language: str) -> Iterator[Edit]:
    if habits.quotes == "curly":
        yield from curly(text, language)
    elif habits.quotes == "straight":
        yield from straight(text)
