"""Cuts as JSON: by themselves, and where they stand in the report's."""

from collections.abc import Sequence

from letterfit.cuts.model import Cut, Giving, LeastWords, Proposal
from letterfit.fit.model import FittedBalloon
from letterfit.output import numbers
from letterfit.output.balloon_json import outline_json
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain
from letterfit.report.model import PageReport, ScriptReport
from letterfit.version import VERSION

SCHEMA = 1
"""The version of the JSON's schema."""


def proposals(report: ScriptReport) -> tuple[Proposal, ...]:
    """All cuts proposed in a report, most pressing first, equals in script order."""
    found = [one for page in report.pages for one in _of_page(page)]
    return tuple(sorted(found, key=lambda one: -one.weight))


def cuts_to_json(report: ScriptReport) -> str:
    """The cuts proposed in a report that was asked for them, most pressing first.

    Args:
        report: The report of `preflight(..., cuts=True)`.

    Returns:
        Indented JSON with a line feed at the end, valid against `cuts_schema()`; lengths in mm.
        Proposals: the writer decides.
    """
    return dump(
        {
            "schema": SCHEMA,
            "letterfit": VERSION,
            "source": plain(report.source),
            "fits": report.fits,
            "proposals": [_proposal(one) for one in proposals(report)],
        }
    )


def report_cuts(found: Sequence[Proposal]) -> list[JsonObject]:
    """The cuts of a panel in the report's JSON, one by one; those for a limit come again there."""
    single = [cut for one in found for cut in one.cuts]
    return [
        {"balloon": plain(cut.where), "words": cut.words, "text": plain(" … ".join(cut.removed))}
        for cut in dict.fromkeys(single)
        if cut.words > 0
    ]


def _of_page(page: PageReport) -> tuple[Proposal, ...]:
    return (*page.cuts, *(one for panel in page.panels for one in panel.cuts))


def _proposal(one: Proposal) -> JsonObject:
    coverage = one.coverage
    return {
        "where": plain(one.where),
        "line": one.line,
        "why": plain(one.why),
        "words_before": one.words,
        "words_after": one.words_after,
        "least_words": one.least_words,
        "coverage_percent_before": numbers.percent(coverage[0]) if coverage else None,
        "coverage_percent_after": numbers.percent(coverage[1]) if coverage else None,
        "cuts": [_cut(cut) for cut in one.cuts],
        "least": None if one.least is None else _least(one.least),
        "gives": [_giving(giving) for giving in one.least.gives] if one.least else [],
    }


def _least(least: LeastWords) -> JsonObject:
    return {
        "at_least": least.at_least,
        "at_most": least.at_most,
        "proved": least.proved,
        "texts": [{"balloon": plain(cut.where), "text": plain(cut.text)} for cut in least.cuts],
    }


def _giving(giving: Giving) -> JsonObject:
    return {
        "balloon": plain(giving.where),
        "words": giving.words,
        "alone": giving.alone,
        "area_per_word_mm2": numbers.mm(giving.area_per_word_mm2),
        "share_percent": numbers.percent(giving.share),
    }


def _cut(cut: Cut) -> JsonObject:
    return {
        "balloon": plain(cut.where),
        "removed": [
            {"text": plain(text), "kind": kind}
            for text, kind in zip(cut.removed, cut.kinds, strict=True)
        ],
        "words": cut.words,
        "text": plain(cut.text),
        "before": _fitted(cut.before),
        "after": _fitted(cut.after),
    }


def _fitted(fitted: FittedBalloon) -> JsonObject:
    return {
        "words": fitted.words,
        "lines": len(fitted.lines),
        "area_mm2": numbers.mm(fitted.area_mm2),
        "size_pt": numbers.points(fitted.size_pt),
        "fits": fitted.fits,
        "outline": outline_json(fitted.outline),
    }
