"""Laid pages as JSON: paper, tiers and panels in mm, as a layout tool takes them over."""

from collections.abc import Sequence

from letterfit.geometry import Rect
from letterfit.output import numbers
from letterfit.output.balloon_json import finding_json
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain
from letterfit.paper.model import PagePlan, PlannedPanel
from letterfit.paper.notation import write_tiers
from letterfit.paper.sheet import Paper
from letterfit.report.laid import LaidPage
from letterfit.version import VERSION

SCHEMA = 1
"""The version of the format: it changes only when a reader of the old one would break."""


def page_plans_to_json(pages: Sequence[LaidPage]) -> str:
    r"""Laid pages as JSON, schema 1 (`page_plans_schema` returns its JSON Schema).

    Args:
        pages: What `plan_script` returned.

    Returns:
        Lengths in mm to 0.001, page coordinates from the top left corner of the trimmed page, y
        downwards; panels in reading order, named as reports and drawings name them.

    >>> import json
    >>> import letterfit as lf
    >>> pages = lf.plan_script(lf.parse_script("PAGE 1\n\nPanel 1. The lock.\n"))
    >>> [panel["id"] for panel in json.loads(page_plans_to_json(pages))["pages"][0]["panels"]]
    ['1.1']
    """
    return _document([_script_page(page) for page in pages])


def page_plan_to_json(plan: PagePlan, *, label: str = "1", reading: str = "ltr") -> str:
    """One laid page as JSON of the same schema, its panels named by their order.

    Args:
        plan: The page.
        label: Its name.
        reading: "ltr" or "rtl", as it was laid.

    Returns:
        As `page_plans_to_json`, with one page, which has no lines of a script.

    >>> import json
    >>> import letterfit as lf
    >>> panels = tuple(lf.ScriptPanel(number=number, line=number) for number in (1, 2, 3))
    >>> page = lf.ScriptPage(numbers=(1,), line=1, panels=panels)
    >>> plan = lf.plan_page(page, lf.Paper.named("us-comic"), plan="1 / 2")
    >>> [panel["id"] for panel in json.loads(page_plan_to_json(plan))["pages"][0]["panels"]]
    ['1.1', '1.2', '1.3']
    """
    ids = [f"{label}.{number}" for number in range(1, len(plan.panels) + 1)]
    lines = [None] * len(ids)
    head: JsonObject = {"label": plain(label), "numbers": [], "line": None, "reading": reading}
    return _document([head | _places(plan, ids, lines)])


def _document(pages: list[JsonObject]) -> str:
    return dump({"schema": SCHEMA, "letterfit": VERSION, "pages": pages})


def _script_page(laid: LaidPage) -> JsonObject:
    page = laid.page
    head: JsonObject = {
        "label": plain(laid.label),
        "numbers": list(page.numbers),
        "line": page.line,
        "reading": laid.reading,
    }
    return head | _places(laid.plan, laid.ids, [panel.line for panel in page.panels])


def _places(plan: PagePlan, ids: Sequence[str], lines: Sequence[int | None]) -> JsonObject:
    """The page's paper, tiers and panels."""
    names = [plain(name) for name in ids]
    special = {one.index: one for one in plan.special}
    tiers: list[JsonObject] = []
    panels: list[JsonObject] = []
    for number, tier in enumerate(plan.tiers, start=1):
        first = len(panels)
        for rect in tier.panels:
            index = len(panels)
            told = special.get(index, PlannedPanel(index))
            where: JsonObject = {"id": names[index], "line": lines[index], "tier": number}
            panels.append(where | _panel(rect, told, names))
        tiers.append(
            {
                "number": number,
                "box": numbers.rect(tier.box or _round(tier.panels)),
                "panels": names[first : len(panels)],
            }
        )
    return {
        "paper": _paper(plan.paper),
        "plan": None if plan.shape is None else write_tiers(plan.shape),
        "plan_from": plan.source,
        "tiers": tiers,
        "panels": panels,
        "findings": [finding_json(finding) for finding in plan.findings],
    }


def _panel(rect: Rect, told: PlannedPanel, names: Sequence[str]) -> JsonObject:
    return {
        "rect": numbers.rect(rect),
        "bleed": None if told.bleed is None else numbers.rect(told.bleed),
        "insets": [names[inset] for inset in told.insets],
        "host": None if told.host is None else names[told.host],
    }


def _paper(paper: Paper) -> JsonObject:
    return {
        "name": plain(paper.name),
        "pages": paper.pages,
        "trim": [numbers.mm(side) for side in paper.trim],
        "bleed_mm": numbers.mm(paper.bleed),
        "gutter_mm": numbers.mm(paper.gutter_mm),
        "live": numbers.rect(paper.live),
        "spine": None if paper.spine is None else numbers.rect(paper.spine),
    }


def _round(panels: Sequence[Rect]) -> Rect:
    """The box round rectangles."""
    left, top = min(panel.x for panel in panels), min(panel.y for panel in panels)
    right, bottom = max(panel.right for panel in panels), max(panel.bottom for panel in panels)
    return Rect(left, top, right - left, bottom - top)
