"""Remarks: each finding with a text that has it, and a text that does not."""

import pytest

from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import box_font


def found(text: str, *, family: str = "Grandstander") -> list[tuple[str, str]]:
    """Code and severity of the findings about a text."""
    lettering = Lettering(typeface=family)
    return [(f.code, f.severity) for f in measure(text, lettering).findings]


def test_ordinary_dialogue_has_no_findings() -> None:
    """Nothing is said where nothing is wrong."""
    assert (
        found("*Ahoy*, the lock! “Are you asleep in there?”—no… I'd say: 50 % — très bien.") == []
    )


@pytest.mark.parametrize(
    ("text", "code", "severity"),
    [
        ("♫ LA LA ♫", "substituted-glyph", "note"),
        ("水門", "missing-glyph", "error"),
        ("😀", "missing-glyph", "error"),
        ("A" * 31, "long-word", "warning"),
        ("A\x07B", "control-character", "note"),
        ("a\ud800b", "missing-glyph", "error"),
        ("o" + "\u0301" * 40, "piled-marks", "warning"),
    ],
)
def test_each_finding_is_found(text: str, code: str, severity: str) -> None:
    """One planted fault, one finding."""
    assert found(text) == [(code, severity)]


def test_a_word_of_thirty_letters_is_not_too_long() -> None:
    """The limit itself passes, and letters in several words do not add up."""
    assert found("A" * 30) == []
    assert found("A" * 20 + "-" + "B" * 20) == []


def test_emphasis_that_cannot_show_is_a_warning() -> None:
    """A family with a bold sets it in bold, one without says that emphasis will not show."""
    assert found("*so*", family="Comic Relief") == [("missing-style", "note")]
    assert found("*so*", family="Bangers") == [("missing-style", "warning")]
    assert found("so", family="Bangers") == []
    finding = measure("*so*", Lettering(typeface="Comic Relief")).findings[0]
    assert finding.message == "no bold italic in Comic Relief: set in bold."


def test_findings_say_where_and_name_each_character_once() -> None:
    """Place and line are passed on; long lists are cut short."""
    lettering = Lettering(typeface=open_typeface(box_font()))
    words = measure("ЖЖ Ж", lettering, where="1.2.3", line=40)
    (finding,) = words.findings
    assert (finding.where, finding.line) == ("1.2.3", 40)
    assert finding.message == "“Ж” is not in Box Regular: set in Balsamiq Sans Regular."
    many = "".join(map(chr, range(0x4E00, 0x4E20)))
    assert measure(many, lettering).findings[0].message.count("“") == 12
    assert "and 20 more" in measure(many, lettering).findings[0].message


def test_a_missing_glyph_still_has_a_width() -> None:
    """The empty box that is drawn for it takes its room."""
    words = measure("水", Lettering(typeface=open_typeface(box_font()), size_pt=72 / 25.4))
    assert words.pieces[0].width_mm == pytest.approx(0.6)
