r"""How fast texts are fitted: `python -m tests.benchmarks.fit`.

Everything is compared in one run, in turn, on one thread, on texts that are all new: times of one
machine mean nothing on another, ratios do. Prints

- 25 words into a given circle by total fit, from the string to the balloon, beside Qt's greedy
  `QTextLayout` (`pip install '.[bench]'`) and LuaHBTeX's total fit by `\parshape` (timed inside
  it; Debian: texlive-binaries) of the same words in the same circle, and our own first fit. What
  comes out is the same: lines, and each glyph at its place. Ours and Qt's are read; TeX's stand in
  its boxes. Qt sets centred stacks of more and more lines until one takes the text, as we do; TeX's
  lines hang from a fixed place, which is less. What Qt takes for less is shown, too;
- the smallest ellipse over all line counts and aspects, and the front of shapes, for 25 and for 100
  words, in ms and as multiples of the time inside HarfBuzz's `shape` of the same text;
- how the time grows with the length of a text;
- the fronts of many texts found together beside the same texts one by one.

Run it on a quiet machine. Medians of several hundred texts.
"""

import math
import sys
from collections.abc import Callable, Iterator
from functools import partial
from itertools import islice
from statistics import median

import letterfit as lf
from letterfit.fit import front
from letterfit.fit.dressing import (
    first_fit_into,
    fit_words,
    fit_words_into,
    words_front,
    words_shapes,
)
from letterfit.geometry import MM_PER_PT
from letterfit.lettering.measuring import measure
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse
from tests.benchmarks import qt_layout, tex_layout
from tests.benchmarks.floors import FONT, shaping
from tests.benchmarks.texts import dialogue
from tests.benchmarks.timing import Step, interleaved, ratio, seconds

RADIUS_PT, SIZE_PT = 90.0, 12
"""A circle of 90 pt with type of 12 pt: one of 45 pt with type of 6 pt is the same task."""

LETTERING = lf.Lettering(size_pt=SIZE_PT)
CIRCLE = Ellipse(half_width=RADIUS_PT * MM_PER_PT, half_height=RADIUS_PT * MM_PER_PT)

WORDS, TEXTS, BLOCK, WARM = 25, 400, 100, 40

TOTAL = "total fit, glyphs read"
OTHERS = ("Qt, glyphs read", "LuaHBTeX")
"""What is compared: text in, lines with their glyphs at their places out."""

FASTER, AIM = 1.0, 0.5
"""Goals: of the faster of the other two layouts' times; half of it is aimed at."""

MOST_MS = {25: 1.5, 100: 6.0}
"""Goals for the smallest ellipse with the front, ms, by words."""

TOGETHER, ROUNDS = 40, 20
"""How many texts are fitted together, and how often."""

MOST_TOGETHER = 1 / 3
"""Goal: what a text among many takes of what it takes alone."""

LENGTHS = (5, 10, 25, 50, 100, 200, 300, 400, 500)


def report() -> Iterator[str]:
    """Run everything, and say line by line what came of it."""
    yield from _given_circle()
    for words in MOST_MS:
        yield from _smallest(words)
    yield from _together()
    yield from _growth()


def _verdict(name: str, value: float, goal: float) -> str:
    return f"  {'kept' if value <= goal else 'MISSED'}: {name} {value:.2f}, goal at most {goal:.3g}"


# --- a given circle


