"""Posing: panels, menus and terms as the arrays of a `Problem`."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from letterfit.geometry import Insets, Point, Rect
from letterfit.outline import Floats, Outline
from letterfit.place.kernel import COS, SIN, STEPS, Ints, pairs_of, profile
from letterfit.place.model import Speaker
from letterfit.place.problem import Problem, Regions, Voices
from letterfit.place.rates import rates_of
from letterfit.place.terms import Terms
from letterfit.place.voices import cast, sides

MOST_OUTLINES = 8
"""Outlines of a menu that the search looks at; longer menus are thinned evenly."""

CROWD = 24
"""Balloons of a panel from which on menus are thinned to CROWDED outlines."""

CROWDED = 2

FEW = 4
"""Outlines of a menu that the beam takes where there are several balloons: the polish takes all."""

ROUND = 1.3
"""Width over height under which a balloon begins to look narrow (common practice, no source)."""

NARROW = 2.0
"""What the looks of narrow balloons cost: this times the logarithm of ROUND over the aspect."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One panel's question to the search.

    Args:
        panel: The panel.
        menus: One sequence of outlines per balloon; none is empty.
        terms: What must hold.
        region_gap: Least distance to the keep-clear regions, mm.
        limit: Most area of outlines, mm2.
    """

    panel: Rect
    menus: Sequence[Sequence[Outline]]
    terms: Terms
    region_gap: float
    limit: float


def pose(tasks: Sequence[Task]) -> Problem:
    """The tasks as arrays, mirrored for pages read right to left.

    Args:
        tasks: All of one gap, margin, overlap and of one mind about the reading order.
    """
    kept = [_kept(task) for task in tasks]
    menus = [menu for own in kept for menu in own]
    outlines = [shape.outline for menu in menus for shape in menu]
    profiles = [profile(outline) for outline in outlines]
    terms = tasks[0].terms
    push = np.array([p.support for p in profiles]).T + terms.gap / 2
    push = np.concatenate([push, np.zeros((len(SIN), 1))], axis=1) / SIN[:, None]
    half_width = np.array([*(o.half_width for o in outlines), 1.0])
    half_height = np.array([*(o.half_height for o in outlines), 1.0])
    area = np.array([*(o.area_mm2 for o in outlines), 0.0])
    price = np.array([*(shape.price for menu in menus for shape in menu), 0.0])
    ends = np.cumsum([len(menu) for menu in menus])
    last = np.cumsum([sum(map(len, own)) for own in kept])
    size = np.array([len(own) for own in kept])
    numbers = _blocks(kept)
    own_end = np.repeat(ends, [len(menu) for menu in menus])
    owner = np.repeat(np.arange(len(tasks)), [sum(map(len, own)) for own in kept])
    width = np.array([task.panel.width for task in tasks])
    height = np.array([task.panel.height for task in tasks])
    voices = _voices(tasks, size)
    rates = rates_of(voices, width=width, height=height, area=area, price=price, owner=owner)
    return Problem(
        gap=terms.gap,
        margin=facing(terms),
        overlap=terms.overlap,
        ordered=terms.ordered,
        size=size,
        width=width,
        height=height,
        aspect=np.array([_aspect(task.terms) for task in tasks]),
        limit=np.array([task.limit for task in tasks]),
        regions=_regions(tasks),
        menus=numbers,
        few=_few(numbers, area, price=price) if size.max() > 1 else numbers,
        choices=np.array([shape.choice for menu in menus for shape in menu], dtype=np.intp),
        half_width=half_width,
        half_height=half_height,
        area=area,
        overhang=np.array([*(shape.overhang for menu in menus for shape in menu), 0.0]),
        push=push,
        chord=np.array([*(p.chord for p in profiles), np.zeros(STEPS + 1)]),
        rise=np.array([*(p.rise for p in profiles), np.zeros(STEPS + 1)]),
        pairs=pairs_of(
            push,
            half_width=half_width,
            half_height=half_height,
            ends=np.array([*own_end, len(outlines)]),
            last=np.array([*last[owner], len(outlines)]),
            gap=terms.gap,
        ),
        outlines=tuple(outlines),
        voices=voices,
        rates=rates,
    )


def _aspect(terms: Terms) -> float:
    """One box for two who talk: else balloons pile up wherever a lone figure leaves room."""
    return terms.aspect * (2 if len(cast(terms.speakers)) > 1 else 1)


def facing(terms: Terms) -> Insets:
    """The margins as a page read from the left has them: mirrored where it reads from the right."""
    own = terms.margin
    if terms.reading == "ltr":
        return own
    return Insets(top=own.top, right=own.left, bottom=own.bottom, left=own.right)


@dataclass(frozen=True, slots=True)
class _Shape:
    """One outline of a menu, and what placing it means."""

    outline: Outline
    choice: int
    price: float
    overhang: float


def _kept(task: Task) -> list[list[_Shape]]:
    """The outlines that the search looks at, balloon by balloon."""
    crowd = len(task.menus) >= CROWD
    result = []
    for index, menu in enumerate(task.menus):
        prices = _prices(menu, index, terms=task.terms)
        over = task.terms.overhangs[index] if task.terms.overhangs else (0.0,) * len(menu)
        chosen = _thinned(menu, task, price=prices, over=over)
        if crowd and len(chosen) > CROWDED:
            chosen = [chosen[p] for p in _handsome(prices[chosen], most=CROWDED)]
        result.append([_Shape(menu[c], c, float(prices[c]), over[c]) for c in chosen])
    return result


def _thinned(
    menu: Sequence[Outline], task: Task, *, price: Floats, over: Sequence[float]
) -> list[int]:
    """The outlines that enter the panel, at most MOST_OUTLINES, evenly from wide to narrow."""
    margin = task.terms.margin
    room_x = task.panel.width - margin.left - margin.right + 1e-9
    room_y = task.panel.height - margin.bottom + 1e-9
    inside = [
        c
        for c, (outline, out) in enumerate(zip(menu, over, strict=True))
        if 2 * outline.half_width <= room_x
        and 2 * outline.half_height <= room_y + (out or -margin.top)
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


def _blocks(kept: Sequence[Sequence[Sequence[_Shape]]]) -> Ints:
    """The numbers of every balloon's outlines, blanks filled up with -1: (p, k, m)."""
    most = max(map(len, kept)), max(len(menu) for own in kept for menu in own)
    numbers = np.full((len(kept), *most), -1, dtype=np.intp)
    start = 0
    for panel, own in enumerate(kept):
        for index, menu in enumerate(own):
            numbers[panel, index, : len(menu)] = np.arange(start, start + len(menu))
            start += len(menu)
    return numbers


