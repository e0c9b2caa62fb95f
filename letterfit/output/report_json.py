"""The report as JSON, schema 1: page coordinates in mm, rounded here and nowhere else."""

from letterfit.geometry import Point
from letterfit.output import numbers
from letterfit.output.balloon_json import (
    finding_json,
    lettering_json,
    line_json,
    outline_json,
    overflow_json,
    writing,
)
from letterfit.output.cuts_json import report_cuts
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.pace_json import pace_json, page_pace_json
from letterfit.output.plain import plain
from letterfit.paper.sheet import Paper
from letterfit.place.model import Tail
from letterfit.report.limits import Limits
from letterfit.report.model import (
    BalloonReport,
    EffectReport,
    FigureRemedy,
    PageReport,
    PanelOverflow,
    PanelReport,
    ScriptReport,
)
from letterfit.report.pace import PagePace, pace_of
from letterfit.version import VERSION

SCHEMA = 1
"""The version of the format: it changes only when a reader of the old one would break."""


def to_json(report: ScriptReport) -> str:
    r"""The report as JSON, schema 1 (`report_schema` returns its JSON Schema).

    Args:
        report: The whole report.

    Returns:
        Indented JSON with a line feed at the end: lengths in mm to 0.001, percents to 0.1, no NaN
        and no infinity; the same report gives the same characters.

    >>> import json
    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> told = json.loads(to_json(lf.preflight(script)))
    >>> told["schema"], told["fits"], told["pages"][0]["panels"][0]["id"]
    (1, True, '1.1')
    """
    pace = pace_of(report)
    return dump(
        {
            "schema": SCHEMA,
            "letterfit": VERSION,
            "title": None if report.title is None else plain(report.title),
            "source": plain(report.source),
            "lettering": lettering_json(report.lettering),
            **terms_json(report),
            "fits": report.fits,
            "pace": pace_json(pace),
            "pages": [
                page_json(page, own) for page, own in zip(report.pages, pace.pages, strict=True)
            ],
            "findings": [finding_json(finding) for finding in report.all_findings],
        }
    )


def terms_json(report: ScriptReport) -> JsonObject:
    """What a script was laid on and held against."""
    return {
        "paper": _paper(report.paper),
        "reading": report.reading,
        "placing": {"same_speaker": report.same_speaker, "butted": report.butted},
        "limits": _limits(report.limits),
    }


def _paper(paper: Paper) -> JsonObject:
    return {
        "name": plain(paper.name),
        "trim": [numbers.mm(side) for side in paper.trim],
        "live": numbers.rect(paper.live),
        "bleed_mm": numbers.mm(paper.bleed),
        "gutter_mm": numbers.mm(paper.gutter_mm),
    }


def _limits(limits: Limits) -> JsonObject:
    return {
        "coverage_percent": numbers.percent(limits.coverage),
        "words_per_balloon": limits.words_per_balloon,
        "words_per_panel": limits.words_per_panel,
        "words_per_page": limits.words_per_page,
        "lines_per_balloon": limits.lines_per_balloon,
        "least_size_pt": numbers.points(limits.least_size_pt),
        "figure_aspect": numbers.share(limits.figure_aspect),
        "whole_figure": numbers.share(limits.whole_figure),
        "steady_share": numbers.share(limits.steady_share),
        "words_per_tier": limits.words_per_tier,
        "balloons_per_panel": limits.balloons_per_panel,
        "panels_per_tier": limits.panels_per_tier,
        "panels_per_page": limits.panels_per_page,
        "house": list(limits.house),
    }


def page_json(page: PageReport, pace: PagePace) -> JsonObject:
    """One page, panel by panel."""
    return {
        "number": page.numbers[0],
        "numbers": list(page.numbers),
        "label": plain(page.label),
        "line": page.line,
        "trim": [numbers.mm(side) for side in page.plan.paper.trim],
        "words": page.words,
        "figure_height_mm": numbers.mm(page.figure_height_mm),
        "steady_height_mm": numbers.mm(page.steady_height_mm),
        "fits": page.fits,
        "pace": page_pace_json(pace),
        "tiers": _tiers(page),
        "panels": [_panel(panel) for panel in page.panels],
    }


def _tiers(page: PageReport) -> list[JsonObject]:
    """Each tier with the ids of its panels."""
    each = zip(page.plan.tiers, page.tier_figure_heights_mm, page.tier_panels, strict=True)
    return [
        {
            "height_mm": numbers.mm(tier.height_mm),
            "figure_height_mm": numbers.mm(figure),
            "panels": [plain(panel.id) for panel in own],
        }
        for tier, figure, own in each
    ]


