"""Where speakers stand when nobody said: common practice, no source."""

from letterfit.geometry import Point, Rect
from letterfit.place.model import Speaker
from letterfit.place.silhouette import head_in
from letterfit.place.voices import cast, mouths, sides

PANEL = Rect(10, 0, 90, 60)
WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
OFF = Speaker(name="KEEPER", off_panel=True)


def test_cast_stands_in_order_of_first_speech() -> None:
    """Each name once; who is off the panel or has a mouth does not stand anywhere new."""
    placed = Speaker(name="MATE", mouth=Point(20, 20))
    assert cast([PILOT, None, WENNA, PILOT, OFF, placed]) == ("PILOT", "WENNA")


def test_sides_are_spread_over_the_width_and_mirrored() -> None:
    """Two speakers at a quarter and three quarters, from the side read first."""
    assert sides(PANEL, [WENNA, PILOT]) == (32.5, 77.5)
    assert sides(PANEL, [WENNA, PILOT], reading="rtl") == (77.5, 32.5)


def test_mouths_are_in_the_heads_of_the_figures() -> None:
    """Figures come in order of first speech; captions and who is off the panel have no mouth."""
    figures = [Rect(20, 30, 10, 30), Rect(50, 30, 10, 30)]
    first, none, second, again, off = mouths(
        PANEL, [WENNA, None, PILOT, WENNA, OFF], figures=figures
    )
    assert again == first
    assert none is None
    assert off is None
    for mouth, box in ((first, figures[0]), (second, figures[1])):
        head = head_in(box)
        assert mouth is not None
        assert mouth.x == box.centre.x
        assert head.y < mouth.y < head.bottom


def test_who_has_no_figure_speaks_from_its_own_side_near_the_floor() -> None:
    """Without room for figures the mouths are low down, first left, or first right for rtl."""
    for reading, order in (("ltr", 1), ("rtl", -1)):
        first, second = mouths(
            PANEL, [WENNA, PILOT], figures=[], reading="rtl" if reading == "rtl" else "ltr"
        )
        assert first is not None
        assert second is not None
        assert order * (second.x - first.x) > 0
        assert PANEL.bottom - 0.2 * PANEL.height < first.y < PANEL.bottom


def test_mouths_given_are_kept() -> None:
    """A mouth given by the caller stays where it is."""
    given = Speaker(name="MATE", mouth=Point(20, 20))
    assert mouths(PANEL, [given], figures=[]) == (Point(20, 20),)
