"""SVG path data as PDF path operators (ISO 32000-1, 8.5.2)."""

import math
import re
from collections.abc import Iterator

from letterfit.output.svg.elements import length

_COMMAND = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_NUMBER = re.compile(r"-?\d*\.?\d+")
_SIZES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "Z": 0}

KAPPA = 4 / 3 * math.tan(math.pi / 8)
"""Handles of a quarter of a circle over its radius (Goldapp 1991)."""

Pair = tuple[float, float]


def path_operators(data: str) -> Iterator[str]:
    """Path data (M, L, H, V, C, Q, Z, absolute or relative) as operators.

    >>> list(path_operators("M1 2l3 0z"))
    ['1 2 m', '4 2 l', 'h']
    """
    here: Pair = (0.0, 0.0)
    start = here
    for command, values in _COMMAND.findall(data):
        name = command.upper()
        numbers = [float(value) for value in _NUMBER.findall(values)]
        size = _SIZES[name]
        for first in range(0, max(len(numbers), 1), max(size, 1)):
            origin = here if command.islower() else (0.0, 0.0)
            points = _points(name, numbers[first : first + size], here, origin)
            drawn, here = _operator(name, points, here, start)
            yield drawn
            if name == "M":
                start, name = here, "L"  # more pairs are lines (SVG 2, 9.3.3)


def _points(name: str, values: list[float], here: Pair, origin: Pair) -> list[Pair]:
    if name == "H":
        return [(origin[0] + values[0], here[1])]
    if name == "V":
        return [(here[0], origin[1] + values[0])]
    return [(origin[0] + x, origin[1] + y) for x, y in zip(values[::2], values[1::2], strict=True)]


def _operator(name: str, points: list[Pair], here: Pair, start: Pair) -> tuple[str, Pair]:
    if name == "Z":
        return "h", start
    if name == "Q":  # raised to a cubic curve, exact
        handle, end = points
        points = [_between(here, handle, 2 / 3), _between(end, handle, 2 / 3), end]
    letter = {"M": "m", "C": "c", "Q": "c"}.get(name, "l")
    return f"{_pairs(*points)} {letter}", points[-1]


def _between(start: Pair, end: Pair, share: float) -> Pair:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def ellipse_operators(centre: Pair, radii: Pair) -> list[str]:
    """An ellipse with upright axes, by four cubic curves."""
    (x, y), (a, b) = centre, radii
    ka, kb = a * KAPPA, b * KAPPA
    return [
        f"{_pairs((x + a, y))} m",
        f"{_pairs((x + a, y + kb), (x + ka, y + b), (x, y + b))} c",
        f"{_pairs((x - ka, y + b), (x - a, y + kb), (x - a, y))} c",
        f"{_pairs((x - a, y - kb), (x - ka, y - b), (x, y - b))} c",
        f"{_pairs((x + ka, y - b), (x + a, y - kb), (x + a, y))} c",
        "h",
    ]


def _pairs(*points: Pair) -> str:
    return " ".join(f"{length(x)} {length(y)}" for x, y in points)
