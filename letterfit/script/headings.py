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
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from string import ascii_letters

from letterfit.script import headwords as words
from letterfit.script.numbers import number_of
from letterfit.script.tokens import Token, tokens_of

_DASHES = "-–—‐‑−"
_END_SIGNS = frozenset(".:,;/|()[]（）［］【】：．。、・〜~#*" + _DASHES)
_RANGE_SIGNS = frozenset("/&+〜~～・、," + _DASHES)
_LONGEST_NUMBER_WORD = 5  # tokens: "vingt et un", "quatre-vingt-dix"
_FARTHEST_RANGE = 12  # "PAGES 4-99" is no heading of one page
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


@dataclass(frozen=True, slots=True)
class _Number:
    """A number found among tokens: its value where it has one, as typed, and where it ends."""

    value: int | None
    typed: str
    after: int


@dataclass(slots=True)
class _Remarks:
    """What the words after a page's number say."""

    spread: bool = False
    splash: bool = False
    panel_count: int | None = None
    after: int = field(default=0)


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
    keyword = _keyword(tokens, at, words.PAGE_WORDS)
    if keyword:
        number = _number(tokens, at + 1)
    else:
        keyword, number = _number_first(tokens, words.PAGE_WORDS)
    number = _without_letter(number)
    if keyword is None or number is None or number.value is None:
        return None
    if keyword.key in words.SHORT_PAGE_WORDS and not number.typed.isdecimal():
        return None
    numbers, after = _page_range(tokens, number)
    remarks = _remarks(tokens, after)
    heading = PageHeading(
        numbers=numbers,
        # "DOUBLE PAGE 4-5": a lead such as "double" before the keyword says spread, too.
        spread=len(numbers) == 2 or remarks.spread or _leads_to_spread(tokens[: at + 1]),
        splash=remarks.splash or any(t.key in words.SPLASH_WORDS for t in tokens[:at]),
        panel_count=remarks.panel_count,
        languages=words.PAGE_WORDS[keyword.key],
    )
    return _finish_page(text, heading, tokens=tokens, after=remarks.after, keyword=keyword)


def panel_heading(text: str) -> PanelHeading | None:
    """The panel heading that a line is, if it is one.

    >>> panel_heading("Panel 4. From behind her: a barge horn.")
    PanelHeading(number=4, rest='From behind her: a barge horn.', languages=('en', 'de', 'es', 'nl'))
    >>> panel_heading("２コマ目").number, panel_heading("PANEL 4.1").number
    (2, '4.1')
    >>> panel_heading("Panel 3 is a mirror of this one.") is None
    True
    """
    tokens = tokens_of(text)
    if not tokens:
        return None
    keyword = _keyword(tokens, 0, words.PANEL_WORDS)
    if keyword is None:
        keyword, number = _number_first(tokens, words.PANEL_WORDS)
        if keyword is None or number is None:
            return None
    else:
        number = _number(tokens, 1)
        if number is None:
            return _unnumbered(text, tokens, keyword)
    typed, after = _panel_range(tokens, number)
    if not _ends(text, tokens, at=after, keyword=keyword):
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
    if not _ends(text, tokens, at=after, keyword=keyword):
        return None
    return replace(heading, rest=rest)


def _keyword(
    tokens: Sequence[Token], at: int, table: Mapping[str, tuple[str, ...]]
) -> Token | None:
    return tokens[at] if at < len(tokens) and tokens[at].key in table else None


def _skip_leads(tokens: Sequence[Token]) -> int:
    """Where the keyword must stand: behind "splash", "double", "DOUBLE-PAGE SPREAD:" and such."""
    lead = words.LEAD_WORDS | words.SPREAD_WORDS
    at = 0
    while at < min(len(tokens), 8) and tokens[at].key in lead | {"page", "-", ":", ",", "–", "—"}:
        at += 1
    while at and not _keyword(tokens, at, words.PAGE_WORDS):
        at -= 1
    return at


def _leads_to_spread(tokens: Sequence[Token]) -> bool:
    return any(token.key in words.SPREAD_WORDS for token in tokens)


def _number(tokens: Sequence[Token], at: int) -> _Number | None:
    """The longest number that begins at a token, an ordinal mark behind it included."""
    if at < len(tokens) and tokens[at].text == ".":
        at += 1  # "Pg. 3"
    if at >= len(tokens):
        return None
    if tokens[at].key in {"#", "n", "no", "nr", "第"} and at + 1 < len(tokens):
        at += 1
    if tokens[at].kind == "number":
        return _digits(tokens, at)
    for length in range(min(_LONGEST_NUMBER_WORD, len(tokens) - at), 0, -1):
        piece = tokens[at : at + length]
        if any(t.kind == "number" or (t.kind == "sign" and t.text not in _DASHES) for t in piece):
            continue
        value = number_of("".join(t.text if len(piece) == 1 else t.key for t in piece))
        if value is not None and piece[-1].kind == "word":
            return _Number(value, piece[0].text, at + length)
    return None


def _digits(tokens: Sequence[Token], at: int) -> _Number:
    token = tokens[at]
    after = at + 1
    follows = tokens[after] if after < len(tokens) else None
    if follows and follows.start == token.end and follows.key in words.ORDINAL_MARKS:
        after += 1
    typed = unicodedata.normalize("NFKC", token.text)
    return _Number(number_of(typed), typed, after)


