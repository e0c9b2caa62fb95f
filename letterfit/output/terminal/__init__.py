"""The terminal: a report, a balloon, typefaces, a script, a table, measures as plain text."""

from letterfit.output.terminal.balloon import balloon_to_text
from letterfit.output.terminal.fonts import fonts_to_text
from letterfit.output.terminal.joined import joined_to_text
from letterfit.output.terminal.measures import comparison_to_text, measures_to_text
from letterfit.output.terminal.plan import page_plans_to_text
from letterfit.output.terminal.report import to_text
from letterfit.output.terminal.script import script_to_text
from letterfit.output.terminal.table import table_to_text
from letterfit.output.terminal.tiers import tiers_to_text

__all__ = [
    "balloon_to_text",
    "comparison_to_text",
    "fonts_to_text",
    "joined_to_text",
    "measures_to_text",
    "page_plans_to_text",
    "script_to_text",
    "table_to_text",
    "tiers_to_text",
    "to_text",
]
