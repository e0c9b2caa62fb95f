"""Which shapes are balloons, captions and tails, and what is lettered in which.

By name first: what is called balloon, caption or tail, or stands in a group so called, is one. In
a balloons' group a shape without lettering that lies across a larger one's outline, or is smaller
than any balloon, is a tail. Where nothing is so named, a closed shape in a panel that holds the
middle of some lettering is a balloon, the innermost one that is not much smaller than the lettering
and takes no more than most of its panel; a shape without lettering that lies across its outline is
its tail. Lettering belongs to the balloon whose outline contains its middle, to the smallest of
several; what stands in none is a sound effect or a sign.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.errors import DrawingError
from letterfit.existing.model import (
    DrawnBalloon,
    DrawnLettering,
    Part,
    Region,
    Rule,
)
from letterfit.existing.rings import crosses, is_inside, signed_area
from letterfit.existing.tails import without_tails
from letterfit.existing.telling_lettering import pieces_of
from letterfit.existing.walk import Shape
from letterfit.geometry import Rect
from letterfit.outline import Floats

SMALLEST_MM = 4.0
"""A shape less than this wide or high is no balloon: no letter goes in with its air."""

MOST_OF_PANEL = 0.7
"""A shape that takes more of its panel is scenery, unless it is named."""

ROOMY = 1.3
"""Lettering larger than this many times a balloon is a layer of many balloons' lettering."""

MOST_BALLOONS, MOST_TAILS = 400, 2000
"""On one page: many times what a crowded one has."""

MOST_SHAPES = 3000
"""Shapes of a balloon's size on one page."""

SAME_MM = 0.05
"""Two shapes as near to each other are one, drawn twice: its fill, then its line."""


@dataclass(frozen=True, slots=True, eq=False)
class _Body:
    """A shape that may be a balloon."""

    shape: Shape
    region: Region
    box: Rect
    area: float


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Told:
    """What was told of a page.

    Args:
        balloons: Balloons and captions.
        tails: Tails that are shapes of their own.
        effects: Lettering in no balloon.
        untold: How many closed shapes of a balloon's size were told to be nothing.
    """

    balloons: tuple[DrawnBalloon, ...]
    tails: tuple[Region, ...]
    effects: tuple[DrawnLettering, ...]
    untold: int


def tell_balloons(
    shapes: Sequence[Shape],
    lettering: Sequence[DrawnLettering],
    panels: Sequence[Floats],
    *,
    source: str = "",
) -> Told:
    """The balloons and tails among the shapes of a page, each with its lettering.

    Args:
        shapes: All closed shapes but the panels' and those of lettering.
        lettering: All lettering.
        panels: The panels' outlines.
        source: The file's name, for messages.

    Raises:
        DrawingError: When there are more than 3,000 shapes of a balloon's size, more than 400
            balloons or 2,000 tails.
    """
    named = [one for one in shapes if one.kind in ("balloon", "caption")]
    by_name = bool(named)
    bodies = _bodies(named or [one for one in shapes if one.kind is None], source)
    if not by_name:
        bodies = _in_panels(bodies, panels)
    blocks = _blocks(lettering, bodies)
    held: dict[int, list[DrawnLettering]] = {}
    effects = []
    for block, home in zip(blocks, _homes(blocks, bodies, roomy=not by_name), strict=True):
        if home is None:
            effects.append(block)
        else:
            held.setdefault(home, []).append(block)
    empty = [k for k in range(len(bodies)) if k not in held]
    full = [bodies[k] for k in held]
    tails = [k for k in empty if _is_tail(bodies[k], full, bodies if by_name else full)]
    if by_name:
        small = [one for one in named if not _is_balloon_size(one)]
        held |= {k: [] for k in empty if k not in tails}
    else:
        small = []
    regions = [_region(one) for one in (*small, *(s for s in shapes if s.kind == "tail"))]
    regions += [bodies[k].region for k in tails]
    _check_counts(len(held), len(regions), source)
    rule: Rule = "name" if by_name else "geometry"
    balloons = tuple(_balloon(bodies[k], held[k], rule) for k in sorted(held))
    untold = 0 if by_name else len(empty) - len(tails)
    return Told(balloons=balloons, tails=tuple(regions), effects=tuple(effects), untold=untold)


def _check_counts(balloons: int, tails: int, source: str) -> None:
    if balloons > MOST_BALLOONS or tails > MOST_TAILS:
        raise DrawingError(
            f"{balloons:,} balloons and {tails:,} tails, over {MOST_BALLOONS} and {MOST_TAILS:,}",
            advice="name balloons and tails apart from the artwork",
            source=source,
        )


