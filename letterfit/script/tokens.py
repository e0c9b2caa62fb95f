"""Tokens: the first words, numbers and signs of a line, for the grammar of headings."""

import re
from dataclasses import dataclass
from typing import Literal

from letterfit.script.folding import fold

LONGEST_HEADING = 160
"""Characters of a line in which a heading must be complete; what follows is not looked at."""

DASHES = "-–—‐‑−"
END_SIGNS = frozenset(".:,;/|()[]（）［］【】：．。、・〜~#*" + DASHES)
"""Signs at which a heading may end; "Panel two!" is somebody's shout."""

_TOKEN = re.compile(
    r"(?P<number>\d+(?:\.\d+)*(?:[A-Za-z](?![^\W_]))?)"
    r"|(?P<kanji>[〇一二三四五六七八九十]+(?=\s*(?:ページ|頁|コマ|$)))"
    r"|(?P<japanese>(?:ページ|頁|コマ)目?|見開き|パネル|第)"
    r"|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*)"
    r"|(?P<sign>[^\w\s]|_)"
)


@dataclass(frozen=True, slots=True)
class Token:
    """One word, number or sign of a line, and where it stands.

    Args:
        kind: "word", "number" or "sign"; kanji numerals are words.
        text: As typed.
        key: Folded, for matching.
        start: Offset of its first character in the line.
        end: Offset behind its last.
    """

    kind: Literal["word", "number", "sign"]
    text: str
    key: str
    start: int
    end: int


def tokens_of(text: str) -> tuple[Token, ...]:
    """The tokens in the first LONGEST_HEADING characters of a line.

    >>> [token.text for token in tokens_of("PAGE 4-5 (五コマ)")]
    ['PAGE', '4', '-', '5', '(', '五', 'コマ', ')']
    """
    return tuple(
        _token(match) for match in _TOKEN.finditer(text, 0, min(len(text), LONGEST_HEADING))
    )


def first_token(text: str) -> Token | None:
    """The first word or number of a line, signs before it left out.

    >>> first_token("**PAGE 1**").text
    'PAGE'
    """
    for match in _TOKEN.finditer(text, 0, min(len(text), LONGEST_HEADING)):
        if match.lastgroup != "sign":
            return _token(match)
    return None


def _token(match: re.Match[str]) -> Token:
    kind: Literal["word", "number", "sign"] = "word"
    if match.lastgroup == "number":
        kind = "number"
    elif match.lastgroup == "sign":
        kind = "sign"
    text = match.group()
    return Token(kind, text, fold(text), match.start(), match.end())
