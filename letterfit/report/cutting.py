"""Which words to take out of the balloons of a panel or a page, over all of them the least missed.

For every number of words the sets of units that an editor minds least are found over all balloons
(`letterfit.cuts.choices` for each, then added up). The smallest number of words for which one of
the few best sets does is looked for from the least that is proved, each step lettered and, for a
panel, placed anew; of the sets with about so many words the one that is minded least is taken. So
the cuts are enough and near the fewest words: what those are `letterfit.report.least_panel` says.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from letterfit.cuts.choices import KEPT, Choice, choices_of, few_units
from letterfit.cuts.faults import faults
from letterfit.cuts.mend import mended
from letterfit.cuts.model import Cut
from letterfit.cuts.propose import EXTRA_WORD
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import Token, tokens_of
from letterfit.cuts.units import LATE, Unit, units_of
from letterfit.fit.model import FittedBalloon
from letterfit.report.bisection import least_trials
from letterfit.report.least_panel import Removal
from letterfit.report.setting import Setting
from letterfit.report.shortened import Texts

MOST_SETS = 2
"""Sets of so many words that are tried."""

NEAR, MOST_NEAR = 4, 5
"""How many words fewer or more than the least found a set may have to be tried for being minded
less, and how many are."""

MOST_WORDS = 60
"""Words beyond the least needed up to which sets are looked for."""

Taken = tuple[tuple[int, Unit], ...]
"""Units, each with the number of its balloon."""

Pick = tuple[float, tuple[tuple[int, Choice], ...]]
"""What sets of several balloons cost together, and the sets, each with its balloon's number."""


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
    each = [own_choices(source, setting) for source in sources]
    search = _Search(sources, setting, good, all_choices(each, most=least_words + MOST_WORDS))
    return search.run(least_words)


def own_choices(source: Source, setting: Setting) -> Mapping[int, Sequence[Choice]]:
    """The sets of units of one balloon, by the words that go, each unit sound by itself."""
    units = [
        unit
        for unit in few_units(
            units_of(source.tokens, language=setting.language, names=setting.names)
        )
        if _is_sound(source, unit.tokens, setting)
    ]
    return choices_of(source.tokens, units, language=setting.language)


def all_choices(
    each: Sequence[Mapping[int, Sequence[Choice]]], *, most: int
) -> dict[int, list[Pick]]:
    """The cheapest sets over all balloons, by the words that go: those of the balloons added up.

    Args:
        each: The sets of every balloon.
        most: No more words are looked at.
    """
    total: dict[int, list[Pick]] = {0: [(0.0, ())]}
    for index, own in enumerate(each):
        made: dict[int, list[Pick]] = {}
        for before, picks in total.items():
            for words, choices in own.items():
                if before + words <= most:
                    made.setdefault(before + words, []).extend(_added(picks, choices, index))
        total = {words: sorted(made[words], key=_cost)[:KEPT] for words in sorted(made)}
    return total


def _added(picks: Sequence[Pick], choices: Sequence[Choice], index: int) -> Iterator[Pick]:
    """The sums that can be among the cheapest."""
    for k, (cost, picked) in enumerate(picks):
        for choice in choices[: KEPT // (k + 1)]:
            yield cost + choice.cost, (*picked, (index, choice)) if choice.words else picked


def _cost(pick: Pick) -> float:
    return pick[0]


@dataclass(slots=True)
class _Search:
    """The search for the set that does.

    Args:
        sources: The balloons.
        setting: How the script is lettered.
        good: Whether what is left does.
        picks: The sets, by the words that go.
        known: Whether a balloon is sound without some of its tokens.
    """

    sources: Sequence[Source]
    setting: Setting
    good: Callable[[Texts], bool]
    picks: Mapping[int, Sequence[Pick]]
    known: dict[tuple[int, tuple[int, ...]], bool] = field(default_factory=dict)

    def run(self, least_words: int) -> Taken:
        """The set that does and that an editor minds least, words beyond the least counted."""
        numbers = [words for words in sorted(self.picks) if words >= least_words]
        found: dict[int, Pick] = {}
        trials = least_trials(least=0, most=len(numbers) - 1, near=True)
        try:
            at = next(trials).number
            while True:
                pick = self._first(numbers[at])
                found |= {} if pick is None else {numbers[at]: pick}
                at = trials.send(pick is not None).number
        except StopIteration:
            pass
        if not found:
            return ()
        fewest = min(found)
        best = min(
            ((_minded(pick, words, least_words), words, pick) for words, pick in found.items()),
            key=lambda one: one[:2],
        )
        return _taken(self._minded_less(best[0], best[2], around=fewest, least_words=least_words))

    def _first(self, words: int) -> Pick | None:
        """The first of the cheapest sets of so many words that does."""
        sound = (pick for pick in self.picks[words] if self._sound(pick))
        few = [pick for pick, _ in zip(sound, range(MOST_SETS), strict=False)]
        return next((pick for pick in few if self._does(pick)), None)

    def _minded_less(self, cost: float, best: Pick, *, around: int, least_words: int) -> Pick:
        """A set of about so many words that does and is minded less, if one is found soon."""
        cheaper = [
            (_minded(pick, words, least_words), -words, pick)
            for words in range(max(around - NEAR, least_words), around + NEAR + 1)
            for pick in self.picks.get(words, ())
            if _minded(pick, words, least_words) < cost and self._sound(pick)
        ]
        order = sorted(cheaper, key=lambda one: one[:2])[:MOST_NEAR]
        return next((pick for _, _, pick in order if self._does(pick)), best)

    def _does(self, pick: Pick) -> bool:
        return self.good(left_texts(self.sources, _taken(pick), setting=self.setting))

    def _sound(self, pick: Pick) -> bool:
        """Whether the checker finds no fault with what is left."""
        for index, lost in tokens_gone(_taken(pick)).items():
            if (index, lost) not in self.known:
                sound = _is_sound(self.sources[index], lost, self.setting)
                self.known[index, lost] = sound
            if not self.known[index, lost]:
                return False
        return True


def _minded(pick: Pick, words: int, least_words: int) -> float:
    return pick[0] + EXTRA_WORD * (words - least_words)


def _taken(pick: Pick) -> Taken:
    return tuple((index, unit) for index, choice in pick[1] for unit in choice.units)


def _is_sound(source: Source, gone: Sequence[int], setting: Setting) -> bool:
    left = mended(source.tokens, set(gone), table=cut_table(setting.language))
    return not faults(source.text, left, names=setting.names)


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
