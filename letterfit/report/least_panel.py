"""The least number of words to take out of a panel, over all its balloons.

`letterfit.report.panel_bound` proves that fewer do not; removals that its bound thinks best are
lettered and placed to show that so many do. Where the two disagree and there are few, all removals
of that many words are tried, as they are typed and mended; each that is proved not to do, all of
them together raise the bound. Beyond a budget of layouts the answer is "at least", "at most".
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from letterfit.cuts.mend import mended
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import Token, joined
from letterfit.report.bisection import least_that
from letterfit.report.panel_bound import PanelBound, Split
from letterfit.report.shortened import Shortened, Texts

MOST_ASKED, MANY = 60, 6
"""Layouts that are looked for to find the least number of words of a panel; divided by one more
for every so many balloons, since these take longer to place."""

MOST_TRIED, MOST_EVERY = 3, 40
"""Removals of so many words that are tried, and up to how many all of them are."""

MOST_LISTED = 3_000
"""Removals that are held against the bound to see how many there are."""

Gone = Mapping[int, tuple[int, ...]]
"""The tokens that go, by balloon."""

Removal = tuple[Gone, Texts]
"""What goes, and what is left."""


@dataclass(frozen=True, slots=True)
class Found:
    """What the search found.

    Args:
        at_least: No fewer words do.
        at_most: So many do; None for none found.
        removal: One by measure that does; None where none is as short as one known before.
    """

    at_least: int
    at_most: int | None
    removal: Removal | None = None


def least_words(
    panel: Shortened, texts: Sequence[Sequence[Token]], bound: PanelBound, *, known: int | None
) -> Found:
    """The least number of words of a panel that is not right as it is.

    Args:
        panel: The panel.
        texts: The tokens of its balloons.
        bound: What is known from below.
        known: So many words are known to do; None for none.
    """
    least = max(bound.least(), 1)
    if known == least or least > bound.most:
        return Found(least, known)
    return _Search(panel, texts, bound, bound.splits()).run(least, known)


def so_few(
    panel: Shortened, texts: Sequence[Sequence[Token]], bound: PanelBound, *, words: int
) -> Found | None:
    """A removal of just so many words that mends a panel, which no fewer do; None for none found.

    Args:
        panel: The panel.
        texts: The tokens of its balloons.
        bound: What is known from below.
        words: How many words must go.
    """
    if words > bound.most:
        return None
    removal, _ = _Search(panel, texts, bound, bound.splits()).with_words(words, most=0)
    return None if removal is None else Found(words, words, removal)


@dataclass(slots=True)
class _Search:
    panel: Shortened
    texts: Sequence[Sequence[Token]]
    bound: PanelBound
    splits: list[list[Split]]

    def run(self, least: int, known: int | None) -> Found:
        """Look for fewer and fewer words, from below."""
        best: Removal | None = None
        end = self.panel.asked + MOST_ASKED // (1 + len(self.texts) // MANY)
        if known is None:
            best = self._any(least)
            known = None if best is None else self._count(best[0])
        words, sure = least, True
        while words <= self.bound.most and (known is None or words < known):
            if self.panel.asked >= end:
                break
            found, refuted = self.with_words(words)
            if found is not None:
                best, known = found, self._count(found[0])
                break
            sure = sure and refuted
            words += 1
            least = words if sure else least
        return Found(least, known, best)

    def _any(self, least: int) -> Removal | None:
        """A removal that does, by halving the numbers of words."""
        found: dict[int, Removal] = {}

        def does(words: int) -> bool:
            removal = self._first_right([*self._likely(words)][:1])
            if removal is not None:
                found[words] = removal
            return removal is not None

        words = least_that(does, least=least, most=self.bound.most)
        return None if words is None else found[words]

    def with_words(self, words: int, *, most: int = MOST_EVERY) -> tuple[Removal | None, bool]:
        """A removal of that many words that does; else whether it is proved that none does.

        Args:
            words: How many.
            most: Up to how many removals there may be for all of them to be tried.
        """
        found = self._first_right([*self._likely(words)][:MOST_TRIED])
        every = None if found is not None else self._every(words, most)
        if every is None:
            return found, False
        asked = [removal for gone in every for removal in self._both(gone)]
        answers = self.panel.answers([texts for _, texts in asked])
        right = (one for one, answer in zip(asked, answers, strict=True) if answer == "right")
        return next(right, None), all(answer == "wrong" for answer in answers)

    def _first_right(self, many: Sequence[Gone]) -> Removal | None:
        asked = [(gone, left_as_typed(self.texts, gone)) for gone in many]
        answers = self.panel.answers([texts for _, texts in asked])
        right = (one for one, answer in zip(asked, answers, strict=True) if answer == "right")
        return next(right, None)

    def _likely(self, words: int) -> Iterator[Gone]:
        """Removals of that many words that leave least area, by the bound."""
        for split in self.splits[words]:
            yield {
                k: widest(self.bound, self.texts, k, gone) for k, gone in enumerate(split) if gone
            }

    def _every(self, words: int, most: int) -> list[Gone] | None:
        """All removals of that many words that the bound allows; None when there are too many."""
        places = [(k, at) for k, tokens in enumerate(self.texts) for at in range(len(tokens))]
        found: list[Gone] = []
        listed = 0
        for size in range(1, words + 1):
            for chosen in combinations(places, size):
                listed += 1
                if listed > MOST_LISTED or len(found) > most:
                    return None
                gone = {
                    k: tuple(at for balloon, at in chosen if balloon == k)
                    for k in dict.fromkeys(k for k, _ in chosen)
                }
                if self._count(gone) == words and self._stays(gone):
                    found.append(gone)
        return found

    def _stays(self, gone: Gone) -> bool:
        """Whether every balloon keeps a word and the bound allows what goes."""
        if any(len(own) == len(self.texts[k]) for k, own in gone.items()):
            return False
        split = [0] * len(self.texts)
        for k, own in gone.items():
            split[k] = sum(self.texts[k][at].words for at in own)
        return self.bound.allows(tuple(split))

    def _both(self, gone: Gone) -> list[Removal]:
        """What is left with its marks mended, and as typed."""
        table = cut_table(self.panel.case.setting.language)
        tidy = {k: mended(self.texts[k], set(own), table=table) for k, own in gone.items()}
        plain = left_as_typed(self.texts, gone)
        return [(gone, plain)] if tidy == plain else [(gone, tidy), (gone, plain)]

    def _count(self, gone: Gone) -> int:
        return sum(self.texts[k][at].words for k, own in gone.items() for at in own)


def left_as_typed(texts: Sequence[Sequence[Token]], gone: Gone) -> dict[int, str]:
    """What is left of the balloons that lose words, marks staying with their words."""
    return {
        k: joined(token for at, token in enumerate(texts[k]) if at not in own)
        for k, own in gone.items()
    }


def widest(
    bound: PanelBound, texts: Sequence[Sequence[Token]], index: int, words: int
) -> tuple[int, ...]:
    """The tokens of a balloon whose going leaves least, so many words: as the bound has it.

    Where the bound says nothing, those with most letters.
    """
    tokens, least = texts[index], bound.balloons[index]
    likely = least.likely[words] if least is not None and words < len(least.likely) else ()
    order = [*likely, *sorted(range(len(tokens)), key=lambda k: (-len(tokens[k].text), k))]
    found, left = list[int](), words
    for k in dict.fromkeys(order):
        if tokens[k].words <= left and len(found) + 1 < len(tokens):
            found.append(k)
            left -= tokens[k].words
    return tuple(sorted(found))
