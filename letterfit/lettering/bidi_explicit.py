"""Explicit embeddings, overrides and isolates: levels before any letter has its say.

UAX #9 (revision 50, Unicode 17): rules P2 and P3 for the paragraph's own level, X1 to X8 for the
levels that formatting characters state, X9 and X10 for the sequences in which the rest is resolved.
Letters are those of `bidi_classes.LETTERS`.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

DEEPEST = 125
"""The deepest level that formatting characters can ask for (BD2, max_depth)."""

ISOLATES = frozenset("ijk")
"""LRI, RLI, FSI."""

REMOVED = re.compile("[lropdX]+")
"""What X9 removes: embeddings, overrides, their ends, and boundary neutrals."""

EXPLICIT = re.compile("[lropdijkq]")

_TELLING = re.compile("[LRAijkBq]")


def matching_ends(letters: str) -> dict[int, int]:
    """The place of the PDI that ends each isolate (BD9), by the place of its beginning.

    >>> matching_ends("iLjRqq")
    {2: 4, 0: 5}
    """
    waiting: list[int] = []
    found: dict[int, int] = {}
    for match in re.finditer("[ijkq]", letters):
        if match[0] != "q":
            waiting.append(match.start())
        elif waiting:
            found[waiting.pop()] = match.start()
    return found


def first_direction(
    letters: str, ends: Mapping[int, int], *, start: int = 0, inside: bool = False
) -> int:
    """The level that the first strong letter asks for (P2, P3): 1 for right to left, else 0.

    Args:
        letters: The letters of a text.
        ends: Where its isolates end; they are passed over.
        start: Where to begin.
        inside: Whether to stop at the end of an isolate that began before `start` (X5c).

    >>> first_direction("Wk" + "R" + "qL", {1: 3}), first_direction("OR", {})
    (0, 1)
    """
    match = _TELLING.search(letters, start)
    while match:
        letter, place = match[0], match.start()
        if letter in "LRA":
            return int(letter != "L")
        if letter == "B" or (letter == "q" and inside):
            return 0
        end = place if letter == "q" else ends.get(place, len(letters))
        match = _TELLING.search(letters, end + 1)
    return 0


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the directional status stack: level, override ("" for none), isolate or not."""

    level: int
    override: str = ""
    isolate: bool = False


@dataclass(slots=True)
class Status:
    """The directional status stack and its three counters (X1)."""

    stack: list[Entry]
    over_isolates: int = 0
    over_embeddings: int = 0
    valid_isolates: int = 0

    def push(self, *, rtl: bool, override: str = "", isolate: bool = False) -> None:
        """X2 to X5c: enter an embedding, an override or an isolate, if it is not too deep."""
        level = self.stack[-1].level
        deeper = level + 1 + int(level % 2 == rtl)
        if deeper <= DEEPEST and not self.over_isolates and not self.over_embeddings:
            self.valid_isolates += isolate
            self.stack.append(Entry(deeper, override, isolate))
        elif isolate:
            self.over_isolates += 1
        elif not self.over_isolates:
            self.over_embeddings += 1

    def end_isolate(self) -> None:
        """X6a: leave the isolate, and whatever was left open inside it."""
        if self.over_isolates:
            self.over_isolates -= 1
        elif self.valid_isolates:
            self.over_embeddings = 0
            while not self.stack.pop().isolate:
                pass
            self.valid_isolates -= 1

    def end_embedding(self) -> None:
        """X7: leave the embedding or override."""
        if self.over_isolates:
            return
        if self.over_embeddings:
            self.over_embeddings -= 1
        elif not self.stack[-1].isolate and len(self.stack) > 1:
            self.stack.pop()


def explicit_levels(letters: str, base: int) -> tuple[bytearray, str]:
    """The level of every character by formatting characters alone (X1 to X8).

    Args:
        letters: The letters of one paragraph.
        base: Its level.

    Returns:
        Levels, and the letters with overrides done.

    >>> levels, letters = explicit_levels("LpLdL", 0)
    >>> list(levels), letters
    ([0, 0, 1, 0, 0], 'LpRdL')
    """
    ends = matching_ends(letters)
    status = Status([Entry(base)])
    levels, overridden = bytearray(len(letters)), list(letters)
    for place, letter in enumerate(letters):
        if letter == "d":
            status.end_embedding()
        elif letter == "q":
            status.end_isolate()
        entry = status.stack[-1]
        levels[place] = base if letter == "B" else entry.level
        if entry.override and letter not in "lropdXB":
            overridden[place] = entry.override
        if letter in "lo":
            status.push(rtl=False, override="L" if letter == "o" else "")
        elif letter in "rp":
            status.push(rtl=True, override="R" if letter == "p" else "")
        elif letter in ISOLATES:
            rtl = letter == "j" or (
                letter == "k" and first_direction(letters, ends, start=place + 1, inside=True) == 1
            )
            status.push(rtl=rtl, isolate=True)
    return levels, "".join(overridden)


@dataclass(frozen=True, slots=True)
class RunSequence:
    """An isolating run sequence (BD13).

    Args:
        level: The level of all its characters so far.
        places: Where they stand in the paragraph.
        sos: "L" or "R", what it starts as.
        eos: "L" or "R", what it ends as.
    """

    level: int
    places: Sequence[int]
    sos: str
    eos: str


def run_sequences(letters: str, levels: bytes, base: int) -> list[RunSequence]:
    """The isolating run sequences of a paragraph (X10), without what X9 removes.

    Args:
        letters: The letters of the paragraph, as typed.
        levels: The explicit level of each character.
        base: The paragraph's level.

    >>> [(s.level, list(s.places)) for s in run_sequences("LjRqL", bytes([0, 0, 1, 0, 0]), 0)]
    [(1, [2]), (0, [0, 1, 3, 4])]
    """
    kept = [k for k, letter in enumerate(letters) if letter not in "lropdX"]
    cuts = [k for k in range(1, len(kept)) if levels[kept[k]] != levels[kept[k - 1]]]
    open_isolates: list[list[tuple[int, int]]] = []
    found: list[list[tuple[int, int]]] = []
    for run in pairwise([0, *cuts, len(kept)] if kept else []):
        goes_on = letters[kept[run[0]]] == "q" and open_isolates
        sequence = open_isolates.pop() if goes_on else []
        sequence.append(run)
        breaks_off = letters[kept[run[1] - 1]] in ISOLATES
        (open_isolates if breaks_off else found).append(sequence)
    around = [base, *(levels[k] for k in kept), base]
    return [_sequence(runs, kept, around, whole=True) for runs in found] + [
        _sequence(runs, kept, around, whole=False) for runs in open_isolates
    ]


def _sequence(
    runs: Sequence[tuple[int, int]], kept: Sequence[int], around: Sequence[int], *, whole: bool
) -> RunSequence:
    """A sequence out of its runs; one that ends at an open isolate ends as the paragraph is."""
    (first, _), (_, end) = runs[0], runs[-1]
    level = around[first + 1]
    places = [place for start, stop in runs for place in kept[start:stop]]
    after = around[end + 1] if whole else around[0]
    return RunSequence(level, places, _side(level, around[first]), _side(level, after))


def _side(level: int, other: int) -> str:
    """The direction of the higher of two levels."""
    return "LR"[max(level, other) % 2]
