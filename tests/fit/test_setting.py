"""A chosen stack and outline made into a balloon."""

import pytest

from letterfit.errors import OutlineError
from letterfit.fit.ink import Ink
from letterfit.fit.setting import Setter
from letterfit.outline import CaptionBox, Ellipse
from tests.words import box_words


def test_lines_are_centred_on_their_advances() -> None:
    """Left ends are minus half the advance; baselines follow the stack."""
    words = box_words([3.0, 5.0], leading=3.0, cap_height=2.0)
    lines = Setter(Ink.of(words), air=1.0).lines((0, 1, 2))
    assert [(line.text, line.x_mm, line.baseline_mm) for line in lines] == [
        ("AAA", -1.5, -0.5),
        ("BBBBB", -2.5, 2.5),
    ]


def test_rounding_is_made_good_on_the_safe_side() -> None:
    """An outline short by a hair is grown until the true distance is the air."""
    words = box_words([10.0], cap_height=2.0)
    short = CaptionBox(half_width=6.0 - 1e-9, half_height=2.0 - 1e-9)
    made = Setter(Ink.of(words), air=1.0).balloon((0, 1), short)
    assert made.clearance_mm >= 1.0
    assert made.outline.half_width == pytest.approx(6.0, abs=1e-6)


def test_an_outline_plainly_too_small_is_refused() -> None:
    """More than rounding is an error of the caller, never papered over."""
    words = box_words([10.0])
    with pytest.raises(OutlineError, match="does not fit"):
        Setter(Ink.of(words), air=1.0).balloon((0, 1), Ellipse(half_width=5, half_height=2))


def test_lines_are_set_once_for_all_stacks() -> None:
    """Two stacks that share a line share its glyphs."""
    words = box_words([3.0, 5.0, 4.0])
    setter = Setter(Ink.of(words), air=1.0)
    one, other = setter.lines((0, 1, 3)), setter.lines((0, 1, 2, 3))
    assert one[0].glyphs is other[0].glyphs
    assert [line.text for line in other] == ["AAA", "BBBBB", "CCCC"]
