"""Cuts as text and JSON: most pressing first, figures before and after, 80 columns."""

import json
from functools import cache

import jsonschema

import letterfit as lf
from letterfit.output.cuts_json import cuts_to_json, proposals
from letterfit.output.terminal.cuts import cuts_to_text
from tests.plays import play_script


@cache
def report() -> lf.ScriptReport:
    """Two crowded pages of a play, with cuts."""
    text = play_script("hamlet", pages=2, per_panel=(4,), max_words=40)
    return lf.preflight(lf.parse_script(text), cuts=True)


def test_no_line_is_longer_than_the_terminal_is_wide() -> None:
    """80 cells, or as many as there are."""
    for width in (60, 80, 120):
        lines = cuts_to_text(report(), width=width).splitlines()
        assert max(map(len, lines)) <= width


def test_the_writer_is_told_what_it_is() -> None:
    """Proposals, by common practice, without grammar; figures before and after."""
    text = " ".join(cuts_to_text(report()).split())
    assert "Proposals; the writer decides. Grammar is not checked." in text
    assert "common practice" in text
    assert " lines " in text
    assert " area " in text


def test_a_script_without_trouble_says_so() -> None:
    """One line, no advice."""
    short = lf.preflight(
        lf.parse_script("PAGE 1\n\nPanel 1. The lock.\n\nWENNA: Shut it.\n"), cuts=True
    )
    assert "no cuts to propose" in cuts_to_text(short)


def test_the_most_pressing_comes_first() -> None:
    """Weights never rise."""
    weights = [one.weight for one in proposals(report())]
    assert weights == sorted(weights, reverse=True)
    assert len(weights) > 2


def test_json_has_the_same_cuts() -> None:
    """Every proposal, with its texts and figures; words add up."""
    told = json.loads(cuts_to_json(report()))["proposals"]
    assert [one["where"] for one in told] == [one.where for one in proposals(report())]
    for one in told:
        assert one["words_before"] - one["words_after"] == sum(c["words"] for c in one["cuts"])
        for cut in one["cuts"]:
            assert cut["before"]["words"] - cut["after"]["words"] == cut["words"]


def test_the_report_with_cuts_keeps_to_its_schema() -> None:
    """Cuts stand in each panel of the report's JSON, as the schema has them."""
    document = json.loads(lf.to_json(report()))
    jsonschema.validate(document, json.loads(lf.report_schema()))
    panels = [panel for page in document["pages"] for panel in page["panels"]]
    assert any(panel["cuts"] for panel in panels)
