"""What was found: coverage, overflow, figure room, reading order, words and findings."""

from letterfit.report.codes import CODES, found, gravest_first
from letterfit.report.comparing import PageComparison, compare_pages, measure_page
from letterfit.report.house_rules import parse_limits
from letterfit.report.laid import LaidPage, plan_script
from letterfit.report.limits import Limits
from letterfit.report.lint import lint_script
from letterfit.report.manner import Outlines
from letterfit.report.measures import PageMeasures
from letterfit.report.model import (
    BalloonReport,
    EffectReport,
    PageReport,
    PanelOverflow,
    PanelReport,
    ScriptReport,
)
from letterfit.report.pace import (
    Pace,
    PagePace,
    SilentRun,
    SpeakerShare,
    TierPace,
    Typical,
    pace_of,
)
from letterfit.report.page import PageJob, report_page, report_pages, unique_names
from letterfit.report.panel import PanelJob, report_panels
from letterfit.report.panel_cut import least_panel_cut
from letterfit.report.setting import Setting

__all__ = [
    "CODES",
    "BalloonReport",
    "EffectReport",
    "LaidPage",
    "Limits",
    "Outlines",
    "Pace",
    "PageComparison",
    "PageJob",
    "PageMeasures",
    "PagePace",
    "PageReport",
    "PanelJob",
    "PanelOverflow",
    "PanelReport",
    "ScriptReport",
    "Setting",
    "SilentRun",
    "SpeakerShare",
    "TierPace",
    "Typical",
    "compare_pages",
    "found",
    "gravest_first",
    "least_panel_cut",
    "lint_script",
    "measure_page",
    "pace_of",
    "parse_limits",
    "plan_script",
    "report_page",
    "report_pages",
    "report_panels",
    "unique_names",
]
