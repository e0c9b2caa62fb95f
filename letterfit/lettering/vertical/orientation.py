"""How characters stand in vertical text: Unicode's property Vertical_Orientation.

Source: UAX #50, Unicode Vertical Text Layout; data file VerticalOrientation.txt of Unicode 15.0.0
(characters assigned since then stand as the file's default for their block says).
"""

from bisect import bisect_right
from typing import Literal

Orientation = Literal["R", "U", "Tr", "Tu"]
"""R is rotated by 90 degrees clockwise and U upright, in both cases with the glyph of horizontal
text; Tr and Tu have a glyph of their own for vertical text (`vert`), and where a font has none, Tr
is rotated and Tu upright."""

_RANGES: dict[Orientation, str] = {
    "U": """
    A7 A9 AE B1 BC-BE D7 F7 2EA-2EB 1100-11FF 1401-167F 18B0-18FF 2016 2020-2021 2030-2031
    203B-203C 2042 2047-2049 2051 2065 20DD-20E0 20E2-20E4 2100-2101 2103-2109 210F 2113-2114
    2116-2117 211E-2123 2125 2127 2129 212E 2135-213F 2145-214A 214C-214D 214F-2189 218C-218F
    221E 2234-2235 2300-2307 230C-231F 2324-2328 232B 237D-239A 23BE-23CD 23CF 23D1-23DB
    23E2-2422 2424-24FF 25A0-2619 2620-2767 2776-2793 2B12-2B2F 2B50-2B59 2B97 2BB8-2BD1
    2BD3-2BEB 2BF0-2BFF 2E50-2E51 2E80-3000 3003-3007 3012-3013 3020-302F 3031-3040 3042 3044
    3046 3048 304A-3062 3064-3082 3084 3086 3088-308D 308F-3094 3097-309A 309D-309F 30A2 30A4
    30A6 30A8 30AA-30C2 30C4-30E2 30E4 30E6 30E8-30ED 30EF-30F4 30F7-30FB 30FD-3126 3128-31EF
    3200-32FE 3358-337A 3380-A4CF A960-A97F AC00-D7FF E000-FAFF FE10-FE1F FE30-FE48 FE53-FE57
    FE5F-FE62 FE67-FE6F FF02-FF07 FF0A-FF0B FF0F-FF19 FF20-FF3A FF3C FF3E FF40-FF5A FFE0-FFE2
    FFE4-FFE7 FFF0-FFF8 FFFC-FFFD 10980-1099F 11580-115FF 11A00-11ABF 13000-1345F 14400-1467F
    16FE0-18D7F 1AFF0-1B2FF 1CF00-1CFCF 1D000-1D1FF 1D2E0-1D37F 1D800-1DAAF 1F000-1F1FF
    1F202-1F7FF 1F900-1FAFF 20000-2FFFD 30000-3FFFD F0000-FFFFD 100000-10FFFD
    """,
    "Tr": """
    2329-232A 3008-3011 3014-301F 3030 30A0 30FC FE59-FE5E FF08-FF09 FF1A-FF1B FF3B FF3D FF3F
    FF5B-FF60 FFE3
    """,
    "Tu": """
    3001-3002 3041 3043 3045 3047 3049 3063 3083 3085 3087 308E 3095-3096 309B-309C 30A1 30A3
    30A5 30A7 30A9 30C3 30E3 30E5 30E7 30EE 30F5-30F6 3127 31F0-31FF 32FF-3357 337B-337F
    FE50-FE52 FF01 FF0C FF0E FF1F 1F200-1F201
    """,
}
"""Code points in hexadecimal, first and last of each stretch; all others are R."""


def _stretches() -> list[tuple[int, int, Orientation]]:
    """First and last code point of each stretch that is not R, in order."""
    found: list[tuple[int, int, Orientation]] = []
    for value, ranges in _RANGES.items():
        for stretch in ranges.split():
            first, _, last = stretch.partition("-")
            found.append((int(first, 16), int(last or first, 16), value))
    return sorted(found)


_STRETCHES = _stretches()
_FIRSTS = [first for first, _, _ in _STRETCHES]


def orientation(char: str) -> Orientation:
    """A character's Vertical_Orientation.

    >>> [orientation(char) for char in "潮、ーA"]
    ['U', 'Tu', 'Tr', 'R']
    """
    code = ord(char)
    _, last, value = _STRETCHES[bisect_right(_FIRSTS, code) - 1]
    return value if _FIRSTS[0] <= code <= last else "R"
