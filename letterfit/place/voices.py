"""Where speakers stand when nobody said: left to right in order of first speech.

Common practice, no source: the first to speak stands where the eye enters the panel. Where exactly
the figures stand is found when the balloons are placed (`standing`); the search only needs sides.
"""

from collections.abc import Sequence

from letterfit.geometry import Point, Rect
from letterfit.place.model import Reading, Speaker
from letterfit.place.silhouette import mouth_in

LOW = 0.1
"""How high over the floor those speak who find no place to stand, as a share of the panel."""

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
    figures: Sequence[Rect],
    reading: Reading = "ltr",
) -> tuple[Point | None, ...]:
    """The mouth of each balloon's speaker; None for captions and for who stands off the panel.

    Args:
        panel: The panel.
        speakers: One per balloon.
        figures: The boxes of those who stand in the panel, in order of first speech.
        reading: The first to speak stands at the left for "ltr", at the right for "rtl".

    Returns:
        Mouths given stay; those of the figures are in their heads; who has no figure speaks from
        low down on its own side of the panel.
    """
    names = cast(speakers)
    places = dict(zip(names, map(mouth_in, figures), strict=False))
    for rank, name in enumerate(names[len(places) :], start=len(places)):
        across = _spread(panel, rank, count=len(names), reading=reading)
        places[name] = Point(across, panel.bottom - LOW * panel.height)
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
