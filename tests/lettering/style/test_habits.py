"""Habits: their defaults, and the ones there are not."""

import pickle
from dataclasses import replace

import pytest

from letterfit.errors import FontError
from letterfit.lettering.style.habits import MOST_KEPT, Habits


def test_nothing_of_the_writers_punctuation_is_changed_unasked() -> None:
    """Dashes, ellipses and quotes are as typed; emphasis is bold italic; McCoy keeps its c."""
    usual = Habits()
    assert (usual.dashes, usual.ellipses, usual.quotes) == ("as-typed",) * 3
    assert (usual.emphasis, usual.crossbar, usual.crossbar_in) == ("bold-italic", "auto", "pronoun")
    assert usual.keep_case == ("Mc*",)


def test_habits_are_a_value() -> None:
    """Comparable, hashable, and they go to other processes."""
    habits = Habits(dashes="em-dash", keep_case=("MacLAREN", "d'ARC"))
    assert pickle.loads(pickle.dumps(habits)) == habits  # noqa: S301 - pickled just now
    assert hash(replace(habits, dashes="as-typed")) != hash(habits)


@pytest.mark.parametrize("name", ["emphasis", "crossbar", "crossbar_in", "dashes", "ellipses"])
@pytest.mark.parametrize("value", ["", "Loud", None, 3, "SS01", "ss0", "ss011"])
def test_unknown_habits_are_refused(name: str, value: object) -> None:
    """The advice lists what there is."""
    with pytest.raises(FontError, match="choose from"):
        Habits(**{name: value})  # type: ignore[arg-type]


def test_a_feature_of_the_font_is_a_crossbar() -> None:
    """An OpenType tag of four letters or digits names the alternate I."""
    assert Habits(crossbar="ss03").crossbar == "ss03"


@pytest.mark.parametrize("word", ["", "MCCOY", "Mc Coy", "*", "Mc**", "-a", 7, "a\n"])
def test_words_that_keep_no_small_letter_are_refused(word: object) -> None:
    """A word to keep has small letters, and is one word."""
    with pytest.raises(FontError, match="small letters"):
        Habits(keep_case=(word,))  # type: ignore[arg-type]


def test_one_word_may_be_given_alone_and_too_many_not_at_all() -> None:
    """A string is one word; a list as long as a dictionary is a slip."""
    assert Habits(keep_case="d'ARC").keep_case == ("d'ARC",)  # type: ignore[arg-type]
    with pytest.raises(FontError, match="words keep their case"):
        Habits(keep_case=("Mc*",) * (MOST_KEPT + 1))