def _region(shape: Shape) -> Region:
    return Region(shape.rings, shape.even_odd)


def _is_balloon_size(shape: Shape) -> bool:
    points = np.concatenate(shape.rings)
    return bool(np.ptp(points, axis=0).min() >= SMALLEST_MM)


def _bodies(shapes: Sequence[Shape], source: str) -> list[_Body]:
    """The shapes of a balloon's size, one drawn twice taken once."""
    large = [one for one in shapes if _is_balloon_size(one)]
    if len(large) > MOST_SHAPES:
        raise DrawingError(
            f"{len(large):,} shapes of a balloon's size, over {MOST_SHAPES:,}",
            advice="name the balloons, or hide the layers of the artwork",
            source=source,
        )
    found: list[_Body] = []
    seen: set[tuple[int, ...]] = set()
    for shape in large:
        region = _region(shape)
        box = region.box
        sides = (box.x, box.y, box.right, box.bottom)
        key = tuple(round(side / SAME_MM) for side in sides)
        if key not in seen:
            seen.add(key)
            found.append(_Body(shape, region, box, abs(signed_area(region.outer))))
    return found


def _in_panels(bodies: Sequence[_Body], panels: Sequence[Floats]) -> list[_Body]:
    """The shapes whose middles lie in a panel of which they do not take most."""
    middles = np.array([[one.box.centre.x, one.box.centre.y] for one in bodies]).reshape(-1, 2)
    areas = np.array([one.area for one in bodies])
    found = np.zeros(len(bodies), dtype=np.bool_)
    for panel in panels:
        most = MOST_OF_PANEL * abs(signed_area(panel))
        found |= (areas <= most) & is_inside(middles, [panel])
    return [one for one, taken in zip(bodies, found, strict=True) if taken]


def _blocks(lettering: Sequence[DrawnLettering], bodies: Sequence[_Body]) -> list[DrawnLettering]:
    """The lettering, layers of outlines for many balloons taken apart into their pieces."""
    found = []
    for block, home in zip(lettering, _homes(lettering, bodies, roomy=False), strict=True):
        outlined = block.size_pt is None and block.words is None and len(block.lines) > 1
        own, other = block.box, None if home is None else bodies[home].box
        whole = other is not None and (
            own.width <= ROOMY * other.width and own.height <= ROOMY * other.height
        )
        found += [block] if whole or not outlined else pieces_of(block)
    return found


def _homes(
    blocks: Sequence[DrawnLettering], bodies: Sequence[_Body], *, roomy: bool
) -> list[int | None]:
    """The smallest shape that contains the middle of each lettering; None where none does.

    Args:
        blocks: The lettering.
        bodies: The shapes.
        roomy: Whether a shape much smaller than the lettering's box is passed over.
    """
    boxes = [block.box for block in blocks]
    middles = np.array([[box.centre.x, box.centre.y] for box in boxes]).reshape(-1, 2)
    least = np.array([0.8 * box.area_mm2 if roomy else 0.0 for box in boxes])
    homes = np.full(len(blocks), -1)
    for number in sorted(range(len(bodies)), key=lambda k: bodies[k].area):
        body = bodies[number]
        low, high = (body.box.x, body.box.y), (body.box.right, body.box.bottom)
        near = ((middles >= low) & (middles <= high)).all(axis=1)
        near &= (homes < 0) & (least <= body.area)
        if near.any():
            inside = is_inside(middles[near], body.region.rings, even_odd=body.region.even_odd)
            homes[np.flatnonzero(near)[inside]] = number
    return [None if home < 0 else home for home in homes.tolist()]


def _is_tail(body: _Body, full: Sequence[_Body], larger: Sequence[_Body]) -> bool:
    """Whether a shape without lettering lies across the outline of a balloon larger than itself."""
    for other in full or larger:
        if other is body or other.area <= body.area or body.box.common(other.box) is None:
            continue
        if crosses(body.region.outer, other.region.rings):
            return True
    return False


def _balloon(body: _Body, lettering: Sequence[DrawnLettering], rule: Rule) -> DrawnBalloon:
    part: Part = "caption" if body.shape.kind == "caption" else "balloon"
    ink = [block.ink.reshape(-1, 2) for block in lettering]
    return DrawnBalloon(
        name=body.shape.name,
        line=body.shape.line,
        part=part,
        region=body.region,
        body=without_tails(body.region.outer, np.concatenate(ink) if ink else None),
        lettering=tuple(lettering),
        rule=rule,
    )
