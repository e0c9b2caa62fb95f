"""Where speakers stand when nobody said: common practice, no source."""

import pytest

from letterfit.geometry import Point, Rect
from letterfit.place.model import Speaker
from letterfit.place.voices import MOUTH, cast, mouths, sides

PANEL = Rect(10, 0, 90, 60)
WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
OFF = Speaker(name="KEEPER", off_panel=True)


def found(
    speakers: list[Speaker | None], obstacles: list[Rect], *, height: float, reading: str = "ltr"
) -> tuple[Point | None, ...]:
    """The mouths for figures of the usual shape."""
    return mouths(
        PANEL,
        speakers,
        obstacles=obstacles,
        figure_height=height,
        aspect=1 / 3,
        reading="rtl" if reading == "rtl" else "ltr",
    )


def test_cast_stands_in_order_of_first_speech() -> None:
    """Each name once; who is off the panel or has a mouth does not stand anywhere new."""
    placed = Speaker(name="MATE", mouth=Point(20, 20))
    assert cast([PILOT, None, WENNA, PILOT, OFF, placed]) == ("PILOT", "WENNA")


def test_sides_are_spread_over_the_width_and_mirrored() -> None:
    """Two speakers at a quarter and three quarters, from the side read first."""
    assert sides(PANEL, [WENNA, PILOT]) == (32.5, 77.5)
    assert sides(PANEL, [WENNA, PILOT], reading="rtl") == (77.5, 32.5)


def test_mouths_stand_in_order_left_to_right() -> None:
    """First to speak left, same speaker same mouth, caption and off-panel none."""
    first, none, second, again, off = found([WENNA, None, PILOT, WENNA, OFF], [], height=60)
    assert first is not None
    assert second is not None
    assert first.x < second.x
    assert again == first
    assert none is None
    assert off is None


def test_mouth_is_near_the_top_of_a_figure_that_stands_on_the_floor() -> None:
    """Figures of 30 mm have their mouths at MOUTH times 30 mm over the floor."""
    (mouth,) = found([WENNA], [], height=30)
    assert mouth is not None
    assert mouth.y == pytest.approx(60 - MOUTH * 30)


def test_figures_stand_beside_what_is_in_their_way() -> None:
    """A balloon over the wanted place: the figure stands beside it, as near as it can."""
    balloon = Rect(45, 0, 30, 40)
    (mouth,) = found([WENNA], [balloon], height=40)
    assert mouth is not None
    assert not balloon.x < mouth.x < balloon.right


def test_figures_shrink_where_there_is_no_room() -> None:
    """With the whole top taken the mouth is below it, however small the figure."""
    (mouth,) = found([WENNA], [Rect(10, 0, 90, 45)], height=0)
    assert mouth is not None
    assert mouth.y > 45


def test_mouths_given_are_kept() -> None:
    """A mouth given by the caller stays where it is."""
    given = Speaker(name="MATE", mouth=Point(20, 20))
    assert found([given], [], height=30) == (Point(20, 20),)
