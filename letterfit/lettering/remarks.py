"""Remarks: what a reader should know of a text as it is set, as findings."""

import re
from collections.abc import Iterable, Iterator, Sequence
from operator import sub

from letterfit.findings import Finding, Severity
from letterfit.lettering.breaks.pieces import Pieces
from letterfit.lettering.breaks.plain import LONGEST_WORD
from letterfit.lettering.fonts.typeface import Typeface
from letterfit.lettering.shaping.runs import Itemised
from letterfit.lettering.style.cleaning import CONTROL, MOST_MARKS, piled_marks
from letterfit.lettering.style.emphasis import stray_marks

LISTED = 12
"""How many characters a finding names before it counts the rest."""

_LONG = re.compile(rf"[^\W\d_]{{{LONGEST_WORD + 1},}}")

Remark = tuple[str, Severity, str, str]
"""Code, severity, message and advice."""


def remarks(
    typed: str, cut: Itemised, typeface: Typeface, *, where: str = "", line: int | None = None
) -> tuple[Finding, ...]:
    """The findings about a text.

    Args:
        typed: The text as it stands in the script.
        cut: The text as set.
        typeface: The typeface it is set in.
        where: "page.panel.balloon".
        line: Line of the script.
    """
    found = (
        *stray_emphasis(typed),
        *missing_glyphs(cut),
        *missing_styles(cut, typeface),
        *long_words(cut.text),
        *control_characters(typed),
        *piles(typed),
    )
    return tuple(
        Finding(
            code=code, severity=severity, message=message, advice=advice, where=where, line=line
        )
        for code, severity, message, advice in found
    )


def is_unremarkable(typed: str, pieces: Pieces) -> bool:
    """Whether a text, set in the style and the glyphs asked for, gives no cause for a finding.

    Args:
        typed: The text as it stands in the script.
        pieces: The text as set, cut where its lines may end: a long word is a long piece.
    """
    return (
        typed.isprintable()
        and "*" not in typed
        and "_" not in typed
        and not piled_marks(typed)
        and max(map(sub, pieces.ends, pieces.starts), default=0) <= LONGEST_WORD
    )


def stray_emphasis(typed: str) -> Iterator[Remark]:
    """Emphasis marks without a partner, which are set as they were typed."""
    found = stray_marks(typed)
    if found:
        yield (
            "stray-emphasis-mark",
            "warning",
            f"an emphasis mark has no partner: {_quoted(found)}.",
            "Close it, or take it out: it is lettered as typed.",
        )


def missing_glyphs(cut: Itemised) -> Iterator[Remark]:
    """Characters that the face lacks, each named once: taken from another face, or lost."""
    for substitution in cut.substitutions:
        wanted, used = substitution.wanted, substitution.used
        lost = _listed(substitution.chars)
        are = "is" if len(substitution.chars) == 1 else "are"
        if used is None:
            yield (
                "missing-glyph",
                "error",
                f"{lost} {are} in no font: {wanted.name} and its fallbacks lack it.",
                "Letter it in a typeface that has it (a font file will do), or write it otherwise.",
            )
        else:
            yield (
                "substituted-glyph",
                "note",
                f"{lost} {are} not in {wanted.name}: set in {used.name}.",
                "Look whether the two faces go together.",
            )


def missing_styles(cut: Itemised, typeface: Typeface) -> Iterator[Remark]:
    """Styles that the family does not have."""
    for style in cut.styles:
        if typeface.has(style):
            continue
        near = typeface.styled(style).style
        shows = near != "regular"
        yield (
            "missing-style",
            "note" if shows else "warning",
            f"no {style} in {typeface.family}: set in {near}.",
            "" if shows else "Emphasis will not show: give its bold italic too, or another family.",
        )


def long_words(text: str) -> Iterator[Remark]:
    """Words so long that they decide the balloon's width alone."""
    for word in dict.fromkeys(_LONG.findall(text)):
        yield (
            "long-word",
            "warning",
            f"a word of {len(word)} letters: {word[:LISTED]}...",
            "Put soft hyphens (U+00AD) or spaces where it may break.",
        )


def control_characters(typed: str) -> Iterator[Remark]:
    """Characters that cannot be set and were taken out."""
    found = dict.fromkeys(CONTROL.findall(typed)) if not typed.isprintable() else {}
    if found:
        yield (
            "control-character",
            "note",
            f"control characters are left out: {_listed(found)}.",
            "Remove them from the script.",
        )


def piles(typed: str) -> Iterator[Remark]:
    """Combining marks beyond what a letter keeps."""
    count = piled_marks(typed)
    if count:
        yield (
            "piled-marks",
            "warning",
            f"{count} combining marks are left out: a letter keeps {MOST_MARKS}.",
            "Take them out of the script.",
        )


def _quoted(words: Sequence[str]) -> str:
    """Words in quotes, so many as go in a line."""
    more = f" and {len(words) - LISTED} more" if len(words) > LISTED else ""
    return " ".join(f"“{word}”" for word in words[:LISTED]) + more


def _listed(chars: Iterable[str]) -> str:
    r"""The characters named, those that cannot be seen by their number.

    >>> _listed("é\x07")
    '“é” U+0007'
    """
    named = [
        f"“{char}”" if char.isprintable() and not char.isspace() else f"U+{ord(char):04X}"
        for char in chars
    ]
    more = f" and {len(named) - LISTED} more" if len(named) > LISTED else ""
    return " ".join(named[:LISTED]) + more
