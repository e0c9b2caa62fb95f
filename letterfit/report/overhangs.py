"""How far balloons may hang over their panel's top border, to be cut flat by it.

A balloon is butted decidedly or not at all: no outline just kisses a border (common practice, no
source). Its ink keeps the air from the border as from the outline: an outline of half-height b
whose highest ink stands t over its centre may hang over by b - t - air.
"""

import math
from itertools import pairwise

from letterfit.fit.dressing import ink_on_page
from letterfit.fit.model import Shape
from letterfit.fit.stack import baselines
from letterfit.lettering.words import Words
from letterfit.report.menus import Menu
from letterfit.report.setting import Setting

CURVED = ("ellipse", "superellipse", "whisper")
"""Kinds of outlines whose tops bow: a border leaves a box nothing to cut, and of a cloud or a burst
too little to know it by."""

LEAST_MM = 1.0
"""Outlines that would hang over by less just kiss the border: they stay inside."""


def overhangs(menu: Menu, setting: Setting) -> tuple[float, ...]:
    """How far each outline of a balloon's menu may hang over, mm; 0 for those that may not.

    Args:
        menu: The balloon.
        setting: How the script is lettered.
    """
    curved = [shape.outline.kind in CURVED for shape in menu.front]
    if not any(curved):
        return (0.0,) * len(curved)
    if menu.words.vertical:
        tops = [_column_top(menu, shape, setting) for shape in menu.front]
    else:
        tops = _line_tops(menu.words, menu.front)
    air = setting.lettering.air_mm
    over = [
        shape.outline.half_height + top - air if bows else 0.0
        for shape, top, bows in zip(menu.front, tops, curved, strict=True)
    ]
    return tuple(one if LEAST_MM <= one < math.inf else 0.0 for one in over)


def _line_tops(words: Words, front: tuple[Shape, ...]) -> list[float]:
    """Per shape the y of its highest ink from the outline's centre, mm; infinite without ink."""
    boxes, begin = words.ink_boxes()
    heights = boxes[:, 1].tolist()
    pieces = [min(heights[a:b], default=math.inf) for a, b in pairwise(begin.tolist())]
    tops = []
    for shape in front:
        count = len(shape.stack) - 1
        drop = baselines(count, leading_mm=words.leading_mm, cap_height_mm=words.cap_height_mm)
        lines = zip(drop.tolist(), pairwise(shape.stack), strict=True)
        tops.append(min(base + _highest(words, pieces, a, b - 1) for base, (a, b) in lines))
    return tops


def _highest(words: Words, pieces: list[float], first: int, last: int) -> float:
    """The y of a line's highest ink from its baseline, mm."""
    anew = words.reshaped.get((first, last))
    if anew is None:
        return min(pieces[first : last + 1])
    return float(anew.ink[:, 1].min()) if len(anew.ink) else math.inf


def _column_top(menu: Menu, shape: Shape, setting: Setting) -> float:
    """The same of columns, whose ink is looked up where it stands."""
    ink = ink_on_page(menu.words, menu.fitted(shape, setting))
    return float(ink[:, 1].min()) if len(ink) else math.inf
