"""The glyphs of a line by the characters they stand for, from left to right.

Programs that read PDF take glyphs as they stand on the page from left to right and turn letters
that read from right to left round again; those that the letters' own order would suit are few. So
lines of Hebrew and Arabic are written as browsers write them, the leftmost glyph first, and every
cluster of glyphs reads its own characters in their order.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from unicodedata import bidirectional

from letterfit.lettering.fonts.coverage import is_always_covered
from letterfit.output.pdf.runs import Run, Spot

SPACE_EM = 0.15
"""More than this between neighbours that are none in the text is a space."""

LEFTWARDS = frozenset({"R", "AL"})
"""Classes of letters that read from right to left (UAX #9, table 4)."""


@dataclass(frozen=True, slots=True)
class Cluster:
    """Glyphs that stand for some characters together.

    Args:
        text: The characters, in their order.
        spots: The glyphs.
        space: Whether a space stands left of them.
    """

    text: str
    spots: tuple[Spot, ...]
    space: bool = False


def clusters_of(run: Run, *, advance: Callable[[Spot], float]) -> tuple[Cluster, ...]:
    """The clusters of a line from left to right, of a column from top to bottom.

    None where nobody knows what its glyphs read.

    Args:
        run: The line.
        advance: How far the pen goes with a glyph, in micrometres.
    """
    text = run.text
    if not run.whole or any(not 0 <= one.at < len(text) for one in run.spots):
        return ()
    found: dict[int, list[Spot]] = {}
    for spot in sorted(run.spots, key=lambda one: one.at):
        found.setdefault(spot.at, []).append(spot)
    begins = [*found, len(text)]
    read = [_read(text[at:end]) for at, end in pairwise(begins)]
    gaps = {
        k
        for k, (at, end) in enumerate(pairwise(begins))
        if any(map(str.isspace, text[at + len(read[k]) : end]))
    }
    spots = list(found.values())
    order = list(range(len(spots)))
    if reads_leftwards(text) and not run.vertical:
        order.sort(key=lambda k: spots[k][0].x)
    spaces = [False] * len(order)
    for n, (left, right) in enumerate(pairwise(order), start=1):
        if abs(left - right) == 1:
            spaces[n] = min(left, right) in gaps
        else:
            last = spots[left][-1]
            spaces[n] = spots[right][0].x - last.x - advance(last) > SPACE_EM * last.em
    return tuple(
        Cluster(read[k], tuple(spots[k]), space) for k, space in zip(order, spaces, strict=True)
    )


def _read(text: str) -> str:
    """A cluster's characters without what follows them unseen."""
    end = len(text)
    while end > 1 and is_blank(text[end - 1]):
        end -= 1
    return text[:end]


def reads_leftwards(text: str) -> bool:
    """Whether any character of a text reads from right to left."""
    return any(bidirectional(char) in LEFTWARDS for char in text)


def is_blank(char: str) -> bool:
    """Whether a character is set without ink: spaces and invisible characters."""
    return char.isspace() or is_always_covered(char)
