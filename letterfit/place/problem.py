"""One panel's task in numbers: what the search works on, and nothing it could not mirror.

The panel's top left corner is (0, 0), every outline of every menu has one number o, and pages read
right to left are mirrored, so that the search knows one direction only.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats, Outline
from letterfit.place.kernel import COS, COT, SIN, STEPS, Bools, Ints, profile
from letterfit.place.model import Speaker
from letterfit.place.terms import Terms
from letterfit.place.voices import cast, sides

MOST_OUTLINES = 8
"""Outlines of a menu that the search looks at; longer menus are thinned evenly."""

FEW = 4
"""Outlines of a menu that the beam takes where there are several balloons: the polish takes all."""

ROUND = 1.3
"""Width over height under which a balloon begins to look narrow (common practice, no source)."""

NARROW = 2.0
"""What the looks of narrow balloons cost: this times the logarithm of ROUND over the aspect."""

CACHE = 1 << 15
"""Numbers worked on at once."""


@dataclass(frozen=True, slots=True, eq=False)
class Region:
    """A keep-clear polygon: how far down and up it pushes an outline at x.

    Args:
        down: Shape (2, t): its support towards (+-cos t, +sin t), over sin t.
        up: Shape (2, t): the same towards (+-cos t, -sin t).
        left: Its least x.
        right: Its greatest x.
    """

    down: Floats
    up: Floats
    left: float
    right: float


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Problem:
    """One panel's balloons, as arrays.

    Args:
        width: The panel's width, mm.
        height: The panel's height, mm.
        gap: Least distance between outlines, mm.
        margin: Least distance to the panel's border, mm.
        region_gap: Least distance to the keep-clear regions, mm.
        ordered: Whether the reading order binds.
        aspect: Width over height of the figure.
        limit: Most area of outlines, mm2.
        menus: Per balloon, the numbers of its outlines.
        few: Per balloon, those that the beam takes: spread evenly, the smallest among them, and
            those that look best.
        choices: Per number, the outline's place in the menu the caller gave.
        half_width: Per number, mm.
        half_height: Per number, mm.
        area: Per number, mm2.
        price: Per number, what its looks cost, a ratio.
        push: Shape (t, numbers): support of the outline grown by half the gap, over sin t.
        chord: Shape (numbers, STEPS + 1), mm.
        regions: Keep-clear regions.
        lean: Per balloon, the x its speaker stands at, mm; 0 where there is none.
        leans: Per balloon, whether its speaker stands in the panel.
        mouth_y: Per balloon, the y its mouth is taken to be at, mm.
        caption: Per balloon, whether it is a caption.
        aside: Per balloon, whether its speaker stands off the panel, nobody knows where.
    """

    width: float
    height: float
    gap: float
    margin: float
    region_gap: float
    ordered: bool
    aspect: float
    limit: float
    menus: tuple[Ints, ...]
    few: tuple[Ints, ...]
    choices: Ints
    half_width: Floats
    half_height: Floats
    area: Floats
    price: Floats
    push: Floats
    chord: Floats
    regions: tuple[Region, ...]
    lean: Floats
    leans: Bools
    mouth_y: Floats
    caption: Bools
    aside: Bools

    @property
    def size(self) -> int:
        """The number of balloons."""
        return len(self.menus)


def pose(
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    *,
    terms: Terms,
    region_gap: float,
    limit: float,
) -> Problem:
    """The task as arrays, mirrored for pages read right to left."""
    prices = [_prices(menu, i, terms=terms) for i, menu in enumerate(menus)]
    kept = [
        _thinned(menu, panel, margin=terms.margin, price=own)
        for menu, own in zip(menus, prices, strict=True)
    ]
    outlines = [menu[c] for menu, chosen in zip(menus, kept, strict=True) for c in chosen]
    ends = np.cumsum([len(chosen) for chosen in kept])
    numbers = [np.arange(e - len(c), e) for e, c in zip(ends, kept, strict=True)]
    area = np.array([o.area_mm2 for o in outlines])
    price = np.concatenate([own[chosen] for own, chosen in zip(prices, kept, strict=True)])
    profiles = [profile(outline) for outline in outlines]
    mirrored = terms.reading == "rtl"
    lean = np.array(sides(panel, terms.speakers, reading=terms.reading)) - panel.x
    silent = np.array([s is None for s in terms.speakers], dtype=np.bool_)
    return Problem(
        width=panel.width,
        height=panel.height,
        gap=terms.gap,
        margin=terms.margin,
        region_gap=region_gap,
        ordered=terms.ordered,
        # One box for two who talk: else balloons pile up wherever a lone figure leaves room.
        aspect=terms.aspect * (2 if len(cast(terms.speakers)) > 1 else 1),
        limit=limit,
        menus=tuple(numbers),
        few=tuple(_few(menu, area, price=price) if len(menus) > 1 else menu for menu in numbers),
        choices=np.concatenate([np.array(chosen, dtype=np.intp) for chosen in kept]),
        half_width=np.array([o.half_width for o in outlines]),
        half_height=np.array([o.half_height for o in outlines]),
        area=area,
        price=price,
        push=(np.array([p.support for p in profiles]).T + terms.gap / 2) / SIN[:, None],
        chord=np.array([p.chord for p in profiles]).reshape(-1, STEPS + 1),
        regions=tuple(_region(panel, corners, mirrored=mirrored) for corners in terms.regions),
        lean=np.nan_to_num(panel.width - lean if mirrored else lean),
        leans=np.isfinite(lean),
        mouth_y=np.array([_mouth_y(panel, s) for s in terms.speakers]),
        aside=~silent & ~np.isfinite(lean),
        caption=silent & np.array([menu[0].kind == "caption" for menu in menus]),
    )


def _thinned(menu: Sequence[Outline], panel: Rect, *, margin: float, price: Floats) -> list[int]:
    """The outlines that enter the panel, at most MOST_OUTLINES, evenly from wide to narrow."""
    room_x, room_y = panel.width - 2 * margin + 1e-9, panel.height - 2 * margin + 1e-9
    inside = [
        c
        for c, outline in enumerate(menu)
        if 2 * outline.half_width <= room_x and 2 * outline.half_height <= room_y
    ]
    if len(inside) <= MOST_OUTLINES:
        return inside
    return [inside[p] for p in _handsome(price[inside], most=MOST_OUTLINES)]


def _prices(menu: Sequence[Outline], index: int, *, terms: Terms) -> Floats:
    """What the looks of a menu's outlines cost: as given, and more where a balloon is narrow."""
    given = terms.prices[index] if terms.prices is not None else (0.0,) * len(menu)
    narrow = [
        0.0
        if outline.kind == "caption"
        else NARROW * max(math.log(ROUND * outline.half_height / outline.half_width), 0.0)
        for outline in menu
    ]
    result: Floats = np.array(given, dtype=np.float64) + np.array(narrow)
    return result


