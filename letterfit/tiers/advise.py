"""Tier advice: the grid of least change on which every panel of a page holds its figure.

A grid is found by asking place by place; then the page is run again on it, as preflight would. A
panel that does not hold there what was promised is asked for more, and the grid sought anew.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from letterfit.findings import Finding
from letterfit.paper.model import PagePlan
from letterfit.paper.plan import plan_page
from letterfit.paper.shapes import PageShape, TierShape
from letterfit.report.bisection import least_that
from letterfit.report.codes import found
from letterfit.report.model import PageReport, PanelReport
from letterfit.report.page import PageJob, report_page
from letterfit.tiers.easing import eased, sizes_of
from letterfit.tiers.grid import Grid
from letterfit.tiers.ground import Ground, Spot, ground_of
from letterfit.tiers.model import Outcome, TierAdvice, TierLimits
from letterfit.tiers.search import ROUNDS, largest_of, nearest_grid, rows_of, too_small

SAME_MM = 1e-6


def advise_tiers(page: PageReport, *, limits: TierLimits | None = None) -> PagePlan:
    r"""The plan of a page, changed least, on which every panel holds its figure.

    Args:
        page: The page, as `preflight` reports it.
        limits: How far tiers and panels may change, and the figure that panels are to hold.

    Returns:
        The plan, run again and found to hold what it promises; where no such plan was found the
        page's own, with a finding that says what is in the way.

    Raises:
        PageError: When the page has no panels, or its report was not made by `preflight`.

    >>> from letterfit import parse_script
    >>> from letterfit import preflight
    >>> script = parse_script("PAGE 1\n\nPanel 1. Dawn.\n\nWENNA: Hold!\n\nPanel 2. Noon.\n")
    >>> advise_tiers(preflight(script).pages[0]).tiers[0].height_mm
    112.8
    """
    advice = tier_advice(page, limits=limits)
    if advice.outcome != "not found":
        return advice.plan
    return replace(advice.plan, findings=(*advice.plan.findings, _not_found(advice)))


def tier_advice(page: PageReport, *, limits: TierLimits | None = None) -> TierAdvice:
    r"""What comes of `advise_tiers`: the page run again and the change, or what is in the way.

    Args:
        page: The page, as `preflight` reports it.
        limits: As `advise_tiers`.

    Returns:
        The page before and after, and the share of it that changes; where nothing within the limits
        helps, what is in the way.

    Raises:
        PageError: As `advise_tiers`.

    >>> import letterfit as lf
    >>> (page,) = lf.preflight(lf.parse_script("PAGE 1\n\nPanel 1.\nWENNA: Shut.\n")).pages
    >>> tier_advice(page).outcome
    'kept'
    """
    allowed = limits or TierLimits()
    figure = page.steady_height_mm if allowed.figure_mm is None else allowed.figure_mm
    ground = ground_of(page, figure_mm=figure)
    advice = _advice(ground, allowed)
    if advice.outcome != "not found":
        return advice
    return replace(advice, tallest_mm=_tallest(ground, allowed))


def _advice(ground: Ground, allowed: TierLimits) -> TierAdvice:
    """Advice for a figure of one height."""
    page, figure = ground.page, ground.figure_mm
    if not any(_wrong(panel, figure, ground) for panel in page.panels):
        return _told(page, figure, outcome="kept")
    stuck = too_small(ground, allowed)
    if stuck is not None:
        return _stuck(page, figure, ground, stuck=stuck, limits=allowed)
    for _ in range(ROUNDS):
        grid = nearest_grid(ground, allowed)
        if grid is None:
            return _short(page, figure, ground)
        plan = _planned(page, ground, grid)
        after = _run(page, ground, plan)
        wrong = {k for k, panel in enumerate(after.panels) if _wrong(panel, figure, ground)}
        if not wrong:
            less = eased(ground, grid, rows_of(ground, allowed))
            fewer = _planned(page, ground, less)
            again = _run(page, ground, fewer)
            if not any(_wrong(panel, figure, ground) for panel in again.panels):
                grid, plan, after = less, fewer, again
            return TierAdvice(
                outcome="advised",
                figure_mm=figure,
                change=grid.change,
                plan=plan,
                before=page,
                after=after,
            )
        _unlearn(ground, grid, wrong)
    return _told(page, figure, where=page.label, reason="no grid held what it promised")


def _tallest(ground: Ground, allowed: TierLimits) -> float | None:
    """The tallest figure, in whole mm, that a grid within the limits gives: lower than asked for.

    Sought in coarse steps; what is told was advised by a page run again, or stands as it is.
    """

    def seems(height: int) -> bool:
        lower = ground.of_height(height)
        return (
            too_small(lower, allowed) is None
            and nearest_grid(lower, allowed, coarse=True) is not None
        )

    highest = math.ceil(ground.figure_mm) - 1
    least = least_that(lambda lower: seems(highest - lower), least=0, most=highest)
    if least is None:
        return None
    for height in (highest - least, highest - least - 1):
        if height >= 0 and _advice(ground.of_height(height), allowed).outcome != "not found":
            return float(height)
    return None


def _wrong(panel: PanelReport, figure_mm: float, ground: Ground) -> bool:
    """Whether a panel is not placed, is crowded, or does not hold the figure."""
    return (
        panel.verdict != "placed"
        or panel.coverage > ground.setting.limits.coverage
        or panel.figure_height_mm < figure_mm - SAME_MM
    )


def _planned(page: PageReport, ground: Ground, grid: Grid) -> PagePlan:
    """The plan of a grid, its ratios being millimetres where anything changed."""
    assert page.plan.shape is not None  # noqa: S101 - ground_of saw to it
    assert page.typed is not None  # noqa: S101 - ground_of saw to it
    steady = all(
        abs(height - row[0].box.height) <= SAME_MM
        for height, row in zip(grid.heights, ground.spots, strict=True)
    )
    tiers = tuple(
        _tier(own, spots, own.height if steady else round(height, 3), widths)
        for own, spots, height, widths in zip(
            page.plan.shape.tiers, ground.spots, grid.heights, grid.widths, strict=True
        )
    )
    shape = PageShape(tiers=tiers, gutter_mm=page.plan.shape.gutter_mm)
    typed = replace(page.typed, plan=None, plan_line=None)
    plan = plan_page(typed, page.plan.paper, plan=shape, reading=ground.setting.reading)
    return replace(plan, source="advice")


def _tier(
    own: TierShape, spots: Sequence[Spot], height: float, widths: Sequence[float]
) -> TierShape:
    moved = any(abs(w - spot.box.width) > SAME_MM for w, spot in zip(widths, spots, strict=True))
    ratios = tuple(round(width, 3) for width in widths) if moved else own.widths
    return TierShape(ratios, height, own.cells)


def _run(page: PageReport, ground: Ground, plan: PagePlan) -> PageReport:
    """The page as preflight would report it on another plan."""
    assert page.typed is not None  # noqa: S101 - ground_of saw to it
    job = PageJob(label=page.label, page=page.typed, plan=plan)
    return replace(report_page(job, ground.setting), setting=ground.setting)


def _unlearn(ground: Ground, grid: Grid, wrong: set[int]) -> None:
    """Know that all was not well, on the page run again, where a grid promised it."""
    number = 0
    for spot, size in sizes_of(ground, grid):
        if wrong & set(range(number, number + len(spot.jobs))):
            spot.tried[size] = False
        number += len(spot.jobs)


def _told(
    page: PageReport,
    figure_mm: float,
    *,
    outcome: Outcome = "not found",
    where: str = "",
    reason: str = "",
) -> TierAdvice:
    """Advice that changes nothing."""
    return TierAdvice(
        outcome=outcome,
        figure_mm=figure_mm,
        change=0.0,
        plan=page.plan,
        before=page,
        after=page,
        where=where,
        reason=reason,
    )


def _stuck(
    page: PageReport, figure_mm: float, ground: Ground, *, stuck: Spot, limits: TierLimits
) -> TierAdvice:
    """No size within the limits does for one place: which of its panels, and why."""
    spots = [spot for row in ground.spots for spot in row]
    first = sum(len(spot.jobs) for spot in spots[: spots.index(stuck)])
    own = page.panels[first : first + len(stuck.jobs)]
    blamed = next((panel for panel in own if _wrong(panel, figure_mm, ground)), own[0])
    row = rows_of(ground, limits)[stuck.tier]
    width, height = largest_of(stuck, row, ground.spots[stuck.tier])
    why = _why(blamed, figure_mm, ground)
    return _told(
        page,
        figure_mm,
        where=blamed.id,
        reason=f"{why}, nor would it in a place of {width:.1f} x {height:.1f} mm, the most that "
        "the limits allow",
    )


def _why(panel: PanelReport, figure_mm: float, ground: Ground) -> str:
    most = ground.setting.limits.coverage
    if panel.verdict != "placed":
        return f"panel {panel.id} does not take its balloons"
    if panel.coverage > most:
        return f"panel {panel.id} is {panel.coverage:.0%} under lettering, over {most:.0%}"
    return (
        f"panel {panel.id} holds a figure of {panel.figure_height_mm:.1f} mm, not {figure_mm:.1f}"
    )


def _short(page: PageReport, figure_mm: float, ground: Ground) -> TierAdvice:
    """Every place can be large enough, but not all together: the first wrong panel is named."""
    wrong = [panel for panel in page.panels if _wrong(panel, figure_mm, ground)]
    names = ", ".join(panel.id for panel in wrong)
    return _told(
        page,
        figure_mm,
        where=wrong[0].id,
        reason=f"what {names} would have to gain, the others of the page cannot give within the "
        "limits",
    )


def _not_found(advice: TierAdvice) -> Finding:
    tallest = advice.tallest_mm
    lower = "a lower figure" if tallest is None else f"a figure of {tallest:g} mm"
    return found(
        "no-grid",
        f"No grid was found on which every panel holds a figure of {advice.figure_mm:.1f} mm: "
        f"{advice.reason}.",
        advice=f"Cut words, ask for {lower}, or let tiers and panels change more.",
        where=advice.where,
        line=advice.before.line,
    )
