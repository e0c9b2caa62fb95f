"""Our table of total fit with TeX's cost breaks paragraphs as TeX does, where there is a TeX.

Fresh cases, other than the recorded ones of `test_total_fit.py`: spaces that stretch and shrink,
ragged lines, penalties, line penalties and tolerances at random; and speeches of plays as they
measure in the bundled typeface, in the chords of ellipses. The cost is that of The TeXbook, chapter
14: demerits of (l + b)^2 + p^2, b = 100 |r|^3 as TeX counts it in whole numbers (tex.web, 108, 851
and 859), the last line counted as the others.
"""

import math
import random
from functools import cache
from itertools import islice, pairwise

import numpy as np
import pytest

from letterfit.fit.table import best_breaks
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import Ellipse, Floats
from tests.fit.tex import AWFUL, TEX, Paragraph, badness, tex_lines
from tests.plays import play_names, speeches

pytestmark = pytest.mark.skipif(
    TEX is None, reason="no LuaTeX on PATH (Debian: texlive-binaries): breaks are not compared"
)

RANDOM, SPEECHES = 200, 80

SP_PER_MM = 72.27 * 65536 / 25.4


def random_paragraph(seed: int) -> Paragraph:
    """Any words in any widths that are somewhat wider than a word."""
    draw = random.Random(seed)  # noqa: S311 - the same cases on every machine
    count = draw.randint(4, 18)
    space = draw.randint(20_000, 60_000)
    longest = draw.randint(200_000, 500_000)
    widths = [int(longest * draw.uniform(1.1, 3.5)) for _ in range(count)]
    return Paragraph(
        words=tuple(draw.randint(20_000, longest) for _ in range(count)),
        space=(space, draw.choice([0, space // 2, space]), draw.choice([0, space // 3])),
        widths=tuple(widths),
        rag=draw.choice([0, longest // 2, longest]),
        penalties=tuple(draw.choice([0, 0, 0, 50, 137, 800]) for _ in range(count)),
        line_penalty=draw.choice([0, 10, 50]),
        tolerance=draw.choice([1000, 5000, 9999]),
    )


def spoken_paragraph(text: str, seed: int) -> Paragraph:
    """A speech in the chords of an ellipse that it fills about as well as may be."""
    draw = random.Random(seed)  # noqa: S311 - the same cases on every machine
    words = measure(text, Lettering())
    area = float(words.ends[-1]) * words.leading_mm * draw.uniform(1.3, 1.7)
    aspect = draw.uniform(1.0, 2.0)
    half_height = math.sqrt(area / math.pi / aspect)
    ellipse = Ellipse(half_width=aspect * half_height, half_height=half_height)
    lines = max(1, int(2 * half_height / words.leading_mm))
    edges = [abs(2 * k - lines) * words.leading_mm / 2 for k in range(lines + 1)]
    far = [max(pair) / ellipse.half_height for pair in pairwise(edges)]
    chords = [2 * ellipse.half_width * math.sqrt(max(0.0, 1 - y * y)) for y in far]
    gap = float(words.starts[1] - words.ends[0])
    return Paragraph(
        words=tuple(np.round((words.ends - words.starts) * SP_PER_MM).astype(int).tolist()),
        space=(round(gap * SP_PER_MM), 0, 0),
        widths=tuple(max(1, int(chord * SP_PER_MM)) for chord in chords),
        rag=int(max(chords) / 2 * SP_PER_MM),
        penalties=tuple(np.round(words.penalties * 1000).astype(int).tolist()),
        line_penalty=0,
        tolerance=9999,
    )


@cache
def paragraphs() -> tuple[Paragraph, ...]:
    """All cases."""
    found = [random_paragraph(seed) for seed in range(RANDOM)]
    said = (s.text for play in play_names() for s in speeches(play)[100:108])
    long = (text for text in said if len(text.split()) >= 8 and "-" not in text)
    found += [spoken_paragraph(text, seed) for seed, text in enumerate(islice(long, SPEECHES))]
    return tuple(found)


@cache
def by_tex() -> tuple[tuple[int, ...], ...]:
    """The last word of each line of each case, TeX asked once."""
    lines = tex_lines(paragraphs())
    return tuple(tuple(np.cumsum(counts).tolist()) for counts in lines)


def line_demerits(case: Paragraph, first: int, end: int, *, width: int) -> float:
    """What TeX charges for a line of words first .. end - 1; infinite beyond its tolerance."""
    spaces = end - first - 1
    space, stretch, shrink = case.space
    excess = width - sum(case.words[first:end]) - spaces * space
    give = spaces * stretch + case.rag if excess >= 0 else spaces * shrink
    if excess < -give:
        return math.inf
    bad = badness(abs(excess), give)
    if bad > case.tolerance or bad > AWFUL:
        return math.inf
    penalty = case.penalties[end - 1] if end < len(case.words) else 0
    return float((case.line_penalty + bad) ** 2 + penalty**2)


def line_width(case: Paragraph, line: int) -> int:
    """The width of a line; the last listed one is used again."""
    return case.widths[min(line, len(case.widths) - 1)]


def costs(case: Paragraph) -> list[Floats]:
    """Demerits of every run of words in every line: shape (reach, n) for each."""
    count, made = len(case.words), dict[int, Floats]()
    for width in {line_width(case, line) for line in range(count)}:
        made[width] = np.full((count, count), math.inf)
        for first in range(count):
            for run in range(count - first):
                price = line_demerits(case, first, first + run + 1, width=width)
                made[width][run, first] = price
                if price == math.inf and run > 0 and made[width][run - 1, first] < math.inf:
                    break  # what follows is longer still
    return [made[line_width(case, line)] for line in range(count)]


def total(case: Paragraph, ends: tuple[int, ...]) -> float:
    """The demerits of a whole stack, given one past the last word of each line."""
    firsts = (0, *ends[:-1])
    return sum(
        line_demerits(case, first, end, width=line_width(case, line))
        for line, (first, end) in enumerate(zip(firsts, ends, strict=True))
    )


def optima(line_costs: list[Floats], best: float) -> int:
    """How many stacks cost the least, counted line by line from the top."""
    count = len(line_costs)
    ways = {(0, 0.0): 1}
    found = 0
    for cost in line_costs:
        following: dict[tuple[int, float], int] = {}
        for (first, spent), many in ways.items():
            for run in np.flatnonzero(cost[: count - first, first] <= best - spent).tolist():
                key = (first + run + 1, spent + float(cost[run, first]))
                following[key] = following.get(key, 0) + many
        found += following.get((count, best), 0)
        ways = {key: many for key, many in following.items() if key[0] < count}
    return found


def test_breaks_are_those_of_tex() -> None:
    """One optimum: the same breaks; several: the same demerits; none: none in TeX either."""
    single = infeasible = 0
    for case, theirs in zip(paragraphs(), by_tex(), strict=True):
        line_costs = costs(case)
        cost, ends = best_breaks(line_costs, combine="sum")
        assert cost == total(case, theirs)
        if cost == math.inf:
            infeasible += 1
        elif optima(line_costs, cost) == 1:
            single += 1
            assert tuple(end + 1 for end in ends) == theirs
    assert single >= (RANDOM + SPEECHES) / 2
    assert infeasible < (RANDOM + SPEECHES) / 4


def test_filling_lines_in_turn_is_not_what_tex_does() -> None:
    """The comparison can fail: the longest lines that go in are other lines in most cases."""
    cases = list(zip(paragraphs(), by_tex(), strict=True))[RANDOM:]
    differ = sum(_filled(case) != theirs for case, theirs in cases)
    assert differ > len(cases) / 2


def _filled(case: Paragraph) -> tuple[int, ...]:
    ends: list[int] = []
    for cost in costs(case):
        first = ends[-1] if ends else 0
        if first < len(case.words) and np.isfinite(cost[:, first]).any():
            ends.append(first + int(np.flatnonzero(np.isfinite(cost[:, first]))[-1]) + 1)
    return tuple(ends)
