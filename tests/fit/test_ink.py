"""The ink of a stack as few points."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from letterfit.fit.ink import Ink, stack_points
from letterfit.lettering.breaks.pieces import Stretch
from letterfit.lettering.words import Ints, SetLine, Words
from letterfit.outline import Floats
from tests.fit.texts import all_stacks, corners, texts
from tests.words import box_line, box_words

QUARTER = np.linspace(0, math.pi / 2, 91)
UNITS = np.stack([np.cos(QUARTER), np.sin(QUARTER)])


@given(texts(), st.data())
def test_points_have_the_support_of_all_corners(words: Words, data: st.DataObject) -> None:
    """The few points reach as far, in every direction, as all corners of `Words.line` do."""
    stack = data.draw(st.sampled_from(list(all_stacks(words))))
    few = (Ink.of(words).points(stack) @ UNITS).max(axis=0)
    full = (np.abs(corners(words, stack)) @ UNITS).max(axis=0)
    np.testing.assert_allclose(few, full, atol=1e-9)


@given(texts(), st.sampled_from(["start", "centre"]), st.data())
def test_the_ink_of_a_stacks_lines_alone_is_the_same(
    words: Words, align: str, data: st.DataObject
) -> None:
    """Measured for the lines of one stack, centred or not, or with all pieces of the text."""
    words = replace(words, flush=align == "start")
    stack = data.draw(st.sampled_from(list(all_stacks(words))))
    points = stack_points(words, stack)
    reach = (Ink.of(words).points(stack) @ UNITS).max(axis=0)
    np.testing.assert_allclose((points @ UNITS).max(axis=0), reach, atol=1e-9)


@given(texts(), st.data())
def test_lines_together_are_the_stack(words: Words, data: st.DataObject) -> None:
    """The points of single lines reach as far as those of the whole."""
    stack = data.draw(st.sampled_from(list(all_stacks(words))))
    ink = Ink.of(words)
    parts = [ink.line_points(stack, line) for line in range(len(stack) - 1)]
    together = (np.concatenate(parts) @ UNITS).max(axis=0)
    np.testing.assert_allclose((ink.points(stack) @ UNITS).max(axis=0), together, atol=1e-9)


def test_a_reshaped_line_is_taken_as_set() -> None:
    """Where shaping made a line wider than the slice, the wider ink counts."""
    plain = box_words([4, 4, 4])
    other = box_words([4, 4, 4], reshaped={(0, 1): box_line("WIDE", 20.0)})
    assert Ink.of(plain).points((0, 2, 3))[:, 0].max() == 4.5
    assert Ink.of(other).points((0, 2, 3))[:, 0].max() == 10.0
    assert stack_points(other, (0, 2, 3))[:, 0].tolist() == [10.0, 2.0]


class Blank:
    """Sets every stretch without ink."""

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """Lines of nothing but width."""
        return [SetLine("", 1.0, np.zeros((0, 4))) for _ in stretches]

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """No boxes."""
        return np.zeros((0, 4)), np.zeros(len(stretches), dtype=np.int64)

    def scaled(self, factor: float) -> "Blank":  # noqa: ARG002 - the setter's signature
        """The same."""
        return self


def test_a_stack_without_ink_is_its_centre() -> None:
    """Pieces without glyphs ask for no more room than the air itself."""
    words = box_words([4])
    words = replace(words, setter=Blank())
    assert Ink.of(words).points((0, 1)).tolist() == [[0.0, 0.0]]
    assert stack_points(words, (0, 1)).tolist() == [[0.0, 0.0]]
