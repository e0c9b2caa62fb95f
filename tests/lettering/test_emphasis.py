"""Emphasis marks: which of them pair, and what stays as typed."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.emphasis import EMPHASIS, Span, emphasis_spans


def marked(text: str) -> str:
    """The text with its emphasis in angle brackets."""
    return "".join(
        f"<{span.text}>" if span.style == EMPHASIS else span.text for span in emphasis_spans(text)
    )


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("Not *so* loud", "Not <so> loud"),
        ("Not **so** loud", "Not <so> loud"),
        ("Not _so_ loud", "Not <so> loud"),
        ("***NEVER***!", "<NEVER>!"),
        ("*not one step*, she said", "<not one step>, she said"),
        ("*one* *two*", "<one> <two>"),
        ("(*so*)", "(<so>)"),
        ("*so*-so", "<so>-so"),
        ("**a _b_ c**", "<a b c>"),
        ("*a _b* c_", "<a _b> c_"),
        ("2*3*4 = 24", "2*3*4 = 24"),
        ("snake_case_name", "snake_case_name"),
        ("f**k ****", "f**k ****"),
        ("* * *", "* * *"),
        ("*unclosed", "*unclosed"),
        ("closed* only", "closed* only"),
        ("*a* b*", "<a> b*"),
        ("", ""),
    ],
)
def test_marks_that_pair_and_marks_that_stay(typed: str, expected: str) -> None:
    """Pairs become emphasis, all else stays as typed."""
    assert marked(typed) == expected


@given(st.text(alphabet="ab *_!", max_size=40))
def test_only_marks_are_lost(text: str) -> None:
    """The spans hold the text less pairs of marks; neighbours differ and none is empty."""
    spans = emphasis_spans(text)
    kept = "".join(span.text for span in spans)
    bare = kept.replace("*", "").replace("_", "")
    assert bare == text.replace("*", "").replace("_", "")
    assert (len(text) - len(kept)) % 2 == 0
    assert all(span.text for span in spans)
    assert all(a.style != b.style for a, b in pairwise(spans))


def test_a_long_text_of_open_marks_is_read_once() -> None:
    """Marks that never close do not make the reader start over."""
    text = "*a " * 50_000
    assert emphasis_spans(text) == (Span(text, "regular"),)
