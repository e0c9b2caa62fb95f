"""Pieces: a text cut at its breaks, with no font in sight."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from letterfit.lettering.breaks.breaks import COMICS, SPACES, Break, ruled_breaks
from letterfit.lettering.breaks.plain import plain_cut
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.fonts.coverage import is_always_covered
from letterfit.lettering.style.casing import base_language

HANGING = SPACES + "\u200b"
"""What a line may end in without showing it: spaces, and the break of no width."""

_WORD = re.compile(r"[^\W_][^\s—―…]*+")
"""A word from its first letter or digit on."""


Stretch = tuple[int, int]
"""Where something begins and ends in a text, as offsets of characters."""


@dataclass(frozen=True, eq=False, kw_only=True)
class Pieces:
    """Where the pieces of a text stand, and what parts them.

    Lists, because most texts are short; the arrays are made when they are asked for. (No slots:
    what is made is kept.)

    Args:
        text: The text, its forced line ends as spaces.
        starts: Where each piece begins in the text.
        ends: Where it ends, trailing spaces left out.
        prices: The price of ending a line after each piece; the last is 0.
        musts: Whether a line must end there; the last is True.
        counts: How many words start in each piece.
    """

    text: str
    starts: list[int]
    ends: list[int]
    prices: list[float]
    musts: list[bool]
    counts: list[int]

    def __len__(self) -> int:
        return len(self.starts)

    @cached_property
    def stretches(self) -> tuple[Stretch, ...]:
        """Start and end of each piece."""
        return tuple(zip(self.starts, self.ends, strict=True))

    @cached_property
    def joiners(self) -> tuple[str, ...]:
        """What stands between each piece and the next; the last is empty."""
        text, starts = self.text, self.starts
        between = zip(self.ends, starts[1:], strict=False)
        return (*(text[end:start] for end, start in between), *[""] * bool(starts))

    @cached_property
    def penalties(self) -> npt.NDArray[np.float64]:
        """The prices."""
        return np.array(self.prices, dtype=np.float64)

    @cached_property
    def forced(self) -> npt.NDArray[np.bool_]:
        """The forced ends."""
        return np.array(self.musts, dtype=np.bool_)

    @cached_property
    def word_counts(self) -> npt.NDArray[np.int64]:
        """The words that start in each piece."""
        return np.array(self.counts, dtype=np.int64)

    def first(self, count: int) -> "Pieces":
        """The first `count` pieces alone."""
        prices, musts = self.prices[:count], self.musts[:count]
        prices[-1:], musts[-1:] = [0.0] * len(prices[-1:]), [True] * len(musts[-1:])
        return Pieces(
            text=self.text[: self.ends[count - 1]] if prices else "",
            starts=self.starts[:count],
            ends=self.ends[:count],
            prices=prices,
            musts=musts,
            counts=self.counts[:count],
        )

    def runs_on(self) -> list[int]:
        """For each piece the last piece that may stand on its line: up to a forced break."""
        found = [0] * len(self)
        last = len(self) - 1
        for k in range(len(self) - 1, -1, -1):
            last = k if self.musts[k] else last
            found[k] = last
        return found


def text_pieces(text: str, *, language: str = "en", rules: BreakRules = COMICS) -> Pieces:
    r"""Cut a text at its breaks, as `cut_pieces(text, line_breaks(text))`, faster if it is plain.

    Args:
        text: As set, after upper-casing, without lone surrogates; "\n" is a forced line end.
        language: BCP 47 tag.
        rules: The rules on top of Unicode's.

    >>> pieces = text_pieces("SHUT THE GATE.")
    >>> pieces.starts, pieces.ends, pieces.prices
    ([0, 5, 9], [4, 8, 14], [0.1, 0.5, 0.0])
    """
    plain = plain_cut(text, base_language(language), rules)
    if plain is None:
        return cut_pieces(text, ruled_breaks(text, language, rules))
    count = len(plain.starts)
    return Pieces(
        text=text,
        starts=plain.starts,
        ends=plain.ends,
        prices=[*plain.prices, 0.0],
        musts=[False] * (count - 1) + [True],
        counts=plain.counts,
    )


def cut_pieces(text: str, breaks: Sequence[Break]) -> Pieces:
    """Cut a text at its breaks; no pieces when nothing of it can be seen.

    >>> pieces = cut_pieces("THE GATE", (Break(4, 0.5),))
    >>> pieces.stretches, pieces.joiners, pieces.word_counts.tolist()
    (((0, 3), (4, 8)), (' ', ''), [1, 1])
    """
    starts: list[int] = []
    ends: list[int] = []
    prices: list[float] = []
    musts: list[bool] = []
    start = 0
    for at, price, must in (
        (*breaks, Break(len(text), 0.0, forced=True)) if _is_visible(text) else ()
    ):
        end = start + len(text[start:at].rstrip(HANGING))
        if end > start:  # else spaces alone: they go to the piece before
            starts.append(start)
            ends.append(end)
            prices.append(price)
            musts.append(must)
        elif must and musts:  # "\n" on a line of its own after another
            musts[-1] = True
        start = at
    if starts:
        prices[-1], musts[-1] = 0.0, True
    return Pieces(
        text=text.replace("\n", " "),
        starts=starts,
        ends=ends,
        prices=prices,
        musts=musts,
        counts=_word_counts(text, starts),
    )


def _is_visible(text: str) -> bool:
    return any(map(str.isalnum, text)) or any(
        not char.isspace() and not is_always_covered(char) for char in dict.fromkeys(text)
    )


def words_in(text: str) -> Iterator[re.Match[str]]:
    """The words of a text: what stands between spaces, dashes or runs of dots.

    >>> sum(1 for _ in words_in("Wait--it's... the X-RAY!"))
    4
    """
    return _WORD.finditer(text.replace("--", "——").replace("..", "……"))


def _word_counts(text: str, starts: Sequence[int]) -> list[int]:
    """How many words start in each piece."""
    counts = [0] * len(starts)
    piece, last = 0, len(starts) - 1
    for match in words_in(text) if starts else ():
        at = match.start()
        while piece < last and starts[piece + 1] <= at:
            piece += 1
        counts[piece] += 1
    return counts
