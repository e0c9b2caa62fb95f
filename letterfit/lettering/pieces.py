"""Pieces: a text cut at its breaks, with no font in sight."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from letterfit.lettering.breaks import SPACES, Break
from letterfit.lettering.face import is_always_covered

HANGING = SPACES + "\u200b"
"""What a line may end in without showing it: spaces, and the break of no width."""

_WORD = re.compile(r"[^\s—―…]+")


@dataclass(frozen=True, slots=True, eq=False)
class Pieces:
    """Where the pieces of a text stand, and what parts them.

    Args:
        stretches: Where each piece begins and ends in the text, trailing spaces left out.
        joiners: What stands between each piece and the next; the last is empty.
        penalties: The price of ending a line after each piece; the last is 0.
        forced: Whether a line must end there; the last is True.
        word_counts: How many words start in each piece.
    """

    stretches: tuple[tuple[int, int], ...]
    joiners: tuple[str, ...]
    penalties: npt.NDArray[np.float64]
    forced: npt.NDArray[np.bool_]
    word_counts: npt.NDArray[np.int64]

    def runs_on(self) -> list[int]:
        """For each piece the last piece that may stand on its line: up to a forced break."""
        ends = np.flatnonzero(self.forced)
        last: list[int] = ends[np.searchsorted(ends, np.arange(len(self.forced)))].tolist()
        return last


def cut_pieces(text: str, breaks: Sequence[Break]) -> Pieces:
    """Cut a text at its breaks; no pieces when nothing of it can be seen.

    >>> pieces = cut_pieces("THE GATE", (Break(4, 0.5),))
    >>> pieces.stretches, pieces.joiners, pieces.word_counts.tolist()
    (((0, 3), (4, 8)), (' ', ''), [1, 1])
    """
    stretches: list[tuple[int, int]] = []
    prices: list[float] = []
    forced: list[bool] = []
    start = 0
    for at, price, must in (
        (*breaks, Break(len(text), 0.0, forced=True)) if _is_visible(text) else ()
    ):
        end = start + len(text[start:at].rstrip(HANGING))
        if end > start:  # else spaces alone: they go to the piece before
            stretches.append((start, end))
            prices.append(price)
            forced.append(must)
        start = at
    if stretches:
        prices[-1], forced[-1] = 0.0, True
    return Pieces(
        stretches=tuple(stretches),
        joiners=(*(text[a:b] for (_, a), (b, _) in pairwise(stretches)), *[""] * bool(stretches)),
        penalties=np.array(prices, dtype=np.float64),
        forced=np.array(forced, dtype=np.bool_),
        word_counts=_word_counts(text, [begin for begin, _ in stretches]),
    )


def _is_visible(text: str) -> bool:
    return any(not char.isspace() and not is_always_covered(char) for char in text)


def _word_counts(text: str, starts: Sequence[int]) -> npt.NDArray[np.int64]:
    """How many words start in each piece: what stands between spaces, dashes or runs of dots."""
    if not starts:
        return np.zeros(0, dtype=np.int64)
    parted = text.replace("--", "——").replace("..", "……")
    begins = [
        match.start() + first
        for match in _WORD.finditer(parted)
        if (first := _first_letter(match[0])) is not None
    ]
    owners = np.searchsorted(starts, begins, side="right") - 1
    return np.bincount(owners.astype(np.int64), minlength=len(starts))


def _first_letter(word: str) -> int | None:
    """Where the first letter or digit stands; None when it is no word."""
    if word[0].isalnum():
        return 0
    return next((k for k, char in enumerate(word) if char.isalnum()), None)
