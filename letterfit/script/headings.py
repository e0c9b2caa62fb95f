"""Headings: what makes a line the heading of a page or of a panel.

The grammar, in all languages at once (words in `letterfit.script.headwords`)::

    page    = {lead} PAGE number [joiner number] {remark} end
            | ["第"] number [ordinal] PAGE {remark} end
    panel   = PANEL [number [joiner number]] end  |  number [ordinal] PANEL end
    remark  = count PANEL | splash | spread | continued | "of" number
    end     = end of line | one of  . : , ; - – — / | ( [ ) ]  | words that go on as a new sentence

After a page heading a panel heading may follow on the same line ("Planche 2, Case 1 :"). What
stands behind the end is description. A keyword followed by "number and then small letters"
("Page 4 should echo this", "Panel 3 is a mirror") is prose, unless the keyword is in capitals.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from letterfit.script import headwords as words
from letterfit.script.heading_numbers import (
    keyword_at,
    number_at,
    number_first,
    page_range,
    pages_first,
    panel_range,
    without_letter,
)
from letterfit.script.markup import peel, unframed
from letterfit.script.remarks import remarks_at
from letterfit.script.tokens import END_SIGNS, Token, first_token, tokens_of

_AFTER_NUMBER = re.compile(r"\s*[)\]）］】]?\s*(?:[-–—]{1,3}(?=\s|$)|[:.,;/|：．。、・])*\s*")
_QUOTES = frozenset("\"'“‘«„「『")
_OPEN, _CLOSE = "([（［【", ")]）］】"


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelHeading:
    """The heading of a panel.

    Args:
        number: As typed, 3 or "4.1"; None for a heading without a number.
        rest: What follows on the line, as typed.
        languages: The languages that use its keyword.
    """

    number: int | str | None
    rest: str = ""
    languages: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PageHeading:
    """The heading of a page or spread.

    Args:
        numbers: The page's number, or those of a spread.
        spread: Whether it is a double-page spread.
        splash: Whether it says that one picture fills the page.
        panel_count: The number of panels it states, if any.
        rest: What follows on the line, as typed.
        panel: The panel heading on the same line, if any; `rest` is then the panel's.
        languages: The languages that use its keyword.
    """

    numbers: tuple[int, ...]
    spread: bool = False
    splash: bool = False
    panel_count: int | None = None
    rest: str = ""
    panel: PanelHeading | None = None
    languages: tuple[str, ...] = ()


def may_be_heading(text: str) -> bool:
    """Whether a line begins as a heading must, with a keyword or a number; quick to tell.

    >>> may_be_heading("> PAGE 1"), may_be_heading("WENNA: Page 1!")
    (True, False)
    """
    first = first_token(text)
    if first is None:
        return False
    return (
        first.kind == "number"
        or first.key in words.FIRST_WORDS
        or not words.KANJI.isdisjoint(first.text)
    )


@lru_cache(maxsize=4096)
def heading_of(text: str) -> PageHeading | PanelHeading | None:
    """The page or panel heading that a line is, Markdown and frames taken off.

    >>> heading_of("## **Page 1**").numbers, heading_of("=== PAGE 2 ===").numbers
    ((1,), (2,))
    """
    if not may_be_heading(text):
        return None
    peeled = peel(text).text
    heading = page_heading(peeled) or panel_heading(peeled)
    if heading is None and (plain := unframed(text)) != text:
        heading = page_heading(plain) or panel_heading(plain)
    return heading


def page_heading(text: str) -> PageHeading | None:
    """The page heading that a line is, if it is one.

    >>> page_heading("PAGES FOUR AND FIVE (spread, six panels)").panel_count
    6
    >>> page_heading("Planche 2, Case 1 :").panel.number
    1
    >>> page_heading("Page 4 should echo this one.") is None
    True
    """
    tokens = tokens_of(text)
    at = _skip_leads(tokens)
    found = _keyword_and_pages(tokens, at)
    if found is None:
        return None
    keyword, numbers, after = found
    remarks = remarks_at(tokens, after)
    heading = PageHeading(
        numbers=numbers,
        # "DOUBLE PAGE 4-5": a lead such as "double" before the keyword says spread, too.
        spread=len(numbers) == 2 or remarks.spread or _leads_to_spread(tokens[: at + 1]),
        splash=remarks.splash or any(t.key in words.SPLASH_WORDS for t in tokens[:at]),
        panel_count=remarks.panel_count,
        languages=words.PAGE_WORDS[keyword.key],
    )
    return _finish_page(text, heading, tokens=tokens, after=remarks.after, keyword=keyword)


def _keyword_and_pages(
    tokens: Sequence[Token], at: int
) -> tuple[Token, tuple[int, ...], int] | None:
    """The keyword of a page heading, the pages it names, and where they end."""
    keyword = keyword_at(tokens, at, words.PAGE_WORDS)
    if keyword:
        number = number_at(tokens, at + 1)
    else:
        keyword, number = number_first(tokens, words.PAGE_WORDS)
        if keyword is None:
            return pages_first(tokens)
    number = without_letter(number)
    if keyword is None or number is None or number.value is None:
        return None
    if keyword.key in words.SHORT_PAGE_WORDS and not number.typed.isdecimal():
        return None
    return keyword, *page_range(tokens, number)


def panel_heading(text: str) -> PanelHeading | None:
    """The panel heading that a line is, if it is one.

    >>> panel_heading("Case 4. Derrière elle : une corne.")
    PanelHeading(number=4, rest='Derrière elle : une corne.', languages=('fr',))
    >>> panel_heading("２コマ目").number, panel_heading("PANEL 4.1").number
    (2, '4.1')
    >>> panel_heading("Panel 3 is a mirror of this one.") is None
    True
    """
    tokens = tokens_of(text)
    if not tokens:
        return None
    keyword = keyword_at(tokens, 0, words.PANEL_WORDS)
    if keyword is None:
        keyword, number = number_first(tokens, words.PANEL_WORDS)
        if keyword is None or number is None:
            return None
    else:
        number = number_at(tokens, 1)
        if number is None:
            return _unnumbered(text, tokens, keyword)
    typed, after = panel_range(tokens, number)
    if not _ends(tokens, at=after, keyword=keyword):
        return None
    rest = _rest(text, tokens, after)
    return PanelHeading(number=typed, rest=rest, languages=words.PANEL_WORDS[keyword.key])


def _finish_page(
    text: str, heading: PageHeading, *, tokens: Sequence[Token], after: int, keyword: Token
) -> PageHeading | None:
    rest = _rest(text, tokens, after)
    panel = panel_heading(rest) if rest else None
    if panel is not None:
        languages = tuple(x for x in heading.languages if x in panel.languages)
        both = replace(panel, languages=languages or panel.languages)
        return replace(heading, panel=both, rest=panel.rest)
    if not _ends(tokens, at=after, keyword=keyword):
        return None
    return replace(heading, rest=rest)


def _skip_leads(tokens: Sequence[Token]) -> int:
    """Where the keyword must stand: behind "splash", "double", "DOUBLE-PAGE SPREAD:" and such."""
    lead = words.LEAD_WORDS | words.SPREAD_WORDS
    at = 0
    while at < min(len(tokens), 8) and tokens[at].key in lead | {"page", "-", ":", ",", "–", "—"}:
        at += 1
    while at and not keyword_at(tokens, at, words.PAGE_WORDS):
        at -= 1
    return at


def _leads_to_spread(tokens: Sequence[Token]) -> bool:
    return any(token.key in words.SPREAD_WORDS for token in tokens)


def _unnumbered(text: str, tokens: Sequence[Token], keyword: Token) -> PanelHeading | None:
    """A heading such as PANEL: without a number, where the word means nothing else."""
    plural = keyword.key.endswith(("s", "bilder", "kaders", "目"))
    if plural or not (keyword.key in words.UNNUMBERED_PANEL_WORDS or keyword.text.isupper()):
        return None
    if len(tokens) > 1 and not (tokens[1].text in ":：." and tokens[1].start == keyword.end):
        return None
    rest = _rest(text, tokens, 1)
    return PanelHeading(number=None, rest=rest, languages=words.PANEL_WORDS[keyword.key])


def _ends(tokens: Sequence[Token], *, at: int, keyword: Token) -> bool:
    """Whether the heading ends before a token: at a pause, or where a new sentence begins."""
    if at >= len(tokens) or tokens[at].text in END_SIGNS:
        return True
    follows = tokens[at].text
    if tokens[at].kind == "sign":
        return follows in _QUOTES
    return keyword.text.isupper() or not follows[0].islower()


def _rest(text: str, tokens: Sequence[Token], at: int) -> str:
    """What stands behind the heading's last token, without the signs that part them."""
    offset = tokens[at - 1].end if at else 0
    behind = _AFTER_NUMBER.match(text, offset)
    rest = text[behind.end() :] if behind else text[offset:]
    return rest if rest.strip(_OPEN + _CLOSE + " ") else ""
