"""A panel with fewer words: its balloons lettered anew, each text once, and placed again."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from letterfit.cuts.tokens import word_count
from letterfit.fit.model import FittedBalloon
from letterfit.place.model import PanelLayout
from letterfit.place.proofs import least_area
from letterfit.report.case import Case
from letterfit.report.menus import Menu, Spot, menus_of
from letterfit.report.placing import panel_tasks, place_cases

Texts = Mapping[int, str]
"""What is left of the balloons that lose words, by number."""

Key = tuple[tuple[int, str], ...]
"""The same, in order."""

Answer = Literal["right", "not found", "wrong"]
"""Placed under its limits; not found to be; proved not to be."""

SAME = 1e-9
"""Areas that differ by this share are equal."""


@dataclass(slots=True)
class Shortened:
    """A panel whose balloons may lose words.

    Args:
        case: The panel as it is.
        area_mm2: The area of the panel less its insets, of which coverage is a share.
        known: The balloons with other texts that were lettered already.
        layouts: Those that were looked for already, by the texts of the balloons that lose words.
    """

    case: Case
    area_mm2: float
    known: dict[tuple[int, str], Menu] = field(default_factory=dict)
    layouts: dict[Key, PanelLayout] = field(default_factory=dict)

    @property
    def asked(self) -> int:
        """How many layouts were looked for."""
        return len(self.layouts)

    @property
    def words(self) -> int:
        """Words of the panel as it is."""
        return sum(menu.words.count for menu in self.case.menus)

    @property
    def over(self) -> int:
        """How many words it has over its limit; 0 for none."""
        return max(self.words - self.case.setting.limits.words_per_panel, 0)

    @property
    def most_covered_mm2(self) -> float:
        """How much of it may be covered."""
        return self.case.setting.limits.coverage * self.area_mm2

    def menus(self, texts: Texts) -> tuple[Menu, ...]:
        """All balloons, those in `texts` with what is left of them."""
        self._letter([texts])
        old = self.case.menus
        return tuple(self.known[k, texts[k]] if k in texts else menu for k, menu in enumerate(old))

    def fitted(self, index: int, text: str) -> FittedBalloon:
        """One balloon with another text, in its smallest shape."""
        menu = self.menus({index: text})[index]
        return menu.fitted(menu.smallest, self.case.setting)

    def area(self, index: int, text: str) -> float:
        """The area of its smallest shape, mm2."""
        return self.menus({index: text})[index].smallest.area_mm2

    def layout(self, texts: Texts) -> PanelLayout:
        """Where the balloons stand."""
        self._place([texts])
        return self.layouts[_key(texts)]

    def coverage(self, layout: PanelLayout) -> float:
        """The share of the panel that a layout covers."""
        return layout.coverage * self.case.room.area_mm2 / self.area_mm2

    def is_right(self, texts: Texts) -> bool:
        """Whether these texts leave the panel placed and under its limits."""
        return self.answers([texts])[0] == "right"

    def answers(self, many: Sequence[Texts]) -> list[Answer]:
        """The same of many choices of texts, placed side by side."""
        few = [k for k, texts in enumerate(many) if self._left(texts)]
        self._letter([many[k] for k in few])
        may = [k for k in few if self._may_do(self._case(many[k]))]
        self._place([many[k] for k in may])
        found = {k: self._answer(self.layouts[_key(many[k])]) for k in may}
        return [found.get(k, "wrong") for k in range(len(many))]

    def _place(self, many: Sequence[Texts]) -> None:
        """See to it that the layouts of all these texts are known."""
        new = {_key(texts): texts for texts in many if _key(texts) not in self.layouts}
        self._letter(list(new.values()))
        placed = place_cases([self._case(texts) for texts in new.values()]) if new else ()
        self.layouts.update(zip(new, (one.layout for one in placed), strict=True))

    def _answer(self, layout: PanelLayout) -> Answer:
        if layout.verdict == "impossible":
            return "wrong"
        right = layout.verdict == "placed" and self.coverage(layout) <= self._limit
        return "right" if right else "not found"

    @property
    def _limit(self) -> float:
        return self.case.setting.limits.coverage

    def _left(self, texts: Texts) -> bool:
        """Whether so few words are left that the limit allows them."""
        menus = self.case.menus
        gone = sum(menus[k].words.count - word_count(text) for k, text in texts.items())
        return gone >= self.over

    def _may_do(self, case: Case) -> bool:
        """Whether the smallest balloons cover no more than they may.

        What joined balloons share and what hangs over the border is taken off.
        """
        if case.flood is not None:
            return False
        least = min(least_area(task.menus, terms=task.terms()) for task in panel_tasks(case))
        return least <= self.most_covered_mm2 * (1 + SAME)

    def _case(self, texts: Texts) -> Case:
        return replace(self.case, menus=self.menus(texts))

    def _letter(self, many: Sequence[Texts]) -> None:
        """See to it that all these texts are lettered."""
        pairs = [(k, text) for texts in many for k, text in texts.items()]
        new = [pair for pair in dict.fromkeys(pairs) if pair not in self.known]
        old = self.case.menus
        spots = [
            Spot(replace(old[k].element, text=text), old[k].room, old[k].id, old[k].follows)
            for k, text in new
        ]
        if new:
            self.known.update(zip(new, menus_of(spots, self.case.setting), strict=True))


def _key(texts: Texts) -> Key:
    return tuple(sorted(texts.items()))
