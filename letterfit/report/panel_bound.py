"""How few words can be enough for a panel: a bound from below, over all its balloons together.

With w words gone from a balloon the least area of what is left is bounded from below
(`letterfit.cuts.least_area`); the least sum over all ways to share out the words, by a convolution
of these bounds, says how many words must go before the panel is under its limit of coverage, and
before the balloons with their gaps go into it at all (the proof by area of
`letterfit.place.proofs`; Steiner's formula; no outline is shorter than the circle of its area).
What joined balloons can share is taken off, and a balloon that the border may cut counts half.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np

from letterfit.cuts.least_area import MOST_GONE, LeastAreas, least_areas
from letterfit.cuts.tokens import Token
from letterfit.fit.joined import OVERLAP
from letterfit.lettering.measuring import measure
from letterfit.lettering.words import Words
from letterfit.outline import Floats
from letterfit.report.case import Case
from letterfit.report.joints import joints
from letterfit.report.menus import Menu
from letterfit.report.shortened import SAME, Shortened

MOST_SPLITS = 6
"""Ways to share out words that are kept, for every number of words."""

MOST_SQUARES = 8_000
"""Words of balloons squared, and summed over those whose areas are looked at, the shortest first:
so long a table takes."""

Split = tuple[int, ...]
"""How many words go from each balloon."""


@dataclass(frozen=True, slots=True, eq=False)
class PanelBound:
    """What is known of a panel's balloons before any is lettered anew.

    Args:
        balloons: Per balloon the least areas; None where nothing is proved.
        covers: Per balloon and words gone, the area inside the panel that it covers at least, mm2.
        grown: The same of it with half the gap round it.
        ranks: About how large it is then, mm2, to tell which removals to try first.
        over: Words that must go for the limit of words.
        may_cover: How much may be covered in all, mm2.
        may_grow: How much room there is in all with half the gap round it, mm2.
    """

    balloons: tuple[LeastAreas | None, ...]
    covers: tuple[Floats, ...]
    grown: tuple[Floats, ...]
    ranks: tuple[Floats, ...]
    over: int
    may_cover: float
    may_grow: float

    @classmethod
    def of(
        cls, panel: Shortened, texts: Sequence[Sequence[Token]], *, words_only: bool = False
    ) -> "PanelBound":
        """The bound of a panel.

        Args:
            panel: The panel.
            texts: The tokens of its balloons.
            words_only: Whether it is only its limit of words that it is over: then areas say
                nothing, and are not looked at.
        """
        case = panel.case
        butted = case.setting.butted and case.under_border
        width, height = _inside(case, butted=butted)
        depth = OVERLAP * case.setting.lettering.air_mm
        r, shared = case.setting.gap_mm / 2, sum(_joined(case))
        long = math.hypot(width, height)
        looked_at = () if words_only else _short_enough(texts)
        least = [
            _least(menu, own, case, inside=(width, height)) if k in looked_at else None
            for k, (menu, own) in enumerate(zip(case.menus, texts, strict=True))
        ]
        areas = [_by_gone(own, tokens) for own, tokens in zip(least, texts, strict=True)]
        room = width * height + 2 * (width + height) * r + math.pi * r * r
        return cls(
            balloons=tuple(least),
            covers=tuple(own / 2 if butted else own for own in areas),
            grown=tuple(own + 2 * np.sqrt(math.pi * own) * r + math.pi * r * r for own in areas),
            ranks=tuple(
                own if one is not None else _about(menu, tokens)
                for own, one, menu, tokens in zip(areas, least, case.menus, texts, strict=True)
            ),
            over=panel.over,
            may_cover=panel.most_covered_mm2 + shared * depth * (long + depth),
            may_grow=math.inf
            if butted
            else room + shared * (depth + 2 * r) * (long + depth + 2 * r),
        )

    @property
    def most(self) -> int:
        """The most words that may go, one a balloon staying."""
        return sum(len(own) - 1 for own in self.covers)

    def least(self) -> int:
        """No fewer words do; one more than may go where no removal does."""
        covers, grown = _convolved(self.covers), _convolved(self.grown)
        does = (covers <= self.may_cover * (1 + SAME)) & (grown <= self.may_grow * (1 + SAME))
        enough = np.flatnonzero(does[self.over :])
        return self.over + int(enough[0]) if len(enough) else self.most + 1

    def least_alone(self, index: int) -> int | None:
        """No fewer words do from one balloon alone; None where no removal of it alone does."""
        count = len(self.covers[index])
        for gone in range(self.over, count):
            split = tuple(gone if k == index else 0 for k in range(len(self.covers)))
            if self.allows(split):
                return gone
        return None

    def allows(self, split: Split) -> bool:
        """Whether words may be shared out so."""
        cover = sum(float(own[gone]) for own, gone in zip(self.covers, split, strict=True))
        grown = sum(float(own[gone]) for own, gone in zip(self.grown, split, strict=True))
        enough = sum(split) >= self.over
        return (
            enough and cover <= self.may_cover * (1 + SAME) and grown <= self.may_grow * (1 + SAME)
        )

    def splits(self) -> list[list[Split]]:
        """For every number of words the ways to share them out that leave least area, a few."""
        best: list[list[tuple[float, Split]]] = [[(0.0, ())]]
        for own in self.ranks:
            made: list[list[tuple[float, Split]]] = [[] for _ in range(len(best) + len(own) - 1)]
            for before, ways in enumerate(best):
                for gone, area in enumerate(own.tolist()):
                    made[before + gone] += [(sum_ + area, (*split, gone)) for sum_, split in ways]
            best = [sorted(ways)[:MOST_SPLITS] for ways in made]
        return [[split for _, split in ways if self.allows(split)] for ways in best]


def _short_enough(texts: Sequence[Sequence[Token]]) -> list[int]:
    """The balloons whose areas are looked at."""
    order = sorted(range(len(texts)), key=lambda k: (len(texts[k]), k))
    work = accumulate(len(texts[k]) ** 2 for k in order)
    return [k for k, so_far in zip(order, work, strict=True) if so_far <= MOST_SQUARES]


def _convolved(tables: Sequence[Floats]) -> Floats:
    """For every sum of places the least sum of what stands there, one place in each table."""
    total = np.zeros(1)
    for own in tables:
        made = np.full(len(total) + len(own) - 1, math.inf)
        for gone, area in enumerate(own.tolist()):
            part = made[gone : gone + len(total)]
            np.minimum(part, total + area, out=part)
        total = made
    result: Floats = np.minimum.accumulate(total)
    return result


def _inside(case: Case, *, butted: bool) -> tuple[float, float]:
    """The greatest width and height that an outline in the panel may have, mm.

    One that hangs over the top border does so by less than half its height.
    """
    margin = case.setting.margin_mm
    width = max(case.room.width - 2 * margin, 0.0)
    height = max(case.room.height - 2 * margin, 0.0)
    return width, 2 * (height + margin) if butted else height


def _joined(case: Case) -> tuple[bool, ...]:
    return joints(case.menus) if case.setting.same_speaker == "joined" else ()


def _least(
    menu: Menu, tokens: Sequence[Token], case: Case, *, inside: tuple[float, float]
) -> LeastAreas | None:
    setting = case.setting
    lettering = setting.lettering_of(menu.element)

    def measured(text: str) -> Words:
        return measure(text, lettering, language=setting.language)

    return least_areas(
        tokens,
        setting.outlines.of(menu.element),
        measure=measured,
        air_mm=setting.lettering.air_mm,
        inside=inside,
        now_mm2=menu.smallest.outline.core.area_mm2,
        most=MOST_GONE,
    )


def _by_gone(least: LeastAreas | None, tokens: Sequence[Token]) -> Floats:
    """The least area for every number of words that may go from a text; 0 where none is proved."""
    gone = sum(token.words for token in tokens)
    return np.array([least.at(w) if least is not None else 0.0 for w in range(gone)])


def _about(menu: Menu, tokens: Sequence[Token]) -> Floats:
    """The area for every number of words that may go, as if letters had an area of their own."""
    each = sorted(-len(token.text) / token.words for token in tokens for _ in range(token.words))
    left = np.cumsum([-sum(each), *each[:-1]])
    result: Floats = menu.smallest.area_mm2 * left / left[0]
    return result
