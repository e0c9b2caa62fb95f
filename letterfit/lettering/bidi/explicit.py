"""Explicit embeddings, overrides and isolates: levels before any letter has its say.

UAX #9 (revision 50, Unicode 17): rules P2 and P3 for the paragraph's own level, X1 to X8 for the
levels that formatting characters state, X9 and X10 for the sequences in which the rest is resolved.
Letters are those of `classes.LETTERS`.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

DEEPEST = 125
"""The deepest level that formatting characters can ask for (BD2, max_depth)."""

ISOLATES = frozenset("ijk")
"""LRI, RLI, FSI."""

REMOVED = "lropdX"
"""What X9 removes: embeddings, overrides, their ends, and boundary neutrals."""

_TELLING = re.compile("[LRAijkBq]")
_STEPS = re.compile("[lropdijqB]|[^lropdijqB]+")
_EMBEDDINGS = frozenset("lrop")
_OVERRIDES = {"o": "L", "p": "R"}
_BOUNDS = re.compile("[ijkq]")
_FIRST_STRONG = re.compile("k")
_FREE = "-"
_PLAINLY = str.maketrans("LRAESTNCMGWO", "O" * 12, "X")
_SHOWN = str.maketrans("", "", REMOVED)


def matching_ends(letters: str) -> dict[int, int]:
    """The place of the PDI that ends each isolate (BD9), by the place of its beginning.

    >>> matching_ends("iLjRqq")
    {2: 4, 0: 5}
    """
    waiting: list[int] = []
    found: dict[int, int] = {}
    for match in _BOUNDS.finditer(letters):
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


class Entry(NamedTuple):
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


def told_isolates(letters: str) -> str:
    """The same letters with each FSI as the LRI or RLI that its content makes of it (X5c).

    >>> told_isolates("kLqkRq"), told_isolates("kiRqOq")
    ('iLqjRq', 'iiRqOq')
    """
    ends = matching_ends(letters)

    def told(isolate: re.Match[str]) -> str:
        return "ij"[first_direction(letters, ends, start=isolate.end(), inside=True)]

    return _FIRST_STRONG.sub(told, letters)


def explicit_levels(letters: str, base: int) -> tuple[bytes, str]:
    """The level of every character by formatting characters alone (X1 to X9).

    Args:
        letters: The letters of one paragraph, without FSI and boundary neutrals.
        base: Its level.

    Returns:
        Levels of all characters but embeddings, overrides and their ends; and what each is
        overridden by, "-" where it is free.

    >>> levels, forced = explicit_levels("LpLOdL", 0)
    >>> list(levels), forced
    ([0, 1, 1, 0], '-RR-')
    """
    status = Status([Entry(base)])
    levels, forced = bytearray(), list[str]()
    for match in _STEPS.finditer(letters):
        step = match[0]
        if step in _EMBEDDINGS:
            status.push(rtl=step in "rp", override=_OVERRIDES.get(step, ""))
            continue
        if step == "d":
            status.end_embedding()
            continue
        if step == "q":
            status.end_isolate()
        entry = status.stack[0 if step == "B" else -1]
        levels += bytes([entry.level]) * len(step)
        forced.append((entry.override or _FREE) * len(step))
        if step in ISOLATES:
            status.push(rtl=step == "j", isolate=True)
    return bytes(levels), "".join(forced)


class RunSequence(NamedTuple):
    """An isolating run sequence (BD13).

    Args:
        runs: Its level runs, as places (start, end) in the paragraph.
        level: The level of all its characters so far.
        sos: "L" or "R", what it starts as.
        eos: "L" or "R", what it ends as.
    """

    runs: Sequence[tuple[int, int]]
    level: int
    sos: str
    eos: str


def run_sequences(letters: str, levels: bytes, base: int) -> list[RunSequence]:
    """The isolating run sequences of a paragraph (X10).

    Args:
        letters: The letters of the paragraph, without what X9 removes.
        levels: The explicit level of each.
        base: The paragraph's level.

    >>> [(s.level, s.runs) for s in run_sequences("LjRqL", bytes([0, 0, 1, 0, 0]), 0)]
    [(1, [(2, 3)]), (0, [(0, 2), (3, 5)])]
    """
    around = bytes([base]) + levels + bytes([base])
    open_isolates: list[list[tuple[int, int]]] = []
    found: list[RunSequence] = []
    for run in _level_runs(levels):
        goes_on = letters[run[0]] == "q" and open_isolates
        runs = open_isolates.pop() if goes_on else []
        runs.append(run)
        if letters[run[1] - 1] in ISOLATES:
            open_isolates.append(runs)
        else:
            found.append(_sequence(runs, around, after=around[run[1] + 1]))
    found += [_sequence(runs, around, after=base) for runs in open_isolates]
    return found


def _level_runs(levels: bytes) -> list[tuple[int, int]]:
    """Stretches of one level (BD7)."""
    cuts = [k for k in range(1, len(levels)) if levels[k] != levels[k - 1]]
    return list(pairwise([0, *cuts, len(levels)])) if levels else []


def _sequence(runs: Sequence[tuple[int, int]], around: bytes, *, after: int) -> RunSequence:
    """A sequence out of its runs; it starts and ends as the higher level beside it asks (X10)."""
    first = runs[0][0]
    level = around[first + 1]
    return RunSequence(
        runs, level, "LR"[max(level, around[first]) % 2], "LR"[max(level, after) % 2]
    )


class Explicit(NamedTuple):
    """What formatting characters alone say of a paragraph.

    Args:
        levels: The level of every character that X9 leaves in.
        forced: What each is overridden by, "-" where it is free.
        sequences: The sequences in which the rest is resolved.
    """

    levels: bytes
    forced: str
    sequences: Sequence[RunSequence]

    def overridden(self, letters: str) -> str:
        """These letters with what they are overridden by in their place."""
        if not self.forced.strip(_FREE):
            return letters
        pairs = zip(letters, self.forced, strict=True)
        return "".join([own if over == _FREE else over for own, over in pairs])


def formatting(letters: str) -> str:
    """The letters of a text with all but explicit formatting and paragraph separators as "O".

    Texts that are formatted alike have the same, whatever they say: X1 to X10 need no more.

    >>> formatting("LpRXEdkNq")
    'OpOOdiOq'
    """
    return (told_isolates(letters) if "k" in letters else letters).translate(_PLAINLY)


def explicit(formatted: str, base: int) -> Explicit:
    """Rules X1 to X10.

    Args:
        formatted: A paragraph, as `formatting` has it.
        base: Its level.

    >>> found = explicit("OjOqO", 0)
    >>> list(found.levels), [sequence.runs for sequence in found.sequences]
    ([0, 0, 1, 0, 0], [[(2, 3)], [(0, 2), (3, 5)]])
    """
    levels, forced = explicit_levels(formatted, base)
    return Explicit(levels, forced, run_sequences(formatted.translate(_SHOWN), levels, base))
