"""SVG: one page, or one balloon, at print size with its lettering as outlines."""

from letterfit.output.svg.balloon_file import balloon_to_svg
from letterfit.output.svg.figures import figures_to_svg
from letterfit.output.svg.joined_file import joined_to_svg
from letterfit.output.svg.page import to_svg
from letterfit.output.svg.plan_page import page_plan_to_svg

__all__ = ["balloon_to_svg", "figures_to_svg", "joined_to_svg", "page_plan_to_svg", "to_svg"]
