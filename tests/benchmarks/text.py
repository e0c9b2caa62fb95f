"""How fast text is measured: `python -m tests.benchmarks.text`.

Everything is compared in one run, in turn, on texts that are all new: times of one machine mean
nothing on another, ratios do. Prints

- measuring 25 words (from the string to measured words with their breaks) over the time inside
  HarfBuzz's `shape` alone, for dialogue and for words that come once;
- the same over building and laying out a paragraph by Skia (`pip install '.[bench]'`);
- wrapping measured words at another width over Skia's layout of the same paragraph at that width;
- how the time grows with the length of a text, and the longest it takes on texts made to hurt.
"""

import signal
import sys
from bisect import bisect_right
from collections.abc import Callable, Iterator
from itertools import islice
from operator import itemgetter
from statistics import median
from time import perf_counter
from types import FrameType
from typing import NoReturn

from letterfit import Lettering
from letterfit.errors import LetterfitError
from letterfit.lettering.measuring import measure
from letterfit.lettering.words import Words
from tests.benchmarks.floors import FONT, shaping
from tests.benchmarks.paragraphs import Paragraphs, is_installed
from tests.benchmarks.texts import dialogue, hostile, strangers
from tests.benchmarks.timing import Step, interleaved, ratio

WORDS = 25
TEXTS = 600
BLOCKS = {1: "each after the other", 20: "twenty texts of each"}
"""How many texts each step does before the next one has its turn: alone among others a step finds
the processor's caches full of other things, in a row it finds its own."""

WARM = 40
"""Texts that nothing is counted of."""

LENGTHS = (25, 50, 100, 250, 500, 1000, 2000)

HURTFUL_LENGTHS = (1_000, 5_000, 1_000_000)

SHOWN = 6

FIRST, OTHER = 100.0, 130.0
"""px at 10 px: about nine and twelve words wide."""

PX_TO_PT = 72 / 96

MOST_OVER_SHAPING = 12.0
SLOWEST = 1.0
"""Goals: measuring over shaping alone; seconds for a text made to hurt."""

PATIENCE = 10.0
"""Seconds after which such a text is given up."""


def report() -> Iterator[str]:
    """Run everything, and say line by line what came of it."""
    lettering = Lettering(size_pt=10 * PX_TO_PT, case="as-typed")
    capitals = Lettering(size_pt=10 * PX_TO_PT)
    yield from _measuring("dialogue", dialogue(WORDS), lettering)
    yield from _measuring("words that come once", strangers(WORDS), lettering)
    yield from _measuring("dialogue in capitals", dialogue(WORDS, skip=8), capitals)
    yield from _rewrapping(lettering)
    yield from _growth(capitals)
    yield from _hostile(capitals)


# --- measuring new text


def _steps(lettering: Lettering) -> dict[str, Step]:
    case = str.upper if lettering.case == "upper" else str
    steps: dict[str, Step] = {
        "hb.shape": lambda text: shaping(case(text)),
        "measure": lambda text: lambda: measure(text, lettering),
    }
    if is_installed():
        skia = Paragraphs(FONT)
        steps["Skia"] = lambda text: lambda: skia.build(case(text), width=FIRST)
    return steps


def _measuring(name: str, texts: Iterator[str], lettering: Lettering) -> Iterator[str]:
    steps = _steps(lettering)
    interleaved(islice(texts, WARM), steps)
    for block, how in BLOCKS.items():
        times = interleaved(islice(texts, TEXTS), steps, block=block)
        yield f"\nNew text of {WORDS} words, {name}, {how}: median of {TEXTS} texts"
        for step, seconds in times.items():
            over = ratio(seconds, times["hb.shape"])
            yield f"  {step:10} {median(seconds) * 1e6:8.1f} us  {over:6.1f} times hb.shape"
        over = ratio(times["measure"], times["hb.shape"])
        yield f"  {_verdict(over, MOST_OVER_SHAPING)}: measure is {over:.1f} times hb.shape"
        if "Skia" in times:
            over = ratio(times["measure"], times["Skia"])
            yield f"  {_verdict(over, 1.0)}: measure is {over:.2f} times Skia's build and layout"


