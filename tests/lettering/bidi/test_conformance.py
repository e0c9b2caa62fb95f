"""Embedding levels and visual order against Unicode's own conformance tests, whole.

BidiTest.txt and BidiCharacterTest.txt of the Unicode Character Database 15.0; the cases of 17.0 are
the same. Lines of bases that must agree are run once: where the base found is the one asked for,
the levels are the same computation (`test_bidi.py` holds that).
"""

import lzma
import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import islice
from pathlib import Path
from typing import NamedTuple

import pytest

from letterfit.lettering.bidi import explicit as bidi_explicit
from letterfit.lettering.bidi import levels as bidi
from letterfit.lettering.bidi import resolving as bidi_resolving
from letterfit.lettering.bidi.classes import bidi_letters
from letterfit.lettering.bidi.explicit import REMOVED, explicit
from letterfit.lettering.bidi.levels import embedding_levels, line_levels, visual_order
from letterfit.lettering.bidi.resolving import resolved_levels

DATA = Path(__file__).parents[2] / "data" / "unicode"
NAMES = "L R AL EN ES ET AN CS NSM BN B S WS ON LRE RLE LRO RLO PDF LRI RLI FSI PDI"
SAMPLES = "aאا1+%٠,\u0300\u200b\u2029\t !\u202a\u202b\u202d\u202e\u202c\u2066\u2067\u2068\u2069"
CHARS = dict(zip(NAMES.split(), SAMPLES, strict=True))
AUTO, LTR, RTL = 1, 2, 4
"""The bits of BidiTest.txt."""

BASES = {"0": 0, "1": 1, "2": None}
"""The directions of BidiCharacterTest.txt."""


class Case(NamedTuple):
    """A text, how it is to be set, and what must come of it."""

    text: str
    bits: int
    levels: str
    order: str


def lines(name: str) -> list[str]:
    """The lines of a packed file."""
    return lzma.decompress((DATA / name).read_bytes()).decode().splitlines()


def class_lines() -> Iterator[tuple[str, str, str]]:
    """The lines of BidiTest.txt with the levels and the order that hold of each."""
    levels = order = ""
    for line in lines("BidiTest-15.0.0.txt.xz"):
        if line.startswith("@Levels:"):
            levels = line[8:].strip()
        elif line.startswith("@Reorder:"):
            order = line[9:].strip()
        elif line and line[0] not in "#@":
            yield line, levels, order


def class_case(line: str, levels: str, order: str) -> Case:
    """A line of BidiTest.txt as a case, each class as one sample character."""
    names, bits = line.split(";")
    return Case("".join([CHARS[n] for n in names.split()]), int(bits), levels, order)


@lru_cache(maxsize=65536)
def told(levels: bytes, shown: tuple[int, ...], *, length: int) -> tuple[str, str]:
    """A line's levels and order as the files write them."""
    row = ["x"] * length
    for place in shown:
        row[place] = str(levels[place])
    order = [str(place) for place in visual_order(levels) if place in shown]
    return " ".join(row), " ".join(order)


@lru_cache(maxsize=65536)
def shown_places(levels: str) -> tuple[int, ...]:
    """Where characters stand that have a level; "x" is what rule X9 removes."""
    return tuple([place for place, level in enumerate(levels.split()) if level != "x"])


def outcome(text: str, base: int | None, levels: str) -> tuple[int, tuple[str, str]]:
    """The base found, and levels and order of the text on one line, where `levels` has any."""
    found = embedding_levels(text, base=base)
    line = line_levels(text, found)
    return found.base, told(line, shown_places(levels), length=len(text))


def wrong(case: Case) -> Iterator[int | None]:
    """The bases at which a case does not come out as it must."""
    want = (case.levels, case.order)
    base = None
    if case.bits & AUTO:
        base, got = outcome(case.text, None, case.levels)
        if got != want:
            yield None
    for bit, asked in ((LTR, 0), (RTL, 1)):
        if case.bits & bit and asked != base and outcome(case.text, asked, case.levels)[1] != want:
            yield asked


