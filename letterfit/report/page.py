"""One page: its panels, and what only the page as a whole can tell."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from letterfit.counting import counted
from letterfit.cuts.model import Proposal
from letterfit.findings import Finding
from letterfit.paper.model import PagePlan
from letterfit.place.model import Reading
from letterfit.place.order import reading_order
from letterfit.report.codes import found
from letterfit.report.limits import Limits
from letterfit.report.model import FigureRemedy, PageReport, PanelReport
from letterfit.report.pace_findings import pace_findings
from letterfit.report.panel import PanelJob, panel_cases, report_panels
from letterfit.report.panel_findings import one_of
from letterfit.report.setting import Setting
from letterfit.report.steadying import steadied, unsteady
from letterfit.script.model import ScriptPage


@dataclass(frozen=True, slots=True, kw_only=True)
class PageJob:
    """What one page's report needs; it can be sent to another process.

    Args:
        label: The page's name in the report; no other page of the script has it.
        page: The page of the script.
        plan: Where its panels stand.
    """

    label: str
    page: ScriptPage
    plan: PagePlan


Done = tuple[PanelReport, tuple[Finding, ...]]
"""A panel's report and what was found of it."""


def report_page(job: PageJob, setting: Setting) -> PageReport:
    """Letter every panel of one page: as `report_pages`, of which it is one."""
    return report_pages([job], setting)[0]


def report_pages(jobs: Sequence[PageJob], setting: Setting) -> tuple[PageReport, ...]:
    """Letter every panel of some pages, all together: sooner than one page after the other.

    Args:
        jobs: The pages.
        setting: How the script is lettered and what it is held against.

    Returns:
        The reports, the same as of each page alone: panels in script order, findings panel by
        panel, then the page's own.
    """
    panels = [panel_jobs(job) for job in jobs]
    reported = iter(report_panels([one for own in panels for one in own], setting))
    done = [list(islice(reported, len(own))) for own in panels]
    _steady(panels, done, setting)
    return tuple(_reported(job, own, setting) for job, own in zip(jobs, done, strict=True))


def _steady(
    panels: Sequence[Sequence[PanelJob]], done: Sequence[list[Done]], setting: Setting
) -> None:
    """See to it that the panels that break the steady distance say what would mend it."""
    low = [
        (page, number, wanted)
        for page, own in enumerate(done)
        for number, wanted in unsteady(
            [report for report, _ in own], share=setting.limits.steady_share
        ).items()
    ]
    cases = panel_cases([panels[page][number] for page, number, _ in low], setting)
    wanted = [height for _, _, height in low]
    for (page, number, _), remedy in zip(
        low, steadied(list(zip(cases, wanted, strict=True))), strict=True
    ):
        report, findings = done[page][number]
        done[page][number] = replace(report, steadied=remedy), findings


def panel_jobs(job: PageJob) -> list[PanelJob]:
    """The panels of a page, each with its name and its place."""
    plan, page = job.plan, job.page
    spine = plan.paper.spine
    names = panel_ids(page, label=job.label)
    rects = plan.panels
    special = {planned.index: planned for planned in plan.special}
    return [
        PanelJob(
            panel=panel,
            rect=rects[index],
            id=name,
            live=plan.paper.live,
            keep_clear=(spine,) if spine else (),
            insets=tuple(rects[k] for k in special[index].insets) if index in special else (),
            bleed=special[index].bleed if index in special else None,
        )
        for index, (panel, name) in enumerate(zip(page.panels, names, strict=True))
    ]


def _reported(job: PageJob, done: Sequence[Done], setting: Setting) -> PageReport:
    """The report of a page whose panels are done."""
    plan, page = job.plan, job.page
    panels = tuple(report for report, _ in done)
    found_in_panels = tuple(finding for _, findings in done for finding in findings)
    return PageReport(
        label=job.label,
        numbers=page.numbers,
        line=page.line,
        plan=plan,
        panels=panels,
        typed=page,
        findings=(
            *found_in_panels,
            *page_findings(job, panels, limits=setting.limits, reading=setting.reading),
            *plan.findings,
        ),
        cuts=_cuts(job, panels, setting) if setting.cuts else (),
    )


def _cuts(job: PageJob, panels: tuple[PanelReport, ...], setting: Setting) -> tuple[Proposal, ...]:
    from letterfit.report.page_cuts import page_cuts  # noqa: PLC0415 - a tenth of all imports

    return page_cuts(
        panels,
        lambda: panel_cases(panel_jobs(job), setting),
        label=job.label,
        line=job.page.line,
        most=setting.limits.words_per_page * job.plan.paper.pages,
    )


