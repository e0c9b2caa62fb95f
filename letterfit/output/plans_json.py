"""Plans of a script as JSON, as a layout tool exchanges them: what `parse_plans` reads back.

Numbers are written whole, not rounded: they are what somebody asked for, not measurements.
"""

from collections.abc import Sequence

from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain
from letterfit.paper.json_plans import SCHEMA
from letterfit.paper.model import Plans
from letterfit.paper.shapes import Cell, PageShape, PanelShape, TierShape
from letterfit.paper.sheet import Paper
from letterfit.version import VERSION


def plans_to_json(plans: Plans) -> str:
    """Plans as JSON, schema 1 (`plans_schema` returns its JSON Schema).

    Args:
        plans: The plans.

    Returns:
        What `parse_plans` reads back to the same plans, to the last digit; the lines and the file
        that they were read from are not in it.

    >>> from letterfit import parse_plans, parse_tiers
    >>> plans = Plans(pages=((3, parse_tiers("3 / 2:1 @1.5")),))
    >>> parse_plans(plans_to_json(plans)).pages[0][1].tiers == plans.pages[0][1].tiers
    True
    """
    return dump(
        {
            "schema": SCHEMA,
            "letterfit": VERSION,
            "paper": None if plans.paper is None else _paper(plans.paper),
            "gutter_mm": plans.gutter_mm,
            "every_page": None if plans.every_page is None else _shape(plans.every_page),
            "pages": [{"page": number, **_shape(shape)} for number, shape in plans.pages],
        }
    )


def _paper(paper: Paper) -> JsonObject:
    live = paper.live
    return {
        "name": plain(paper.name),
        "trim": list(paper.trim),
        "live": [live.x, live.y, live.width, live.height],
        "bleed_mm": paper.bleed,
        "gutter_mm": paper.gutter_mm,
        "pages": paper.pages,
    }


def _shape(shape: PageShape) -> JsonObject:
    return {"gutter_mm": shape.gutter_mm, "tiers": _tiers(shape.tiers)}


def _tiers(tiers: Sequence[TierShape]) -> list[JsonObject]:
    return [
        {"height": tier.height, "places": [_place(width, cell) for width, cell in tier.places]}
        for tier in tiers
    ]


def _place(width: float, cell: Cell) -> JsonObject:
    if not isinstance(cell, PanelShape):
        return {"width": width, "stack": _tiers(cell.tiers)}
    insets = [
        {"corner": inset.corner, "width": inset.width, "height": inset.height}
        for inset in cell.insets
    ]
    return {"width": width, "bleeds": cell.bleeds, "insets": insets}
