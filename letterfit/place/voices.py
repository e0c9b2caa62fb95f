"""Where speakers stand when nobody said: left to right in order of first speech.

Common practice, no source: the first to speak stands where the eye enters the panel. Figures stand
on the panel's floor; the mouth is a little below the top of the figure.
"""

from collections.abc import Sequence

from letterfit.geometry import Point, Rect
from letterfit.place.figure import Obstacle, free_edge_near
from letterfit.place.model import Reading, Speaker

MOUTH = 0.88
"""Height of the mouth over the figure's: the head is the top 1/7.5, the mouth near its chin."""

TALLEST = 0.7
"""Most height of a figure over the panel's: heads seldom touch the border (common practice)."""

LEAST = 0.12
"""Height over the panel's under which a figure is no longer looked for."""

SHRINK = 0.85
"""A figure that finds no place is tried this much smaller: it stands farther off."""

SHARE_LONE = 0.5
"""Where one speaker alone stands, as a share of the panel's width from the side read first."""


def cast(speakers: Sequence[Speaker | None]) -> tuple[str, ...]:
    """The names of those who stand in the panel with no mouth given, by first speech."""
    unplaced = [s.name for s in speakers if s is not None and s.mouth is None and not s.off_panel]
    return tuple(dict.fromkeys(unplaced))


def sides(
    panel: Rect, speakers: Sequence[Speaker | None], *, reading: Reading = "ltr"
) -> tuple[float, ...]:
    """The x in mm that each balloon's speaker stands at; NaN for who has no place of its own.

    >>> sides(Rect(0, 0, 60, 40), [Speaker(name="WENNA"), Speaker(name="PILOT"), None])
    (15.0, 45.0, nan)
    """
    names = cast(speakers)
    places = {
        name: _spread(panel, i, count=len(names), reading=reading) for i, name in enumerate(names)
    }
    return tuple(_side(speaker, places) for speaker in speakers)


def mouths(  # noqa: PLR0913 - where figures stand depends on all of it
    panel: Rect,
    speakers: Sequence[Speaker | None],
    *,
    obstacles: Sequence[Obstacle],
    figure_height: float,
    aspect: float,
    reading: Reading = "ltr",
) -> tuple[Point | None, ...]:
    """The mouth of each balloon's speaker; None for captions and for who stands off the panel.

    Args:
        panel: The panel.
        speakers: One per balloon.
        obstacles: What the figures must stand clear of.
        figure_height: The tallest figure that stands clear of them, mm.
        aspect: Width over height of a figure.
        reading: The first to speak stands at the left for "ltr", at the right for "rtl".

    Returns:
        Figures stand as near as they can to their sides, clear of the obstacles and, where there
        is room, of each other.
    """
    names = cast(speakers)
    tall = min(figure_height, TALLEST * panel.height)
    taken: list[Obstacle] = list(obstacles)
    places: dict[str, Point] = {}
    for rank, name in enumerate(names):
        wanted = _spread(panel, rank, count=len(names), reading=reading)
        left, height = _stand(panel, taken, wanted=wanted, tall=tall, aspect=aspect)
        taken.append(Rect(left, panel.bottom - height, aspect * height, height))
        mouth = panel.bottom - MOUTH * height
        places[name] = Point(left + aspect * height / 2, mouth)
    return tuple(
        None if s is None else s.mouth or (None if s.off_panel else places[s.name])
        for s in speakers
    )


def _stand(
    panel: Rect, taken: Sequence[Obstacle], *, wanted: float, tall: float, aspect: float
) -> tuple[float, float]:
    """Left edge and height of a figure near the wanted x, clear of all that is taken."""
    height = max(tall, LEAST * panel.height)
    while height >= LEAST * panel.height:
        edge = free_edge_near(panel, taken, height=height, width=aspect * height, x=wanted)
        if edge is not None:
            return edge, height
        height *= SHRINK
    width = aspect * LEAST * panel.height
    return min(max(wanted - width / 2, panel.x), panel.right - width), LEAST * panel.height


def _spread(panel: Rect, rank: int, *, count: int, reading: Reading) -> float:
    share = (rank + 0.5) / count if count > 1 else SHARE_LONE
    return panel.x + panel.width * (share if reading == "ltr" else 1 - share)


def _side(speaker: Speaker | None, places: dict[str, float]) -> float:
    if speaker is None:
        return float("nan")
    if speaker.mouth is not None:
        return speaker.mouth.x
    return float("nan") if speaker.off_panel else places[speaker.name]
