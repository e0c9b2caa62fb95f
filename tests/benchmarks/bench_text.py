"""Measuring: from a text to words with their advances and breaks, beside other layouts of text."""

from itertools import islice
from time import process_time

import pytest

import letterfit as lf
from letterfit.lettering.measuring import measure
from tests.benchmarks import laying
from tests.benchmarks.beside import Benchmark, Row, blocks, compare, each, timed
from tests.benchmarks.floors import SHAPING, capitals_shaped
from tests.benchmarks.texts import dialogue, strangers

pytestmark = pytest.mark.benchmark(timer=process_time)

WORDS, BLOCK, ROUNDS = 25, 20, 24

PX_TO_PT = 72 / 96

LETTERING = lf.Lettering(size_pt=laying.SIZE * PX_TO_PT)


def _row(work: str) -> Row:
    return Row(group="text", work=work, unit="text", per=BLOCK, floor=SHAPING)


def test_measure_dialogue(benchmark: Benchmark) -> None:
    """Dialogue of plays, every text new; the others break it into lines as well."""
    compare(
        benchmark,
        blocks(dialogue(WORDS), BLOCK),
        each(lambda text: lambda: measure(text, LETTERING)),
        row=_row(f"measure {WORDS} words of dialogue"),
        floor=timed(capitals_shaped),
        others=laying.layouts(),
        rounds=ROUNDS,
    )


def test_measure_strangers(benchmark: Benchmark) -> None:
    """Words that come once, so that nothing remembered of a word is of use."""
    compare(
        benchmark,
        blocks(islice(strangers(WORDS), BLOCK * (ROUNDS + 2)), BLOCK),
        each(lambda text: lambda: measure(text, LETTERING)),
        row=_row(f"measure {WORDS} words that come once"),
        floor=timed(capitals_shaped),
        others=laying.layouts(),
        rounds=ROUNDS,
    )
