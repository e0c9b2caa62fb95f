"""A laid page as SVG, before anything is lettered: guides, and the panels in groups of tiers."""

from collections.abc import Sequence

from letterfit.geometry import Rect
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes, Names, box, document, tag, title
from letterfit.output.svg.guides import guides
from letterfit.paper.model import PagePlan
from letterfit.report.laid import LaidPage


def page_plan_to_svg(page: LaidPage) -> str:
    r"""A laid page as one SVG file in mm, as large as the trimmed page: its panels, nothing else.

    Args:
        page: What `plan_script` returned for it.

    Returns:
        SVG with the group "guides" and one group for each tier and panel, "tier-1" and "panel-1.2";
        a panel that bleeds is drawn as far as the bleed. No text, no fill, no reference to anything
        outside the file. The same page gives the same characters.

    >>> import letterfit as lf
    >>> (page,) = lf.plan_script(lf.parse_script("PAGE 1\n\nPanel 1. The lock.\n"))
    >>> page_plan_to_svg(page).count('id="panel-1.1"')
    1
    """
    return drawn_plan(page.plan, ids=page.ids, heading=f"page {page.label}")


def drawn_plan(
    plan: PagePlan, *, ids: Sequence[str], heading: str, over: Sequence[str] = ()
) -> str:
    """A plan as `page_plan_to_svg` draws it.

    Args:
        plan: The plan.
        ids: The names of its panels in reading order.
        heading: The title of the drawing.
        over: What is drawn over the panels.
    """
    names = Names()
    paper = plan.paper
    width, height = paper.trim
    bled = {one.index: one.bleed for one in plan.special if one.bleed is not None}
    panels = iter(enumerate(ids))
    tiers = []
    for number, tier in enumerate(plan.tiers, start=1):
        own = [
            _panel(panel_id, bled.get(index, rect), names)
            for rect, (index, panel_id) in zip(tier.panels, panels, strict=False)
        ]
        tiers.append(tag("g", {"id": names.new(f"tier-{number}"), "class": "tier"}, own))
    parts = [guides(paper, names), *tiers, *over]
    return document(width=width, height=height, heading=heading, children=parts)


def _panel(panel_id: str, drawn: Rect, names: Names) -> str:
    border: Attributes = {"fill": "none", "stroke": style.INK, "stroke-width": style.BORDER_LINE}
    parts = [title(f"panel {panel_id}"), tag("rect", {**box(drawn), **border})]
    return tag("g", {"id": names.new(f"panel-{panel_id}"), "class": "panel"}, parts)
