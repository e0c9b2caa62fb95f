"""Numbers and lengths of SVG: user units, px, pt, pc, mm, cm, in, em, percent.

One px is 1/96 in (CSS Values 4, section 6.2; SVG 2, section 8.9); numbers beyond what a press can
print are no numbers.
"""

import math
import re

from letterfit.geometry import MM_PER_INCH, MM_PER_PT

MM_PER_PX = MM_PER_INCH / 96
LARGEST = 1e7
"""The largest number that is read: ten kilometres in mm."""

NUMBER = r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]{1,5})?"
LONGEST = 100
"""Characters of one number or length."""

_NUMBER = re.compile(NUMBER)
_LENGTH = re.compile(rf"\s*({NUMBER})\s*([a-zA-Z]*|%)\s*")

MM_PER = {
    "px": MM_PER_PX,
    "pt": MM_PER_PT,
    "pc": 12 * MM_PER_PT,
    "mm": 1.0,
    "cm": 10.0,
    "q": 0.25,
    "in": MM_PER_INCH,
}
"""Millimetres of a unit by its name."""

MOST_CHARACTERS = 2_000_000
"""Characters of one attribute that are read for numbers."""


def number(text: str | None) -> float | None:
    """A plain number; None for anything else, and for what is not finite or beyond reason.

    >>> number(" 1.5e1 "), number("1e308"), number("nan"), number("4mm")
    (15.0, None, None, None)
    """
    match = None if text is None else _NUMBER.fullmatch(text.strip()[:LONGEST])
    return None if match is None else _bounded(float(match[0]))


def numbers(text: str) -> list[float] | None:
    """A list of numbers parted by spaces or commas; None where one is broken or beyond reason.

    >>> numbers("0,0 10-5"), numbers("1 two")
    ([0.0, 0.0, 10.0, -5.0], None)
    """
    if len(text) > MOST_CHARACTERS or _NUMBER.sub(" ", text).replace(",", " ").strip():
        return None
    found = [_bounded(float(one)) for one in _NUMBER.findall(text)]
    return None if None in found else [one for one in found if one is not None]


def length(text: str | None, *, whole: float = 0.0, em: float = 12.0) -> float | None:
    """A length in user units of 1 px; None where there is none.

    Args:
        text: As it stands in the attribute.
        whole: What 100 % is, in user units.
        em: What an em is, in user units.

    >>> length("25.4mm"), length("72pt"), length("50%", whole=30), length("7 leagues")
    (96.0, 96.0, 15.0, None)
    """
    match = None if text is None else _LENGTH.fullmatch(text[:LONGEST])
    if match is None:
        return None
    value, unit = float(match[1]), match[2].lower()
    if unit in ("", "px"):
        return _bounded(value)
    if unit == "%":
        return _bounded(value / 100 * whole)
    if unit in ("em", "ex"):
        return _bounded(value * em * (0.5 if unit == "ex" else 1.0))
    per = MM_PER.get(unit)
    return None if per is None else _bounded(value * per / MM_PER_PX)


def unit_of(text: str | None) -> str:
    """The unit of a length in small letters: "" for none, "%" for percent, "?" where it is broken.

    >>> unit_of("10MM"), unit_of("10"), unit_of(None)
    ('mm', '', '?')
    """
    match = None if text is None else _LENGTH.fullmatch(text[:LONGEST])
    return "?" if match is None else match[2].lower()


def _bounded(value: float) -> float | None:
    return value if math.isfinite(value) and abs(value) <= LARGEST else None
