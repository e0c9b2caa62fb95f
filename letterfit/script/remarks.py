"""Remarks behind a page's number: how many panels, splash, spread, "of 24"."""

from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.script import headwords as words
from letterfit.script.heading_numbers import keyword_at, number_at
from letterfit.script.tokens import END_SIGNS, Token


@dataclass(slots=True)
class Remarks:
    """What the words after a page's number say."""

    spread: bool = False
    splash: bool = False
    panel_count: int | None = None
    after: int = 0


def remarks_at(tokens: Sequence[Token], at: int) -> Remarks:
    """What the words behind a page's number say, as far as they say anything."""
    found = Remarks(after=at)
    while at < len(tokens):
        token = tokens[at]
        step = _remark(tokens, at, found)
        if step:
            at += step
            found.after = at
        elif token.text in END_SIGNS or token.key in words.FILLER_WORDS:
            at += 1
        else:
            return found
    found.after = at
    return found


def _remark(tokens: Sequence[Token], at: int, found: Remarks) -> int:
    """Note one remark; how many tokens it takes, 0 if there is none."""
    key = tokens[at].key
    count = number_at(tokens, at)
    if count and count.value and (noun := keyword_at(tokens, count.after, words.PANEL_WORDS)):
        after = count.after + 1
        if noun.key.endswith("目") or not _pauses(tokens, after):
            return 0
        found.panel_count = count.value
        return after - at
    if key in words.OF_WORDS and (total := number_at(tokens, at + 1)):
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
    return token.text in END_SIGNS or token.kind == "number" or token.key in words.FILLER_WORDS
