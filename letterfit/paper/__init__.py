"""Paper sizes, and from a page's tiers to the rectangles of its panels."""

from letterfit.paper.grid import default_shape
from letterfit.paper.model import PagePlan, PageShape, Plans, Tier, TierShape
from letterfit.paper.notation import parse_tiers, write_tiers
from letterfit.paper.plan import lay_tiers, plan_page
from letterfit.paper.sheet import Paper, paper_names
from letterfit.paper.toml_plans import parse_plans

__all__ = [
    "PagePlan",
    "PageShape",
    "Paper",
    "Plans",
    "Tier",
    "TierShape",
    "default_shape",
    "lay_tiers",
    "paper_names",
    "parse_plans",
    "parse_tiers",
    "plan_page",
    "write_tiers",
]
