"""The measures of pages as JSON: lengths in mm to 0.001, percents to 0.1."""

from letterfit.output import numbers
from letterfit.output.balloon_json import finding_json
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain
from letterfit.report.comparing import PageComparison
from letterfit.report.measures import (
    BalloonMeasures,
    PageMeasures,
    PanelMeasures,
    TierMeasures,
)
from letterfit.version import VERSION

SCHEMA = 1
"""The version of the format."""


def measures_to_json(page: PageMeasures) -> str:
    r"""What a page measures as JSON.

    Args:
        page: Its measures.

    Returns:
        Indented JSON with a line feed at the end; no NaN and no infinity; the same measures give
        the same characters.

    >>> import json
    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> told = json.loads(measures_to_json(lf.measure_page(lf.preflight(script).pages[0])))
    >>> told["schema"], told["page"]["words"]
    (1, 1)
    """
    return dump({"schema": SCHEMA, "letterfit": VERSION, "page": _page(page)})


def comparison_to_json(comparison: PageComparison) -> str:
    r"""Two pages as JSON: each in full, then what is the second's less the first's.

    Args:
        comparison: The two pages.

    Returns:
        As `measures_to_json`. A difference is null where one of the two has no such figure.

    >>> import json
    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> page = lf.measure_page(lf.preflight(script).pages[0])
    >>> sorted(json.loads(comparison_to_json(lf.compare_pages(page, page))))
    ['differences', 'fits', 'letterfit', 'pages', 'schema']
    """
    first, second = comparison.first, comparison.second
    return dump(
        {
            "schema": SCHEMA,
            "letterfit": VERSION,
            "fits": comparison.fits,
            "pages": [_page(first), _page(second)],
            "differences": {
                "words": _less(first.words, second.words),
                "coverage_points": _points(first.coverage, second.coverage),
                "figure_height_mm": _mm(first.figure_height_mm, second.figure_height_mm),
                "tiers": [_tiers_apart(one, two) for one, two in comparison.tiers],
                "panels": [_panels_apart(one, two) for one, two in comparison.panels],
            },
        }
    )


def _page(page: PageMeasures) -> JsonObject:
    return {
        "source": plain(page.source),
        "label": plain(page.label),
        "origin": page.origin,
        "trim": [numbers.mm(side) for side in page.trim],
        "reading": page.reading,
        "air_mm": numbers.mm(page.air_mm),
        "typeface": None if page.typeface is None else plain(page.typeface),
        "fits": page.fits,
        "words": page.words,
        "coverage_percent": numbers.percent(page.coverage),
        "figure_height_mm": numbers.mm(page.figure_height_mm),
        "tiers": [_tier(tier) for tier in page.tiers],
        "panels": [_panel(panel) for panel in page.panels],
        "findings": [finding_json(finding) for finding in page.findings],
    }


def _tier(tier: TierMeasures) -> JsonObject:
    return {
        "height_mm": numbers.mm(tier.height_mm),
        "panels": tier.panels,
        "figure_height_mm": numbers.mm(tier.figure_height_mm),
    }


def _panel(panel: PanelMeasures) -> JsonObject:
    return {
        "id": plain(panel.id),
        "name": plain(panel.name),
        "told_by": panel.told_by,
        "shape": panel.shape,
        "rect": numbers.rect(panel.rect),
        "area_mm2": numbers.mm(panel.area_mm2),
        "words": panel.words,
        "coverage_percent": numbers.percent(panel.coverage),
        "effects": panel.effects,
        "effects_percent": numbers.percent(panel.effects_share),
        "figure_height_mm": numbers.mm(panel.figure_height_mm),
        "figure_share": numbers.share(panel.figure_share),
        "order": panel.order,
        "doubt": None if panel.doubt is None else list(panel.doubt),
        "placed": panel.placed,
        "balloons": [_balloon(balloon) for balloon in panel.balloons],
        "faults": [
            {
                "where": plain(fault.where),
                "text": plain(fault.text),
                "outside_mm": numbers.mm(fault.outside_mm),
                "clearance_mm": numbers.mm(fault.clearance_mm),
            }
            for fault in panel.faults
        ],
    }


def _balloon(balloon: BalloonMeasures) -> JsonObject:
    return {
        "id": plain(balloon.id),
        "name": plain(balloon.name),
        "kind": balloon.kind,
        "told_by": balloon.told_by,
        "words": balloon.words,
        "clearance_mm": numbers.mm_or_none(balloon.clearance_mm),
    }


def _tiers_apart(one: TierMeasures | None, two: TierMeasures | None) -> JsonObject | None:
    if one is None or two is None:
        return None
    return {
        "height_mm": _mm(one.height_mm, two.height_mm),
        "panels": two.panels - one.panels,
        "figure_height_mm": _mm(one.figure_height_mm, two.figure_height_mm),
    }


def _panels_apart(one: PanelMeasures | None, two: PanelMeasures | None) -> JsonObject | None:
    if one is None or two is None:
        return None
    return {
        "first": plain(one.id),
        "second": plain(two.id),
        "width_mm": _mm(one.rect.width, two.rect.width),
        "height_mm": _mm(one.rect.height, two.rect.height),
        "words": _less(one.words, two.words),
        "coverage_points": _points(one.coverage, two.coverage),
        "figure_height_mm": _mm(one.figure_height_mm, two.figure_height_mm),
    }


def _less(one: int | None, two: int | None) -> int | None:
    return None if one is None or two is None else two - one


def _mm(one: float, two: float) -> float:
    """What is left of two figures as they are shown, so that they add up."""
    return numbers.mm(numbers.mm(two) - numbers.mm(one))


def _points(one: float, two: float) -> float:
    return numbers.percent((numbers.percent(two) - numbers.percent(one)) / 100)
