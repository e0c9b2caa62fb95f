"""What comes out: a report, a balloon or a script as JSON, SVG, PDF and terminal text."""

from letterfit.output import notebook
from letterfit.output.balloon_json import balloon_to_json
from letterfit.output.cuts_schema import cuts_schema
from letterfit.output.fonts_json import fonts_to_json
from letterfit.output.html import to_html
from letterfit.output.joined_json import joined_to_json
from letterfit.output.lines_json import to_json_line, to_json_lines
from letterfit.output.measures_json import comparison_to_json, measures_to_json
from letterfit.output.measures_schemas import comparison_schema, measures_schema
from letterfit.output.page_plan_json import page_plan_to_json, page_plans_to_json
from letterfit.output.pdf import to_pdf
from letterfit.output.plan_schemas import page_plans_schema, plans_schema, tiers_schema
from letterfit.output.plans_json import plans_to_json
from letterfit.output.report_csv import to_csv
from letterfit.output.report_json import to_json
from letterfit.output.report_schema import lines_schema, report_schema
from letterfit.output.script_json import script_to_json
from letterfit.output.svg import (
    balloon_to_svg,
    figures_to_svg,
    joined_to_svg,
    page_plan_to_svg,
    to_svg,
)
from letterfit.output.table_csv import table_to_csv
from letterfit.output.table_json import table_to_json
from letterfit.output.terminal import (
    balloon_to_text,
    comparison_to_text,
    fonts_to_text,
    joined_to_text,
    measures_to_text,
    page_plans_to_text,
    script_to_text,
    table_to_text,
    tiers_to_text,
    to_text,
)
from letterfit.output.tiers_json import tiers_to_json

__all__ = [
    "balloon_to_json",
    "balloon_to_svg",
    "balloon_to_text",
    "comparison_schema",
    "comparison_to_json",
    "comparison_to_text",
    "cuts_schema",
    "figures_to_svg",
    "fonts_to_json",
    "fonts_to_text",
    "joined_to_json",
    "joined_to_svg",
    "joined_to_text",
    "lines_schema",
    "measures_schema",
    "measures_to_json",
    "measures_to_text",
    "notebook",
    "page_plan_to_json",
    "page_plan_to_svg",
    "page_plans_schema",
    "page_plans_to_json",
    "page_plans_to_text",
    "plans_schema",
    "plans_to_json",
    "report_schema",
    "script_to_json",
    "script_to_text",
    "table_to_csv",
    "table_to_json",
    "table_to_text",
    "tiers_schema",
    "tiers_to_json",
    "tiers_to_text",
    "to_csv",
    "to_html",
    "to_json",
    "to_json_line",
    "to_json_lines",
    "to_pdf",
    "to_svg",
    "to_text",
]
