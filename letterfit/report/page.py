"""One page: its panels, and what only the page as a whole can tell."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from statistics import median_high

from letterfit.findings import Finding
from letterfit.paper.model import PagePlan
from letterfit.place.model import Reading
from letterfit.place.order import reading_order
from letterfit.report.codes import found
from letterfit.report.cuts import page_cuts
from letterfit.report.model import Limits, PageReport, PanelReport
from letterfit.report.pace_findings import pace_findings
from letterfit.report.panel import PanelJob, report_panels
from letterfit.report.setting import Setting
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
    done = iter(report_panels([one for own in panels for one in own], setting))
    return tuple(
        _reported(job, tuple(islice(done, len(own))), setting)
        for job, own in zip(jobs, panels, strict=True)
    )


def panel_jobs(job: PageJob) -> list[PanelJob]:
    """The panels of a page, each with its name and its place."""
    plan, page = job.plan, job.page
    spine = plan.paper.spine
    names = unique_names([panel_name(panel.number, page=job.label) for panel in page.panels])
    rects = plan.panels
    special = {planned.index: planned for planned in plan.special}
    return [
        PanelJob(
            panel=panel,
            rect=rects[index],
            id=f"{job.label}.{name}",
            live=plan.paper.live,
            keep_clear=(spine,) if spine else (),
            insets=tuple(rects[k] for k in special[index].insets) if index in special else (),
            bleed=special[index].bleed if index in special else None,
        )
        for index, (panel, name) in enumerate(zip(page.panels, names, strict=True))
    ]


def _reported(
    job: PageJob, done: Sequence[tuple[PanelReport, tuple[Finding, ...]]], setting: Setting
) -> PageReport:
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
        findings=(
            *found_in_panels,
            *page_findings(job, panels, limits=setting.limits, reading=setting.reading),
            *plan.findings,
        ),
        cuts=page_cuts(
            tuple(zip(panels, page.panels, strict=True)),
            label=job.label,
            line=page.line,
            most=setting.limits.words_per_page * plan.paper.pages,
            setting=setting,
        ),
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
    yield from _uneven(panels, limits=limits)
    yield from _out_of_order(job, panels, reading=reading)


def _uneven(panels: tuple[PanelReport, ...], *, limits: Limits) -> Iterator[Finding]:
    """The panel that breaks the steady distance, if one holds a much lower figure than the rest."""
    rooms = [panel.figure_height_mm for panel in panels if panel.verdict == "placed"]
    if len(rooms) < 2:
        return
    middle, least = median_high(rooms), min(rooms)
    if least >= limits.steady_share * middle:
        return
    low = next(p for p in panels if p.verdict == "placed" and p.figure_height_mm == least)
    yield found(
        "uneven-figures",
        f"Panel {low.id} holds a figure of {least:.1f} mm where half the page's panels hold "
        f"{middle:.1f} mm or more: it breaks the steady distance.",
        advice="Grow its tier, cut words, or let the view move closer there.",
        where=low.id,
        line=low.line,
    )


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
