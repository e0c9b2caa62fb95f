"""Punctuation: dashes, ellipses and quotes brought to the one way a book keeps to.

A writer's typing is never changed unless asked for: each policy is "as-typed" by default. Chinese
and Japanese keep their own long dashes and six dots (Requirements for Chinese and for Japanese Text
Layout, W3C).
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from letterfit.lettering.casing import base_language
from letterfit.lettering.emphasis import Span
from letterfit.lettering.habits import Dashes, Ellipses, Habits

_OWN_WAYS = {"ja", "zh", "yue"}

_DASHES: dict[Dashes, tuple[re.Pattern[str], str]] = {
    # Between digits an en dash is a range, no break in speech.
    "double-hyphen": (re.compile(r"[—―]|(?<!\d)–|–(?!\d)"), "--"),
    "em-dash": (re.compile(r"(?<!-)-{2,3}(?!-)|―|(?<!\d)–|–(?!\d)"), "—"),
}
_ELLIPSES: dict[Ellipses, tuple[re.Pattern[str], str]] = {
    "three-dots": (re.compile("…"), "..."),
    "ellipsis-character": (re.compile(r"\.{3}"), "…"),
}


class Edit(NamedTuple):
    """Characters start .. end of a text become others."""

    start: int
    end: int
    text: str


def punctuate(spans: tuple[Span, ...], habits: Habits, language: str) -> tuple[Span, ...]:
    """The spans with dashes, ellipses and quotes by the habits; styles stay where they were.

    >>> punctuate((Span("No… wait—", "bold"),), Habits(dashes="double-hyphen"), "en")
    (Span(text='No… wait--', style='bold'),)
    """
    if habits.dashes == habits.ellipses == habits.quotes == "as-typed":
        return spans
    text = "".join(span.text for span in spans)
    edits = sorted(_edits(text, habits, language))
    return tuple(_edited(spans, edits)) if edits else spans


def _edits(text: str, habits: Habits, language: str) -> Iterator[Edit]:
    """Every change; none of them overlap, since each policy has characters of its own."""
    if base_language(language) not in _OWN_WAYS:
        for pattern, mark in (
            *((_DASHES[habits.dashes],) if habits.dashes in _DASHES else ()),
            *((_ELLIPSES[habits.ellipses],) if habits.ellipses in _ELLIPSES else ()),
        ):
            yield from (Edit(match.start(), match.end(), mark) for match in pattern.finditer(text))


def _edited(spans: Sequence[Span], edits: Sequence[Edit]) -> Iterator[Span]:
    """The spans with the edits made; what spans a change of style goes with the style before."""
    start, at, waiting = 0, 0, iter(edits)
    edit = next(waiting, None)
    for span in spans:
        end = start + len(span.text)
        parts: list[str] = []
        at = max(at, start)
        while edit is not None and edit.start < end:
            parts += [span.text[at - start : edit.start - start], edit.text]
            at = edit.end
            edit = next(waiting, None)
        parts.append(span.text[at - start :])
        text = "".join(parts)
        if text:
            yield Span(text, span.style)
        start = end
