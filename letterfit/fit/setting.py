"""A chosen stack and outline made into a balloon, its clearance measured as a true distance.

Glyphs are placed when somebody draws them: those of a stack's lines together, which takes hardly
longer than those of one.
"""

from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise

from letterfit.errors import OutlineError
from letterfit.fit.ink import Ink, Stack, begins_together, half_longest, left_end
from letterfit.fit.judge import looks_cost
from letterfit.fit.model import FittedBalloon, Line, Overflow
from letterfit.fit.stack import baselines
from letterfit.lettering.words import Glyph, LateGlyphs, SetLine, Words
from letterfit.outline import Floats, Outline
from letterfit.separation import clearance

TOO_SMALL = 1e-6
"""Air missing by more than this share of the half-height is no rounding."""


Run = tuple[int, int]
"""The first and the last piece of a line."""


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
        self._lines = LineSetter(ink.words)

    def points(self, stack: Stack) -> Floats:
        """The corners of a stack's ink that must keep clear of an outline, mm (`Ink.points`)."""
        return self._ink.points(stack)

    def balloon(
        self, stack: Stack, outline: Outline, *, room: float | None = None
    ) -> FittedBalloon:
        """The text set as `stack` in an outline that is grown, if rounding asks for it.

        Args:
            stack: The stack.
            outline: The outline.
            room: Its clearance from the stack's ink, mm, where it is known.

        Raises:
            OutlineError: When the outline is too small for the stack by more than rounding.
        """
        if room is None:
            room = clearance(outline, self.points(stack))
        while room < self._air:
            if room < self._air - TOO_SMALL * outline.half_height:
                raise OutlineError("the stack does not fit the outline", advice="grow the outline")
            # A support function grows by at least (k - 1) times the shorter half-side.
            least = min(outline.half_width, outline.half_height)
            outline = outline.scaled(1 + 1.5 * (self._air - room) / least + 1e-15)
            room = clearance(outline, self.points(stack))
        looks = looks_cost(self._words, stack, outline, air=self._air)
        return fitted(
            self._words,
            lines=self.lines(stack),
            outline=outline,
            clearance_mm=room,
            looks=looks,
        )

    def lines(self, stack: Stack) -> tuple[Line, ...]:
        """The lines of a stack about the outline's centre."""
        return self._lines.lines(stack)


class LineSetter:
    """Sets the lines of one text's stacks, each once.

    Args:
        words: The text.
    """

    def __init__(self, words: Words) -> None:
        self._words = words
        self._glyphs: dict[Run, Sequence[Glyph]] = {}

    def lines(self, stack: Stack) -> tuple[Line, ...]:
        """The lines of a stack about the outline's centre."""
        words = self._words
        rows = baselines(
            len(stack) - 1, leading_mm=words.leading_mm, cap_height_mm=words.cap_height_mm
        )
        flush = begins_together(words) and len(stack) > 1
        half = half_longest(words, stack) if flush else None
        runs = [(first, end - 1) for first, end in pairwise(stack)]
        together = _Together(words, [run for run in runs if run not in self._glyphs])
        for run in together.runs:
            self._glyphs[run] = _GlyphsOf(together, run)
        return tuple(
            self._line(run, baseline=baseline, half=half)
            for run, baseline in zip(runs, rows.tolist(), strict=True)
        )

    def _line(self, run: Run, *, baseline: float, half: float | None) -> Line:
        width = self._words.width(*run)
        return Line(
            text=shown(self._words.line_text(*run)),
            x_mm=left_end(width, half, rtl=self._words.rtl),
            baseline_mm=baseline,
            width_mm=width,
            glyphs=self._glyphs[run],
        )


class _Together:
    """Lines whose glyphs are placed in one go."""

    def __init__(self, words: Words, runs: Sequence[Run]) -> None:
        self._words, self.runs = words, runs

    @cached_property
    def glyphs(self) -> dict[Run, tuple[Glyph, ...]]:
        """The glyphs of each line."""
        lines = set_lines(self._words, self.runs)
        return {run: line.glyphs for run, line in zip(self.runs, lines, strict=True)}


class _GlyphsOf(LateGlyphs):
    """The glyphs of one of these lines."""

    def __init__(self, together: _Together, run: Run) -> None:
        self._run, self._together = run, together

    @cached_property
    def _placed(self) -> tuple[Glyph, ...]:
        return self._together.glyphs[self._run]


def set_lines(words: Words, runs: Sequence[Run]) -> list[SetLine]:
    """Lines as set, all but those that are set anew at once."""
    anew = {run: words.line(*run) for run in runs if run in words.reshaped}
    others = [
        (words.stretches[first][0], words.stretches[last][1])
        for first, last in runs
        if (first, last) not in anew
    ]
    flow = iter(words.setter.set_lines(others) if others else ())
    return [anew[run] if run in anew else next(flow) for run in runs]


def fitted(  # noqa: PLR0913 - the value's own fields, keyword-only but for the first
    words: Words,
    *,
    lines: tuple[Line, ...],
    outline: Outline,
    clearance_mm: float,
    overflow: Overflow | None = None,
    looks: float = 0.0,
) -> FittedBalloon:
    """The value the fit returns."""
    return FittedBalloon(
        text=shown(words.text),
        lines=lines,
        outline=outline,
        clearance_mm=clearance_mm,
        words=sum(words.cut.counts),
        size_pt=words.size_pt,
        overflow=overflow,
        looks=looks,
        findings=words.findings,
    )


def shown(text: str) -> str:
    """The characters that are seen: not the soft hyphens at which no line ends."""
    return text.replace("\u00ad", "")
