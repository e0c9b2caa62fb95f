"""Lettering: its defaults, its lengths, and the values it refuses."""

import dataclasses
import math
import pickle

import pytest

from letterfit.errors import FontError
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.habits import Habits
from tests.box_font import box_font


def test_the_default_is_the_bundled_face() -> None:
    """Nothing has to be given."""
    lettering = Lettering()
    assert lettering.typeface == open_typeface("Grandstander")
    assert (lettering.size_pt, lettering.leading, lettering.case) == (7.5, 1.08, "upper")


def test_lengths_follow_the_size() -> None:
    """1 pt is 1/72 in, and 1 in is 25.4 mm: 72 pt make an em of 25.4 mm."""
    lettering = Lettering(typeface=open_typeface(box_font()), size_pt=72, leading=1.5)
    assert lettering.em_mm == pytest.approx(25.4)
    assert lettering.leading_mm == pytest.approx(38.1)
    assert lettering.cap_height_mm == pytest.approx(0.7 * 25.4)


def test_a_typeface_may_be_given_as_what_opens_it() -> None:
    """A family's name or a font's bytes are opened."""
    assert Lettering(typeface="bangers").typeface.family == "Bangers"
    assert Lettering(typeface=box_font()).typeface.family == "Box"


def test_it_is_a_value() -> None:
    """Frozen, comparable, replaceable, and it goes to other processes."""
    lettering = Lettering(typeface="Comic Neue", size_pt=8)
    assert dataclasses.replace(lettering, size_pt=9) == Lettering(typeface="Comic Neue", size_pt=9)
    assert pickle.loads(pickle.dumps(lettering)) == lettering  # noqa: S301 - pickled just now
    assert hash(lettering) == hash(Lettering(typeface="Comic Neue", size_pt=8))
    with pytest.raises(dataclasses.FrozenInstanceError):
        lettering.size_pt = 3  # type: ignore[misc]


@pytest.mark.parametrize("value", [0, -1, math.nan, math.inf, 1e300, True, "8"])
@pytest.mark.parametrize("name", ["size_pt", "leading", "air_mm", "tracking"])
def test_impossible_numbers_are_refused(name: str, value: float) -> None:
    """Negative, endless, and what is no number; 0 but for an air and a tracking."""
    if value == 0 and name in ("air_mm", "tracking"):
        assert getattr(Lettering(**{name: value}), name) == 0  # type: ignore[arg-type]
        return
    if (name, value) == ("tracking", True):
        value = 1.1
    with pytest.raises(FontError, match="impossible"):
        Lettering(**{name: value})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "advice"),
    [("size_pt", "over 0.001,"), ("air_mm", "of 0 or more,"), ("tracking", "over -0.1, up to 1")],
)
def test_the_advice_says_whether_0_will_do(name: str, advice: str) -> None:
    """A type size of 0 is impossible, an air of 0 is not."""
    with pytest.raises(FontError) as caught:
        Lettering(**{name: -1.0})  # type: ignore[arg-type]
    assert advice in caught.value.advice


def test_an_unknown_case_or_typeface_is_refused() -> None:
    """The advice lists what there is."""
    with pytest.raises(FontError, match="upper, as-typed"):
        Lettering(case="lower")  # type: ignore[arg-type]
    with pytest.raises(FontError, match="horizontal, vertical"):
        Lettering(writing="upwards")  # type: ignore[arg-type]
    with pytest.raises(FontError, match="Grandstander"):
        Lettering(typeface="nowhere.ttf")


def test_it_carries_habits_and_break_rules() -> None:
    """Each with its own default; replaced as a whole."""
    usual = Lettering()
    assert (usual.habits, usual.breaks) == (Habits(), BreakRules())
    assert (usual.tracking, usual.writing) == (0, "horizontal")
    tight = dataclasses.replace(usual, tracking=-0.02, habits=Habits(dashes="em-dash"))
    assert (tight.tracking, tight.habits.dashes) == (-0.02, "em-dash")
    assert hash(tight) != hash(usual)


def test_a_crossbar_i_that_the_typeface_lacks_is_told() -> None:
    """Before anything is set with the wrong letters."""
    with pytest.raises(FontError, match="no other I"):
        Lettering(habits=Habits(crossbar="ss19"))
    with pytest.raises(FontError, match="small letters"):
        Lettering(habits=Habits(crossbar="upper-slot"))
    assert Lettering(typeface="Bangers", habits=Habits(crossbar="upper-slot")).habits
