"""Proposals for a page that has too many words: its panels' own cuts count towards it.

Every panel that is not right must lose its own least number of words, and the page what it is over;
no word of one panel does anything for another. So no fewer do than the greater of the two sums. To
show that so many do, the panels' least removals are taken, and what is still over from wherever it
leaves the panels right; each is placed again.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from letterfit.cuts.model import Cut, LeastWords, Proposal
from letterfit.cuts.tokens import Token, word_count
from letterfit.fit.model import FittedBalloon
from letterfit.report.case import Case
from letterfit.report.cuts import can_be_cut, sources_of
from letterfit.report.cutting import Source, cut_away, cuts_by_measure, cuts_of
from letterfit.report.least_panel import left_as_typed
from letterfit.report.model import PanelReport
from letterfit.report.shortened import Shortened, Texts

MOST_PAGE_WORDS = 2_000
"""Words of a page that more words than cuts can mend."""

PAGE = 300.0
"""How pressing a page is; words over the limit are added."""


def page_cuts(
    panels: Sequence[PanelReport],
    cases: Callable[[], Sequence[Case]],
    *,
    label: str,
    line: int,
    most: int,
) -> tuple[Proposal, ...]:
    """What to take out of a page that is over its limit of words, its panels mended with it.

    Args:
        panels: The panels as reported.
        cases: Gives their balloons, panel by panel.
        label: The page's label.
        line: Its line in the script.
        most: The limit.
    """
    words = sum(report.words for report in panels)
    over = words - most
    if over <= 0 or words > MOST_PAGE_WORDS:
        return ()
    page = _Page.of(panels, cases(), over)
    cuts = page.edited()
    least = page.least(cuts)
    cuts = cuts or least.cuts
    return (
        Proposal(
            where=label,
            line=line,
            why=f"{words} words on the page, over {most}",
            weight=PAGE + over,
            words=words,
            words_after=words - _words(cuts),
            least_words=least.at_least,
            cuts=cuts,
            least=least,
        ),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Panel:
    """A panel of the page.

    Args:
        report: As reported.
        panel: Its balloons.
        whole: What mends it by itself; None where nothing is wrong, or nothing can be said.
    """

    report: PanelReport
    panel: Shortened
    whole: Proposal | None

    @property
    def is_open(self) -> bool:
        """Whether it can be placed again to see whether it is right."""
        mended = self.whole is not None and bool(self.whole.cuts)
        right = self.whole is None and self.report.verdict == "placed"
        return can_be_cut(self.panel.case) and (mended or right)

    @property
    def cannot_be_mended(self) -> bool:
        """Whether it is wrong and no cut was found that mends it."""
        if self.whole is None:
            return self.report.verdict != "placed"
        return self.whole.least is None or self.whole.least.at_most is None


@dataclass(frozen=True, slots=True, eq=False)
class _Page:
    """The panels of a page, and its words over the limit."""

    panels: tuple[_Panel, ...]
    over: int

    @classmethod
    def of(cls, panels: Sequence[PanelReport], cases: Sequence[Case], over: int) -> "_Page":
        """The page of these panels."""
        found = []
        for report, case in zip(panels, cases, strict=True):
            whole = next((one for one in report.cuts if one.where == report.id), None)
            found.append(_Panel(report, Shortened(case, report.area_mm2), whole))
        return cls(tuple(found), over)

    def edited(self) -> tuple[Cut, ...]:
        """The panels' own proposals, and what else goes; none where nothing of ours does."""
        own = {cut.where: cut for one in self.panels if one.whole for cut in one.whole.cuts}
        rest = self.over - _words(tuple(own.values()))
        if rest <= 0:
            return tuple(own.values())
        found = [_Left.of(one, own) for one in self.panels]
        every = _All(tuple(found), rest)
        more = every.cuts()
        if not more:
            return ()
        merged = {cut.where: _merged(own.get(cut.where), cut) for cut in more}
        order = [source.id for left in found for source in left.sources]
        both = own | merged
        return tuple(both[name] for name in order if name in both)

    def least(self, edited: Sequence[Cut]) -> LeastWords:
        """The least number of words of the page."""
        told = [one.whole.least for one in self.panels if one.whole and one.whole.least]
        at_least = max(self.over, sum(one.at_least for one in told))
        if any(one.cannot_be_mended for one in self.panels):
            return LeastWords(at_least=at_least, at_most=None)
        cuts = tuple(cut for one in told for cut in one.cuts)
        found = [tuple(edited)] if edited else []
        rest = self.over - _words(cuts)
        measured = cuts if rest <= 0 else self._measured(cuts, rest)
        found += [measured] if measured else []
        best = min(found, key=_words, default=())
        return LeastWords(at_least=at_least, at_most=_words(best) if best else None, cuts=best)

    def _measured(self, cuts: Sequence[Cut], rest: int) -> tuple[Cut, ...]:
        """So many words more, chosen by measure, panel by panel; none where they do not do."""
        own = {cut.where: cut for cut in cuts}
        more: dict[str, Cut] = {}
        for one in sorted(self.panels, key=lambda one: -one.report.words):
            left = _Left.of(one, own)
            if not rest or not one.is_open:
                continue
            for index in sorted(range(len(left.sources)), key=lambda k: -left.sources[k].words):
                source = left.sources[index]
                gone = _longest(source.tokens, rest)
                texts = left_as_typed([source.tokens], {0: gone})
                if not gone or not left.is_right({index: texts[0]}):
                    continue
                (cut,) = cuts_by_measure(
                    left.sources, ({index: gone}, {index: texts[0]}), left.fitted
                )
                more[cut.where] = _merged(own.get(cut.where), cut)
                rest -= cut.words
                break
        order = [menu.id for one in self.panels for menu in one.panel.case.menus]
        both = own | more
        return () if rest else tuple(both[name] for name in order if name in both)


