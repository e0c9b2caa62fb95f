"""Lettering: its defaults, its lengths, and the values it refuses."""

import dataclasses
import math
import pickle

import pytest

from letterfit.errors import FontError
from letterfit.lettering import Lettering, open_typeface
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
@pytest.mark.parametrize("name", ["size_pt", "leading", "air_mm"])
def test_impossible_numbers_are_refused(name: str, value: float) -> None:
    """Zero, negative, endless, and what is no number; an air of 0 alone is possible."""
    if (name, value) == ("air_mm", 0) and value is not False:
        assert Lettering(air_mm=0).air_mm == 0
        return
    with pytest.raises(FontError, match="impossible"):
        Lettering(**{name: value})  # type: ignore[arg-type]


@pytest.mark.parametrize(("name", "advice"), [("size_pt", "over 0,"), ("air_mm", "of 0 or more,")])
def test_the_advice_says_whether_0_will_do(name: str, advice: str) -> None:
    """A type size of 0 is impossible, an air of 0 is not."""
    with pytest.raises(FontError) as caught:
        Lettering(**{name: -1.0})  # type: ignore[arg-type]
    assert advice in caught.value.advice


def test_an_unknown_case_or_typeface_is_refused() -> None:
    """The advice lists what there is."""
    with pytest.raises(FontError, match="upper, as-typed"):
        Lettering(case="lower")  # type: ignore[arg-type]
    with pytest.raises(FontError, match="Grandstander"):
        Lettering(typeface="nowhere.ttf")
