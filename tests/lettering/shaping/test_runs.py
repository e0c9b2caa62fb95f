"""Runs: where a text is cut by style, script, direction and face."""

import pytest
from fontTools import unicodedata as fontdata
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.breaks.icu import clusters
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.shaping.runs import Itemised, itemise, script_of
from letterfit.lettering.style.emphasis import Span
from tests.box_font import box_font


def cut(text: str, family: str = "Grandstander") -> Itemised:
    """A plain text in a bundled family."""
    return itemise([Span(text, "regular")], open_typeface(family))


def families(found: Itemised) -> list[tuple[str, str]]:
    """The text of each run and its family."""
    return [(found.text[run.start : run.end], run.face.family) for run in found.runs]


def test_plain_text_is_one_run() -> None:
    """Latin text without emphasis is shaped in one piece."""
    found = cut("THE TIDE, AT LAST—NO...")
    assert [(run.start, run.end, run.script, run.rtl) for run in found.runs] == [
        (0, 23, "Latn", False)
    ]
    assert not found.substitutions


def test_foreign_words_take_their_marks_and_spaces_along() -> None:
    """Punctuation and spaces inside foreign text come from the same face."""
    assert families(cut("SAY «ПРИЛИВ, МАТРОС!» NOW")) == [
        ("SAY ", "Grandstander"),
        ("«ПРИЛИВ, МАТРОС!»", "Balsamiq Sans"),
        (" NOW", "Grandstander"),
    ]


def test_symbols_come_from_the_symbol_face_alone() -> None:
    """A note takes nothing along."""
    assert families(cut("♫ LA ♫")) == [
        ("♫", "Letterfit Symbols"),
        (" LA ", "Grandstander"),
        ("♫", "Letterfit Symbols"),
    ]


def test_a_cluster_is_never_cut() -> None:
    """A letter and its marks come from one face, that of the first that has them all."""
    found = cut("AЖ\u0301B")
    assert [text for text, _ in families(found)] == ["A", "Ж\u0301", "B"]


def test_substitutions_name_each_character_once() -> None:
    """What was taken from where, and what no font has."""
    found = cut("ЖЖ Ж 字字 ♫")
    assert [(s.chars, s.used.family if s.used else None) for s in found.substitutions] == [
        (("Ж",), "Balsamiq Sans"),
        (("字",), None),
        (("♫",), "Letterfit Symbols"),
    ]


def test_a_letter_no_font_has_is_built_from_base_and_mark() -> None:
    """Better built than lost: the face that has the parts sets it, and it is reported."""
    typeface = open_typeface(box_font(characters="AB \u0323", family="Parts"))
    found = itemise([Span("A Ḅ", "regular")], typeface)
    assert not found.substitutions or found.substitutions[0].used is None
    assert families(found) == [("A Ḅ", "Parts")]


def test_styles_cut_runs() -> None:
    """Emphasis is shaped apart, in its own face."""
    found = itemise(
        [Span("SO ", "regular"), Span("LATE", "bold italic")], open_typeface("Grandstander")
    )
    assert [run.face.name for run in found.runs] == [
        "Grandstander Regular",
        "Grandstander Bold Italic",
    ]
    assert found.styles == ("regular", "bold italic")


def test_scripts_and_directions() -> None:
    """Hebrew reads from right to left, a number in it from left to right."""
    found = cut("ALL שלום 12 BY")
    assert [(found.text[r.start : r.end], r.script, r.rtl) for r in found.runs] == [
        ("ALL ", "Latn", False),
        ("שלום ", "Hebr", True),
        ("12", "Hebr", False),
        (" ", "Hebr", False),
        ("BY", "Latn", False),
    ]
    assert not found.rtl
    assert cut("«שלום» A").rtl


def test_scripts_are_those_of_unicode() -> None:
    """HarfBuzz's scripts agree with the Scripts.txt that fontTools carries."""
    for code in [
        *range(0x20, 0x600),
        *range(0x900, 0x980),
        *range(0x3040, 0x3100),
        0x6C34,
        0x1F600,
    ]:
        stated = fontdata.script(chr(code))
        expected = None if stated in {"Zyyy", "Zinh", "Zzzz"} else stated
        found = script_of(chr(code))
        assert found == expected, hex(code)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("e\u0301a", [(0, 2), (2, 3)]),
        ("😀a", [(0, 1), (1, 2)]),
        ("👩\u200d🚀!", [(0, 3), (3, 4)]),
        ("🇫🇷x", [(0, 2), (2, 3)]),
    ],
)
def test_clusters_are_what_readers_call_characters(
    text: str, expected: list[tuple[int, int]]
) -> None:
    """UAX #29 extended grapheme clusters, in offsets of characters."""
    assert list(clusters(text)) == expected


@given(
    st.lists(st.text(alphabet="AБ字 ,ש1♫é\u0301", min_size=1, max_size=8), min_size=1, max_size=4)
)
def test_runs_cover_the_text_without_gaps(parts: list[str]) -> None:
    """Each run begins where the one before it ends."""
    spans = [Span(part, "bold italic" if k % 2 else "regular") for k, part in enumerate(parts)]
    found = itemise(spans, open_typeface("Comic Neue"))
    ends = [0, *(run.end for run in found.runs)]
    assert [run.start for run in found.runs] == ends[:-1]
    assert ends[-1] == len(found.text)
