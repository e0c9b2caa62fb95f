"""From a panel's dialogue to menus: each balloon's measured words, and the shapes they can take."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.errors import OutlineError
from letterfit.families import family
from letterfit.findings import Finding
from letterfit.fit import FittedBalloon, Shape, fit_words_into, set_shape, words_shapes
from letterfit.geometry import Rect
from letterfit.lettering.words import Words
from letterfit.outline import Outline
from letterfit.place import PanelLayout, Speaker, can_place, check_layout, place_outlines
from letterfit.report.long_text import measured
from letterfit.report.setting import Setting
from letterfit.script.delivery import is_off_panel
from letterfit.script.model import Dialogue, ScriptPanel

PLACED_KINDS = ("dialogue", "thought", "caption")
"""Elements that take a balloon or a box; the others belong to the picture."""

MOST_PIECES = 400
"""A text that can be broken at more places is no balloon: as much of it is set as the panel holds.
At 7.5 pt it would take up a third of a comics page."""

MOST_PRICE = 2.0
"""What the worst looks cost when balloons are placed: no lone word is worth a whole figure."""


@dataclass(frozen=True, slots=True, eq=False)
class Menu:
    """One balloon before it is placed.

    Args:
        id: "page.panel.balloon".
        element: What the script says.
        words: Its measured words.
        front: The shapes they can take; none for a text without words.
        room: Where it may stand.
        flood: A text too long for any balloon, set in one as large as the panel, which it
            overflows; None for all others.
    """

    id: str
    element: Dialogue
    words: Words
    front: tuple[Shape, ...]
    room: Rect
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
        """One of its shapes, set."""
        return self.flood or set_shape(self.words, shape, air_mm=setting.lettering.air_mm)

    def with_words(self, words: Words, setting: Setting) -> "Menu":
        """The same balloon with other words: fewer, or smaller."""
        return _filled(replace(self, words=words), setting)


def menu_of(element: Dialogue, room: Rect, *, id: str, setting: Setting) -> Menu:  # noqa: A002
    """The words of one element, measured and fitted in every shape they can take.

    Args:
        element: What the script says.
        room: Where it may stand.
        id: "page.panel.balloon".
        setting: How the script is lettered.

    Raises:
        OutlineError: When the text is so long that it cannot be set at all; with its line.
    """
    words = measured(element, setting.lettering_of(element), id=id, setting=setting)
    menu = Menu(id, element, words, (), room)
    try:
        return _filled(menu, setting) if len(words) else menu
    except OutlineError as error:
        raise OutlineError(
            f"balloon {id}: {error.what}",
            advice=error.advice,
            source=setting.source,
            line=element.line,
        ) from None


def is_too_long(words: Words) -> bool:
    """Whether a text is too long for any balloon."""
    return len(words) > MOST_PIECES


def _filled(menu: Menu, setting: Setting) -> Menu:
    """The menu with the shapes its words can take in the outline of its kind."""
    name = setting.outlines.of(menu.element)
    air = setting.lettering.air_mm
    if not is_too_long(menu.words):
        room = (menu.room.width - 2 * setting.margin_mm, menu.room.height - 2 * setting.margin_mm)
        front = words_shapes(menu.words, outline=name, air_mm=air, room=room)
        return replace(menu, front=front, flood=None)
    outline = family(name).within(menu.room.width / 2, menu.room.height / 2)
    flood = fit_words_into(menu.words, outline, air_mm=air)
    return replace(menu, front=(Shape(stack=(), outline=outline, looks=0.0),), flood=flood)


def elements(panel: ScriptPanel, *, placed: bool) -> tuple[Dialogue, ...]:
    """The panel's elements that are placed in it, or those that belong to the picture."""
    return tuple(e for e in panel.elements if (e.kind in PLACED_KINDS) == placed)


def speaker_of(element: Dialogue) -> Speaker | None:
    """Who speaks, for the tail; None for a caption and where nobody is named."""
    if element.kind == "caption" or element.speaker is None:
        return None
    return Speaker(name=element.speaker, off_panel=is_off_panel(element.modifiers))


def place_menus(
    menus: Sequence[Menu], room: Rect, *, setting: Setting, keep_clear: Sequence[Rect] = ()
) -> PanelLayout:
    """Place every balloon in the room, in the order of the script."""
    flood = next((menu for menu in menus if not menu.fits), None)
    if flood is not None:
        reason = f"words: {flood.words.count} in one balloon, more than the panel holds by itself"
        return PanelLayout(verdict="impossible", reason=reason)
    return place_outlines(
        room,
        [menu.outlines for menu in menus],
        prices=[[min(shape.looks, MOST_PRICE) for shape in menu.front] for menu in menus],
        gap_mm=setting.gap_mm,
        margin_mm=setting.margin_mm,
        reading=setting.reading,
        keep_clear=tuple(keep_clear),
        speakers=[speaker_of(menu.element) for menu in menus],
        figure_aspect=setting.limits.figure_aspect,
    )


def layout_faults(
    layout: PanelLayout, room: Rect, *, setting: Setting, keep_clear: Sequence[Rect] = ()
) -> tuple[Finding, ...]:
    """What the independent checker holds against a layout of `place_menus`; nothing, one hopes.

    Returns:
        Its findings, of severity "error", where the setting asks for the check; else none.
    """
    if not setting.check:
        return ()
    return check_layout(
        room,
        layout,
        gap_mm=setting.gap_mm,
        margin_mm=setting.margin_mm,
        reading=setting.reading,
        keep_clear=tuple(keep_clear),
        figure_aspect=setting.limits.figure_aspect,
    )


def menus_go_in(
    menus: Sequence[Menu], room: Rect, *, setting: Setting, keep_clear: Sequence[Rect] = ()
) -> bool:
    """Whether a quick search finds a layout; then `place_menus` places them."""
    if not all(menu.fits for menu in menus):
        return False
    outlines = [menu.outlines for menu in menus]
    return outlines_go_in(outlines, room, setting=setting, keep_clear=keep_clear)


def outlines_go_in(
    outlines: Sequence[Sequence[Outline]],
    room: Rect,
    *,
    setting: Setting,
    keep_clear: Sequence[Rect] = (),
) -> bool:
    """The same for outlines without words."""
    return can_place(
        room,
        outlines,
        gap_mm=setting.gap_mm,
        margin_mm=setting.margin_mm,
        reading=setting.reading,
        keep_clear=tuple(keep_clear),
    )


def first_words(words: Words, count: int) -> Words:
    """The first so many words of a measured text, measured: no shaping is done again.

    Args:
        words: The text.
        count: How many words to keep, at least 1.
    """
    kept = int(np.searchsorted(np.cumsum(words.word_counts), count, side="right"))
    return words if kept >= len(words) else words.first(max(kept, 1))
