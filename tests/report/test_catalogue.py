"""Many scripts: each told once, in order, the same as alone, whatever the others are."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest

from letterfit.errors import FontError, LetterfitError, OutlineError, PageError, ScriptError
from letterfit.output.report_json import to_json
from letterfit.paper.read_plans import parse_plans
from letterfit.report import catalogue, sharing
from letterfit.report.catalogue import (
    ScriptBegun,
    ScriptEnded,
    ScriptRefused,
    preflight_many,
    preflight_stream,
    told_of,
)
from letterfit.report.model import PageReport, ScriptReport
from letterfit.report.page import PageJob, report_pages
from letterfit.report.preflighting import PreflightSettings
from letterfit.report.setting import Setting
from letterfit.script.model import Script
from letterfit.script.parse import parse_script
from letterfit.stages import preflight

GATE = """\
PAGE 1

Panel 1. The lock.

WENNA: The tide turned an hour ago.

PAGE 2

Panel 1. The barge.

BARGE PILOT: Ahoy, the lock!
"""
FLOOD = GATE.replace("Ahoy", "Ahoy there, you " * 200)


def named(source: str, text: str = GATE) -> Script:
    """A script under a name."""
    return parse_script(text, source=source)


def test_each_script_is_reported_once_in_order_and_as_alone(tmp_path: Path) -> None:
    """Parsed scripts and paths; the broken ones are told in their places, and end no other."""
    path = tmp_path / "gate.txt"
    path.write_text(GATE, encoding="utf-8")
    broken = tmp_path / "broken.txt"
    broken.write_text("nothing of a script\n", encoding="utf-8")
    scripts: list[Script | Path] = [
        named("a"),
        broken,
        path,
        tmp_path / "nowhere.txt",
        named("b", FLOOD),
    ]
    with ThreadPoolExecutor(2) as executor:
        found = list(preflight_many(scripts, executor=executor, ahead=2))
    sources = [source for source, _ in found]
    assert sources == ["a", str(broken), str(path), str(tmp_path / "nowhere.txt"), "b"]
    assert [isinstance(one, LetterfitError) for _, one in found] == [
        False,
        True,
        False,
        True,
        False,
    ]
    for script, (_, report) in zip(scripts, found, strict=True):
        if isinstance(script, Script):
            assert isinstance(report, ScriptReport)
            assert to_json(report) == to_json(preflight(script))
    flooded = found[-1][1]
    assert isinstance(flooded, ScriptReport)
    assert not flooded.fits


def test_the_stream_tells_what_the_report_holds() -> None:
    """Beginning, pages in order, end: counted up to what the whole report says."""
    report = preflight(named("flood", FLOOD))
    begun, *pages, ended = preflight_stream([named("flood", FLOOD)])
    assert isinstance(begun, ScriptBegun)
    assert isinstance(ended, ScriptEnded)
    assert begun.report == replace(report, pages=())
    assert begun.pages == ended.pages == len(pages) == 2
    assert to_json(replace(report, pages=tuple(p for p in pages if isinstance(p, PageReport)))) == (
        to_json(report)
    )
    assert ended.fits == report.fits is False
    assert (ended.panels, ended.panels_that_fit, ended.pages_that_fit) == (2, 1, 1)
    assert ended.words == sum(page.words for page in report.pages)
    assert [type(one) for one in told_of(report)] == [
        ScriptBegun,
        PageReport,
        PageReport,
        ScriptEnded,
    ]
    assert list(told_of(report))[-1] == ended


def test_a_script_whose_plan_contradicts_it_is_told() -> None:
    """Its own plan refuses it before a page is lettered."""
    plans = parse_plans('[page.2]\ntiers = "3"')
    scripts = [named("a"), named("b", GATE.split("PAGE 2", maxsplit=1)[0])]
    first, second = preflight_many(scripts, PreflightSettings(plans=plans))
    assert isinstance(first[1], PageError)
    assert isinstance(second[1], ScriptReport)


@pytest.mark.parametrize("threads", [0, 2])
def test_a_script_that_fails_half_way_is_told_once(
    threads: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What came before stays, nothing more of it comes, and the next script begins."""

    def some(jobs: tuple[PageJob, ...], setting: Setting) -> tuple[PageReport, ...]:
        if setting.source == "a" and jobs[-1].label != "1":
            raise FontError("no glyphs", source="")
        return report_pages(jobs, setting)

    monkeypatch.setattr(sharing, "report_pages", some)
    monkeypatch.setattr(sharing, "SENT", 1)
    scripts = [named("a", GATE + GATE.replace("PAGE 1", "PAGE 3")), named("b")]
    if threads:
        with ThreadPoolExecutor(threads) as executor:
            told = list(preflight_stream(scripts, executor=executor))
    else:
        told = list(preflight_stream(scripts))
    shared = [PageReport] if threads else []
    assert [type(one) for one in told] == [
        *(ScriptBegun, *shared, ScriptRefused),
        *(ScriptBegun, PageReport, PageReport, ScriptEnded),
    ]
    refused = next(one for one in told if isinstance(one, ScriptRefused))
    assert (refused.source, refused.error.what) == ("a", "no glyphs")


def test_settings_that_no_script_can_use_are_refused_at_once() -> None:
    """They are nobody's script's fault."""
    with pytest.raises(OutlineError, match="blob"):
        list(preflight_many([named("a")], PreflightSettings(outline="blob")))


def test_scripts_are_read_as_they_are_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The third is not opened while the first is told of."""
    opened: list[str] = []

    def read(path: str) -> Script:
        opened.append(path)
        if path == "b":
            raise ScriptError("no script", source=path)
        return named(path)

    monkeypatch.setattr(catalogue, "read_script", read)
    stream = preflight_many(["a", "b", "c"])
    assert next(stream)[0] == "a"
    assert opened == ["a"]
    assert [source for source, _ in stream] == ["b", "c"]


def test_an_empty_catalogue_and_an_empty_script_are_no_trouble() -> None:
    """Nothing is told of none; a script without pages begins and ends."""
    assert list(preflight_stream([])) == []
    begun, ended = preflight_stream([Script(pages=())])
    assert isinstance(begun, ScriptBegun)
    assert ended == ScriptEnded(source="", fits=True)
