"""A typed text as tokens: the words with the marks that stand with them, taken out as one."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from letterfit.lettering.breaks.pieces import words_in

_EMPHASIS = re.compile(r"(?<![\w*])(\*{1,2}|_)(?=[^\s*_])(.+?)(?<=[^\s*_])\1(?![\w*])")
_OPEN, _CLOSE = "\"'“‘«„([{¡¿", "\"'”’»)]}"
MARKS = ".,;:!?…—–-―"
SENTENCE_ENDS = ".!?…"


@dataclass(frozen=True, slots=True)
class Token:
    """One word, or what is typed together, with its marks.

    Args:
        text: As typed, without marks of emphasis.
        marks: The mark of emphasis round it: "*", "**", "_" or none.
        span: The number of the emphasised stretch it stands in; 0 for none.
        words: How many words the report counts in it.
    """

    text: str
    marks: str = ""
    span: int = 0
    words: int = 1

    @property
    def bare(self) -> str:
        """Its letters in lower case, without marks at either end.

        >>> Token("“Really?”").bare
        'really'
        """
        return _bare(self.text)

    @property
    def ending(self) -> str:
        """The marks after its letters, closing quotes left out.

        >>> Token("gate,”").ending
        ','
        """
        return _ending(self.text)

    @property
    def ends_sentence(self) -> bool:
        """Whether a sentence ends with it; a title such as "Mr." ends none."""
        title = self.bare in TITLES and self.ending == "."
        return bool(self.ending) and self.ending[-1] in SENTENCE_ENDS and not title

    @property
    def opens(self) -> bool:
        """Whether a quote or bracket opens at its head."""
        return self.text[:1] in _OPEN

    @property
    def closes(self) -> bool:
        """Whether one closes at its end."""
        return self.text[-1:] in _CLOSE


@lru_cache(maxsize=4096)
def _bare(text: str) -> str:
    kept = range(len(text))
    first = next((k for k in kept if text[k].isalnum()), len(text))
    last = next((k for k in reversed(kept) if text[k].isalnum()), -1)
    return text[first : last + 1].casefold().replace("’", "'")


@lru_cache(maxsize=4096)
def _ending(text: str) -> str:
    last = next((k for k in reversed(range(len(text))) if text[k].isalnum()), -1)
    return "".join(char for char in text[last + 1 :] if char in MARKS)


TITLES = frozenset("mr mrs ms dr st sir lady lord captain capt m mme mlle herr frau".split())  # noqa: SIM905 - a table reads best as words
"""Words that are part of the name after them (common practice, no source)."""


def tokens_of(text: str) -> tuple[Token, ...]:
    """The tokens of a text: what stands between spaces; marks that stand alone go with a neighbour.

    >>> [token.text for token in tokens_of("Well -- *hold on* now.")]
    ['Well --', 'hold', 'on', 'now.']
    """
    found: list[Token] = []
    head = ""
    for part, marks, span in _stretches(text):
        for typed in part.split():
            if word_count(typed):
                found.append(Token(f"{head} {typed}".lstrip(), marks, span, word_count(typed)))
                head = ""
            elif found:
                found[-1] = replace(found[-1], text=f"{found[-1].text} {typed}")
            else:
                head = f"{head} {typed}".lstrip()
    return tuple(found)


def _stretches(text: str) -> Iterable[tuple[str, str, int]]:
    """The text in stretches of one emphasis; a word emphasised in part stays as typed."""
    at, number = 0, 0
    for match in _EMPHASIS.finditer(text):
        before, after = text[at : match.start()], text[match.end() : match.end() + 1]
        if (before and not before[-1].isspace()) or (after and not after.isspace()):
            continue
        number += 1
        yield before, "", 0
        yield match[2], match[1], number
        at = match.end()
    yield text[at:], "", 0


def word_count(text: str) -> int:
    """How many words a text has, as the report counts them.

    >>> word_count("yes--no"), word_count("--"), word_count("lock-keeper")
    (2, 0, 1)
    """
    return sum(1 for _ in words_in(text))


def joined(tokens: Iterable[Token]) -> str:
    """The tokens as one text, emphasis marked.

    >>> joined(tokens_of("Well -- *hold on* now."))
    'Well -- *hold on* now.'
    """
    parts: list[str] = []
    last = Token("")
    for token in tokens:
        if parts and token.span and token.span == last.span:
            parts[-1] = parts[-1][: -len(token.marks)] + f" {token.text}{token.marks}"
        else:
            parts.append(f"{token.marks}{token.text}{token.marks}")
        last = token
    return " ".join(parts)
