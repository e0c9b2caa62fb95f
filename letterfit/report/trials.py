"""Remedies tried side by side: what each asks next is answered for all of them at once.

To set other words, or to see whether balloons go in, takes little longer for a hundred than for
one. So a remedy is a generator that yields a question, is sent the answer and returns its figure;
all remedies of all panels run in step. No answer depends on what else is asked.
"""

from collections.abc import Generator, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from letterfit.geometry import Rect
from letterfit.lettering.words import Words
from letterfit.outline import Outline
from letterfit.place.solver import PanelTask, can_place_panels
from letterfit.report.case import Case
from letterfit.report.menus import Menu, with_words
from letterfit.report.placing import place_cases

SAME_MM = 1e-6
"""In mm: heights that differ by less are the same."""


@dataclass(frozen=True, slots=True, eq=False)
class SetWords:
    """Which shapes can balloons take with other words? The answer is the balloons.

    Args:
        case: The panel.
        menus: The balloons.
        words: The words of each.
    """

    case: Case
    menus: Sequence[Menu]
    words: Sequence[Words]


@dataclass(frozen=True, slots=True, eq=False)
class GoIn:
    """Does a quick search find a place for outlines? Where it does, they are placed.

    Args:
        case: The panel.
        outlines: The outlines that each balloon may take.
        room: Where they may stand.
    """

    case: Case
    outlines: Sequence[Sequence[Outline]]
    room: Rect


@dataclass(frozen=True, slots=True, eq=False)
class Stand:
    """Placed as the report places them, do balloons leave a figure of a height?

    Args:
        case: The panel.
        menus: The balloons.
        room: Where they may stand.
        height_mm: The height of the figure.
    """

    case: Case
    menus: Sequence[Menu]
    room: Rect
    height_mm: float


Question = SetWords | GoIn | Stand
Answer = tuple[Menu, ...] | bool
Result = TypeVar("Result")
Asking = Generator[Question, Answer, Result]
"""Yields questions, is sent the answers, and returns what follows from them."""
Remedy = Asking[float | None]
"""Returns a figure, or None where nothing helps."""


def set_words(
    case: Case, menus: Sequence[Menu], words: Sequence[Words]
) -> Asking[tuple[Menu, ...]]:
    """Ask for balloons with other words."""
    answer = yield SetWords(case, menus, words)
    assert isinstance(answer, tuple)  # noqa: S101 - what `tried` sends
    return answer


def go_in(case: Case, outlines: Sequence[Sequence[Outline]], room: Rect) -> Asking[bool]:
    """Ask whether balloons go in."""
    return bool((yield GoIn(case, outlines, room)))


def stands(case: Case, menus: Sequence[Menu], room: Rect, *, height_mm: float) -> Asking[bool]:
    """Ask whether balloons, placed, leave a figure of a height."""
    return bool((yield Stand(case, menus, room, height_mm)))


def tried(remedies: Sequence[Remedy]) -> list[float | None]:
    """What remedies return, all of them run side by side."""
    results: list[float | None] = [None] * len(remedies)
    answers: dict[int, Answer | None] = dict.fromkeys(range(len(remedies)))
    while answers:
        asked: dict[int, Question] = {}
        for index, answer in answers.items():
            try:
                # A generator is started by sending it nothing.
                asked[index] = remedies[index].send(answer)  # type: ignore[arg-type]
            except StopIteration as done:
                results[index] = done.value
        answers = dict(_answered(asked))
    return results


def _answered(asked: dict[int, Question]) -> list[tuple[int, Answer]]:
    """The answers to questions, by the same numbers and in their order."""
    words = {k: one for k, one in asked.items() if isinstance(one, SetWords)}
    rooms = {k: one for k, one in asked.items() if isinstance(one, GoIn)}
    stood = {k: one for k, one in asked.items() if isinstance(one, Stand)}
    found: dict[int, Answer] = {}
    found.update(zip(words, _set(list(words.values())), strict=True))
    found.update(zip(rooms, can_place_panels([_task(one) for one in rooms.values()]), strict=True))
    found.update(zip(stood, _stood(list(stood.values())), strict=True))
    return [(index, found[index]) for index in asked]


def _stood(asked: Sequence[Stand]) -> list[bool]:
    """Whether the figures stand that were asked for.

    What only the last searches would place leaves no such figure.
    """
    cases = [replace(one.case, menus=tuple(one.menus), room=one.room) for one in asked]
    placings = place_cases(cases, effort="usual") if cases else ()
    return [
        placing.layout.verdict == "placed"
        and placing.layout.figure_height_mm >= one.height_mm - SAME_MM
        for one, placing in zip(asked, placings, strict=True)
    ]


def _set(asked: Sequence[SetWords]) -> list[tuple[Menu, ...]]:
    """The balloons of each question with their other words."""
    if not asked:
        return []
    menus = [menu for one in asked for menu in one.menus]
    words = [own for one in asked for own in one.words]
    done = iter(with_words(menus, words, asked[0].case.setting))
    return [tuple(next(done) for _ in one.menus) for one in asked]


def _task(one: GoIn) -> PanelTask:
    setting = one.case.setting
    return PanelTask(
        panel=one.room,
        menus=one.outlines,
        gap_mm=setting.gap_mm,
        margin_mm=setting.margin_mm,
        reading=setting.reading,
        keep_clear=one.case.keep_clear,
    )
