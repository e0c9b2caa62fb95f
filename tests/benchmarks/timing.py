"""Timing: things timed in turn, text by text, and compared as ratios."""

import gc
from collections.abc import Callable, Iterable, Mapping
from statistics import median
from time import perf_counter

Step = Callable[[str], Callable[[], object]]
"""Prepares a text, and gives the thing to be timed."""


def interleaved(texts: Iterable[str], steps: Mapping[str, Step]) -> dict[str, list[float]]:
    """Seconds that each step takes for each text.

    All steps of one text come right after each other, each text begins with another one, and
    nothing is collected meanwhile: what slows the machine for a moment slows them all.
    """
    names = list(steps)
    times: dict[str, list[float]] = {name: [] for name in names}
    gc.collect()
    gc.disable()
    try:
        for turn, text in enumerate(texts):
            for k in range(len(names)):
                name = names[(turn + k) % len(names)]
                timed = steps[name](text)
                begin = perf_counter()
                timed()
                times[name].append(perf_counter() - begin)
    finally:
        gc.enable()
    return times


def ratio(times: Iterable[float], base: Iterable[float]) -> float:
    """The median over all texts of one time over the other."""
    return median(a / b for a, b in zip(times, base, strict=True))
