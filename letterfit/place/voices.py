"""Where speakers stand when nobody said: left to right in order of first speech.

Common practice, no source: the first to speak stands where the eye enters the panel. Figures stand
on the panel's floor; the mouth is a little below the top of the figure.
"""

from collections.abc import Sequence

from letterfit.geometry import Point, Rect
from letterfit.place.model import Reading, Speaker

MOUTH = 0.88
"""Height of the mouth over the figure's own: a head is 1/7.5 of a figure, the mouth at 1/5 of it."""

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


def mouths(
    panel: Rect,
    speakers: Sequence[Speaker | None],
    *,
    figure_height: float,
    reading: Reading = "ltr",
    lone_x: float | None = None,
) -> tuple[Point | None, ...]:
    """The mouth of each balloon's speaker; None for captions and for who stands off the panel.

    Args:
        panel: The panel.
        speakers: One per balloon.
        figure_height: Height of the figures, mm.
        reading: The first to speak stands at the left for "ltr", at the right for "rtl".
        lone_x: Where a speaker stands who is alone, mm; None for the middle.
    """
    names = cast(speakers)
    y = panel.bottom - MOUTH * figure_height
    places = {
        name: Point(_spread(panel, i, count=len(names), reading=reading), y)
        for i, name in enumerate(names)
    }
    if len(names) == 1 and lone_x is not None:
        places = {names[0]: Point(lone_x, y)}
    return tuple(
        None if s is None else s.mouth or (None if s.off_panel else places[s.name])
        for s in speakers
    )


def _spread(panel: Rect, rank: int, *, count: int, reading: Reading) -> float:
    share = (rank + 0.5) / count if count > 1 else SHARE_LONE
    return panel.x + panel.width * (share if reading == "ltr" else 1 - share)


def _side(speaker: Speaker | None, places: dict[str, float]) -> float:
    if speaker is None:
        return float("nan")
    if speaker.mouth is not None:
        return speaker.mouth.x
    return float("nan") if speaker.off_panel else places[speaker.name]