def _few(numbers: Ints, area: Floats, *, price: Floats) -> Ints:
    """Every menu thinned to a few, its smallest outline kept: (p, k, FEW)."""
    few = np.full((*numbers.shape[:2], FEW), -1, dtype=np.intp)
    for panel, index in np.ndindex(*numbers.shape[:2]):
        menu = numbers[panel, index]
        menu = menu[menu >= 0]
        if not len(menu):
            continue
        picks = np.array(_handsome(price[menu], most=FEW), dtype=np.intp)
        smallest = int(area[menu].argmin())
        if smallest not in picks:
            picks[np.abs(picks - smallest).argmin()] = smallest
        few[panel, index, : len(picks)] = menu[picks]
    return few


def _handsome(price: Floats, *, most: int) -> list[int]:
    """Places in a menu, spread evenly, of neighbours the better looking ones."""
    if len(price) <= most:
        return list(range(len(price)))
    told: list[float] = price.tolist()
    return [
        min(group, key=lambda p: (told[p], abs(p - at))) for group, at in _groups(len(told), most)
    ]


@cache
def _groups(count: int, most: int) -> tuple[tuple[list[int], float], ...]:
    """Places in a menu in so many groups, and where evenly spread ones would be."""
    even: list[float] = np.linspace(0, count - 1, most).round().tolist()
    groups = [group.tolist() for group in np.array_split(np.arange(count), most)]
    return tuple(zip(groups, even, strict=True))


def _voices(tasks: Sequence[Task], size: Ints) -> Voices:
    """What is known of who speaks, balloon by balloon."""
    voices = Voices.none(int(size.max()), len(tasks))
    for p, task in enumerate(tasks):
        own, panel, terms = slice(size[p]), task.panel, task.terms
        lean = np.array(sides(panel, terms.speakers, reading=terms.reading)) - panel.x
        silent = np.array([s is None for s in terms.speakers], dtype=np.bool_)
        lean = panel.width - lean if terms.reading == "rtl" else lean
        voices.share[own, p] = 1 / size[p]
        voices.lean[own, p] = np.nan_to_num(lean)
        voices.mouth_y[own, p] = [_mouth_y(panel, s) for s in terms.speakers]
        voices.joined[own, p] = terms.joined or False
        voices.leans[own, p] = np.isfinite(lean)
        voices.aside[own, p] = ~silent & ~np.isfinite(lean)
        voices.caption[own, p] = silent & np.array([m[0].kind == "caption" for m in task.menus])
        voices.closing[size[p] - 1, p] = size[p] > 1 and voices.caption[size[p] - 1, p]
    return voices


def _mouth_y(panel: Rect, speaker: Speaker | None) -> float:
    """Where the search takes a mouth to be while the figure's height is not yet known."""
    if speaker is not None and speaker.mouth is not None:
        return speaker.mouth.y - panel.y
    return 0.45 * panel.height


def _regions(tasks: Sequence[Task]) -> tuple[Regions, ...]:
    """The first keep-clear region of each panel that has one, then the second, and so on."""
    most = max(len(task.terms.regions) for task in tasks)
    gap = np.array([task.region_gap for task in tasks])
    return tuple(_region_of(tasks, number, gap=gap) for number in range(most))


def _region_of(tasks: Sequence[Task], number: int, *, gap: Floats) -> Regions:
    sides_ = np.zeros((2, len(tasks), 2, len(SIN)))
    left, right = np.full(len(tasks), np.inf), np.full(len(tasks), -np.inf)
    for p, task in enumerate(tasks):
        if number >= len(task.terms.regions):
            continue
        corners = task.terms.regions[number]
        xs, ys = _inside(task.panel, corners, mirrored=task.terms.reading == "rtl")
        across = np.stack([COS, -COS])[:, :, None] * xs
        sides_[0, p] = (across + SIN[:, None] * ys).max(axis=-1) / SIN
        sides_[1, p] = (across - SIN[:, None] * ys).max(axis=-1) / SIN
        left[p], right[p] = xs.min(), xs.max()
    return Regions(sides_[0], sides_[1], left, right, gap)


def _inside(panel: Rect, corners: Sequence[Point], *, mirrored: bool) -> tuple[Floats, Floats]:
    """Corners in the panel's own frame."""
    xs = np.array([p.x for p in corners]) - panel.x
    return panel.width - xs if mirrored else xs, np.array([p.y for p in corners]) - panel.y
