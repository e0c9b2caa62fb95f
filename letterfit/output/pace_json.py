"""Pace as JSON: a page's, and the whole script's."""

from letterfit.output import numbers
from letterfit.output.json_text import JsonObject
from letterfit.output.plain import plain
from letterfit.report.pace import Pace, PagePace, SilentRun, SpeakerShare, TierPace, Typical


def pace_json(pace: Pace) -> JsonObject:
    """The pace of a script, but for its pages, which have their own."""
    return {
        **_counts(pace),
        "longest_silence": _run(pace.longest_silence),
        "words_per_balloon": _typical(pace.words_per_balloon),
        "words_per_panel": _typical(pace.words_per_panel),
        "words_per_tier": _typical(pace.words_per_tier),
        "words_per_page": _typical(pace.words_per_page),
        "balloons_per_panel": _typical(pace.balloons_per_panel),
        "panels_per_tier": _typical(pace.panels_per_tier),
        "voices": [_voice(share) for share in pace.voices],
    }


def page_pace_json(pace: PagePace) -> JsonObject:
    """The pace of a page."""
    return {
        **_counts(pace),
        "mean_coverage_percent": numbers.percent(pace.mean_coverage),
        "words_per_balloon": _typical(pace.words_per_balloon),
        "words_per_panel": _typical(pace.words_per_panel),
        "words_per_tier": _typical(pace.words_per_tier),
        "balloons_per_panel": _typical(pace.balloons_per_panel),
        "panels_per_tier": _typical(pace.panels_per_tier),
        "tiers": [_counts(tier) for tier in pace.tiers],
    }


def _counts(pace: Pace | PagePace | TierPace) -> JsonObject:
    return {
        "panels": pace.panels,
        "words": pace.words,
        "balloons": pace.balloons,
        "silent_panels": pace.silent_panels,
    }


def _typical(typical: Typical | None) -> JsonObject | None:
    if typical is None:
        return None
    return {"median": numbers.share(typical.median), "most": numbers.share(typical.most)}


def _run(run: SilentRun | None) -> JsonObject | None:
    if run is None:
        return None
    return {"first": plain(run.first), "last": plain(run.last), "panels": run.panels}


def _voice(share: SpeakerShare) -> JsonObject:
    return {
        "voice": share.voice,
        "speaker": None if share.speaker is None else plain(share.speaker),
        "balloons": share.balloons,
        "off_panel": share.off_panel,
        "words": share.words,
        "words_percent": numbers.percent(share.words_share),
        "area_mm2": numbers.mm(share.area_mm2),
        "area_percent": numbers.percent(share.area_share),
    }
