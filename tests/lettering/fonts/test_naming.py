"""Names from fonts, cleaned."""

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.fonts.naming import cleaned


@given(st.text(), st.integers(5, 60))
def test_a_cleaned_name_is_one_short_line_without_controls(text: str, longest: int) -> None:
    """Whatever the font says; and cleaning it again changes nothing."""
    found = cleaned(text, longest=longest)
    assert len(found) <= longest
    assert found == " ".join(found.split())
    assert not any(unicodedata.category(char).startswith("C") for char in found)
    assert cleaned(found, longest=longest) == found


def test_a_megabyte_of_name_is_cut() -> None:
    """Letters behind a megabyte of spaces are not looked for."""
    assert cleaned(" " * 2**20 + "Nib", longest=80) == ""
    assert cleaned("N" * 2**20, longest=80) == "N" * 79 + "…"


def test_an_ordinary_name_stays_as_it_is() -> None:
    """Accents, other scripts and punctuation are no controls."""
    assert cleaned("Dürer Très-Gras 水", longest=80) == "Dürer Très-Gras 水"
