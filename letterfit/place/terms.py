"""The terms of one placement: what the caller asked, checked, in one value."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.errors import PageError
from letterfit.geometry import Insets, Point, Rect
from letterfit.outline import Outline
from letterfit.place.model import Reading, Speaker

MOST_SIDE = 1e5
"""Longest side of a panel in mm, a hundred metres."""

SIDES = ("top", "right", "bottom", "left")

KeepClear = Rect | tuple[Point, ...]
"""A region nothing may lie on: a rectangle, or the corners of a convex polygon in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What must hold of a layout.

    Args:
        gap: Least true distance between outlines, mm.
        margin: Least distances from the panel's sides, mm.
        reading: Reading direction.
        regions: Keep-clear regions as the corners of convex polygons.
        speakers: One per balloon.
        limit: Most share of the panel covered.
        ordered: Whether the reading order must be certain.
        aspect: Width over height of the figure.
        prices: Per balloon, what each outline of its menu costs in looks; None when nothing does.
        joined: Per balloon, whether it is joined to the one before it; the first never is.
        overlap: Depth by which joined balloons overlap, mm.
        overhangs: Per balloon, how far each outline of its menu may hang over the top border, mm:
            either so far or, at 0 and wherever it does not reach up there, not at all.

    Raises:
        PageError: When a number is not finite or out of its range.
    """

    gap: float
    margin: Insets
    reading: Reading
    regions: tuple[tuple[Point, ...], ...]
    speakers: tuple[Speaker | None, ...]
    limit: float
    ordered: bool
    aspect: float
    prices: tuple[tuple[float, ...], ...] | None = None
    joined: tuple[bool, ...] = ()
    overlap: float = 1.0
    overhangs: tuple[tuple[float, ...], ...] | None = None

    def __post_init__(self) -> None:
        for name, value in (
            ("gap_mm", self.gap),
            ("overlap_mm", self.overlap),
            *(("margin_mm", getattr(self.margin, side)) for side in SIDES),
        ):
            if not math.isfinite(value) or value < 0:
                raise PageError(f"{name} of {value} mm", advice="give a finite length of 0 or more")
        if not math.isfinite(self.limit) or not 0 < self.limit <= 1:
            raise PageError(
                f"a coverage limit of {self.limit}", advice="give a share over 0 and up to 1"
            )
        if not math.isfinite(self.aspect) or self.aspect <= 0:
            raise PageError(
                f"a figure of aspect {self.aspect}", advice="give width over height, over 0"
            )
        if self.reading not in ("ltr", "rtl"):
            raise PageError(f"reading {self.reading!r}", advice='give "ltr" or "rtl"')
        for speaker in self.speakers:
            _known(speaker)


def make_terms(  # noqa: PLR0913 - the terms of place_outlines, all with defaults
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    *,
    gap_mm: float,
    margin_mm: float | Insets,
    reading: Reading,
    keep_clear: Sequence[KeepClear],
    speakers: Sequence[Speaker | None] | None = None,
    coverage_limit: float = 1.0,
    ordered: bool = True,
    figure_aspect: float = 1 / 3,
    prices: Sequence[Sequence[float]] | None = None,
    joined: Sequence[bool] = (),
    overlap_mm: float = 1.0,
    overhangs: Sequence[Sequence[float]] | None = None,
) -> Terms:
    """The terms of a placement, checked against its panel and menus; see `place_outlines`.

    Raises:
        PageError: As `place_outlines`.
    """
    check_panel(panel)
    voices = tuple(speakers) if speakers is not None else (None,) * len(menus)
    check_menus(menus, len(voices))
    return Terms(
        gap=gap_mm,
        margin=Insets.of(margin_mm),
        reading=reading,
        regions=tuple(region_corners(region) for region in keep_clear),
        speakers=voices,
        limit=coverage_limit,
        ordered=ordered,
        aspect=figure_aspect,
        prices=_beside(menus, prices, name="price"),
        joined=check_joined(menus, voices, joined),
        overlap=overlap_mm,
        overhangs=_beside(menus, overhangs, name="overhang"),
    )


def region_corners(region: KeepClear) -> tuple[Point, ...]:
    """The corners of a keep-clear region.

    Raises:
        PageError: When it has no area, is not convex, or a number is not finite.

    >>> len(region_corners(Rect(0, 0, 5, 5)))
    4
    """
    if isinstance(region, Rect):
        x, y, right, bottom = region.x, region.y, region.right, region.bottom
        return Point(x, y), Point(right, y), Point(right, bottom), Point(x, bottom)
    turns = [_turn(region[i - 2], region[i - 1], p) for i, p in enumerate(region)]
    convex = all(t >= 0 for t in turns) or all(t <= 0 for t in turns)
    if len(region) < 3 or not all(map(math.isfinite, turns)) or not convex or not any(turns):
        raise PageError(
            f"a keep-clear region of {len(region)} corners is no convex polygon",
            advice="give the corners of a convex polygon in order, or a rectangle",
        )
    return tuple(region)


def check_panel(panel: Rect) -> None:
    """Refuse panels that no page holds: figures would be lost in rounding.

    Raises:
        PageError: When a side is longer than MOST_SIDE.
    """
    if max(panel.width, panel.height) > MOST_SIDE or max(abs(panel.x), abs(panel.y)) > MOST_SIDE:
        raise PageError(
            f"a panel of {panel.width:g} x {panel.height:g} mm at ({panel.x:g}, {panel.y:g})",
            advice=f"keep panels within {MOST_SIDE:g} mm; all lengths are millimetres",
        )


def check_menus(menus: Sequence[Sequence[Outline]], speakers: int) -> None:
    """Refuse menus without outlines, and a number of speakers that is not theirs.

    Raises:
        PageError: When a menu is empty or the numbers differ.
    """
    for index, menu in enumerate(menus):
        if not menu:
            raise PageError(
                f"balloon {index + 1} has no outline to choose from",
                advice="give every balloon at least one outline",
            )
    if speakers != len(menus):
        raise PageError(
            f"{speakers} speakers for {len(menus)} balloons",
            advice="give one speaker, or None, for each balloon",
        )


def check_joined(
    menus: Sequence[Sequence[Outline]],
    speakers: Sequence[Speaker | None],
    joined: Sequence[bool],
) -> tuple[bool, ...]:
    """Which balloons are joined to the one before them, one answer for each.

    Raises:
        PageError: When the answers are not as many as the balloons, the first balloon is joined, or
            one is joined to another speaker's.
    """
    if not any(joined):
        return (False,) * len(menus)
    if len(joined) != len(menus):
        raise PageError(
            f"{len(joined)} answers on what is joined for {len(menus)} balloons",
            advice="say True or False for each balloon, or nothing at all",
        )
    for index, (own, speaker) in enumerate(zip(joined, speakers, strict=True)):
        before = speakers[index - 1] if index else None
        if own and (not index or (speaker and speaker.name) != (before and before.name)):
            raise PageError(
                f"balloon {index + 1} cannot be joined to "
                + ("another speaker's" if index else "one before it"),
                advice="join a balloon to the one before it of the same speaker",
            )
    return tuple(map(bool, joined))


def _beside(
    menus: Sequence[Sequence[Outline]], numbers: Sequence[Sequence[float]] | None, *, name: str
) -> tuple[tuple[float, ...], ...] | None:
    """The numbers as tuples, one beside each outline.

    Raises:
        PageError: When one is missing, or is no finite number of 0 or more.
    """
    if numbers is None:
        return None
    if [len(own) for own in numbers] != [len(menu) for menu in menus]:
        raise PageError(
            f"{name}s {[len(own) for own in numbers]} do not stand beside outlines "
            f"{[len(menu) for menu in menus]}",
            advice=f"give one {name} for each outline of each menu",
        )
    for index, own in enumerate(numbers):
        for number in own:
            if not (math.isfinite(number) and number >= 0):
                raise PageError(
                    f"balloon {index + 1} has a {name} of {number}",
                    advice="give finite numbers of 0 or more",
                )
    return tuple(tuple(map(float, own)) for own in numbers)


def _turn(p: Point, q: Point, r: Point) -> float:
    return (q.x - p.x) * (r.y - q.y) - (q.y - p.y) * (r.x - q.x)


def _known(speaker: Speaker | None) -> None:
    mouth = speaker.mouth if speaker is not None else None
    if mouth is not None and not (math.isfinite(mouth.x) and math.isfinite(mouth.y)):
        raise PageError(f"a mouth at ({mouth.x}, {mouth.y})", advice="give finite numbers")
