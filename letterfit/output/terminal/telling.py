"""A finding told in a few words and figures: alone, or gathered with others of its kind.

A finding's own message stands alone; beside a panel's figures it can be shorter.
"""

import math

from letterfit.counting import counted
from letterfit.findings import Finding
from letterfit.report.limits import Limits
from letterfit.report.model import PanelReport

READING = ("reading-order", "reading-doubt")
REMEDIES = {
    "coverage": "cut words there, or give these panels more room",
    "panel-words": "cut words there, or share them out over more panels",
    "balloon-words": "make two balloons of each, where the speaker draws breath",
}

LIMITS = {
    "coverage": "coverage",
    "panel-words": "words_per_panel",
    "balloon-words": "words_per_balloon",
    "page-words": "words_per_page",
    "tier-words": "words_per_tier",
    "panel-balloons": "balloons_per_panel",
    "tier-panels": "panels_per_tier",
    "page-panels": "panels_per_page",
}
"""The limit that a finding is about, by its code."""


def heading(code: str, limits: Limits) -> str:
    """What findings of one kind have in common."""
    heads = {
        "coverage": f"More than {limits.coverage:.0%} of a panel under lettering",
        "panel-words": f"More than {limits.words_per_panel} words in a panel",
        "balloon-words": f"More than {limits.words_per_balloon} words in a balloon",
        "page-words": f"More than {limits.words_per_page} words on a page",
        "tier-words": f"More than {limits.words_per_tier} words in a tier",
        "panel-balloons": f"More than {limits.balloons_per_panel} balloons in a panel",
        "tier-panels": f"More than {limits.panels_per_tier} panels in a tier",
        "page-panels": f"More than {limits.panels_per_page} panels on a page",
        "reading-doubt": "Balloons that may be read in the wrong order",
        "missing-glyph": "Characters that the typeface does not have",
        "long-word": "Words too long for a line",
    }
    house = " (house rules)" if LIMITS.get(code) in limits.house else ""
    return heads.get(code, code.replace("-", " ").capitalize()) + house


def place(finding: Finding, panel: PanelReport) -> str:
    """Where a finding is, with the figure it is about."""
    if finding.code == "coverage":
        return f"{finding.where} ({panel.coverage:.0%})"
    if finding.code == "panel-words":
        return f"{finding.where} ({panel.words})"
    if finding.code == "balloon-words":
        return f"{finding.where} ({_words_of(finding.where, panel)})"
    return finding.where


def _words_of(where: str, panel: PanelReport) -> int:
    return next((b.fitted.words for b in panel.balloons if b.id == where), panel.words)


def tell(finding: Finding, panel: PanelReport, limits: Limits) -> tuple[str, str, int]:
    """A finding in few words: what was found, what to do, and its rank, the most telling first."""
    if finding.code == "panel-words":
        over = panel.words - limits.words_per_panel
        what = f"{panel.words} words ({_whose(limits, finding)} {limits.words_per_panel})"
        panels = math.ceil(panel.words / limits.words_per_panel)
        return what, f"cut {counted(over, 'word')}, or share them out over {panels} panels", 1
    if finding.code == "coverage":
        what = _percents(panel.coverage, limits.coverage, whose=_whose(limits, finding))
        return what, "cut words, or give the panel more room", 2
    if finding.code == "balloon-words":
        words = _words_of(finding.where, panel)
        limit = f"{_whose(limits, finding)} {limits.words_per_balloon}"
        what = f"balloon {finding.where} has {words} words ({limit})"
        return what, "make two balloons of it", 3
    return finding.message, finding.advice, 0


def _whose(limits: Limits, finding: Finding) -> str:
    """Whether a finding's limit is advice or the house's own."""
    house = LIMITS.get(finding.code) in limits.house
    return "house rules" if house else "advice"


def _percents(covered: float, limit: float, *, whose: str) -> str:
    """Cover against its limit, with a decimal where whole percents would look the same."""
    digits = 0 if f"{covered:.0%}" != f"{limit:.0%}" else 1
    return f"{covered:.{digits}%} under lettering ({whose} {limit:.{digits}%})"
