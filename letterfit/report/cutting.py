"""Which words to take out of the balloons of a panel or a page, over all of them the least missed.

Units of every balloon (`letterfit.cuts.units`) are put in a row, those first that an editor minds
least for their words; the shortest beginning of the row that does is found by bisection, each step
lettered and, for a panel, placed anew; then what turns out not to be needed is put back. So the
cuts are enough, but not the fewest words: what those are `letterfit.report.least_panel` says.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

from letterfit.cuts import Cut, Unit, units_of
from letterfit.cuts.mend import faults, mended
from letterfit.cuts.propose import choice_cost
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import Token, tokens_of
from letterfit.cuts.units import LATE
from letterfit.fit.model import FittedBalloon
from letterfit.report.bisection import least_that
from letterfit.report.least_panel import Removal
from letterfit.report.setting import Setting
from letterfit.report.shortened import Texts

MOST_UNITS = 60
"""Units in the row."""

MOST_PUT_BACK = 6
"""Units that are tried for being put back."""

MOST_PAIRED, MOST_FEW = 24, 8
"""Units that are paired, and how many ones and pairs are tried."""

Taken = tuple[tuple[int, Unit], ...]
"""Units, each with the number of its balloon."""


@dataclass(frozen=True, slots=True)
class Source:
    """A balloon that may lose words.

    Args:
        id: "page.panel.balloon".
        text: As typed.
        tokens: Its tokens.
        fitted: As it is now.
    """

    id: str
    text: str
    tokens: tuple[Token, ...]
    fitted: FittedBalloon

    @property
    def words(self) -> int:
        """How many words it has."""
        return self.fitted.words

    @classmethod
    def of(cls, id: str, text: str, fitted: FittedBalloon) -> "Source":  # noqa: A002 - the format's word
        """A balloon with its tokens."""
        return cls(id, text, tokens_of(text), fitted)


def cut_away(
    sources: Sequence[Source],
    good: Callable[[Texts], bool],
    *,
    setting: Setting,
    least_words: int = 1,
) -> Taken:
    """The units to take out so that it is good; none when none of ours do.

    Args:
        sources: The balloons.
        good: Whether what is left of the balloons that lose words does.
        setting: How the script is lettered: its language, its names.
        least_words: Fewer words will not do.
    """
    row = _row(sources, setting)
    taken: Taken = ()
    for pool in (_row(sources, setting, fillers=True), row):
        found = _shortest(sources, pool, good, setting=setting)
        if found and (not taken or _cost(found, least_words) < _cost(taken, least_words)):
            taken = found
    if not taken:
        return ()
    for few in _few(row, least_words):
        if _cost(few, least_words) >= _cost(taken, least_words):
            break
        if good(left_texts(sources, few, setting=setting)):
            return few
    return taken


def _shortest(
    sources: Sequence[Source], row: Taken, good: Callable[[Texts], bool], *, setting: Setting
) -> Taken:
    """The shortest beginning of a row that is good, without what turns out not to be needed."""

    def holds(count: int) -> bool:
        return good(left_texts(sources, row[:count], setting=setting))

    count = least_that(holds, least=1, most=len(row))
    if count is None:
        return ()
    taken = row[:count]
    for one in sorted(taken[:-1], key=lambda pair: -pair[1].words)[:MOST_PUT_BACK]:
        fewer = tuple(pair for pair in taken if pair != one)
        if _is_sound(sources, fewer, setting) and good(left_texts(sources, fewer, setting=setting)):
            taken = fewer
    return taken


def _few(row: Taken, least_words: int) -> list[Taken]:
    """One or two units of the row with words enough, a few that are minded least."""
    found: list[Taken] = [(pair,) for pair in row]
    found += combinations(row[:MOST_PAIRED], 2)
    enough = [few for few in found if sum(unit.words for _, unit in few) >= least_words]
    return sorted(enough, key=lambda few: _cost(few, least_words))[:MOST_FEW]


def _cost(taken: Taken, least_words: int) -> float:
    return choice_cost([unit for _, unit in taken], least_words)


def left_texts(sources: Sequence[Source], taken: Taken, *, setting: Setting) -> dict[int, str]:
    """What is left of each balloon that loses words."""
    table = cut_table(setting.language)
    return {
        index: mended(sources[index].tokens, set(lost), table=table)
        for index, lost in tokens_gone(taken).items()
    }


def cuts_of(
    sources: Sequence[Source],
    taken: Taken,
    fit: Callable[[int, str], FittedBalloon],
    *,
    setting: Setting,
) -> tuple[Cut, ...]:
    """The cuts, one for each balloon that loses words, each fitted anew."""
    cuts = []
    for index, text in left_texts(sources, taken, setting=setting).items():
        source, after = sources[index], fit(index, text)
        units = sorted((unit for k, unit in taken if k == index), key=lambda unit: unit.first)
        cuts.append(
            Cut(
                removed=tuple(
                    " ".join(source.tokens[k].text for k in unit.tokens) for unit in units
                ),
                kinds=tuple(unit.kind for unit in units),
                words=source.fitted.words - after.words,
                text=text,
                before=source.fitted,
                after=after,
                cost=sum(unit.cost for unit in units),
                enough=True,
                where=source.id,
            )
        )
    return tuple(cuts)


def tokens_gone(taken: Taken) -> dict[int, tuple[int, ...]]:
    """The tokens that go with units, by balloon."""
    gone: dict[int, set[int]] = {}
    for index, unit in taken:
        gone.setdefault(index, set()).update(unit.tokens)
    return {index: tuple(sorted(lost)) for index, lost in sorted(gone.items())}


def cuts_by_measure(
    sources: Sequence[Source], removal: Removal, fit: Callable[[int, str], FittedBalloon]
) -> tuple[Cut, ...]:
    """The cuts of words chosen by measure alone, one for each balloon, each fitted anew."""
    gone, texts = removal
    cuts = []
    for index, lost in sorted(gone.items()):
        source, after = sources[index], fit(index, texts[index])
        removed = tuple(" ".join(source.tokens[k].text for k in run) for run in _runs(sorted(lost)))
        cuts.append(
            Cut(
                removed=removed,
                kinds=("by measure alone",) * len(removed),
                words=source.fitted.words - after.words,
                text=texts[index],
                before=source.fitted,
                after=after,
                cost=2 * LATE + sum(source.tokens[k].words for k in lost),
                enough=True,
                where=source.id,
            )
        )
    return tuple(cuts)


def _runs(numbers: Sequence[int]) -> list[list[int]]:
    """Numbers in runs of neighbours."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return runs


def _row(sources: Sequence[Source], setting: Setting, *, fillers: bool = False) -> Taken:
    """The units of all balloons that can go together, those least missed for their words first."""
    every = [
        (index, unit)
        for index, source in enumerate(sources)
        for unit in units_of(source.tokens, language=setting.language, names=setting.names)
        if unit.cost / unit.words <= LATE / 2 and (unit.is_filler or not fillers)
    ]
    every.sort(key=lambda pair: (pair[1].cost / pair[1].words, pair[0], pair[1].first))
    taken: Taken = ()
    for index, unit in every:
        if len(taken) >= MOST_UNITS:
            break
        apart = all(
            k != index or unit.stop <= other.first or other.stop <= unit.first for k, other in taken
        )
        if apart and _is_sound(sources, (*taken, (index, unit)), setting, only=index):
            taken = (*taken, (index, unit))
    return taken


def _is_sound(
    sources: Sequence[Source], taken: Taken, setting: Setting, *, only: int | None = None
) -> bool:
    """Whether the checker finds no fault with what is left."""
    mine = tuple(pair for pair in taken if only is None or pair[0] == only)
    left = left_texts(sources, mine, setting=setting)
    return all(
        not faults(sources[index].text, text, names=setting.names) for index, text in left.items()
    )
