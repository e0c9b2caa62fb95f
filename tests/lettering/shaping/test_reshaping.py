"""Reshaping: which lines are set anew, and how wide the widest of them is."""

import pytest

from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping.reshaping import FLATTEST, UNEVEN, widest_line
from letterfit.lettering.words import Words
from tests.box_font import box_font, width_em

Pairs = tuple[tuple[str, str, int], ...]


def boxes(text: str, *, contextual: bool = False, kerning: Pairs = ()) -> Words:
    """A text in a variant of the box font, at 1 mm to the em."""
    content = box_font(contextual=contextual, kerning=kerning)
    return measure(text, Lettering(typeface=open_typeface(content), size_pt=72 / 25.4, leading=1.0))


def test_a_font_without_kerning_needs_nothing_set_anew() -> None:
    """Every line is a slice."""
    assert not boxes("WE-LL, A TIDE--NO").reshaped


def test_a_kerned_hyphen_sets_anew_the_lines_that_end_or_begin_there() -> None:
    """Ending at the hyphen loses the kerning of its advance; beginning after it changes nothing."""
    words = boxes("A WELL-TO B", kerning=(("-", "T", -100),))
    assert [piece.text for piece in words.pieces] == ["A", "WELL-", "TO", "B"]
    assert sorted(words.reshaped) == [(0, 1), (1, 1)]
    assert words.line(0, 1).width_mm == pytest.approx(width_em("A WELL-"))
    assert words.line(1, 2).width_mm == pytest.approx(width_em("WELL-TO") - 0.1)


def test_lines_are_set_anew_up_to_the_widest_that_could_matter() -> None:
    """In a long text lines far wider than any stack's are left out."""
    words = boxes("AB " * 120, contextual=True)
    bound = widest_line(words.line(0, len(words) - 1).width_mm, 1.0)
    reach = max(last - first for first, last in words.reshaped)
    widest = max(line.width_mm for line in words.reshaped.values())
    assert bound - 3 < widest < bound + 3
    assert 15 < reach < 100


def test_the_bound_is_that_of_its_derivation() -> None:
    """A stack as flat and uneven as allowed has its longest line exactly at the bound."""
    leading, lines = 1.08, 3
    longest = FLATTEST * lines * leading
    total = lines * longest / UNEVEN
    assert widest_line(total, leading) == pytest.approx(longest)
