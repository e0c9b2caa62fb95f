"""From a panel's dialogue to menus: each balloon's measured words, and the shapes they can take."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.errors import OutlineError
from letterfit.families import family
from letterfit.fit.balloon import check_words
from letterfit.fit.dressing import fit_words_into, set_shapes, texts_shapes
from letterfit.fit.model import FittedBalloon, Shape
from letterfit.geometry import Rect
from letterfit.lettering.words import Words
from letterfit.outline import Outline
from letterfit.report.long_text import measured
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue, ScriptPanel

PLACED_KINDS = ("dialogue", "thought", "caption")
"""Elements that take a balloon or a box; the others belong to the picture."""

MOST_PIECES = 400
"""A text that can be broken at more places is no balloon: as much of it is set as the panel holds.
At 7.5 pt it would take up a third of a comics page."""


@dataclass(frozen=True, slots=True, eq=False)
class Menu:
    """One balloon before it is placed.

    Args:
        id: "page.panel.balloon".
        element: What the script says.
        words: Its measured words.
        front: The shapes they can take; none for a text without words.
        room: Where it may stand.
        follows: Whether nothing in the script stands between it and the balloon before it.
        flood: A text too long for any balloon, set in one as large as the panel, which it
            overflows; None for all others.
    """

    id: str
    element: Dialogue
    words: Words
    front: tuple[Shape, ...]
    room: Rect
    follows: bool = False
    flood: FittedBalloon | None = None

    @property
    def outlines(self) -> list[Outline]:
        """The outlines of its shapes."""
        return [shape.outline for shape in self.front]

    @property
    def smallest(self) -> Shape:
        """The shape of least area."""
        return min(self.front, key=lambda shape: shape.area_mm2)

    @property
    def fits(self) -> bool:
        """Whether its words go into a balloon at all."""
        return self.flood is None

    def fitted(self, shape: Shape, setting: Setting) -> FittedBalloon:
        """One of its shapes, set: as `menus_fitted`, of which it is one."""
        return menus_fitted([self], [shape], setting)[0]

    def with_words(self, words: Words, setting: Setting) -> "Menu":
        """The same balloon with other words: fewer, or smaller."""
        return with_words([self], [words], setting)[0]


def menus_fitted(
    menus: Sequence[Menu], shapes: Sequence[Shape], setting: Setting
) -> list[FittedBalloon]:
    """One shape of each menu, set; many are set sooner than one after the other.

    Args:
        menus: The menus.
        shapes: One of the shapes of each; of one that no balloon takes, any.
        setting: How the script is lettered.
    """
    some = [(m.words, shape) for m, shape in zip(menus, shapes, strict=True) if m.flood is None]
    texts, chosen = [words for words, _ in some], [shape for _, shape in some]
    found = iter(set_shapes(texts, chosen, air_mm=setting.lettering.air_mm))
    return [menu.flood or next(found) for menu in menus]


@dataclass(frozen=True, slots=True)
class Spot:
    """One element that is to be fitted.

    Args:
        element: What the script says.
        room: Where its balloon may stand.
        id: "page.panel.balloon".
        follows: Whether nothing in the script stands between it and the balloon before it.
    """

    element: Dialogue
    room: Rect
    id: str
    follows: bool = False


def menus_of(spots: Sequence[Spot], setting: Setting) -> tuple[Menu, ...]:
    """The words of elements, measured and fitted in every shape they can take, all together.

    Args:
        spots: The elements, of a panel or a page; many at once are fitted sooner than one by one.
        setting: How the script is lettered.

    Raises:
        OutlineError: When a text is so long that it cannot be set at all; with its line.
    """
    return _filled([_measured(spot, setting) for spot in spots], setting)


def menu_of(element: Dialogue, room: Rect, *, id: str, setting: Setting) -> Menu:  # noqa: A002
    """The menu of one element: as `menus_of`, of which it is one.

    Args:
        element: What the script says.
        room: Where it may stand.
        id: "page.panel.balloon".
        setting: How the script is lettered.
    """
    return menus_of([Spot(element, room, id)], setting)[0]


def _measured(spot: Spot, setting: Setting) -> Menu:
    """The words of one element; those that no balloon takes in one as large as its room."""
    element = spot.element
    words = measured(element, setting.lettering_of(element), id=spot.id, setting=setting)
    menu = Menu(spot.id, element, words, (), spot.room, spot.follows)
    if not len(words):
        return menu
    try:
        check_words(words, air_mm=setting.lettering.air_mm)
        return _flooded(menu, setting) if is_too_long(words) else menu
    except OutlineError as error:
        raise OutlineError(
            f"balloon {spot.id}: {error.what}",
            advice=error.advice,
            source=setting.source,
            line=element.line,
        ) from None


def with_words(menus: Sequence[Menu], words: Sequence[Words], setting: Setting) -> tuple[Menu, ...]:
    """The same balloons with other words: fewer, or smaller.

    Args:
        menus: The balloons.
        words: The words of each.
        setting: How the script is lettered.
    """
    empty = [
        replace(menu, words=own, front=(), flood=None)
        for menu, own in zip(menus, words, strict=True)
    ]
    return _filled(
        [_flooded(menu, setting) if is_too_long(menu.words) else menu for menu in empty], setting
    )


def in_rooms(menus: Sequence[Menu], rooms: Sequence[Rect], setting: Setting) -> tuple[Menu, ...]:
    """The same balloons for other rooms, which may want other shapes of them.

    Args:
        menus: The balloons, fitted for rooms that take all their shapes.
        rooms: The room of each.
        setting: How the script is lettered.

    Returns:
        What `menus_of` would return for these rooms.
    """
    moved = [replace(menu, room=room) for menu, room in zip(menus, rooms, strict=True)]
    tight = [k for k, menu in enumerate(moved) if not _enters(menu, setting)]
    again = with_words([moved[k] for k in tight], [moved[k].words for k in tight], setting)
    for k, menu in zip(tight, again, strict=True):
        moved[k] = menu
    return tuple(moved)


def _enters(menu: Menu, setting: Setting) -> bool:
    """Whether each of its shapes by itself goes into its room."""
    width, height = _inside(menu.room, setting.margin_mm)
    return menu.fits and all(
        2 * outline.half_width <= width and 2 * outline.half_height <= height
        for outline in menu.outlines
    )


def is_too_long(words: Words) -> bool:
    """Whether a text is too long for any balloon."""
    return len(words) > MOST_PIECES


def _filled(menus: Sequence[Menu], setting: Setting) -> tuple[Menu, ...]:
    """Menus with the shapes their words can take, each in the outline of its manner of speaking."""
    filled = list(menus)
    kinds: dict[str, list[int]] = {}
    for k, menu in enumerate(menus):
        if len(menu.words) and menu.fits:
            kinds.setdefault(setting.outlines.of(menu.element), []).append(k)
    for name, same in kinds.items():
        fronts = texts_shapes(
            [menus[k].words for k in same],
            outline=name,
            air_mm=setting.lettering.air_mm,
            rooms=[_inside(menus[k].room, setting.margin_mm) for k in same],
        )
        for k, front in zip(same, fronts, strict=True):
            filled[k] = replace(menus[k], front=front)
    return tuple(filled)


def _inside(room: Rect, margin_mm: float) -> tuple[float, float]:
    """Width and height of a room within its margin."""
    return room.width - 2 * margin_mm, room.height - 2 * margin_mm


def _flooded(menu: Menu, setting: Setting) -> Menu:
    """A text too long for any balloon, in an outline as large as its room."""
    name = setting.outlines.of(menu.element)
    outline = family(name).within(menu.room.width / 2, menu.room.height / 2)
    flood = fit_words_into(menu.words, outline, air_mm=setting.lettering.air_mm)
    return replace(menu, front=(Shape(stack=(), outline=outline, looks=0.0),), flood=flood)


def elements(panel: ScriptPanel, *, placed: bool) -> tuple[Dialogue, ...]:
    """The panel's elements that are placed in it, or those that belong to the picture."""
    return tuple(e for e in panel.elements if (e.kind in PLACED_KINDS) == placed)


def first_words(words: Words, count: int) -> Words:
    """The first so many words of a measured text, measured: no shaping is done again.

    Args:
        words: The text.
        count: How many words to keep, at least 1.
    """
    kept = int(np.searchsorted(np.cumsum(words.word_counts), count, side="right"))
    return words if kept >= len(words) else words.first(max(kept, 1))
