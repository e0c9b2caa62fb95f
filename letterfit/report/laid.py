"""A script's pages laid on paper before anything is lettered: each panel's name and place."""

from dataclasses import dataclass, replace

from letterfit.errors import PageError
from letterfit.paper.model import PagePlan, Plans
from letterfit.paper.plan import plan_page
from letterfit.paper.sheet import Paper
from letterfit.place.model import Reading
from letterfit.report.page import panel_ids, unique_names
from letterfit.report.reading import reading_of
from letterfit.script.model import Script, ScriptPage
from letterfit.shown import Shown

PAPER = "us-comic"
"""The paper of a script that names none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPage(Shown):
    r"""A page of a script, laid.

    Args:
        label: Its name; no other page of the script has it.
        page: The page of the script.
        plan: Where its panels stand.
        reading: Which way it reads.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\n\nPanel 2. The tide.\n")
    >>> (page,) = lf.plan_script(script)
    >>> page.ids, page.plan.panels[0].width
    (('1.1', '1.2'), 152.4)
    """

    label: str
    page: ScriptPage
    plan: PagePlan
    reading: Reading = "ltr"

    @property
    def ids(self) -> tuple[str, ...]:
        """The names of its panels in reading order, as reports and drawings call them."""
        return panel_ids(self.page, label=self.label)


def plan_script(
    script: Script,
    *,
    paper: Paper | None = None,
    plans: Plans | None = None,
    reading: Reading | None = None,
) -> tuple[LaidPage, ...]:
    r"""Lay all pages of a script, as `preflight` lays them, and letter nothing.

    Args:
        script: The script.
        paper: What it is printed on; None is the plans' own, or a US comic page.
        plans: The pages' tiers; None leaves each page to its own line, or the default grid.
        reading: "ltr" or "rtl"; None is the way most balloons read.

    Returns:
        The pages in script order.

    Raises:
        PageError: When a plan contradicts the script, or a panel is impossible.

    >>> from letterfit import parse_script
    >>> script = parse_script("PAGE 1\n\nPanel 1. The gate.\n\nPanel 2. The barge.\n")
    >>> [page] = plan_script(script)
    >>> page.ids, page.plan.source
    (('1.1', '1.2'), 'default')
    """
    way = reading or reading_of(script)
    sheet = script_paper(paper, plans)
    labels = unique_names([page.label for page in script.pages])
    return tuple(
        LaidPage(
            label=label,
            page=page,
            plan=_laid(script, page, sheet, label=label, plans=plans, reading=way),
            reading=way,
        )
        for label, page in zip(labels, script.pages, strict=True)
    )


def script_paper(paper: Paper | None, plans: Plans | None) -> Paper:
    """The paper asked for, or the plans', or the default."""
    return paper or (plans.paper if plans else None) or Paper.named(PAPER)


def _laid(  # noqa: PLR0913 - keyword-only but for the first
    script: Script,
    page: ScriptPage,
    paper: Paper,
    *,
    label: str,
    plans: Plans | None,
    reading: Reading,
) -> PagePlan:
    """Where a page's panels stand; an error says whose line it is."""
    try:
        plan = plan_page(page, paper, plan=plans, reading=reading)
    except PageError as error:
        if error.source:
            raise
        line = error.line or page.line
        raise PageError(error.what, advice=error.advice, source=script.source, line=line) from None
    return replace(plan, findings=tuple(replace(one, where=label) for one in plan.findings))
