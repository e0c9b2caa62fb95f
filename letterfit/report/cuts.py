"""Proposals for cuts where a balloon or a panel has too much: each lettered and placed anew."""

from collections.abc import Iterator, Sequence

from letterfit.cuts.least import LeastCut
from letterfit.cuts.model import Cut, LeastWords, Proposal
from letterfit.cuts.propose import cuts_for
from letterfit.fit.model import FittedBalloon
from letterfit.report.case import Case
from letterfit.report.cutting import Source, Taken, cut_away, cuts_by_measure, cuts_of, tokens_gone
from letterfit.report.giving import givings
from letterfit.report.least_panel import Found, Gone, least_words, so_few
from letterfit.report.model import PanelReport
from letterfit.report.overflow import MOST_BALLOONS
from letterfit.report.panel_bound import PanelBound
from letterfit.report.shortened import Shortened

BALLOON_CHOICES = 2
"""Proposals for one balloon: one of them is to be chosen."""

IMPOSSIBLE, PANEL, BALLOON = 1000.0, 200.0, 100.0
"""How pressing what is wrong is; words over the limit are added."""


def panel_cuts(report: PanelReport, case: Case) -> tuple[Proposal, ...]:
    """What to take out of a panel that is not placed, crowded, or over a limit of words.

    Args:
        report: The panel's report, whose balloons are those of the case.
        case: Its balloons as they are set, its room.

    Returns:
        First the cuts that mend the panel as a whole, to be made together; then, for each balloon
        over its limit, one or two choices. Nothing where nothing is wrong.
    """
    if not can_be_cut(case):
        return ()
    return (*_whole_panel(report, case), *_balloons(case))


def can_be_cut(case: Case) -> bool:
    """Whether cuts are looked for: not in a crowd of balloons, nor in a text that none holds."""
    return 0 < len(case.menus) <= MOST_BALLOONS and case.flood is None


def _whole_panel(report: PanelReport, case: Case) -> Iterator[Proposal]:
    limits = case.setting.limits
    panel = Shortened(case, report.area_mm2)
    misfit, crowded = report.verdict != "placed", report.coverage > limits.coverage
    if not (misfit or crowded or panel.over):
        return
    cuts, least = whole_cut(panel, words_only=not (misfit or crowded))
    after = panel.layout({k: cut.text for k, cut in _by_balloon(case, cuts)})
    yield Proposal(
        where=report.id,
        line=report.line,
        why=_why(report, limits.words_per_panel, crowded=crowded),
        weight=(IMPOSSIBLE if misfit else PANEL) + 100 * min(report.coverage, 5.0),
        words=report.words,
        words_after=report.words - _words(cuts),
        least_words=least.at_least,
        cuts=cuts,
        coverage=(report.coverage, panel.coverage(after) if cuts else report.coverage),
        least=least,
    )


def whole_cut(panel: Shortened, *, words_only: bool) -> tuple[tuple[Cut, ...], LeastWords]:
    """The cuts that an editor minds least and that mend a panel, and the least number of words.

    Args:
        panel: A panel that is not right as it is.
        words_only: Whether it is placed and not crowded, and only its words are over the limit.

    Returns:
        The cuts, by measure alone where no others do, none where none do; and what is known of the
        least number of words, with a removal of so many.
    """
    sources, setting = sources_of(panel.case), panel.case.setting
    texts = [source.tokens for source in sources]
    bound = PanelBound.of(panel, texts, words_only=True)
    found = Found(max(panel.over, 1), None)
    if panel.over:
        found = so_few(panel, texts, bound, words=panel.over) or found
    if found.at_most is None and not words_only:
        bound = PanelBound.of(panel, texts)
    least = max(bound.least(), 1)
    taken: Taken = ()
    if least <= bound.most:
        taken = cut_away(sources, panel.is_right, setting=setting, least_words=least)
    cuts = cuts_of(sources, taken, panel.fitted, setting=setting)
    if found.at_most is None:
        known = _words(cuts) if cuts else None
        found = least_words(panel, texts, bound, known=known)
    fewest = cuts
    mending: list[Gone] = [tokens_gone(taken)] if taken else []
    if found.removal is not None and _words(cuts) != found.at_most:
        fewest = cuts_by_measure(sources, found.removal, panel.fitted)
        mending.append(found.removal[0])
    gives = givings(panel, texts, bound, words=found.at_most or found.at_least, known=mending)
    told = LeastWords(at_least=found.at_least, at_most=found.at_most, cuts=fewest, gives=gives)
    return cuts or fewest, told


def _words(cuts: Sequence[Cut]) -> int:
    return sum(cut.words for cut in cuts)


def sources_of(case: Case) -> list[Source]:
    """The balloons of a panel, which may lose words."""
    return [
        Source.of(menu.id, menu.element.text, menu.fitted(menu.smallest, case.setting))
        for menu in case.menus
    ]


def _by_balloon(case: Case, cuts: Sequence[Cut]) -> Iterator[tuple[int, Cut]]:
    numbers = {menu.id: k for k, menu in enumerate(case.menus)}
    for cut in cuts:
        yield numbers[cut.where], cut


def _why(report: PanelReport, most: int, *, crowded: bool) -> str:
    told = []
    if report.verdict != "placed":
        told.append("does not fit" if report.verdict == "impossible" else "no place found")
    elif crowded:
        told.append(f"{report.coverage:.0%} under lettering")
    if report.words > most:
        told.append(f"{report.words} words, over {most}")
    return "; ".join(told)


def _balloons(case: Case) -> Iterator[Proposal]:
    """The balloons over their limit of words."""
    setting, most = case.setting, case.setting.limits.words_per_balloon
    panel = Shortened(case, case.room.area_mm2)
    for index, menu in enumerate(case.menus):
        over = menu.words.count - most
        if over <= 0:
            continue

        def fit(text: str, index: int = index) -> FittedBalloon:
            return panel.fitted(index, text)

        for cut in cuts_for(
            menu.element.text,
            fit=fit,
            enough=lambda left: left.words <= most,
            least_words=over,
            least=LeastCut(at_least=over, at_most=over),
            language=setting.language,
            names=setting.names,
            most=BALLOON_CHOICES,
            where=menu.id,
        ):
            yield Proposal(
                where=menu.id,
                line=menu.element.line,
                why=f"{menu.words.count} words, over {most}",
                weight=BALLOON + over,
                words=menu.words.count,
                words_after=cut.after.words,
                least_words=over,
                cuts=(cut,),
            )
