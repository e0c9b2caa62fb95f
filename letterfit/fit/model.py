"""What the fit returns: a balloon with its lines, and what is over when it does not fit."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from letterfit.findings import Finding
from letterfit.lettering.words import Glyph
from letterfit.outline import Outline
from letterfit.shown import Shown


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a stack: a row, or in vertical text a column.

    Args:
        text: The characters as set, after case and punctuation policy.
        x_mm: Left end of the advance, from the outline's centre; of a column its centre line.
        baseline_mm: The baseline, from the outline's centre, y downwards; of a column the upper end
            of its advance.
        width_mm: The advance; of a column the advance downwards.
        glyphs: The glyphs to draw, x and y from `x_mm` and `baseline_mm`.
        vertical: Whether it is a column.

    >>> import letterfit as lf
    >>> line = lf.fit_balloon("Hold a little longer, old thing.").lines[0]
    >>> line.text, round(line.x_mm + line.width_mm / 2, 2)
    ('HOLD A', 0.0)
    """

    text: str
    x_mm: float
    baseline_mm: float
    width_mm: float
    glyphs: Sequence[Glyph] = field(default=(), repr=False)
    vertical: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Overflow:
    """By how much a text does not fit the outline it was given.

    Args:
        words: How many words are left over when as many as possible are set.
        size_pt: The largest type size at which all words fit, or None when none does.
        outline: The smallest outline of the same family and aspect that holds all words.

    >>> import letterfit as lf
    >>> lock = lf.Ellipse(half_width=9, half_height=5)
    >>> over = lf.fit_into("The last gate before the sea.", outline=lock).overflow
    >>> over.words, over.size_pt, over.outline.half_width > lock.half_width
    (3, 6.251355836384262, True)
    """

    words: int
    size_pt: float | None
    outline: Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A shape that a text can take, before its lines are set: all that choosing asks for.

    Args:
        stack: The first piece of every line, and the number of pieces.
        outline: The outline.
        looks: What the looks of the stack cost (`letterfit.fit.looks`), a ratio, in the largest
            outline that it was chosen for.
    """

    stack: tuple[int, ...]
    outline: Outline
    looks: float

    @property
    def area_mm2(self) -> float:
        """The area of the outline in mm2."""
        return self.outline.area_mm2


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedBalloon(Shown):
    """A text set in an outline.

    Args:
        text: The text as set, on one line.
        lines: The stack, top to bottom, or right to left where lines are columns. When the text
            does not fit, the lines that do.
        outline: The outline.
        clearance_mm: The least distance from the ink of the lines to the outline, on the safe side.
        words: Number of words of the whole text.
        size_pt: The type size.
        overflow: None if the text fits.
        looks: What the looks of the stack cost, a ratio; 0 when there is
            nothing to object. A text that does not fit is not judged: 0.
        vertical: Whether its lines are columns.
        findings: What was found of the text when it was measured: missing glyphs, long words.

    >>> import letterfit as lf
    >>> balloon = lf.fit_balloon("Hold a little longer, old thing.")
    >>> [line.text for line in balloon.lines]
    ['HOLD A', 'LITTLE LONGER,', 'OLD THING.']
    >>> balloon.fits, round(balloon.clearance_mm, 1), balloon.outline.half_width < 15
    (True, 1.2, True)
    """

    text: str
    lines: tuple[Line, ...]
    outline: Outline
    clearance_mm: float
    words: int
    size_pt: float
    overflow: Overflow | None = None
    looks: float = 0.0
    vertical: bool = False
    findings: tuple[Finding, ...] = ()

    @property
    def area_mm2(self) -> float:
        """The area of the outline in mm2."""
        return self.outline.area_mm2

    @property
    def fits(self) -> bool:
        """Whether every word is set with the air asked for."""
        return self.overflow is None
