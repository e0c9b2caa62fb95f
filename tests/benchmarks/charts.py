"""Costs over sizes as one SVG drawing: small charts side by side, sizes and costs by decades.

A point is a median, a faint line one sweep, the straight lines the power laws nearest to the
medians and to the upper half of them. The dashed line is what a cost in step with the size would
be, from the first point.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from textwrap import wrap
from xml.sax.saxutils import escape

from tests.benchmarks.power_law import PowerLaw
from tests.benchmarks.tables import time_told

WIDTH, HEIGHT, COLUMNS, ROWS = 1080, 680, 3, 2

LEFT, TOP, RIGHT, BOTTOM = 62, 76, 22, 44
"""Room round the field of a chart: for its labels, its title, nothing, and its sizes."""

MARGIN = 12

INK, SOFT, LINE = "#1d2733", "#66727f", "#dfe4ea"
COLOUR, SECOND = "#0b6e99", "#c2571a"

STYLE = f"""text {{ font-family: Helvetica, Arial, "Liberation Sans", sans-serif; fill: {INK}; }}
.title {{ font-size: 15px; font-weight: 600; }}
.law {{ font-size: 13px; fill: {COLOUR}; }}
.tick {{ font-size: 11px; fill: {SOFT}; }}
.note {{ font-size: 12px; fill: {SOFT}; }}
.grid {{ stroke: {LINE}; stroke-width: 1; }}
.sweep {{ stroke: {COLOUR}; stroke-width: 1; stroke-opacity: 0.25; fill: none; }}
.fit {{ stroke: {COLOUR}; stroke-width: 2; fill: none; }}
.half {{ stroke: {SECOND}; stroke-width: 2; fill: none; }}
.pace {{ stroke: {SOFT}; stroke-width: 1; stroke-dasharray: 4 4; fill: none; }}"""

STEPS = (1, 2, 5)
"""Numbers of a decade that an axis may name."""

MOST_TICKS, MOST_LEVELS = 8, 6
"""Most numbers on an axis by decades, and on an even one."""

LEAST_PITCH = 22
"""Least distance of two sizes that are named, px."""

ROOM = 1.25
"""How far costs are from the ends of their axis, a ratio."""

KEY = {
    "point": "median of all sweeps",
    "sweep": "one sweep over all sizes",
    "fit": "power law, least squares",
    "half": "the same over the upper half",
    "pace": "in step with the size",
}

TOLD_LETTERS = 44


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """A cost over a size.

    Args:
        title: What grows.
        sizes: The sizes, ascending.
        sweeps: For each sweep the seconds of each size.
        costs: Their medians.
        law: The power law nearest to these.
        upper: The power law nearest to the upper half of these.
        range: The least and the greatest exponent of a sweep.
    """

    title: str
    sizes: Sequence[float]
    sweeps: Sequence[Sequence[float]]
    costs: Sequence[float]
    law: PowerLaw
    upper: PowerLaw
    range: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """Levels over a size, up from nought.

    Args:
        title: What is shown.
        sizes: The sizes, ascending.
        lines: For each line its name and its level at each size.
        unit: The levels' unit.
    """

    title: str
    sizes: Sequence[float]
    lines: Mapping[str, Sequence[float]]
    unit: str


@dataclass(frozen=True, slots=True)
class Field:
    """The field of a chart: where sizes and costs stand on the drawing.

    Args:
        left: Its left side, px.
        top: Its upper side, px.
        width: Its width, px.
        height: Its height, px.
        across: The least and the greatest size shown.
        up: The lowest and the highest cost shown.
        by_decades: Whether costs stand by their logarithms, as sizes always do.
    """

    left: float
    top: float
    width: float
    height: float
    across: tuple[float, float]
    up: tuple[float, float]
    by_decades: bool = True

    def x(self, size: float) -> float:
        """Where a size stands, px."""
        return self.left + self.width * _share(size, self.across, by_decades=True)

    def y(self, cost: float) -> float:
        """Where a cost stands, px."""
        return self.top + self.height * (1 - _share(cost, self.up, by_decades=self.by_decades))

    def path(self, sizes: Sequence[float], costs: Sequence[float]) -> str:
        """A line through points, as path data."""
        points = [f"{self.x(s):.1f} {self.y(c):.1f}" for s, c in zip(sizes, costs, strict=True)]
        return "M" + "L".join(points)


def _share(value: float, ends: tuple[float, float], *, by_decades: bool) -> float:
    low, high = map(math.log, ends) if by_decades else ends
    return ((math.log(value) if by_decades else value) - low) / (high - low)


def sheet(plots: Sequence[Plot], levels: Levels, *, told: str) -> str:
    """All charts as one SVG document.

    Args:
        plots: Costs over sizes.
        levels: The last chart.
        told: What is to be said of the run.
    """
    body = [line for number, plot in enumerate(plots) for line in _plot(plot, _Cell.at(number))]
    body += _levels(levels, _Cell.at(len(plots)))
    body += _key(told, _Cell.at(len(plots) + 1))
    lines = "\n".join(body)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
        f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img" aria-label="Cost over size">\n'
        f"<style>{escape(STYLE)}</style>\n"
        f'<rect width="{WIDTH}" height="{HEIGHT}" rx="8" fill="#ffffff"/>\n{lines}\n</svg>\n'
    )


@dataclass(frozen=True, slots=True)
class _Cell:
    """Where a chart stands on the sheet: its upper left corner and its sides, px."""

    left: float
    top: float
    width: float
    height: float

    @classmethod
    def at(cls, number: int) -> "_Cell":
        """The cell of a chart, row by row."""
        width, height = (WIDTH - 2 * MARGIN) / COLUMNS, (HEIGHT - 2 * MARGIN) / ROWS
        row, column = divmod(number, COLUMNS)
        return cls(MARGIN + width * column, MARGIN + height * row, width, height)

    def field(self, across: tuple[float, float], up: tuple[float, float]) -> Field:
        """The field in it, with room round it for labels."""
        return Field(
            self.left + LEFT,
            self.top + TOP,
            self.width - LEFT - RIGHT,
            self.height - TOP - BOTTOM,
            across,
            up,
        )


# --- the charts


def _plot(plot: Plot, cell: _Cell) -> Iterator[str]:
    every = [cost for sweep in plot.sweeps for cost in sweep]
    first, last = plot.sizes[0], plot.sizes[-1]
    pace = [plot.costs[0] * size / first for size in (first, last)]
    up = (min(every) / ROOM, max(*every, plot.costs[0]) * ROOM)
    field = cell.field((first, last), up)
    yield _words(cell.left + LEFT, cell.top + 24, plot.title, "title")
    yield (
        f'<text class="law" x="{cell.left + LEFT:.1f}" y="{cell.top + 44:.1f}">'
        f"time as size{_raised(plot.law.exponent)}"
        f'<tspan dx="10" dy="5" fill="{SECOND}">upper half size</tspan>'
        f"{_raised(plot.upper.exponent, colour=SECOND)}</text>"
    )
    said = f"single sweeps {plot.range[0]:.2f} to {plot.range[1]:.2f}"
    yield _words(cell.left + LEFT, cell.top + 61, said, "tick")
    yield from _grid(field, plot.sizes, decade_ticks(*up), time_told)
    name = f"c{cell.left:.0f}-{cell.top:.0f}"
    yield f'<clipPath id="{name}"><rect {_sides(field)}/></clipPath><g clip-path="url(#{name})">'
    yield f'<path class="pace" d="{field.path((first, last), pace)}"/>'
    for sweep in plot.sweeps:
        yield f'<path class="sweep" d="{field.path(plot.sizes, sweep)}"/>'
    middle = plot.sizes[len(plot.sizes) // 2]
    for kind, law, begin in (("fit", plot.law, first), ("half", plot.upper, middle)):
        ends = (begin, last)
        yield f'<path class="{kind}" d="{field.path(ends, [law.at(size) for size in ends])}"/>'
    yield "</g>"
    yield from _points(field, plot.sizes, plot.costs, COLOUR)


def _raised(exponent: float, *, colour: str = COLOUR) -> str:
    return f'<tspan dy="-5" font-size="10" fill="{colour}">{exponent:.2f}</tspan>'


def _levels(levels: Levels, cell: _Cell) -> Iterator[str]:
    most = max(level for line in levels.lines.values() for level in line)
    ticks = even_ticks(most)
    field = replace(
        cell.field((levels.sizes[0], levels.sizes[-1]), (0.0, ticks[-1])), by_decades=False
    )
    yield _words(cell.left + LEFT, cell.top + 24, levels.title, "title")
    yield from _grid(field, levels.sizes, ticks, lambda level: f"{level:g} {levels.unit}")
    x = cell.left + LEFT
    for (name, line), colour in zip(levels.lines.items(), (COLOUR, SECOND), strict=False):
        yield (
            f'<path d="{field.path(levels.sizes, line)}" stroke="{colour}" stroke-width="2" '
            'fill="none"/>'
        )
        yield from _points(field, levels.sizes, line, colour)
        yield f'<circle cx="{x + 4:.1f}" cy="{cell.top + 42:.1f}" r="4" fill="{colour}"/>'
        yield _words(x + 14, cell.top + 46, name, "note")
        x += 26 + 7 * len(name)


def _key(told: str, cell: _Cell) -> Iterator[str]:
    x, y = cell.left + LEFT, cell.top + TOP
    for kind, meaning in KEY.items():
        if kind == "point":
            yield f'<circle cx="{x + 14:.1f}" cy="{y - 4:.1f}" r="4" fill="{COLOUR}"/>'
        else:
            yield f'<path class="{kind}" d="M{x:.1f} {y - 4:.1f}h28"/>'
        yield _words(x + 38, y, meaning, "note")
        y += 24
    y += 8
    for line in wrap(told, TOLD_LETTERS):
        yield _words(x, y, line, "note")
        y += 18


# --- their parts


def _grid(
    field: Field, sizes: Sequence[float], ups: Sequence[float], told: Callable[[float], str]
) -> Iterator[str]:
    """Lines across with what they stand for, and the sizes below."""
    right, bottom = field.left + field.width, field.top + field.height
    for up in ups:
        y = field.y(up)
        yield f'<path class="grid" d="M{field.left:.1f} {y:.1f}H{right:.1f}"/>'
        yield _words(field.left - 8, y + 4, told(up), "tick", anchor="end")
    past = -math.inf
    for size in sizes:
        x = field.x(size)
        if x - past >= LEAST_PITCH:
            yield f'<path class="grid" d="M{x:.1f} {bottom:.1f}v5"/>'
            yield _words(x, bottom + 18, f"{size:g}", "tick", anchor="middle")
            past = x


def _points(
    field: Field, sizes: Sequence[float], costs: Sequence[float], colour: str
) -> Iterator[str]:
    for size, cost in zip(sizes, costs, strict=True):
        yield (
            f'<circle cx="{field.x(size):.1f}" cy="{field.y(cost):.1f}" r="4" fill="{colour}" '
            'stroke="#ffffff" stroke-width="1.5"/>'
        )


def _words(x: float, y: float, text: str, kind: str, *, anchor: str = "start") -> str:
    return (
        f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{escape(text)}</text>'
    )


def _sides(field: Field) -> str:
    return (
        f'x="{field.left:.1f}" y="{field.top:.1f}" width="{field.width:.1f}" '
        f'height="{field.height:.1f}"'
    )


# --- axes


def decade_ticks(low: float, high: float) -> list[float]:
    """Round numbers from low to high, a few: powers of ten, or with their double and half ones.

    >>> decade_ticks(0.8, 1500), decade_ticks(3, 70)
    ([1.0, 10.0, 100.0, 1000.0], [5.0, 10.0, 20.0, 50.0])
    """
    decades = range(math.floor(math.log10(low)), math.ceil(math.log10(high)) + 1)
    for steps in (STEPS, STEPS[:1]):
        ticks = [float(f"{step}e{decade}") for decade in decades for step in steps]
        found = [tick for tick in ticks if low <= tick <= high]
        if len(found) <= MOST_TICKS:
            break
    return found


def even_ticks(most: float) -> list[float]:
    """Round numbers from nought to the first that is no less than the most.

    >>> even_ticks(180)
    [0.0, 50.0, 100.0, 150.0, 200.0]
    """
    decade = 10.0 ** math.floor(math.log10(most))
    step = next(s * decade for s in (0.1, 0.2, 0.5, 1, 2) if s * decade * (MOST_LEVELS - 1) >= most)
    return [step * k for k in range(math.ceil(most / step) + 1)]
