"""Lettering: the typeface, size, leading, case and air that words are set with."""

import math
from dataclasses import dataclass
from numbers import Real
from typing import Literal

from letterfit.errors import FontError
from letterfit.geometry import MM_PER_PT
from letterfit.lettering.bundled import DEFAULT_FAMILY
from letterfit.lettering.typeface import Typeface, TypefaceSource, open_typeface

Case = Literal["upper", "as-typed"]

CASES: tuple[Case, ...] = ("upper", "as-typed")

LARGEST_PT = 10_000.0
"""A capital as high as the largest poster; beyond it a size is a slip."""


@dataclass(frozen=True, slots=True, kw_only=True, init=False)
class Lettering:
    """How words are set.

    The defaults are common practice, no source: about 7.5 pt capitals at print size, lines close
    together, and the width of a stroke or two between ink and outline more than that.

    Args:
        typeface: A typeface, or what `open_typeface` opens; None is the bundled default.
        size_pt: The type size in points.
        leading: Baseline to baseline over the type size, a ratio.
        case: "upper" sets everything in capitals, "as-typed" leaves case alone.
        air_mm: The least distance from ink to outline, mm.

    Raises:
        FontError: When the typeface cannot be opened, or a number or the case is impossible.

    >>> lettering = Lettering(size_pt=8)
    >>> lettering.typeface.family, round(lettering.leading_mm, 3), round(lettering.cap_height_mm, 3)
    ('Grandstander', 3.048, 1.843)
    """

    typeface: Typeface
    size_pt: float
    leading: float
    case: Case
    air_mm: float

    def __init__(
        self,
        *,
        typeface: Typeface | TypefaceSource | None = None,
        size_pt: float = 7.5,
        leading: float = 1.08,
        case: Case = "upper",
        air_mm: float = 1.2,
    ) -> None:
        if typeface is None:
            typeface = DEFAULT_FAMILY
        opened = typeface if isinstance(typeface, Typeface) else open_typeface(typeface)
        _check_number("a type size", size_pt, "pt", low=0, high=LARGEST_PT)
        _check_number("a leading", leading, "times the size", low=0, high=100)
        _check_number("an air", air_mm, "mm", low=-math.ulp(0), high=10_000)
        if case not in CASES:
            raise FontError(f"no case is called {case!r}", advice=f"choose from {', '.join(CASES)}")
        values = {
            "typeface": opened,
            "size_pt": float(size_pt),
            "leading": float(leading),
            "case": case,
            "air_mm": float(air_mm),
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
        raise FontError(
            f"{what} of {value} {unit} is impossible",
            advice=f"give a number {'over 0' if low == 0 else 'of 0 or more'}, up to {high:g}",
        )