def _verdict(value: float, goal: float) -> str:
    return f"goal of at most {goal:g} {'kept' if value <= goal else 'MISSED'}"


# --- wrapping again


class Prepared:
    """Measured words ready to be wrapped at any width: where their pieces begin and end."""

    def __init__(self, words: Words) -> None:
        self.words = words
        self.starts: list[float] = words.starts.tolist()
        self.ends: list[float] = words.ends.tolist()

    def wrap(self, width: float) -> list[tuple[int, int]]:
        """The first and last piece of each line, each line as long as goes into the width."""
        starts, ends, anew = self.starts, self.ends, self.words.reshaped
        lines, first, count = [], 0, len(starts)
        while first < count:
            last = max(bisect_right(ends, starts[first] + width, first) - 1, first)
            if anew:
                last = self._exact(first, last, width)
            lines.append((first, last))
            first = last + 1
        return lines

    def _exact(self, first: int, last: int, width: float) -> int:
        """The last piece where some lines are set otherwise than the unbroken text."""
        words = self.words
        while last + 1 < len(words) and words.width(first, last + 1) <= width:
            last += 1
        while last > first and words.width(first, last) > width:
            last -= 1
        return last


def _rewrapping(lettering: Lettering) -> Iterator[str]:
    mm = OTHER * PX_TO_PT * 25.4 / 72

    def ours(text: str) -> Callable[[], object]:
        prepared = Prepared(measure(text, lettering))
        return lambda: prepared.wrap(mm)

    steps: dict[str, Step] = {"wrap": ours}
    if is_installed():
        skia = Paragraphs(FONT)

        def theirs(text: str) -> Callable[[], object]:
            paragraph = skia.build(text, width=FIRST)
            return lambda: paragraph.layout(OTHER)

        steps["Skia"] = theirs
    texts = dialogue(WORDS, skip=16)
    interleaved(islice(texts, WARM), steps)
    times = interleaved(islice(texts, TEXTS), steps)
    yield f"\nMeasured text of {WORDS} words wrapped at another width"
    for step, seconds in times.items():
        yield f"  {step:10} {median(seconds) * 1e6:8.1f} us"
    if "Skia" in times:
        over = ratio(times["wrap"], times["Skia"])
        yield f"  {_verdict(over, 1.0)}: wrapping is {over:.2f} times Skia's relayout"


# --- growth, and texts made to hurt


def _growth(lettering: Lettering) -> Iterator[str]:
    yield "\nGrowth with length: us a word"
    for length in LENGTHS:
        tried = [_tried(text, lettering) for text in islice(dialogue(length, skip=24), 5)]
        said, seconds = tried[0][0], median(seconds for _, seconds in tried)
        yield f"  {length:5} words {seconds / length * 1e6:8.2f}  {said}"


def _hostile(lettering: Lettering) -> Iterator[str]:
    yield "\nTexts made to hurt, the slowest: seconds to measure or refuse"
    for characters in HURTFUL_LENGTHS:
        tried = [(*_tried(t, lettering), name) for name, t in hostile(characters).items()]
        tried.sort(key=itemgetter(1), reverse=True)
        for said, seconds, name in tried[:SHOWN]:
            mark = "" if seconds <= SLOWEST else "  MISSED"
            yield f"  {characters:9,} {name:34} {seconds:7.3f}  {said}{mark}"


def _tried(text: str, lettering: Lettering) -> tuple[str, float]:
    """What came of a text, and the seconds it took, at most PATIENCE."""
    begin = perf_counter()
    signal.signal(signal.SIGALRM, _give_up)
    signal.setitimer(signal.ITIMER_REAL, PATIENCE)
    try:
        said = f"{len(measure(text, lettering))} pieces"
    except LetterfitError as error:
        said = f"refused: {error}"[:60]
    except TimeoutError:
        said = "given up"
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
    return said, perf_counter() - begin


def _give_up(_number: int, _frame: FrameType | None) -> NoReturn:
    raise TimeoutError


if __name__ == "__main__":
    for line in report():
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