def _few(menu: Ints, area: Floats, *, price: Floats) -> Ints:
    """A menu thinned to a few, its smallest outline kept."""
    picks = np.array(_handsome(price[menu], most=FEW), dtype=np.intp)
    smallest = int(area[menu].argmin())
    if smallest not in picks:
        picks[np.abs(picks - smallest).argmin()] = smallest
    return menu[picks]


def _handsome(price: Floats, *, most: int) -> list[int]:
    """Places in a menu, spread evenly, of neighbours the better looking ones."""
    if len(price) <= most:
        return list(range(len(price)))
    even = np.linspace(0, len(price) - 1, most).round()
    groups = np.array_split(np.arange(len(price)), most)
    ranked = zip(groups, even, strict=True)
    return [int(min(g, key=lambda p: (price[p], abs(p - at)))) for g, at in ranked]


def _region(panel: Rect, corners: Sequence[Point], *, mirrored: bool) -> Region:
    xs = np.array([p.x for p in corners]) - panel.x
    xs = panel.width - xs if mirrored else xs
    ys = np.array([p.y for p in corners]) - panel.y
    across = np.stack([COS, -COS])[:, :, None] * xs
    down = (across + SIN[:, None] * ys).max(axis=-1) / SIN
    up = (across - SIN[:, None] * ys).max(axis=-1) / SIN
    return Region(down, up, float(xs.min()), float(xs.max()))


def pushes(
    problem: Problem, *, across: Floats, first: Ints, second: Ints, coarse: bool = False
) -> Floats:
    """The least distance down between two outlines' centres, on the safe side.

    Args:
        problem: The task.
        across: Distances across of the centres, mm, any sign.
        first: Numbers of outlines, same shape as `across` or broadcast to it.
        second: Numbers of outlines, same shape as `across` or broadcast to it.
        coarse: Whether every other direction is enough.

    Returns:
        In the shape of `across`, mm: 0 where no distance down is needed.
    """
    dx = np.abs(across)
    widths = problem.half_width[first] + problem.half_width[second] + problem.gap
    need = np.full(dx.shape, np.inf)
    for part in directions(dx.size, step=2 if coarse else 1):
        reach = problem.push[part, first] + problem.push[part, second]
        reach -= COT[part].reshape(-1, *[1] * dx.ndim) * dx
        np.minimum(need, reach.min(axis=0), out=need)
    result: Floats = np.where(dx >= widths, 0.0, np.maximum(need, 0.0))
    return result


def directions(size: int, *, step: int = 1) -> list[slice]:
    """The directions in portions small enough to stay in the processor's cache.

    Args:
        size: How many numbers each direction makes.
        step: 1 for all directions, 2 for every other.
    """
    portion = step * max(1, CACHE // max(size, 1))
    return [slice(at, at + portion, step) for at in range(0, len(SIN), portion)]


def forbidden(
    problem: Problem, region: Region, *, x: Floats, outline: Ints
) -> tuple[Floats, Floats]:
    """The open interval of y that a keep-clear region forbids to outlines at x."""
    grown = problem.push[:, outline] + ((problem.region_gap - problem.gap / 2) / SIN)[:, None]
    slope = COT[:, None] * x
    low = np.full(x.shape, -np.inf)
    high = np.full(x.shape, np.inf)
    for side, sign in ((0, 1.0), (1, -1.0)):
        high = np.minimum(high, (region.down[side][:, None] + grown - sign * slope).min(axis=0))
        low = np.maximum(low, -(region.up[side][:, None] + grown - sign * slope).min(axis=0))
    reach = problem.half_width[outline] + problem.region_gap
    clear = (x >= region.right + reach) | (x <= region.left - reach) | (low >= high)
    return np.where(clear, 0.0, low), np.where(clear, 0.0, high)


def _mouth_y(panel: Rect, speaker: Speaker | None) -> float:
    """Where the search takes a mouth to be while the figure's height is not yet known."""
    if speaker is not None and speaker.mouth is not None:
        return speaker.mouth.y - panel.y
    return 0.45 * panel.height