def _without_letter(number: _Number | None) -> _Number | None:
    """The number 3 of a page "3A": pages are counted in whole numbers."""
    if number is None or number.value is not None:
        return number
    return replace(number, value=number_of(number.typed.rstrip(ascii_letters)))


def _number_first(
    tokens: Sequence[Token], table: Mapping[str, tuple[str, ...]]
) -> tuple[Token | None, _Number | None]:
    """3ページ, ２コマ目; and "2. Bild" or "1ª viñeta", but not "3 panels"."""
    at = 1 if tokens and tokens[0].key == "第" else 0
    number = _number(tokens, at) if tokens else None
    if number is None:
        return None, None
    after = number.after
    marked = after > at + 1
    if after < len(tokens) and tokens[after].text == "." and tokens[at].kind == "number":
        after, marked = after + 1, True
    keyword = _keyword(tokens, after, table)
    if keyword is None or not (marked or "ja" in table[keyword.key]):
        return None, None
    return keyword, replace(number, after=after + 1)


def _page_range(tokens: Sequence[Token], first: _Number) -> tuple[tuple[int, ...], int]:
    """The pages that "4-5", "FOUR AND FIVE" or "4/5" names; "2 - 5 panels" and "3/24" name one."""
    start = first.value or 0
    second = _second(tokens, first.after)
    if second is None or second.value is None:
        return (start,), first.after
    counts_panels = _keyword(tokens, second.after, words.PANEL_WORDS) is not None
    step = second.value - start
    slash = tokens[first.after].text == "/"
    if counts_panels or not 0 < step <= _FARTHEST_RANGE or (slash and step != 1):
        return (start,), second.after if slash and step >= 0 else first.after
    return tuple(range(start, second.value + 1)), second.after


def _panel_range(tokens: Sequence[Token], first: _Number) -> tuple[int | str, int]:
    """The panel's number as typed: 3, "4.1", "3A", or "2-3" where one heading names two."""
    number: int | str = first.typed if first.value is None else first.value
    second = _second(tokens, first.after)
    if second is None or second.value is None or first.value is None:
        return number, first.after
    sign = tokens[first.after].text
    tight = tokens[first.after].start == tokens[first.after - 1].end
    if sign == "/":
        return number, second.after
    if second.value <= first.value or (sign in _DASHES and not tight):
        return number, first.after
    return f"{first.value}-{second.value}", second.after


def _second(tokens: Sequence[Token], at: int) -> _Number | None:
    """The number behind a joining sign or word."""
    if at >= len(tokens):
        return None
    if tokens[at].text in _RANGE_SIGNS or tokens[at].key in words.JOINER_WORDS:
        return _number(tokens, at + 1)
    return None


def _remarks(tokens: Sequence[Token], at: int) -> _Remarks:
    """What the words behind a page's number say, as far as they say anything."""
    found = _Remarks(after=at)
    while at < len(tokens):
        token = tokens[at]
        step = _remark(tokens, at, found)
        if step:
            at += step
            found.after = at
        elif token.text in _END_SIGNS or token.key in words.FILLER_WORDS:
            at += 1
        else:
            return found
    found.after = at if found.after or at else 0
    return found


def _remark(tokens: Sequence[Token], at: int, found: _Remarks) -> int:
    """Note one remark; how many tokens it takes, 0 if there is none."""
    key = tokens[at].key
    count = _number(tokens, at)
    if count and count.value and (noun := _keyword(tokens, count.after, words.PANEL_WORDS)):
        after = count.after + 1
        if noun.key.endswith("目") or not _pauses(tokens, after):
            return 0
        found.panel_count = count.value
        return after - at
    if key in words.OF_WORDS and (total := _number(tokens, at + 1)):
        return total.after - at
    if key in words.SPLASH_WORDS | words.SPREAD_WORDS:
        after = at + 1
        while (
            after < len(tokens)
            and tokens[after].key in words.PAGE_WORDS.keys() | words.SPREAD_WORDS
        ):
            after += 1
        if not _pauses(tokens, after):
            return 0
        found.splash |= key in words.SPLASH_WORDS
        found.spread |= any(t.key in words.SPREAD_WORDS for t in tokens[at:after])
        return after - at
    return 0


def _pauses(tokens: Sequence[Token], at: int) -> bool:
    """Whether the sense stops before a token, so that what stood before it was a remark."""
    if at >= len(tokens):
        return True
    token = tokens[at]
    return token.text in _END_SIGNS or token.kind == "number" or token.key in words.FILLER_WORDS


def _unnumbered(text: str, tokens: Sequence[Token], keyword: Token) -> PanelHeading | None:
    """ "PANEL:" without a number, where the word means nothing else."""
    if keyword.key in words.LOOSE_PANEL_WORDS:
        return None
    if len(tokens) > 1 and not (tokens[1].text in ":：." and tokens[1].start == keyword.end):
        return None
    rest = _rest(text, tokens, 1)
    return PanelHeading(number=None, rest=rest, languages=words.PANEL_WORDS[keyword.key])


def _ends(text: str, tokens: Sequence[Token], *, at: int, keyword: Token) -> bool:
    """Whether the heading ends before a token: at a pause, or where a new sentence begins."""
    if at >= len(tokens) or tokens[at].text in _END_SIGNS:
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
