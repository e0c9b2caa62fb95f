"""Emphasis marks: which of them pair, and what stays as typed."""

import re
from itertools import groupby, pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from letterfit.lettering.fonts.bundled import Style
from letterfit.lettering.style.emphasis import EMPHASIS, Span, emphasis_spans, stray_marks

COMMONMARK = MarkdownIt("zero").enable(["emphasis"])
"""An independent reader of CommonMark, here of its emphasis alone (PyPI markdown-it-py, which the
terminal report's library brings along)."""

STYLES: dict[tuple[bool, bool], Style] = {
    (False, False): "regular",
    (True, False): "italic",
    (False, True): "bold",
    (True, True): "bold italic",
}


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
        ("第*水門*だ。", "第<水門>だ。"),
        ("น้ำ*ขึ้น*แล้ว", "น้ำ<ขึ้น>แล้ว"),
        ("snake_case_name", "snake_case_name"),
        ("f**k ****", "f**k ****"),
        ("* * *", "* * *"),
        ("*unclosed", "*unclosed"),
        ("closed* only", "closed* only"),
        ("*a* b*", "<a> b*"),
        ("", ""),
        ("**very *so* much**", "<very so much>"),
        ("**_so_**", "<so>"),
        ("_**so**_ *__so__*", "<so> <so>"),
        ("***so** much*", "<so much>"),
        ("**so*", "*<so>"),
        ("*so\nloud*", "<so\nloud>"),
        ("*so*, *so*; *so*! *so*", "<so>, <so>; <so>! <so>"),
        ("--*so*--", "--<so>--"),
        ("*...*", "<...>"),
        ("@*#*! you", "@*#*! you"),
        ("*#@!*", "*#@!*"),
        ("*You @#*!*", "<You @#*!>"),
        ("*_*", "*_*"),
        ("**** you, *sir*", "**** you, <sir>"),
        ("____ is it", "____ is it"),
        ("s*** and f**k", "s*** and f**k"),
        ("*e\u0301*", "<e\u0301>"),
        ("a*\u0301b*", "a*\u0301b*"),
        ("*水門*が", "<水門>が"),
        ("*水門* が", "<水門> が"),
        ("*♪ la ♪*", "<♪ la ♪>"),
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


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("a *b* c", ["regular", "italic", "regular"]),
        ("a _b_ **c** __d__", ["regular", "italic", "regular", "bold", "regular", "bold"]),
        ("***a***", ["bold italic"]),
        ("**a *b* c**", ["bold", "bold italic", "bold"]),
        ("*a **b** c*", ["italic", "bold italic", "italic"]),
        ("*a **b***", ["italic", "bold italic"]),
        ("*a _b_ c*", ["italic"]),
        ("**_a_**", ["bold italic"]),
    ],
)
def test_one_mark_is_italic_and_two_are_bold_where_that_is_asked_for(
    typed: str, expected: list[Style]
) -> None:
    """As in CommonMark: em and strong, and both."""
    assert [span.style for span in emphasis_spans(typed, emphasis="as-marked")] == expected


def test_marks_may_mean_nothing() -> None:
    """Taken out all the same, those that pair."""
    found = emphasis_spans("so **very _loud_** *no", emphasis="plain")
    assert found == (Span("so very loud *no", "regular"),)


def commonmark(text: str) -> list[Span]:
    """The text as an independent reader of CommonMark cuts it."""
    depth = {"em": 0, "strong": 0}
    found: list[Span] = []
    for token in COMMONMARK.parseInline(text)[0].children or ():
        kind, _, end = token.type.rpartition("_")
        if kind in depth:
            depth[kind] += 1 if end == "open" else -1
        else:
            found.append(Span(token.content, STYLES[depth["em"] > 0, depth["strong"] > 0]))
    return [
        Span("".join(span.text for span in group), style)
        for style, group in groupby((s for s in found if s.text), key=lambda span: span.style)
    ]


@given(st.text("ab !(****", min_size=1, max_size=16), st.sampled_from("*_"))
def test_pairs_and_nesting_are_those_of_commonmark(text: str, mark: str) -> None:
    """All but what CommonMark allows and lettering does not: stars inside words, runs of four."""
    text = text.strip().replace("*", mark)
    assume(text)
    assume(mark * 4 not in text)
    assume(mark == "_" or not re.search(r"\w\*+\w", text))
    assert list(emphasis_spans(text, emphasis="as-marked")) == commonmark(text)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("He is *not here", ("*not",)),
        ("He is not* here", ("not*",)),
        ("*one* and *two", ("*two",)),
        ("**so*", ("**so*",)),
        ("*a _b* c_", ("_b*", "c_")),
        ("2*3, snake_case, * * *, ****, @*#!, s***", ()),
        ("*so* **so** _so_", ()),
        ("*so *so *so", ("*so",)),
        ("*" + "o" * 50, ("*" + "o" * 23,)),
    ],
)
def test_stray_marks_are_shown_with_their_word(typed: str, expected: tuple[str, ...]) -> None:
    """What looks like emphasis and has no partner; not what is typed for its own sake."""
    assert stray_marks(typed) == expected


@given(st.text("ab *_!@\n", max_size=40))
def test_a_text_without_stray_marks_has_only_marks_that_are_no_emphasis(text: str) -> None:
    """When nothing is stray and no mark is left in the text, all of them paired."""
    kept = "".join(span.text for span in emphasis_spans(text))
    if "*" not in kept and "_" not in kept:
        assert stray_marks(text) == ()


@pytest.mark.parametrize("text", ["*a " * 50_000, "*_" * 50_000, "a* " * 50_000, "**a* " * 30_000])
def test_a_text_of_marks_is_read_once(text: str) -> None:
    """Marks of all kinds, by the hundred thousand, take no time to speak of."""
    assert "".join(span.text for span in emphasis_spans(text))
    assert len(stray_marks(text)) <= 2
