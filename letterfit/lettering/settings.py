"""Lettering: the typeface, size, leading, case, habits and air that words are set with."""

import math
from dataclasses import dataclass
from numbers import Real
from typing import Literal, get_args

from letterfit.errors import FontError
from letterfit.geometry import MM_PER_PT
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.fonts.bundled import DEFAULT_FAMILY
from letterfit.lettering.fonts.typeface import Typeface, TypefaceSource, open_typeface
from letterfit.lettering.style.crossbar import check_crossbar
from letterfit.lettering.style.habits import Habits, one_of

Case = Literal["upper", "as-typed"]

Writing = Literal["horizontal", "vertical"]
Align = Literal["centre", "start"]

CASES: tuple[Case, ...] = get_args(Case)
WRITINGS: tuple[Writing, ...] = get_args(Writing)
ALIGNS: tuple[Align, ...] = get_args(Align)

EFFECTS_FACE, EFFECTS_SIZE_PT = "Bangers", 14.0
"""How sound effects are measured where nothing else is asked for: about twice the dialogue."""

LARGEST_PT = 10_000.0
"""A capital as high as the largest poster; beyond it a size is a slip."""

SMALLEST_PT, LEAST_LEADING = 1e-3, 1e-3
"""Smaller sizes, and lines as good as on top of each other, are slips too."""

TIGHTEST, WIDEST = -0.1, 1.0
"""Letterspacing in em: beyond these letters overlap, or are no words any more."""

LEADINGS: dict[Writing, float] = {"horizontal": 1.08, "vertical": 1.25}
"""Common practice, no source."""

USUAL_ALIGNS: dict[Writing, Align] = {"horizontal": "centre", "vertical": "start"}
"""Common practice, no source."""

_USUAL_HABITS, _USUAL_BREAKS = Habits(), BreakRules()


@dataclass(frozen=True, slots=True, kw_only=True, init=False)
class Lettering:
    """How words are set.

    The defaults are common practice, no source: about 7.5 pt capitals at print size, lines close
    together, and the width of a stroke or two between ink and outline more than that.

    Args:
        typeface: A typeface, or what `open_typeface` opens; None is the bundled default.
        size_pt: The type size in points.
        leading: Baseline to baseline, or column to column, over the type size, a ratio; None is
            1.08 for lines of capitals and 1.25 for columns, whose kanji are as wide as the em.
        case: "upper" sets everything in capitals, "as-typed" leaves case alone.
        air_mm: The least distance from ink to outline, mm.
        habits: What is done with emphasis, dashes, ellipses, quotes and the crossbar I.
        tracking: Space added after each letter, in em; a little less than 0 draws them together.
        breaks: How its lines may break.
        writing: "horizontal" lines, or "vertical" columns from right to left.
        align: Whether lines are set in the "centre" of the balloon or begin together at their
            "start": at the left, at the right where they read so, at the top of columns. None
            centres lines and lets columns begin together.

    Raises:
        FontError: When the typeface cannot be opened, a number or a word is impossible, or the
            typeface lacks the crossbar I asked for.

    >>> lettering = Lettering(size_pt=8)
    >>> lettering.typeface.family, round(lettering.leading_mm, 3), round(lettering.cap_height_mm, 3)
    ('Grandstander', 3.048, 1.843)
    """

    typeface: Typeface
    size_pt: float
    leading: float
    case: Case
    air_mm: float
    habits: Habits
    tracking: float
    breaks: BreakRules
    writing: Writing
    align: Align

    def __init__(  # noqa: PLR0913 - keyword-only, each with its default
        self,
        *,
        typeface: Typeface | TypefaceSource | None = None,
        size_pt: float = 7.5,
        leading: float | None = None,
        case: Case = "upper",
        air_mm: float = 1.2,
        habits: Habits | None = None,
        tracking: float = 0.0,
        breaks: BreakRules | None = None,
        writing: Writing = "horizontal",
        align: Align | None = None,
    ) -> None:
        if typeface is None:
            typeface = DEFAULT_FAMILY
        opened = typeface if isinstance(typeface, Typeface) else open_typeface(typeface)
        _check_number("a type size", size_pt, "pt", low=SMALLEST_PT, high=LARGEST_PT)
        one_of("a direction of writing", writing, WRITINGS)
        if leading is None:
            leading = LEADINGS[writing]
        if align is None:
            align = USUAL_ALIGNS[writing]
        _check_number("a leading", leading, "times the size", low=LEAST_LEADING, high=100)
        _check_number("an air", air_mm, "mm", low=-math.ulp(0), high=10_000)
        _check_number("a tracking", tracking, "em", low=TIGHTEST, high=WIDEST)
        one_of("a case", case, CASES)
        one_of("an alignment", align, ALIGNS)
        check_crossbar(opened, (habits or _USUAL_HABITS).crossbar)
        values = {
            "typeface": opened,
            "size_pt": float(size_pt),
            "leading": float(leading),
            "case": case,
            "air_mm": float(air_mm),
            "habits": habits or _USUAL_HABITS,
            "tracking": float(tracking),
            "breaks": breaks or _USUAL_BREAKS,
            "writing": writing,
            "align": align,
        }
        for name, value in values.items():
            object.__setattr__(self, name, value)

    @property
    def em_mm(self) -> float:
        """The size in mm."""
        return self.size_pt * MM_PER_PT

    @property
    def leading_mm(self) -> float:
        """Baseline to baseline in mm."""
        return self.leading * self.em_mm

    @property
    def cap_height_mm(self) -> float:
        """Height of the ink of H in the regular face, in mm."""
        return self.typeface.styled("regular").cap_height_em * self.em_mm


def _check_number(what: str, value: float, unit: str, *, low: float, high: float) -> None:
    """Complain unless low < value <= high."""
    is_number = isinstance(value, Real) and not isinstance(value, bool)
    if not is_number or not low < value <= high:
        least = "of 0 or more" if low == -math.ulp(0) else f"over {low:g}"
        raise FontError(
            f"{what} of {value} {unit} is impossible",
            advice=f"give a number {least}, up to {high:g}",
        )
