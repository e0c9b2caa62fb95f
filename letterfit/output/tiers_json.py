"""Tier advice as JSON."""

from collections.abc import Sequence

from letterfit.output import numbers
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain
from letterfit.paper.notation import write_tiers
from letterfit.report.model import PanelReport
from letterfit.tiers.model import TierAdvice
from letterfit.version import VERSION


def tiers_to_json(advice: Sequence[TierAdvice]) -> str:
    """Tier advice as JSON: for each page the outcome, the plan, and each panel before and after.

    Args:
        advice: What `tier_advice` returned, page by page.

    Returns:
        Schema 1, whose JSON Schema `tiers_schema` returns.

    >>> '"pages": []' in tiers_to_json([])
    True
    """
    return dump({"schema": 1, "letterfit": VERSION, "pages": [_page(one) for one in advice]})


def _page(one: TierAdvice) -> JsonObject:
    shape = one.plan.shape
    return {
        "label": plain(one.before.label),
        "line": one.before.line,
        "outcome": one.outcome,
        "figure_mm": numbers.mm(one.figure_mm),
        "change_percent": numbers.percent(one.change),
        "tiers": None if shape is None else write_tiers(shape),
        "where": plain(one.where),
        "reason": plain(one.reason),
        "tallest_mm": None if one.tallest_mm is None else numbers.mm(one.tallest_mm),
        "panels": [
            {
                "id": plain(old.id),
                "before": _panel(old),
                "after": _panel(new),
            }
            for old, new in zip(one.before.panels, one.after.panels, strict=True)
        ],
    }


def _panel(panel: PanelReport) -> JsonObject:
    return {
        "width_mm": numbers.mm(panel.rect.width),
        "height_mm": numbers.mm(panel.rect.height),
        "coverage_percent": numbers.percent(panel.coverage),
        "figure_height_mm": numbers.mm(panel.figure_height_mm),
    }