@pytest.mark.parametrize("part", [0, 1])
def test_every_line_of_the_class_test(part: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """All 490,846 lines of BidiTest.txt, 770,241 settings: levels and order as published."""
    for step in (explicit, resolved_levels):
        monkeypatch.setattr(bidi, step.__name__, lru_cache(maxsize=65536)(step))
    count = settings = 0
    failed: list[tuple[Case, int | None]] = []
    for number, (line, levels, order) in enumerate(class_lines()):
        count += 1
        settings += int(line[-1]).bit_count()
        if number // 4096 % 2 == part:
            case = class_case(line, levels, order)
            failed += [(case, base) for base in wrong(case)]
    assert (count, settings) == (490_846, 770_241)
    assert failed == []


def character_cases() -> Iterator[tuple[str, str, int, tuple[str, str]]]:
    """The cases of BidiCharacterTest.txt: text, direction, base, levels and order."""
    for line in lines("BidiCharacterTest-15.0.0.txt.xz"):
        if line and line[0] != "#":
            points, direction, base, levels, order = line.split(";")
            text = "".join([chr(int(point, 16)) for point in points.split()])
            yield text, direction, int(base), (levels, order)


def test_every_line_of_the_character_test() -> None:
    """All 91,707 lines of BidiCharacterTest.txt: base, levels and order as published."""
    cases = list(character_cases())
    assert len(cases) == 91_707
    assert [c for c in cases if outcome(c[0], BASES[c[1]], c[3][0]) != c[2:]] == []


@lru_cache
def few_cases() -> tuple[tuple[Case, ...], tuple[tuple[str, str, int, tuple[str, str]], ...]]:
    """Some cases of both files, enough to notice a fault."""
    some = tuple(class_case(*line) for line in islice(class_lines(), 0, None, 41))
    return some, tuple(islice(character_cases(), 2000))


NEVER = re.compile("(?!)")
FAULTS = [
    ("W1", bidi_resolving, "_MARKS", NEVER),
    ("W2", bidi_resolving, "_AFTER_ARABIC", NEVER),
    ("W3", bidi_resolving, "_ARABIC_IS_RIGHT", {}),
    ("W4, European", bidi_resolving, "_BETWEEN_EUROPEAN", NEVER),
    ("W4, Arabic", bidi_resolving, "_BETWEEN_ARABIC", NEVER),
    ("W5", bidi_resolving, "_TERMINATORS", NEVER),
    ("W6", bidi_resolving, "_NEUTRAL_LEFT_OVER", {}),
    ("W7", bidi_resolving, "_AFTER_LATIN", NEVER),
    ("N0", bidi, "BRACKET", NEVER),
    ("N0's marks", bidi_resolving, "_marks_after", lambda *_: 1),
    ("N1, right", bidi_resolving, "_AMID_RIGHT", NEVER),
    ("N1, left", bidi_resolving, "_AMID_LEFT", NEVER),
    ("canonical brackets", bidi_resolving, "CANONICAL", {}),
    ("X4, X5", bidi_explicit, "_OVERRIDES", {}),
    ("X5c", bidi, "matching_ends", lambda _: {}),
    ("X10's isolates", bidi_explicit, "ISOLATES", frozenset()),
    ("L1, separators", bidi, "_SPACING", NEVER),
    ("L1, ends of lines", bidi, "_SPACES", ""),
]


@pytest.mark.parametrize(("rule", "module", "name", "planted"), FAULTS)
def test_a_rule_switched_off_is_caught(
    rule: str, module: object, name: str, planted: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The files notice each rule's absence: the check above can fail."""
    monkeypatch.setattr(module, name, planted)
    classes, characters = few_cases()
    caught = any(True for case in classes for _ in wrong(case))
    assert caught or any(outcome(c[0], BASES[c[1]], c[3][0]) != c[2:] for c in characters), rule


def test_long_random_texts_have_the_levels_another_implementation_finds() -> None:
    """Random texts of up to 280 characters against npm `bidi-js` 1.1.0 (MIT), levels after L1."""
    bases = {"ltr": 0, "rtl": 1, "auto": None}
    rows = lines("bidi_random_levels.txt.xz")
    for row in rows:
        points, direction, base, levels = row.split(";")
        text = "".join([chr(int(point, 16)) for point in points.split()])
        found = embedding_levels(text, base=bases[direction])
        letters = bidi_letters(text)
        ours = [
            n for n, k in zip(line_levels(text, found), letters, strict=True) if k not in REMOVED
        ]
        theirs = [int(n) for n, k in zip(levels.split(), letters, strict=True) if k not in REMOVED]
        assert (found.base, ours) == (int(base), theirs)
    assert len(rows) == 940