def _panel(panel: PanelReport) -> JsonObject:
    return {
        "id": plain(panel.id),
        "line": panel.line,
        "rect": numbers.rect(panel.rect),
        "bleed": None if panel.bleed is None else numbers.rect(panel.bleed),
        "insets": [numbers.rect(inset) for inset in panel.insets],
        "words": panel.words,
        "verdict": panel.verdict,
        "reason": plain(panel.reason),
        "proof": _proof(panel),
        "coverage_percent": numbers.percent(panel.coverage),
        "effects_percent": numbers.percent(panel.effects_share),
        "figure_height_mm": numbers.mm(panel.figure_height_mm),
        "figure_bound_mm": numbers.mm_up_or_none(panel.figure_bound_mm),
        "figures": [numbers.rect(box) for box in panel.figures],
        "steadied": _steadied(panel.steadied),
        "figure_share": numbers.share(panel.figure_share),
        "reading_certain": panel.reading_certain,
        "balloons": [_balloon(balloon, panel) for balloon in panel.balloons],
        "effects": [_effect(effect) for effect in panel.effects],
        "overflow": _panel_overflow(panel.overflow),
        "cuts": report_cuts(panel.cuts),
    }


def _proof(panel: PanelReport) -> JsonObject | None:
    proof = panel.proof
    if proof is None:
        return None
    return {
        "name": proof.name,
        "balloons": [plain(panel.balloons[index].id) for index in proof.balloons],
        "needs": numbers.mm(proof.needs),
        "holds": numbers.mm(proof.holds),
        "cells": proof.cells,
    }


def _balloon(balloon: BalloonReport, panel: PanelReport) -> JsonObject:
    fitted, centre = balloon.fitted, centre_of(balloon)
    outline = outline_json(fitted.outline)
    spot = (None, None) if centre is None else (numbers.mm(centre.x), numbers.mm(centre.y))
    return {
        "id": plain(balloon.id),
        "line": balloon.line,
        "kind": balloon.kind,
        "speaker": None if balloon.speaker is None else plain(balloon.speaker),
        "modifiers": [plain(modifier) for modifier in balloon.modifiers],
        "text": plain(fitted.text),
        "words": fitted.words,
        "fits": fitted.fits,
        "size_pt": numbers.points(fitted.size_pt),
        "outline": {"kind": outline.pop("kind"), "x": spot[0], "y": spot[1], **outline},
        "area_mm2": numbers.mm(fitted.area_mm2),
        "clearance_mm": numbers.mm_or_none(fitted.clearance_mm),
        "tail": _tail(balloon.tail, panel),
        "joined": balloon.joined,
        "overhang": numbers.mm(balloon.overhang_mm),
        **writing(fitted),
        "lines": [line_json(line, centre) for line in fitted.lines],
        "overflow": overflow_json(fitted.overflow),
    }


def centre_of(balloon: BalloonReport) -> Point | None:
    """The centre of a balloon on its page; None when it was not placed."""
    if balloon.x_mm is None or balloon.y_mm is None:
        return None
    return Point(balloon.x_mm, balloon.y_mm)


def _tail(tail: Tail | None, panel: PanelReport) -> JsonObject | None:
    if tail is None:
        return None
    return {
        "root": [_point(point) for point in tail.root],
        "tip": _point(tail.tip),
        "bend": None if tail.bend is None else _point(tail.bend),
        "to": None if tail.to is None else plain(panel.balloons[tail.to].id),
    }


def _effect(effect: EffectReport) -> JsonObject:
    return {
        "id": plain(effect.id),
        "line": effect.line,
        "kind": effect.kind,
        "text": plain(effect.text),
        "size_pt": numbers.points(effect.size_pt),
        "width_mm": numbers.mm(effect.width_mm),
        "height_mm": numbers.mm(effect.height_mm),
        "area_mm2": numbers.mm(effect.area_mm2),
    }


def _panel_overflow(overflow: PanelOverflow | None) -> JsonObject | None:
    if overflow is None:
        return None
    return {
        "area_mm2": numbers.mm(overflow.area_mm2),
        "words": overflow.words,
        "size_pt": numbers.points_down_or_none(overflow.size_pt),
        "height_mm": None if overflow.height_mm is None else numbers.mm(overflow.height_mm),
        "width_mm": None if overflow.width_mm is None else numbers.mm(overflow.width_mm),
    }


def _steadied(remedy: FigureRemedy | None) -> JsonObject | None:
    if remedy is None:
        return None
    return {
        "height_mm": numbers.mm(remedy.height_mm),
        "words": remedy.words,
        "tier_mm": None if remedy.tier_mm is None else numbers.mm(remedy.tier_mm),
        "panel_mm": None if remedy.panel_mm is None else numbers.mm(remedy.panel_mm),
    }


def _point(point: Point) -> list[float]:
    return [numbers.mm(point.x), numbers.mm(point.y)]
