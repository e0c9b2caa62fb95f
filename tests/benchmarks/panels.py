"""Panels drawn by lot, the same on every machine: what placing is measured on.

200 of the coverage that scripts ask for, 12 to 62 %, and 200 heavy ones, 50 to 90 %: 25 of each
number of balloons from 1 to 8, in panels of the sizes comics have.
"""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.model import Speaker

SEED, HEAVY_SEED = 20_251, 20_252

MOST_BALLOONS, EACH = 8, 25

COVER, HEAVY_COVER = (0.12, 0.62), (0.50, 0.90)
"""Least and most share of the panel that the balloons would cover, all together."""

WIDTHS, HEIGHTS = (50.0, 170.0), (40.0, 110.0)
"""Least and most sides of panels, mm."""

NAMES = ("WENNA", "PILOT", "KEEPER")

CAPTIONS, OFF_PANEL = 0.25, 0.1
"""How many panels open with a caption, and how many speakers stand off the panel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One panel to fill.

    Args:
        panel: The panel, its corner at the origin, mm.
        menus: Outlines of each balloon, in script order, wide to narrow.
        speakers: One of each balloon, None for captions.
        cover: Share of the panel that the balloons cover.
    """

    panel: Rect
    menus: tuple[tuple[Outline, ...], ...]
    speakers: tuple[Speaker | None, ...]
    cover: float

    @property
    def size(self) -> int:
        """The number of balloons."""
        return len(self.menus)


@cache
def usual_panels() -> tuple[Task, ...]:
    """200 panels, their balloons wanting 12 to 62 % of them."""
    return _panels(SEED, cover=COVER)


@cache
def heavy_panels() -> tuple[Task, ...]:
    """200 panels, their balloons wanting 50 to 90 % of them: most cannot take them."""
    return _panels(HEAVY_SEED, cover=HEAVY_COVER)


def _panels(seed: int, *, cover: tuple[float, float]) -> tuple[Task, ...]:
    lot = np.random.default_rng(seed)
    sizes = np.repeat(np.arange(1, MOST_BALLOONS + 1), EACH)
    return tuple(_task(lot, int(size), cover=float(lot.uniform(*cover))) for size in sizes)


def _task(lot: np.random.Generator, size: int, *, cover: float) -> Task:
    panel = Rect(0.0, 0.0, float(lot.uniform(*WIDTHS)), float(lot.uniform(*HEIGHTS)))
    shares = lot.uniform(0.5, 1.5, size)
    areas = cover * panel.area_mm2 * shares / shares.sum()
    opens = size > 1 and bool(lot.random() < CAPTIONS)
    menus = tuple(
        _captions(area) if opens and not i else _ellipses(area, shapes=int(lot.integers(6, 9)))
        for i, area in enumerate(map(float, areas))
    )
    voices = _voices(lot, size)
    return Task(
        panel=panel, menus=menus, speakers=(None, *voices[1:]) if opens else voices, cover=cover
    )


def _voices(lot: np.random.Generator, size: int) -> tuple[Speaker | None, ...]:
    """One to three speakers, who speak in any order."""
    names = NAMES[: int(lot.integers(1, 4))]
    off = {name: bool(lot.random() < OFF_PANEL) for name in names}
    said = [names[int(n)] for n in lot.integers(0, len(names), size)]
    return tuple(Speaker(name=name, off_panel=off[name]) for name in said)


def _ellipses(area: float, *, shapes: int) -> tuple[Outline, ...]:
    halves = [(a, math.sqrt(area / (math.pi * a))) for a in map(float, np.linspace(2.6, 1, shapes))]
    return tuple(Ellipse(half_width=aspect * b, half_height=b) for aspect, b in halves)


def _captions(area: float) -> tuple[Outline, ...]:
    halves = [(aspect, math.sqrt(area / (4 * aspect))) for aspect in (6.0, 4.5, 3.4, 2.5, 1.8, 1.3)]
    return tuple(CaptionBox(half_width=aspect * b, half_height=b) for aspect, b in halves)
