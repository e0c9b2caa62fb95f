"""Timing: things timed in turn, text by text, and compared as ratios.

Times are processor time of this process: while others have the processor, nothing is counted.
"""

import gc
from collections.abc import Callable, Iterable, Mapping
from itertools import count, islice
from statistics import median
from time import process_time

Step = Callable[[str], Callable[[], object]]
"""Prepares a text, and gives the thing to be timed."""


def interleaved(
    texts: Iterable[str], steps: Mapping[str, Step], *, block: int = 20
) -> dict[str, list[float]]:
    """Seconds that each step takes for each text.

    Each step does a block of texts, then the next step the same block, and each block begins with
    another step: what slows the machine for a moment slows them all, and each runs as warm as in a
    script of many balloons. Nothing is collected meanwhile.
    """
    names = list(steps)
    times: dict[str, list[float]] = {name: [] for name in names}
    flow = iter(texts)
    gc.collect()
    gc.disable()
    try:
        for turn in count():
            some = list(islice(flow, block))
            if not some:
                break
            for k in range(len(names)):
                name = names[(turn + k) % len(names)]
                times[name] += [seconds(timed) for timed in map(steps[name], some)]
    finally:
        gc.enable()
    return times


def seconds(timed: Callable[[], object]) -> float:
    """Processor seconds that one call takes."""
    begin = process_time()
    timed()
    return process_time() - begin


def ratio(times: Iterable[float], base: Iterable[float]) -> float:
    """The median over all texts of one time over the other."""
    return median(a / b for a, b in zip(times, base, strict=True))