def page_findings(
    job: PageJob, panels: tuple[PanelReport, ...], *, limits: Limits, reading: Reading = "ltr"
) -> Iterator[Finding]:
    """What only the page as a whole can tell: its words, its pace, its steadiness, its order."""
    label, line = job.label, job.page.line
    words = sum(panel.words for panel in panels)
    most = limits.words_per_page * job.plan.paper.pages
    if words > most:
        yield found(
            "page-words",
            f"{words} words on the page, over {most} ({limits.basis('words_per_page')}).",
            advice="Cut words, or give some panels to another page.",
            where=label,
            line=line,
        )
    yield from pace_findings(panels, job.plan, label=label, line=line, limits=limits)
    yield from _uneven(panels)
    yield from _out_of_order(job, panels, reading=reading)


def _uneven(panels: tuple[PanelReport, ...]) -> Iterator[Finding]:
    """The panels that break the steady distance: they hold a much lower figure than the rest."""
    for panel in panels:
        remedy = panel.steadied
        if remedy is None:
            continue
        ways = figure_ways(remedy)
        yield found(
            "uneven-figures",
            f"Panel {panel.id} holds a figure of {panel.figure_height_mm:.1f} mm; the page's "
            f"steady distance asks for {remedy.height_mm:.1f} mm.",
            advice=f"{one_of(ways)}." if ways else "Let the view move closer there.",
            where=panel.id,
            line=panel.line,
        )


def figure_ways(remedy: FigureRemedy) -> list[str]:
    """What would let a panel hold its figure, each in a few words.

    >>> figure_ways(FigureRemedy(height_mm=30, words=3, tier_mm=58))
    ['cut 3 words', 'make the tier 58 mm high']
    """
    ways = []
    if remedy.words is not None:
        ways.append(f"cut {counted(remedy.words, 'word')}")
    if remedy.tier_mm is not None:
        ways.append(f"make the tier {remedy.tier_mm:g} mm high")
    if remedy.panel_mm is not None:
        ways.append(f"make the panel {remedy.panel_mm:g} mm wide")
    return ways


def _out_of_order(
    job: PageJob, panels: tuple[PanelReport, ...], *, reading: Reading
) -> Iterator[Finding]:
    """Where readers would take the panels in another order than the script's.

    Rows first, then columns (Nagy and Seth 1984, as for balloons): two stacks whose gutters meet
    look like rows. Insets read after the panels that hold them.
    """
    insets = {planned.index for planned in job.plan.special if planned.host is not None}
    own = [index for index in range(len(panels)) if index not in insets]
    order = reading_order([panels[index].rect for index in own], reading=reading)
    wrong = next((k for k, taken in enumerate(order) if k != taken), None)
    if wrong is None:
        return
    meant, taken = panels[own[wrong]], panels[own[order[wrong]]]
    yield found(
        "panel-order",
        f"Readers will take panel {taken.id} before panel {meant.id}: gutters that run across "
        "make rows of the stacks.",
        advice="Give the stacks other heights, so that no gutter runs across, or plan them as "
        "tiers.",
        where=meant.id,
        line=meant.line,
    )


def panel_ids(page: ScriptPage, *, label: str) -> tuple[str, ...]:
    """The names of a page's panels in reading order.

    Args:
        page: The page of the script.
        label: The page's own name.
    """
    names = unique_names([panel_name(panel.number, page=label) for panel in page.panels])
    return tuple(f"{label}.{name}" for name in names)


def panel_name(number: int | str, *, page: str) -> str:
    """A panel's number within its page, without the page's own number and without dots.

    >>> panel_name("4.1", page="4"), panel_name(3, page="4"), panel_name("2.1", page="4")
    ('1', '3', '2-1')
    """
    return str(number).removeprefix(f"{page}.").replace(".", "-")


def unique_names(names: list[str]) -> list[str]:
    """The names, those that come again marked b, c and so on, so that none is twice.

    >>> unique_names(["1", "2", "2", "3", "2"])
    ['1', '2', '2b', '3', '2c']
    """
    taken = set(names)
    times: dict[str, int] = {}
    result = []
    for name in names:
        times[name] = times.get(name, 0) + 1
        unique = name
        while times[name] > 1 and unique in taken:
            unique = f"{name}{_letters(times[name])}"
            times[name] += unique in taken
        taken.add(unique)
        result.append(unique)
    return result


def _letters(number: int) -> str:
    """1 is a, 2 is b, 27 is aa."""
    text = ""
    while number:
        number, digit = divmod(number - 1, 26)
        text = chr(ord("a") + digit) + text
    return text
