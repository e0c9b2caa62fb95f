"""Proposals for cuts where a balloon, a panel or a page has too much: each lettered anew."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from letterfit.cuts import Cut, LeastCut, Proposal, cuts_for
from letterfit.cuts.tokens import word_count
from letterfit.fit.model import FittedBalloon
from letterfit.place import PanelLayout
from letterfit.report.case import Case
from letterfit.report.cutting import Source, Texts, cut_away, cuts_of
from letterfit.report.menus import Menu, elements, menu_of
from letterfit.report.model import PanelReport
from letterfit.report.overflow import MOST_BALLOONS
from letterfit.report.placing import place_case
from letterfit.report.setting import Setting
from letterfit.script.model import ScriptPanel

BALLOON_CHOICES = 2
"""Proposals for one balloon: one of them is to be chosen."""

MOST_PAGE_WORDS = 2_000
"""Words of a page that more words than cuts can mend."""

IMPOSSIBLE, PAGE, PANEL, BALLOON = 1000.0, 300.0, 200.0, 100.0
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
    if not case.setting.cuts or not case.menus or len(case.menus) > MOST_BALLOONS:
        return ()
    if case.flood is not None:
        return ()
    return (*_whole_panel(report, case), *_balloons(case))


def page_cuts(
    panels: Sequence[tuple[PanelReport, ScriptPanel]],
    *,
    label: str,
    line: int,
    most: int,
    setting: Setting,
) -> tuple[Proposal, ...]:
    """What to take out of a page that is over its limit of words, wherever it is least missed.

    Args:
        panels: The panels as reported and as typed.
        label: The page's label.
        line: Its line in the script.
        most: The limit.
        setting: How the script is lettered.
    """
    words = sum(report.words for report, _ in panels)
    if not setting.cuts or words <= most or words > MOST_PAGE_WORDS:
        return ()
    typed = {
        f"{report.id}.{number}": (element, report)
        for report, panel in panels
        for number, element in enumerate(elements(panel, placed=True), start=1)
    }
    sources = [
        Source.of(balloon.id, typed[balloon.id][0].text, balloon.fitted)
        for report, _ in panels
        for balloon in report.balloons
        if balloon.fitted.fits
    ]

    def good(texts: Texts) -> bool:
        """Whether these texts do away with what was too much."""
        saved = sum(word_count(sources[k].text) - word_count(text) for k, text in texts.items())
        return words - saved <= most

    def fit(index: int, text: str) -> FittedBalloon:
        element, report = typed[sources[index].id]
        menu = menu_of(
            replace(element, text=text), report.rect, id=sources[index].id, setting=setting
        )
        return menu.fitted(menu.smallest, setting)

    taken = cut_away(sources, good, setting=setting, least_words=words - most)
    cuts = cuts_of(sources, taken, fit, setting=setting)
    return (
        Proposal(
            where=label,
            line=line,
            why=f"{words} words on the page, over {most}",
            weight=PAGE + words - most,
            words=words,
            words_after=words - sum(cut.words for cut in cuts),
            least_words=words - most,
            cuts=cuts,
        ),
    )


@dataclass(slots=True)
class _Trial:
    """A panel with other words: its balloons lettered anew, each text once."""

    case: Case
    known: dict[tuple[int, str], Menu]

    def menu(self, index: int, text: str) -> Menu:
        """One balloon with another text."""
        if (index, text) not in self.known:
            menu = self.case.menus[index]
            element = replace(menu.element, text=text)
            anew = menu_of(element, menu.room, id=menu.id, setting=self.case.setting)
            self.known[index, text] = replace(anew, follows=menu.follows)
        return self.known[index, text]

    def menus(self, texts: Texts) -> list[Menu]:
        """All balloons, those in `texts` with what is left of them."""
        old = self.case.menus
        return [self.menu(k, texts[k]) if k in texts else old[k] for k in range(len(old))]

    def layout(self, menus: Sequence[Menu]) -> PanelLayout:
        """Where they stand."""
        return place_case(replace(self.case, menus=tuple(menus)))

    def fitted(self, index: int, text: str) -> FittedBalloon:
        """One balloon with another text, in its smallest shape."""
        menu = self.menu(index, text)
        return menu.fitted(menu.smallest, self.case.setting)


def _sources(case: Case) -> list[Source]:
    return [
        Source.of(menu.id, menu.element.text, menu.fitted(menu.smallest, case.setting))
        for menu in case.menus
    ]


def _whole_panel(report: PanelReport, case: Case) -> Iterator[Proposal]:
    limits = case.setting.limits
    over = report.words - limits.words_per_panel
    misfit, crowded = report.verdict != "placed", report.coverage > limits.coverage
    if not (misfit or crowded or over > 0):
        return
    share = case.room.area_mm2 / report.rect.area_mm2
    trial = _Trial(case, {})

    def good(texts: Texts) -> bool:
        """Whether these texts do away with what was too much."""
        saved = sum(case.menus[k].words.count - word_count(text) for k, text in texts.items())
        if over > saved:
            return False
        if not (misfit or crowded):
            return True
        menus = trial.menus(texts)
        least = sum(menu.smallest.area_mm2 for menu in menus) / report.rect.area_mm2
        if least > (limits.coverage if crowded else 1.0):
            return False
        layout = trial.layout(menus)
        return layout.verdict == "placed" and (
            not crowded or layout.coverage * share <= limits.coverage
        )

    sources = _sources(case)
    taken = cut_away(sources, good, setting=case.setting, least_words=max(over, 1))
    cuts = cuts_of(sources, taken, trial.fitted, setting=case.setting)
    after = trial.layout(trial.menus({k: c.text for k, c in _by_balloon(sources, cuts)}))
    yield Proposal(
        where=report.id,
        line=report.line,
        why=_why(report, limits.words_per_panel, crowded=crowded),
        weight=(IMPOSSIBLE if misfit else PANEL) + 100 * min(report.coverage, 5.0),
        words=report.words,
        words_after=report.words - sum(cut.words for cut in cuts),
        least_words=max(over, 0) or None,
        cuts=cuts,
        coverage=(report.coverage, after.coverage * share if cuts else report.coverage),
    )


def _by_balloon(sources: Sequence[Source], cuts: Sequence[Cut]) -> Iterator[tuple[int, Cut]]:
    numbers = {source.id: k for k, source in enumerate(sources)}
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
    trial = _Trial(case, {})
    for index, menu in enumerate(case.menus):
        over = menu.words.count - most
        if over <= 0:
            continue

        def fit(text: str, index: int = index) -> FittedBalloon:
            return trial.fitted(index, text)

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
