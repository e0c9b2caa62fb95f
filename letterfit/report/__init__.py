"""What was found: coverage, overflow, figure room, reading order, words and findings."""

from letterfit.report.model import (
    BalloonReport,
    EffectReport,
    Limits,
    PageReport,
    PanelOverflow,
    PanelReport,
    ScriptReport,
)

__all__ = [
    "BalloonReport",
    "EffectReport",
    "Limits",
    "PageReport",
    "PanelOverflow",
    "PanelReport",
    "ScriptReport",
]
