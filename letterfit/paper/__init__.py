"""Paper sizes, and from a page's tiers to the rectangles of its panels."""

from letterfit.paper.grid import default_shape
from letterfit.paper.laying import lay_page
from letterfit.paper.model import PagePlan, PlannedPanel, Plans, Tier
from letterfit.paper.notation import parse_tiers, write_tiers
from letterfit.paper.plan import plan_page
from letterfit.paper.read_plans import parse_plans
from letterfit.paper.shapes import (
    InsetShape,
    PageShape,
    PanelShape,
    StackShape,
    TierShape,
)
from letterfit.paper.sheet import Paper, paper_names
from letterfit.paper.write_plans import plans_to_toml

__all__ = [
    "InsetShape",
    "PagePlan",
    "PageShape",
    "PanelShape",
    "Paper",
    "PlannedPanel",
    "Plans",
    "StackShape",
    "Tier",
    "TierShape",
    "default_shape",
    "lay_page",
    "paper_names",
    "parse_plans",
    "parse_tiers",
    "plan_page",
    "plans_to_toml",
    "write_tiers",
]
