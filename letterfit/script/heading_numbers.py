"""The numbers of headings: single ones, ranges, and the keywords beside them, among tokens."""

import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from string import ascii_letters

from letterfit.script import headwords as words
from letterfit.script.numbers import number_of
from letterfit.script.tokens import DASHES, Token

_RANGE_SIGNS = frozenset("/&+〜~～・、," + DASHES)
_LONGEST_NUMBER_WORD = 5  # tokens: "vingt et un", "quatre-vingt-dix"
_FARTHEST_RANGE = 12  # "PAGES 4-99" is no heading of one page


@dataclass(frozen=True, slots=True)
class Number:
    """A number found among tokens: its value where it has one, as typed, and where it ends."""

    value: int | None
    typed: str
    after: int


def keyword_at(
    tokens: Sequence[Token], at: int, table: Mapping[str, tuple[str, ...]]
) -> Token | None:
    """The token at a place if it is a keyword of a table."""
    return tokens[at] if at < len(tokens) and tokens[at].key in table else None


def number_at(tokens: Sequence[Token], at: int) -> Number | None:
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
        if any(t.kind == "number" or (t.kind == "sign" and t.text not in DASHES) for t in piece):
            continue
        value = number_of("".join(t.text if len(piece) == 1 else t.key for t in piece))
        if value is not None and piece[-1].kind == "word":
            return Number(value, piece[0].text, at + length)
    return None


def _digits(tokens: Sequence[Token], at: int) -> Number:
    token = tokens[at]
    after = at + 1
    follows = tokens[after] if after < len(tokens) else None
    if follows and follows.start == token.end and follows.key in words.ORDINAL_MARKS:
        after += 1
    typed = unicodedata.normalize("NFKC", token.text)
    return Number(number_of(typed), typed, after)


def without_letter(number: Number | None) -> Number | None:
    """The number 3 of a page "3A": pages are counted in whole numbers."""
    if number is None or number.value is not None:
        return number
    return replace(number, value=number_of(number.typed.rstrip(ascii_letters)))


def number_first(
    tokens: Sequence[Token], table: Mapping[str, tuple[str, ...]]
) -> tuple[Token | None, Number | None]:
    """3ページ, ２コマ目; and "2. Bild" or "1ª viñeta", but not "3 panels"."""
    at = 1 if tokens and tokens[0].key == "第" else 0
    number = number_at(tokens, at) if tokens else None
    if number is None:
        return None, None
    after = number.after
    marked = after > at + 1
    if after < len(tokens) and tokens[after].text == "." and tokens[at].kind == "number":
        after, marked = after + 1, True
    keyword = keyword_at(tokens, after, table)
    if keyword is None or not (marked or "ja" in table[keyword.key]):
        return None, None
    return keyword, replace(number, after=after + 1)


def page_range(tokens: Sequence[Token], first: Number) -> tuple[tuple[int, ...], int]:
    """The pages that "4-5", "FOUR AND FIVE" or "4/5" names; "2 - 5 panels" and "3/24" name one."""
    start = first.value or 0
    second = _second(tokens, first.after)
    if second is None or second.value is None:
        return (start,), first.after
    counts_panels = keyword_at(tokens, second.after, words.PANEL_WORDS) is not None
    step = second.value - start
    slash = tokens[first.after].text == "/"
    if counts_panels:
        return (start,), first.after
    if slash and step != 1:
        return (start,), second.after if step >= 0 else first.after
    if not 0 < step <= _FARTHEST_RANGE:
        return (start,), first.after
    return tuple(range(start, second.value + 1)), second.after


def pages_first(tokens: Sequence[Token]) -> tuple[Token, tuple[int, ...], int] | None:
    """２・３ページ, 第2-3頁: the keyword behind the pages of a spread, and where both end."""
    first = number_at(tokens, 0)
    if first is None or first.value is None:
        return None
    numbers, after = page_range(tokens, first)
    keyword = keyword_at(tokens, after, words.PAGE_WORDS)
    if keyword is None or len(numbers) < 2 or "ja" not in words.PAGE_WORDS[keyword.key]:
        return None
    return keyword, numbers, after + 1


def panel_range(tokens: Sequence[Token], first: Number) -> tuple[int | str, int]:
    """The panel's number as typed: 3, "4.1", "3A", or "2-3" where one heading names two."""
    number: int | str = first.typed if first.value is None else first.value
    second = _second(tokens, first.after)
    if second is None or second.value is None or first.value is None:
        return number, first.after
    sign = tokens[first.after].text
    tight = tokens[first.after].start == tokens[first.after - 1].end
    if sign == "/":
        return number, second.after
    if second.value <= first.value or (sign in DASHES and not tight):
        return number, first.after
    return f"{first.value}-{second.value}", second.after


def _second(tokens: Sequence[Token], at: int) -> Number | None:
    """The number behind a joining sign or word."""
    if at >= len(tokens):
        return None
    if tokens[at].text in _RANGE_SIGNS or tokens[at].key in words.JOINER_WORDS:
        return number_at(tokens, at + 1)
    return None
