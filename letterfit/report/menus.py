"""From a panel's dialogue to menus: each balloon's measured words, and the shapes they can take."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.fit import words_front
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Rect
from letterfit.lettering import measure
from letterfit.lettering.words import Words
from letterfit.place import PanelLayout, Speaker, place_outlines
from letterfit.report.setting import Setting
from letterfit.script.delivery import is_off_panel
from letterfit.script.model import Dialogue, ScriptPanel

PLACED_KINDS = ("dialogue", "thought", "caption")
"""Elements that take a balloon or a box; the others belong to the picture."""


@dataclass(frozen=True, slots=True, eq=False)
class Menu:
    """One balloon before it is placed.

    Args:
        id: "page.panel.balloon".
        element: What the script says.
        words: Its measured words; at least one piece.
        front: The shapes they can take, none dominated.
    """

    id: str
    element: Dialogue
    words: Words
    front: tuple[FittedBalloon, ...]

    @property
    def smallest(self) -> FittedBalloon:
        """The shape of least area."""
        return min(self.front, key=lambda fitted: fitted.area_mm2)

    def with_words(self, words: Words, setting: Setting) -> "Menu":
        """The same balloon with other words: fewer, or smaller."""
        return replace(self, words=words, front=shapes(self.element, words, setting))


def menu_of(element: Dialogue, *, id: str, setting: Setting) -> Menu:  # noqa: A002 - the report's word
    """The words of one element, measured and fitted in every shape they can take.

    Returns:
        A menu; without any shape when the element has no visible characters.
    """
    words = measure(
        element.text,
        setting.lettering_of(element),
        language=setting.language,
        where=id,
        line=element.line,
    )
    return Menu(id, element, words, shapes(element, words, setting) if len(words) else ())


def shapes(element: Dialogue, words: Words, setting: Setting) -> tuple[FittedBalloon, ...]:
    """The front of an element's words in the outline of its kind."""
    name = "caption" if element.kind == "caption" else setting.outline
    return words_front(words, outline=name, air_mm=setting.lettering.air_mm)


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
    return place_outlines(
        room,
        [[fitted.outline for fitted in menu.front] for menu in menus],
        gap_mm=setting.gap_mm,
        margin_mm=setting.margin_mm,
        reading=setting.reading,
        keep_clear=tuple(keep_clear),
        speakers=[speaker_of(menu.element) for menu in menus],
        figure_aspect=setting.limits.figure_aspect,
    )


def first_words(words: Words, count: int) -> Words:
    """The first so many words of a measured text, measured: no shaping is done again.

    Args:
        words: The text.
        count: How many words to keep, at least 1.
    """
    kept = int(np.searchsorted(np.cumsum(words.word_counts), count, side="right"))
    kept = max(kept, 1)
    if kept >= len(words):
        return words
    penalties, forced = words.penalties[:kept].copy(), words.forced[:kept].copy()
    penalties[-1], forced[-1] = 0.0, True
    return replace(
        words,
        pieces=words.pieces[:kept],
        starts=words.starts[:kept],
        joiners=words.joiners[:kept],
        penalties=penalties,
        forced=forced,
        word_counts=words.word_counts[:kept],
        reshaped={key: line for key, line in words.reshaped.items() if key[1] < kept},
    )
