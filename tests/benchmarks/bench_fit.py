"""Fitting: from a text to a balloon, beside what sets a text in a given outline."""

from collections.abc import Callable, Sequence
from time import process_time

import pytest

import letterfit as lf
from tests.benchmarks import laying, qt_layout, tex_layout
from tests.benchmarks.beside import Benchmark, Prepared, Row, Timed, blocks, compare, each, timed
from tests.benchmarks.fit import CIRCLE, LETTERING, SIZE_PT, chords, glyphs_of, qt_steps
from tests.benchmarks.floors import FONT, SHAPING, capitals_shaped
from tests.benchmarks.texts import dialogue

pytestmark = pytest.mark.benchmark(timer=process_time)

WORDS, BLOCK, ROUNDS = 25, 20, 16

TOGETHER, FEW = 40, 8


def _row(work: str, *, per: int = BLOCK) -> Row:
    return Row(group="fit", work=work, unit="text", per=per, floor=SHAPING)


def _in_circle() -> dict[str, Timed[Sequence[str]]]:
    """The same words in the same circle by the others, glyphs read."""
    leading = LETTERING.leading * SIZE_PT
    found: dict[str, Timed[Sequence[str]]] = {}
    if qt_layout.is_installed():
        found[laying.QT] = timed(each(qt_steps(leading)["Qt, glyphs read"]))
    if tex_layout.LUAHBTEX is not None:
        found[laying.TEX] = lambda texts: sum(
            tex_layout.seconds_in_tex(
                [text.upper() for text in texts],
                font=FONT,
                size_pt=SIZE_PT,
                widths_pt=chords(leading),
                warm=len(texts),
            )
        )
    return found


def test_given_circle(benchmark: Benchmark) -> None:
    """Total fit of a text in a given circle, each glyph at its place."""
    compare(
        benchmark,
        blocks(dialogue(WORDS), BLOCK),
        each(lambda text: lambda: glyphs_of(lf.fit_into(text, LETTERING, outline=CIRCLE))),
        row=_row(f"{WORDS} words into a given circle, glyphs read"),
        floor=timed(capitals_shaped),
        others=_in_circle(),
        rounds=ROUNDS,
    )


def test_best_balloon(benchmark: Benchmark) -> None:
    """The best-looking balloon of all line counts and aspects; no other library looks for one."""
    compare(
        benchmark,
        blocks(dialogue(WORDS, skip=8), BLOCK),
        each(lambda text: lambda: lf.fit_balloon(text)),
        row=_row(f"`fit_balloon` of {WORDS} words"),
        floor=timed(capitals_shaped),
        rounds=ROUNDS,
    )


def test_front(benchmark: Benchmark) -> None:
    """All shapes that a text can take."""
    compare(
        benchmark,
        blocks(dialogue(WORDS, skip=12), BLOCK),
        each(lambda text: lambda: lf.balloon_front(text)),
        row=_row(f"`balloon_front` of {WORDS} words"),
        floor=timed(capitals_shaped),
        rounds=ROUNDS,
    )


def test_many_texts(benchmark: Benchmark) -> None:
    """Many texts in one call, beside one call for each."""
    one_by_one: Callable[[Sequence[str]], Prepared] = each(
        lambda text: lambda: lf.fit_balloon(text)
    )
    compare(
        benchmark,
        blocks(dialogue(WORDS, skip=16), TOGETHER),
        lambda texts: lambda: lf.fit_balloons(texts),
        row=_row(f"`fit_balloons` of {TOGETHER} texts of {WORDS} words", per=TOGETHER),
        floor=timed(capitals_shaped),
        others={"one by one": timed(one_by_one)},
        rounds=FEW,
    )
