"""What a font says of its own measures, held against its ink. The ink is believed.

Some fonts state no height of capitals, or a wrong one; lines of text are set by other programs at
whatever their tables say. Letterfit measures outlines, so none of this changes a balloon: it is
told so that nobody wonders where another program sets the same font otherwise.
"""

import struct
from collections.abc import Iterator
from string import ascii_letters
from typing import Literal

import numpy as np

from letterfit.findings import Finding
from letterfit.lettering.fonts.drawing import Point, contours
from letterfit.lettering.fonts.face import Engine, Face, engine
from letterfit.outline import Floats

SLACK_EM = 0.01
"""How far a stated height may be off: about 0.03 mm at 7.5 pt, less than anyone sees."""

TALLEST_EM = 4.0
"""Ink further than this from its baseline is a slip of the font's maker."""

LISTED = 12
"""Letters that one finding names."""

USE_TYPO_METRICS = 0x0080
"""Bit 7 of OS/2 fsSelection (OpenType 1.9.1)."""

Height = Literal["cap height", "x-height"]

MEASURED_ADVICE = "Letterfit measures the ink instead."


def font_claims(face: Face) -> tuple[Finding, ...]:
    """What is odd about a face's statements on itself, for whoever chooses a font.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> [found.message for found in font_claims(open_typeface("Comic Relief").styled("regular"))][0]
    'OS/2 says cap height .759, the ink of H is .739.'
    """
    known = engine(face)
    return (
        *_heights(known),
        *_ascenders(known),
        *_stray_contours(known),
        *_blank_glyphs(known),
        *_odd_letters(known),
    )


def _heights(known: Engine) -> Iterator[Finding]:
    """Cap height and x-height of OS/2 (version 2 and later) against the ink of H and x."""
    stated = _os2(known)
    version = struct.unpack_from(">H", stated)[0] if len(stated) >= 2 else 0
    has_heights = version >= 2 and len(stated) >= 90
    x_height, cap_height = struct.unpack_from(">2h", stated, 86) if has_heights else (0, 0)
    yield from _height(known, "cap height", letter="H", units=cap_height)
    yield from _height(known, "x-height", letter="x", units=x_height)


def _height(known: Engine, what: Height, *, letter: str, units: int) -> Iterator[Finding]:
    ink = _ink(known, letter)
    if ink is None:
        return
    said, top = units / known.upem, -float(ink[1])
    code = f"stated-{what.replace(' ', '-')}"
    measured = f"the ink of {letter} is {_em(top)}."
    if not units:
        message = f"OS/2 states no {what}, {measured}"
    elif abs(said - top) > SLACK_EM:
        message = f"OS/2 says {what} {_em(said)}, {measured}"
    else:
        return
    yield Finding(code=code, severity="note", message=message, advice=MEASURED_ADVICE)


def _ascenders(known: Engine) -> Iterator[Finding]:
    """The two tables that set the distance of lines elsewhere: "hhea" and OS/2."""
    hhea = known.font.face.reference_table("hhea").data
    stated = _os2(known)
    if len(hhea) < 10 or len(stated) < 78:
        return
    ascent, descent, gap = struct.unpack_from(">3h", hhea, 4)
    (selection,) = struct.unpack_from(">H", stated, 62)
    typo = struct.unpack_from(">3h", stated, 68)
    win = struct.unpack_from(">2H", stated, 74)
    first = (ascent - descent + gap) / known.upem
    by_typo = selection & USE_TYPO_METRICS
    second = (typo[0] - typo[1] + typo[2] if by_typo else sum(win)) / known.upem
    if abs(first - second) > SLACK_EM:
        yield Finding(
            code="two-line-heights",
            severity="note",
            message=f"hhea makes lines {first:.3f} em high, OS/2 makes them {second:.3f}.",
            advice="Other programs may space its lines in two ways; here leading decides.",
        )


def _stray_contours(known: Engine) -> Iterator[Finding]:
    """Letters with a contour that encloses nothing, such as a point left behind."""
    stray = [letter for letter in ascii_letters if _has_stray(known, letter)]
    if stray:
        yield Finding(
            code="stray-contour",
            severity="note",
            message=f"A contour of {_listed(stray)} encloses nothing.",
            advice="Letterfit leaves it out; elsewhere the letter may count as taller or wider.",
        )


class _ContourCounter:
    """A pen that counts contours."""

    def __init__(self) -> None:
        self.count = 0

    def moveTo(self, _at: Point) -> None:  # noqa: N802 - the pens' protocol
        self.count += 1

    def lineTo(self, _to: Point) -> None:  # noqa: N802 - the pens' protocol
        pass

    def qCurveTo(self, *_to: Point) -> None:  # noqa: N802 - the pens' protocol
        pass

    def curveTo(self, *_to: Point) -> None:  # noqa: N802 - the pens' protocol
        pass

    def closePath(self) -> None:  # noqa: N802 - the pens' protocol
        pass

    endPath = closePath  # noqa: N815 - the pens' protocol


def _has_stray(known: Engine, letter: str) -> bool:
    glyph = _glyph(known, letter)
    if not glyph:
        return False
    pen = _ContourCounter()
    known.font.draw_glyph_with_pen(glyph, pen)
    return pen.count > len(contours(known.font, glyph))


def _blank_glyphs(known: Engine) -> Iterator[Finding]:
    if known.blank:
        yield Finding(
            code="blank-glyph",
            severity="warning",
            message=f"The font maps {_listed(sorted(known.blank))} to a glyph without ink.",
            advice="Letterfit takes them from another face.",
        )


def _odd_letters(known: Engine) -> Iterator[Finding]:
    """Letters without an advance, and letters as large as no letter is."""
    flat, vast = [], []
    for letter in ascii_letters:
        ink = _ink(known, letter)
        glyph = _glyph(known, letter)
        if ink is None or not glyph:
            continue
        if known.font.get_glyph_h_advance(glyph) <= 0:
            flat.append(letter)
        if np.abs(ink).max() > TALLEST_EM:
            vast.append(letter)
    if flat:
        yield Finding(
            code="no-advance",
            severity="warning",
            message=f"The advance of {_listed(flat)} is zero: letters will overprint.",
            advice="Use another file of this font.",
        )
    if vast:
        yield Finding(
            code="vast-ink",
            severity="warning",
            message=f"The ink of {_listed(vast)} is more than {TALLEST_EM:g} em away.",
            advice="Use another file of this font.",
        )


def _ink(known: Engine, letter: str) -> Floats | None:
    """The ink box of a letter in em; None where the font has no such ink."""
    glyph = _glyph(known, letter)
    if not glyph:
        return None
    ink: Floats = known.inks(np.array([glyph]))[0]
    return None if np.isnan(ink).any() else ink


def _glyph(known: Engine, letter: str) -> int | None:
    """The glyph of a letter that the font can set."""
    return known.font.get_nominal_glyph(ord(letter)) if letter in known.chars else None


def _os2(known: Engine) -> bytes:
    return bytes(known.font.face.reference_table("OS/2").data)


def _listed(letters: list[str]) -> str:
    more = f" and {len(letters) - LISTED} more" if len(letters) > LISTED else ""
    return " ".join(letters[:LISTED]) + more


def _em(value: float) -> str:
    """A share of an em with three digits, as type tables write it.

    >>> _em(0.7394), _em(-0.5), _em(10.25)
    ('.739', '-.500', '10.250')
    """
    sign, digits = "-" * (value < 0), f"{abs(value):.3f}"
    return sign + digits.removeprefix("0")