@dataclass(frozen=True, slots=True, eq=False)
class _Left:
    """A panel with its own cuts made: what more may go.

    Args:
        panel: The panel.
        sources: Its balloons, as far as they are left.
        made: The texts of those that were cut.
    """

    panel: _Panel
    sources: tuple[Source, ...]
    made: Texts

    @classmethod
    def of(cls, panel: _Panel, own: dict[str, Cut]) -> "_Left":
        """The panel with those of these cuts made that are its own."""
        sources = list(sources_of(panel.panel.case)) if can_be_cut(panel.panel.case) else []
        made: dict[int, str] = {}
        for k, source in enumerate(sources):
            if source.id in own:
                made[k] = own[source.id].text
                sources[k] = Source.of(source.id, made[k], own[source.id].after)
        return cls(panel, tuple(sources), made)

    def is_right(self, texts: Texts) -> bool:
        """Whether the panel is right with more words gone."""
        return self.panel.panel.is_right({**self.made, **texts})

    def fitted(self, index: int, text: str) -> FittedBalloon:
        """One balloon with another text."""
        return self.panel.panel.fitted(index, text)


@dataclass(frozen=True, slots=True, eq=False)
class _All:
    """The balloons of all panels in a row, so many words of which are to go."""

    panels: tuple[_Left, ...]
    rest: int

    def cuts(self) -> tuple[Cut, ...]:
        """What an editor minds least; none where nothing of ours does."""
        places = [(left, k) for left in self.panels if left.panel.is_open for k in _upto(left)]
        sources = [left.sources[k] for left, k in places]
        if not sources:
            return ()

        def good(texts: Texts) -> bool:
            gone = sum(sources[k].words - word_count(text) for k, text in texts.items())
            if gone < self.rest:
                return False
            own: dict[int, dict[int, str]] = {}
            for k, text in texts.items():
                left, index = places[k]
                own.setdefault(self.panels.index(left), {})[index] = text
            return all(self.panels[at].is_right(some) for at, some in own.items())

        def fit(index: int, text: str) -> FittedBalloon:
            left, at = places[index]
            return left.fitted(at, text)

        setting = self.panels[0].panel.panel.case.setting
        taken = cut_away(sources, good, setting=setting, least_words=self.rest)
        return cuts_of(sources, taken, fit, setting=setting)


def _upto(left: _Left) -> range:
    return range(len(left.sources))


def _longest(tokens: Sequence[Token], words: int) -> tuple[int, ...]:
    """The longest words of a text, so many, one staying."""
    found, left = list[int](), words
    for k in sorted(range(len(tokens)), key=lambda k: (-len(tokens[k].text), k)):
        if tokens[k].words <= left and len(found) + 1 < len(tokens):
            found.append(k)
            left -= tokens[k].words
    return tuple(sorted(found))


def _merged(first: Cut | None, second: Cut) -> Cut:
    """Two cuts of one balloon, one after the other, as one."""
    if first is None:
        return second
    return replace(
        second,
        removed=(*first.removed, *second.removed),
        kinds=(*first.kinds, *second.kinds),
        words=first.words + second.words,
        before=first.before,
        cost=first.cost + second.cost,
    )


def _words(cuts: Sequence[Cut]) -> int:
    return sum(cut.words for cut in cuts)
