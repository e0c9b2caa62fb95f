"""The cuts of a panel: near the least number of words, no stumps, always the same."""

from dataclasses import replace
from functools import cache
from importlib.resources import files
from itertools import product

import pytest

import letterfit as lf
from letterfit.cuts.choices import Choice
from letterfit.report.cutting import all_choices


@cache
def demo_page(number: int) -> lf.PageReport:
    """One page of the demo, with cuts."""
    text = files("letterfit").joinpath("demo", "slack_tide.txt").read_text(encoding="utf-8")
    script = lf.parse_script(text)
    only = replace(script, pages=(script.pages[number - 1],))
    return lf.preflight(only, cuts=True).pages[0]


def whole(where: str) -> lf.Proposal:
    """The proposal for a panel of the demo as a whole."""
    page = demo_page(int(where[0]))
    return next(one for panel in page.panels for one in panel.cuts if one.where == where)


@pytest.mark.parametrize(("where", "most"), [("3.1", 1.3), ("3.7", 1.05), ("2.2", 3.0)])
def test_a_proposal_takes_out_few_words_more_than_would_do(where: str, most: float) -> None:
    """So many times the least number found at most; where one word would do, a phrase."""
    one = whole(where)
    assert one.least is not None
    assert one.least.at_most is not None
    assert one.least.at_least <= one.words - one.words_after <= most * one.least.at_most


def test_two_moderate_texts_are_left_and_no_stumps() -> None:
    """Half the words of a panel must go, and each of its balloons keeps a good quarter."""
    cuts = whole("3.7").cuts
    assert len(cuts) == 2
    assert all(cut.after.words > cut.before.words / 4 for cut in cuts)
    assert all("by measure alone" not in cut.kinds for cut in cuts)


def test_the_same_script_gets_the_same_cuts() -> None:
    """Looked for anew, every proposal of the page is equal."""
    first = [panel.cuts for panel in demo_page(2).panels]
    demo_page.cache_clear()
    assert [panel.cuts for panel in demo_page(2).panels] == first


def test_sets_over_balloons_are_the_cheapest_sums() -> None:
    """Against all ways to take one set of each balloon."""
    each = [
        {
            words: [Choice(cost + more, words, ()) for more in (0.0, 0.75)]
            for words, cost in own.items()
        }
        for own in ({0: 0.0, 2: 1.5, 3: 4.0}, {0: 0.0, 1: 2.0, 4: 2.5}, {0: 0.0, 2: 1.25, 5: 9.0})
    ]
    sums: dict[int, list[float]] = {}
    for some in product(*([one for own in balloon.values() for one in own] for balloon in each)):
        words = sum(choice.words for choice in some)
        sums.setdefault(words, []).append(sum(choice.cost for choice in some))
    found = all_choices(each, most=9)
    assert sorted(found) == [words for words in sorted(sums) if words <= 9]
    for words, picks in found.items():
        assert [cost for cost, _ in picks] == pytest.approx(sorted(sums[words])[: len(picks)])
