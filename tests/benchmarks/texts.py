"""Texts to time: dialogue and scripts from plays, words nobody has seen, and texts made to hurt."""

import random
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

from tests.plays import play_names, play_pages, play_script, speeches

CONSONANTS, VOWELS = "bdfghjklmnprstvwz", "aeiouy"

PUNCTUATION = ("", "", "", "", "", ",", ",", ".", "!", "?")


def dialogue(words: int, *, skip: int = 0) -> Iterator[str]:
    """Texts of so many words out of public-domain plays, in order, none twice.

    Args:
        words: Words of each text.
        skip: How many plays to leave out at the beginning.
    """
    plays = play_names()[skip:]
    flow = chain.from_iterable(s.text.split() for play in plays for s in speeches(play))
    text: list[str] = []
    for word in flow:
        text.append(word)
        if len(text) == words:
            yield " ".join(text)
            text = []


@dataclass(frozen=True, slots=True)
class TypedScript:
    """A script out of a play.

    Args:
        name: The play.
        text: The script as typed.
        texts: What its balloons say, in script order.
        pages: How many pages it has.
    """

    name: str
    text: str
    texts: tuple[str, ...]
    pages: int


def typed_script(play: str, *, pages: int) -> TypedScript:
    """The beginning of a play, typed as a script."""
    laid = play_pages(play, pages=pages)
    texts = tuple(speech.text for page in laid for panel in page for speech in panel)
    return TypedScript(play, play_script(play, pages=pages), texts, pages)


def typed_scripts(*, pages: int, skip: int = 0) -> Iterator[TypedScript]:
    """Scripts of so many pages, each out of another play.

    Args:
        pages: Pages of each.
        skip: How many plays to leave out at the beginning.
    """
    return (typed_script(play, pages=pages) for play in play_names()[skip:])


def strangers(words: int, *, seed: int = 1) -> Iterator[str]:
    """Texts of words that come once: nothing that was remembered of a word is of any use."""
    draw = random.Random(seed)  # noqa: S311 - no secret, and the same texts on every machine
    seen: set[str] = set()
    while True:
        text: list[str] = []
        while len(text) < words:
            syllables = range(draw.choice((1, 1, 2, 2, 2, 3)))
            word = "".join(draw.choice(CONSONANTS) + draw.choice(VOWELS) for _ in syllables)
            word += draw.choice(CONSONANTS)
            if word not in seen:
                seen.add(word)
                text.append(word + draw.choice(PUNCTUATION))
        yield " ".join(text)


HURTFUL = {
    "combining marks": "\u0301",
    "one word": "A",
    "spaces": " ",
    "hyphens": "-",
    "kerned hyphens": "T-",
    "stars": "*",
    "stars round letters": "*a ",
    "emphasised words": "*a* ",
    "soft hyphens": "A\u00ad",
    "words of both directions": "אב AB ",
    "brackets of both directions": "(א[",
    "embeddings": "\u202b\u202a",
    "isolates": "\u2067\u2066",
    "emoji joined": "\U0001f469\u200d",
    "lone surrogates": "\ud800",
    "control characters": "\x01\x07",
    "stutters": "N-",
    "dots": ".",
    "quotes": "'\"",
    "dashes and dots": "--...",
    "Thai letters": "กา",
    "Han characters": "門",
    "characters no font has": "\U00010900 ",
    "letters by turns from two fonts": "AЯ",
    "notes": "♪ ",
}
"""What texts that no letterer types are made of, again and again."""


def hostile(characters: int) -> dict[str, str]:
    """Texts of so many characters, each to be measured or refused within a second."""
    return {
        name: ("A" + unit * (characters // len(unit)))[:characters]
        for name, unit in HURTFUL.items()
    }
