"""Windows of lanes: every stack that goes in has its breaks in them."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.aspects import few_cells
from letterfit.fit.ink import Ink
from letterfit.fit.lanes import open_lanes
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import line_scales
from letterfit.lettering.words import Words
from tests.fit.texts import airs, all_stacks, names, texts
from tests.words import box_words

plain = texts().filter(lambda words: words.forced.sum() == 1)


@settings(max_examples=40)
@given(plain, names, airs, st.floats(1.0, 1.3))
def test_every_stack_that_goes_in_breaks_in_the_windows(
    words: Words, name: str, air: float, over: float
) -> None:
    """Whatever its number of lines and shape, by the exact scale of its ink."""
    grid = few_cells(name, 1.0, 2.6, 2)
    profiles = Profiles.of([words], air=air)
    ink = Ink.of(words)
    for which, shape in enumerate(grid.shapes.outlines):
        for stack in all_stacks(words):
            count = len(stack) - 1
            limit = over * float(line_scales(ink, shape, stack, air=air).max())
            lanes = open_lanes(
                profiles,
                grid.shapes,
                lanes=(np.array([0]), np.array([count]), np.array([which])),
                limit=np.array([limit]),
            )
            assert lanes is not None
            breaks = np.array(stack[::-1])
            assert np.all(lanes.low[0] <= breaks)
            assert np.all(breaks <= lanes.high[0])


def test_a_lane_too_small_for_its_text_is_left_out() -> None:
    """No stack goes in: no lane; of two lanes the one that holds it stays."""
    grid = few_cells("ellipse", 1.0, 2.6, 1)
    profiles = Profiles.of([box_words([9.0, 9.0, 9.0])], air=1.0)
    lane = (np.array([0, 0]), np.array([1, 3]), np.array([0, 0]))
    assert open_lanes(profiles, grid.shapes, lanes=lane, limit=np.array([3.0, 3.0])) is None
    some = open_lanes(profiles, grid.shapes, lanes=lane, limit=np.array([3.0, 30.0]))
    assert some is not None
    assert some.count.tolist() == [3]


def test_texts_do_not_meet() -> None:
    """The windows of a text among others are those it has alone, counted from its first piece."""
    grid = few_cells("ellipse", 1.0, 2.6, 1)
    first, second = box_words([9.0, 2.0, 3.0, 4.0]), box_words([3.0, 5.0, 2.0])
    both = Profiles.of([first, second], air=1.0)
    lanes = (np.array([0, 1]), np.array([2, 2]), np.array([0, 0]))
    together = open_lanes(both, grid.shapes, lanes=lanes, limit=np.array([12.0, 9.0]))
    alone = open_lanes(
        Profiles.of([second], air=1.0),
        grid.shapes,
        lanes=(np.array([0]), np.array([2]), np.array([0])),
        limit=np.array([9.0]),
    )
    assert together is not None
    assert alone is not None
    assert (together.low[1] - 4).tolist() == alone.low[0].tolist()
    assert (together.high[1] - 4).tolist() == alone.high[0].tolist()
