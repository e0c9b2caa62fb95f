"""From a page of the script to the rectangles of its panels.

Whose plan holds, first come first served: the script page's own line; the plans' own entry for the
page; the plans' entry for all pages, where its number of panels is the page's (where it is not, the
page takes the default and a note says so); the default grid.
"""

from dataclasses import replace

from letterfit.counting import counted
from letterfit.errors import PageError
from letterfit.findings import Finding
from letterfit.paper.grid import default_shape
from letterfit.paper.laying import lay_page
from letterfit.paper.model import PagePlan, Plans
from letterfit.paper.notation import parse_tiers, write_tiers
from letterfit.paper.shapes import PageShape
from letterfit.paper.sheet import Paper
from letterfit.script.model import ScriptPage


def plan_page(
    script_page: ScriptPage,
    paper: Paper,
    *,
    plan: Plans | PageShape | str | None = None,
    reading: str = "ltr",
) -> PagePlan:
    """Lay a page's panels in tiers on its paper.

    Args:
        script_page: The page, with its panels and perhaps a plan of its own.
        paper: The single page's paper; a spread is laid on two of them side by side.
        plan: Plans of the whole script, the shape of this page, or its notation.
        reading: "ltr" or "rtl": on a right-to-left page the first panel of a tier stands right.

    Returns:
        The panels' rectangles in script order. Where no line of the script states a plan, the
        tiers of `plan`, else of the default grid. A page without panels has no tiers.

    Raises:
        PageError: When a plan has not as many panels as the page, is not in the notation, or leaves
            a panel under 5 mm a side. The message names the page, the line and both numbers.

    >>> from letterfit import Rect
    >>> from letterfit import ScriptPanel
    >>> page = ScriptPage(numbers=(1,), line=1,
    ...                   panels=tuple(ScriptPanel(number=n, line=n) for n in (1, 2, 3)))
    >>> sheet = Paper(trim=(100, 100), live=Rect(10, 10, 80, 80), gutter_mm=5)
    >>> [(r.x, r.y, r.width, r.height) for r in plan_page(page, sheet, plan="1 @2 / 2").panels]
    [(10, 10, 80.0, 50.0), (10, 65.0, 37.5, 25.0), (52.5, 65.0, 37.5, 25.0)]
    """
    sheet = paper.spread() if script_page.spread else paper
    if not script_page.panels:
        return PagePlan(paper=sheet, tiers=())
    shape, source, findings = _chosen(script_page, sheet, plan)
    if shape.gutter_mm is not None:
        sheet = replace(sheet, gutter_mm=shape.gutter_mm)
    try:
        tiers, special = lay_page(shape, sheet, reading=reading)
    except PageError as error:
        raise _at_page(error, script_page, shape, plan) from None
    return PagePlan(
        paper=sheet, tiers=tiers, shape=shape, source=source, findings=findings, special=special
    )


def _chosen(
    page: ScriptPage, sheet: Paper, plan: Plans | PageShape | str | None
) -> tuple[PageShape, str, tuple[Finding, ...]]:
    """The shape that holds, whose it is, and what to say of it."""
    own = _own_shape(page, plan)
    if own is not None:
        source = plan.source if isinstance(plan, Plans) and page.plan is None else ""
        return _agreed(own, page, source=source), "page" if page.plan is None else "script", ()
    default = default_shape(len(page.panels), pages=sheet.pages)
    if not isinstance(plan, Plans):
        return default, "default", ()
    default = replace(default, gutter_mm=plan.gutter_mm)
    if plan.every_page is None:
        return default, "default", ()
    if plan.every_page.panel_count != len(page.panels):
        return default, "default", (_not_used(page, plan.every_page, default),)
    return plan.every_page, "all", ()


def _own_shape(page: ScriptPage, plan: Plans | PageShape | str | None) -> PageShape | None:
    """The shape stated for this very page, if any."""
    if page.plan is not None:
        shape = parse_tiers(page.plan, line=page.plan_line)
        return replace(shape, gutter_mm=plan.gutter_mm) if isinstance(plan, Plans) else shape
    if isinstance(plan, str):
        return parse_tiers(plan)
    if isinstance(plan, Plans):
        return next((own for n in page.numbers if (own := plan.shape(n))), None)
    return plan


def _agreed(shape: PageShape, page: ScriptPage, *, source: str) -> PageShape:
    """The shape itself, when it has as many panels as the page."""
    if shape.panel_count != len(page.panels):
        stated, typed = (counted(n, "panel") for n in (shape.panel_count, len(page.panels)))
        raise PageError(
            f"the plan {_short(shape)!r} of page {page.label} has {stated}, the script has {typed}",
            advice=f"give the plan {typed}, or change the page",
            source=source,
            line=shape.line,
        )
    return shape


def _not_used(page: ScriptPage, stated: PageShape, used: PageShape) -> Finding:
    return Finding(
        code="plan-not-used",
        severity="note",
        message=f"the plan for all pages has {counted(stated.panel_count, 'panel')}, "
        f"page {page.label} has {len(page.panels)}: laid as {_short(used)!r}",
        advice=f"give page {page.label} a plan of its own, if the default does not please",
        where=page.label,
        line=page.line,
    )


def _at_page(
    error: PageError, page: ScriptPage, shape: PageShape, plan: Plans | PageShape | str | None
) -> PageError:
    return PageError(
        f"page {page.label}: {error.what}",
        advice=error.advice,
        source=plan.source if isinstance(plan, Plans) and page.plan is None else "",
        line=shape.line,
    )


def _short(shape: PageShape) -> str:
    text = write_tiers(shape)
    return text if len(text) <= 60 else f"{text[:57]}..."
