"""Laid pages in a notebook: the panels bare, each with its name and its size."""

from collections.abc import Sequence
from itertools import count

from letterfit.counting import counted
from letterfit.geometry import Point, Rect
from letterfit.output.notebook.frame import figure, image
from letterfit.output.notebook.letters import lettered
from letterfit.output.plain import plain
from letterfit.output.svg import style
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.labels import label
from letterfit.output.svg.plan_page import drawn_plan
from letterfit.output.terminal.plan import page_plans_to_text, plan_line
from letterfit.paper.model import PagePlan
from letterfit.report.laid import LaidPage
from letterfit.shown import as_html, as_text

SCALE = 0.6
LABEL_PT = 13.0
"""As large as the words round it, at that scale."""

INDENT_MM = 2.0
RISE_MM = 7.0
"""The height of a label with its room."""

DESCENT_MM = 1.5
"""How much of that is under its baseline."""


@as_html.register
def laid_html(value: LaidPage) -> str:
    """A laid page with the names that its panels have in reports."""
    return _drawn(value.plan, value.ids, name=f"Page {plain(value.label)}")


@as_text.register
def laid_text(value: LaidPage) -> str:
    """As in a terminal."""
    return page_plans_to_text([value]).rstrip("\n")


@as_html.register
def plan_html(value: PagePlan) -> str:
    """A plan, its panels counted in reading order."""
    return _drawn(value, [str(index) for index in range(1, len(value.panels) + 1)], name="A page")


@as_text.register
def plan_text(value: PagePlan) -> str:
    """Its tiers, and each panel's place."""
    numbers = count(1)
    told = [plan_told(value)]
    for tier in value.tiers:
        for rect, number in zip(tier.panels, numbers, strict=False):
            size = f"{rect.width:.1f} x {rect.height:.1f} mm at {rect.x:.1f}, {rect.y:.1f}"
            told.append(f"  {number}  {size}")
    return "\n".join(told)


def plan_told(plan: PagePlan) -> str:
    """A plan in a line."""
    wide, high = plan.paper.trim
    size = f"{plain(plan.paper.name)}, {wide:.1f} x {high:.1f} mm"
    tiers = "" if plan.shape is None else plan_line(plan.shape)
    return " · ".join(filter(None, [size, counted(len(plan.panels), "panel"), tiers]))


def _drawn(plan: PagePlan, ids: Sequence[str], *, name: str) -> str:
    told = f"{name}: {plan_told(plan)}"
    svg, _ = lettered(
        lambda glyphs: drawn_plan(plan, ids=ids, heading=name, over=_labels(plan, ids, glyphs))
    )
    found = [f"! {finding.message}" for finding in plan.findings]
    return figure(image(svg, scale=SCALE, alt=told), [told, *found])


def _labels(plan: PagePlan, ids: Sequence[str], glyphs: Glyphs) -> list[str]:
    """Name and size in each panel, clear of the panels set into it."""
    insets = {one.index: [plan.panels[i] for i in one.insets] for one in plan.special}
    drawn = []
    for index, (rect, name) in enumerate(zip(plan.panels, ids, strict=True)):
        most = rect.width - 2 * INDENT_MM
        rows = [
            Rect(rect.x + INDENT_MM, top, most, RISE_MM) for top in (rect.y, rect.bottom - RISE_MM)
        ]
        held = insets.get(index, [])
        free = [row for row in rows if not any(row.common(inset) for inset in held)]
        row = (free or rows)[0]
        drawn.append(
            label(
                [f"{name} · {rect.width:.1f} x {rect.height:.1f}", name],
                Point(row.x, row.bottom - DESCENT_MM),
                size_pt=LABEL_PT,
                colour=style.LABEL,
                glyphs=glyphs,
                most_mm=most,
            )
        )
    return drawn
