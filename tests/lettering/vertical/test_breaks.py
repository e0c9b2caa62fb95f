"""Where columns end: between phrases, never against kinsoku, long phrases inside."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.vertical.breaks import column_language, column_pieces

NEVER_FIRST = "、。，．・：；？！ーゝ々）」』】〕ぁぃぅぇぉっゃゅょァィゥェォッャュョ"
"""JLREQ, 3.1.7, characters not starting a line (from memory): those a balloon meets."""

NEVER_LAST = "（「『【〔"


def cut(text: str, *, rules: BreakRules | None = None) -> list[str]:
    """The pieces of a Japanese text."""
    pieces = column_pieces(text, language="ja", rules=rules or BreakRules())
    return [pieces.text[start:end] for start, end in pieces.stretches]


@pytest.mark.parametrize(
    ("text", "phrases"),
    [
        ("潮が変わったのに、誰も来ない。", ["潮が", "変わったのに、", "誰も", "来ない。"]),
        ("……待って――もう遅い。", ["……待って――", "もう", "遅い。"]),
        ("「水門」を閉めろ!?", ["「水門」を", "閉めろ!?"]),
        ("あと12分だ。", ["あと", "12分だ。"]),
        ("LOCK 9の札", ["LOCK 9の", "札"]),
    ],
)
def test_columns_end_between_phrases(text: str, phrases: list[str]) -> None:
    """A noun keeps its particles, a number its unit, a Latin name is one (common practice)."""
    assert cut(text) == phrases


def test_a_phrase_too_long_for_a_column_is_broken_inside() -> None:
    """Ten characters go into a column; more than that may be broken, still by kinsoku."""
    assert len(cut("ーッ".join("ア" * 3) + "アアアアアアアアア")) > 1


def test_without_the_rule_columns_end_anywhere() -> None:
    """The rule can be switched off: then kinsoku alone decides."""
    loose = cut("潮が変わった。", rules=BreakRules(without=("inside_phrases", "short_phrases")))
    assert loose == ["潮", "が", "変", "わっ", "た。"]


@given(st.text(st.sampled_from("潮水門番「」『』（）、。！？ーっゃァ々・あいう12LO "), max_size=40))
def test_no_column_begins_or_ends_against_kinsoku(text: str) -> None:
    """Kinsoku shori: no column starts with a stop or small kana, none ends with an opening."""
    pieces = cut(text)
    assert "".join(pieces).replace(" ", "") == "".join(text.split())
    assert not [p for p in pieces[1:] if p[0] in NEVER_FIRST and p[0] not in "・々"]
    assert not [p for p in pieces[:-1] if p[-1] in NEVER_LAST]


def test_phrases_count_as_words() -> None:
    """Japanese has no spaces: what the report counts are phrases."""
    assert sum(column_pieces("潮が変わった。", language="ja", rules=BreakRules()).counts) == 2
    words = measure("潮が変わった。", Lettering(writing="vertical"), language="en")
    assert words.count == 2


def test_columns_are_japanese_unless_they_are_chinese_or_korean() -> None:
    """A script in another language has its columns broken as Japanese."""
    assert [column_language(tag) for tag in ("en", "ja-JP", "zh-Hant", "ko")] == [
        "ja",
        "ja-JP",
        "zh-Hant",
        "ko",
    ]
