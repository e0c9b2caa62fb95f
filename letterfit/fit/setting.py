"""A chosen stack and outline made into a balloon, its clearance measured as a true distance."""

from dataclasses import replace
from functools import cache
from itertools import pairwise

from letterfit.errors import OutlineError
from letterfit.fit.ink import Ink, Stack, begins_together, half_longest, left_end
from letterfit.fit.judge import looks_cost
from letterfit.fit.model import FittedBalloon, Line, Overflow
from letterfit.fit.stack import baselines
from letterfit.lettering.words import Words
from letterfit.outline import Outline
from letterfit.separation import clearance

TOO_SMALL = 1e-6
"""Air missing by more than this share of the half-height is no rounding."""


class Setter:
    """Sets stacks of one text, each of its lines once, however many stacks share it.

    Args:
        ink: The text's ink.
        air: The air to keep, mm.
    """

    def __init__(self, ink: Ink, *, air: float) -> None:
        self._ink = ink
        self._words = ink.words
        self._air = air
        self._glyphs = cache(ink.words.glyphs)

    def balloon(self, stack: Stack, outline: Outline) -> FittedBalloon:
        """The text set as `stack` in an outline that is grown, if rounding asks for it.

        Raises:
            OutlineError: When the outline is too small for the stack by more than rounding.
        """
        points = self._ink.points(stack)
        room = clearance(outline, points)
        while room < self._air:
            if room < self._air - TOO_SMALL * outline.half_height:
                raise OutlineError("the stack does not fit the outline", advice="grow the outline")
            # A support function grows by at least (k - 1) times the shorter half-side.
            least = min(outline.half_width, outline.half_height)
            outline = outline.scaled(1 + 1.5 * (self._air - room) / least + 1e-15)
            room = clearance(outline, points)
        return replace(
            fitted(self._words, self.lines(stack), outline, clearance_mm=room),
            looks=looks_cost(self._words, stack, outline, air=self._air),
        )

    def lines(self, stack: Stack) -> tuple[Line, ...]:
        """The lines of a stack about the outline's centre."""
        words = self._words
        rows = baselines(
            len(stack) - 1, leading_mm=words.leading_mm, cap_height_mm=words.cap_height_mm
        )
        flush = begins_together(words) and len(stack) > 1
        half = half_longest(words, stack) if flush else None
        return tuple(
            self._line(first, end - 1, baseline=baseline, half=half)
            for (first, end), baseline in zip(pairwise(stack), rows.tolist(), strict=True)
        )

    def _line(self, first: int, last: int, *, baseline: float, half: float | None) -> Line:
        width = self._words.width(first, last)
        return Line(
            text=_shown(self._words.line_text(first, last)),
            x_mm=left_end(width, half, rtl=self._words.rtl),
            baseline_mm=baseline,
            width_mm=width,
            glyphs=self._glyphs(first, last),
        )


def fitted(
    words: Words,
    lines: tuple[Line, ...],
    outline: Outline,
    *,
    clearance_mm: float,
    overflow: Overflow | None = None,
) -> FittedBalloon:
    """The value the fit returns."""
    return FittedBalloon(
        text=_shown(words.text),
        lines=lines,
        outline=outline,
        clearance_mm=clearance_mm,
        words=words.count,
        size_pt=words.size_pt,
        overflow=overflow,
        findings=words.findings,
    )


def _shown(text: str) -> str:
    """The characters that are seen: not the soft hyphens at which no line ends."""
    return text.replace("\u00ad", "")
