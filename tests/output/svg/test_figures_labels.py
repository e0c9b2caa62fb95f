"""A panel's words: the fullest wording that goes in, never over something else."""

from hypothesis import given
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.output.svg.figures_labels import EDGE_MM, LABEL_PT, Labels, height_label
from letterfit.output.svg.small_text import TextBlock
from letterfit.place.silhouette import body_in

SIDES = st.floats(0.2, 60)


def labels(room: Rect, figure: Rect | None) -> Labels:
    """A panel that holds 49 mm, framed to the knees."""
    return Labels(number="4", height="49", framing="knees", room=room, figure=figure)


@given(width=SIDES, height=SIDES, share=st.floats(0.05, 1), at=st.floats(0, 1))
def test_words_stay_inside_and_off_what_is_taken(
    width: float, height: float, share: float, at: float
) -> None:
    """In any panel, with any figure, beside any inset."""
    room = Rect(10, 20, width, height)
    tall = min(share * height, 3 * width)
    figure = Rect(10 + at * (width - tall / 3), room.bottom - tall, tall / 3, tall)
    taken = [Rect(10 + width / 2, 20 + height / 2, width / 2, height / 2)]
    for blocked in ([], taken):
        found = height_label(labels(room, figure), blocked)
        if found is not None:
            block, spot = found
            assert room.inset(EDGE_MM).holds(spot)
            assert (spot.width, spot.height) == (block.width_mm, block.height_mm)
            assert all(spot.common(other) is None for other in blocked)


def test_the_framing_goes_first_then_the_unit_then_the_number() -> None:
    """The narrower the panel, the fewer words; a wide one has them beside its figure."""
    wordings = []
    for width in (30.0, 11.0, 6.5, 3.0, 1.0):
        figure = Rect(0, 0, min(width, 10 / 3), 10)
        found = height_label(labels(Rect(0, 0, width, 10), figure), [])
        wordings.append(() if found is None else found[0].lines)
    assert wordings == [("49 mm", "knees"), ("49 mm", "knees"), ("49 mm",), ("49",), ()]


def test_words_stand_beside_the_figure_where_there_is_room() -> None:
    """They hide nothing of it."""
    figure = Rect(2, 5, 5, 15)
    found = height_label(labels(Rect(0, 0, 40, 20), figure), [])
    assert found is not None
    assert found[1].common(body_in(figure)) is None


def test_a_balloon_on_the_floor_sends_the_words_to_the_other_side() -> None:
    """Words over lettering would look like lettering."""
    room, figure = Rect(0, 0, 40, 20), Rect(16, 5, 5, 15)
    free = height_label(labels(room, figure), [])
    assert free is not None
    low = Labels(
        number="4", height="49", framing="full", room=room, figure=figure, balloons=(free[1],)
    )
    moved = height_label(low, [])
    assert moved is not None
    assert free[1].x > figure.centre.x
    assert moved[1].right < figure.centre.x


def test_a_panel_without_room_for_a_figure_says_so() -> None:
    """In words where they go in, as 0 mm where they do not."""
    wide = height_label(labels(Rect(0, 0, 40, 20), None), [])
    narrow = height_label(labels(Rect(0, 0, 6, 20), None), [])
    assert wide is not None
    assert wide[0] == TextBlock(("no figure",), LABEL_PT)
    assert narrow is not None
    assert narrow[0].lines == ("0 mm",)