def chords(leading: float) -> list[float]:
    """Lengths of lines in the circle, pt, from where a line is as long as a long word."""
    top = -RADIUS_PT * 0.8
    count = int((0.98 * RADIUS_PT - top) // leading)
    far = [max(abs(top + k * leading), abs(top + (k + 1) * leading)) for k in range(count)]
    return [2 * math.sqrt(RADIUS_PT**2 - y * y) for y in far]


def stack_chords(count: int, leading: float) -> list[float]:
    """Lengths of the lines of a centred stack, pt."""
    far = [max(abs(2 * k - count), abs(2 * k + 2 - count)) * leading / 2 for k in range(count)]
    return [2 * math.sqrt(max(0.0, RADIUS_PT**2 - y * y)) for y in far]


def _given_circle() -> Iterator[str]:
    lettering, circle = LETTERING, CIRCLE
    leading = lettering.leading * SIZE_PT
    widths = chords(leading)
    steps: dict[str, Step] = {
        TOTAL: lambda text: lambda: glyphs_of(lf.fit_into(text, lettering, outline=circle)),
        "total fit": lambda text: lambda: lf.fit_into(text, lettering, outline=circle),
        "first fit": lambda text: (
            lambda: lf.fit_into(text, lettering, outline=circle, breaks="first-fit")
        ),
        "measure": lambda text: lambda: measure(text, lettering),
        "hb.shape": lambda text: shaping(text.upper()),
    }
    if qt_layout.is_installed():
        steps |= qt_steps(leading)
    texts = list(islice(dialogue(WORDS), TEXTS + WARM))
    fitting = sum(lf.fit_into(text, lettering, outline=circle).fits for text in texts[:WARM])
    interleaved(texts[:WARM], steps)
    times: dict[str, list[float]] = {}
    for start in range(WARM, len(texts), BLOCK):
        block = texts[start : start + BLOCK]
        found = interleaved(block, steps)
        if tex_layout.LUAHBTEX is not None:
            found["LuaHBTeX"] = tex_layout.seconds_in_tex(
                [text.upper() for text in block],
                font=FONT,
                size_pt=SIZE_PT,
                widths_pt=widths,
                warm=WARM,
            )
        for name, some in found.items():
            times.setdefault(name, []).extend(some)
    yield f"{WORDS} new words into a circle of {RADIUS_PT:g} pt, {SIZE_PT} pt: median of {TEXTS}"
    yield f"  ({fitting} of {WARM} such texts fit)"
    for name, some in times.items():
        over = ratio(some, times["hb.shape"])
        yield f"  {name:27} {median(some) * 1e6:8.1f} us  {over:6.1f} times hb.shape"
    ours = median(times[TOTAL])
    others = {name: median(times[name]) for name in OTHERS if name in times}
    for name, theirs in others.items():
        yield _verdict(f"total fit over {name}", ours / theirs, FASTER)
    if others:
        yield _verdict("total fit over the faster of them", ours / min(others.values()), AIM)


def glyphs_of(balloon: lf.FittedBalloon) -> object:
    """All glyphs at their places."""
    return [line.glyphs for line in balloon.lines]


def qt_steps(leading: float) -> dict[str, Step]:
    """Qt's `QTextLayout` in the circle, three ways."""
    qt = qt_layout.TextLayouts(FONT, size=SIZE_PT)
    widths = chords(leading)
    stacks = [stack_chords(count, leading) for count in range(int(2 * RADIUS_PT / leading) + 1)]

    def centred(text: str) -> object:
        return qt.centred(text, stacks.__getitem__, most=len(stacks) - 1)

    return {
        "Qt, glyphs read": lambda text: (
            lambda: qt_layout.lines_read(centred(text.upper()), text.upper())
        ),
        "Qt, layout alone": lambda text: lambda: centred(text.upper()),
        "Qt, lines from a fixed top": lambda text: lambda: qt.hung(text.upper(), widths),
    }


# --- the smallest ellipse and the front


def smallest_and_front(words: Words) -> object:
    """The smallest ellipse of all, and the shapes the text can take."""
    return fit_words(words, slack=0), words_shapes(words)


def _smallest(count: int) -> Iterator[str]:
    lettering = lf.Lettering()

    def fitting(fit: Callable[[Words], object]) -> Step:
        def step(text: str) -> Callable[[], object]:
            words = measure(text, lettering)
            return lambda: fit(words)

        return step

    steps: dict[str, Step] = {
        "hb.shape": lambda text: shaping(text.upper()),
        "smallest": fitting(lambda words: fit_words(words, slack=0)),
        "best-looking": fitting(fit_words),
        "shapes of the front": fitting(words_shapes),
        "front": fitting(words_front),
        "smallest and shapes": fitting(smallest_and_front),
        "text to front": lambda text: lambda: lf.balloon_front(text, lettering),
    }
    texts = dialogue(count, skip=8)
    interleaved(islice(texts, 10), steps, block=5)
    times = interleaved(islice(texts, TEXTS * WORDS // count // 2), steps)
    yield f"\nThe smallest ellipse and the front, {count} words: median of {len(times['front'])}"
    for name, some in times.items():
        over = ratio(some, times["hb.shape"])
        yield f"  {name:20} {median(some) * 1e3:8.3f} ms  {over:7.1f} times hb.shape"
    took = median(times["smallest and shapes"]) * 1e3
    yield _verdict(f"smallest ellipse with the front, {count} words, ms", took, MOST_MS[count])


# --- many texts


def _together() -> Iterator[str]:
    together = getattr(front, "texts_shapes", None)
    if together is None:
        yield "\nMany texts together: there is no such call yet"
        return
    texts = dialogue(WORDS, skip=16)
    alone, joint = [], []
    for turn in range(ROUNDS + 2):
        words = [measure(text, lf.Lettering()) for text in islice(texts, TOGETHER)]
        calls: tuple[Callable[[], object], ...] = (
            partial(list, map(words_shapes, words)),
            partial(together, words),
        )
        order = (0, 1) if turn % 2 else (1, 0)
        took = {k: seconds(calls[k]) / TOGETHER for k in order}
        if turn >= 2:
            alone.append(took[0])
            joint.append(took[1])
    yield f"\nFronts of {TOGETHER} texts of {WORDS} words: ms a balloon, median of {ROUNDS} rounds"
    yield f"  one by one {median(alone) * 1e3:8.3f}"
    yield f"  together   {median(joint) * 1e3:8.3f}"
    yield _verdict("together over one by one", ratio(joint, alone), MOST_TOGETHER)


# --- growth


def _growth() -> Iterator[str]:
    yield "\nGrowth with length, measured words: ms, and us a word"
    steps: dict[str, Callable[[Words], object]] = {
        "smallest": lambda words: fit_words(words, slack=0),
        "best-looking": fit_words,
        "shapes": words_shapes,
        "given ellipse": lambda words: fit_words_into(words, _roomy(words)),
        "first fit": lambda words: first_fit_into(words, _roomy(words)),
    }
    yield "  words  " + "".join(f"{name:>20}" for name in steps)
    for length in LENGTHS:
        texts = list(islice(dialogue(length, skip=24), 5))
        row = []
        for fit in steps.values():
            took = median(_best(measure(text, lf.Lettering()), fit) for text in texts)
            row.append(f"{took * 1e3:10.2f} ms {took / length * 1e6:5.0f} us")
        yield f"  {length:5}  " + "".join(f"{cell:>20}" for cell in row)


def _best(words: Words, fit: Callable[[Words], object]) -> float:
    """The lesser of two runs."""
    return min(seconds(lambda: fit(words)) for _ in range(2))


def _roomy(words: Words) -> Ellipse:
    """An ellipse that a text and its air fill to about a half."""
    area = float(words.ends[-1]) * words.leading_mm * 2.1
    half_height = math.sqrt(area / math.pi / 1.5) + 1.5
    return Ellipse(half_width=1.5 * half_height, half_height=half_height)


if __name__ == "__main__":
    for line in report():
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
