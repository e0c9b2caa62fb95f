"""Lines: a text becomes numbered lines in one normal form; nothing with ink is dropped.

Everything that changes a line's characters lives here:

- a new line starts after CR LF, CR or LF, and only these are counted, as text editors do;
  U+2028, U+2029, U+0085, form feed and vertical tab also part lines, which then share a number;
- characters are composed to NFC, because fonts and readers expect it, and are otherwise kept as
  typed: quotes, dashes and no-break spaces stay (TAB becomes a space only where text is kept);
- control characters, which print nothing and which no XML can hold, are dropped; lone
  surrogates and non-characters become U+FFFD, the replacement character. Both are reported.
"""

import re
import unicodedata
from dataclasses import dataclass

from letterfit.findings import Finding

MOST_MARKS = 30
"""Combining marks in a row beyond which a line is left uncomposed: the Stream-Safe Text Format of
Unicode Standard Annex #15, section 13. It also keeps composing linear in the line's length."""

TAB_STOP = 8
"""Columns a TAB counts for in an indentation."""

_COUNTED = re.compile(r"\r\n|\r|\n")
_UNCOUNTED = re.compile("[\x0b\x0c\x85\u2028\u2029]")
# C0 and C1 controls but TAB; the byte order mark inside a text (two files joined).
_CONTROLS = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x84\x86-\x9f\ufeff]")
_UNUSABLE = re.compile("[\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")
_MAYBE_MARKS = re.compile(f"[\u0300-\U0010ffff]{{{MOST_MARKS + 1}}}")
_EDGE = " \t\xa0\u1680\u2000-\u200b\u200e\u200f\u202f\u205f\u2060\u3000"
_LEADING = re.compile(f"[{_EDGE}]*")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a script.

    Args:
        number: Where it stands in the source, counted from 1.
        text: What is typed, without the white space round it; empty for a blank line.
        indent: Columns of white space before it.
    """

    number: int
    text: str
    indent: int = 0


def split_lines(text: str) -> tuple[tuple[Line, ...], tuple[Finding, ...]]:
    r"""The lines of a text, and findings on characters that could not be kept.

    >>> lines, findings = split_lines("PAGE 1\r\n  e\u0301\u2028x")
    >>> [(line.number, line.text, line.indent) for line in lines]
    [(1, 'PAGE 1', 0), (2, 'é', 2), (2, 'x', 0)]
    """
    findings: list[Finding] = []
    lines = [
        _line(part, number, findings)
        for number, counted in enumerate(_COUNTED.split(text), start=1)
        for part in _UNCOUNTED.split(counted)
    ]
    return tuple(lines), tuple(findings)


def _line(part: str, number: int, findings: list[Finding]) -> Line:
    clean = _clean(part, number, findings)
    lead = _LEADING.match(clean)
    start = lead.end() if lead else 0
    indent = sum(TAB_STOP if sign == "\t" else 1 for sign in clean[:start])
    kept = clean[start:]
    # Cut from the end by hand: a regular expression would try every run of spaces inside.
    return Line(number, kept[: _end_of_ink(kept)], indent)


def _end_of_ink(text: str) -> int:
    end = len(text)
    while end and _LEADING.fullmatch(text, end - 1, end):
        end -= 1
    return end


def _clean(part: str, number: int, findings: list[Finding]) -> str:
    if part.isascii() and part.isprintable():
        return part
    clean = _UNUSABLE.sub("\ufffd", _CONTROLS.sub("", part))
    if clean != part.replace("\ufeff", ""):
        findings.append(
            Finding(
                code="control-characters",
                severity="note",
                message="The line holds characters that cannot be printed; they were dropped.",
                advice="Type the line again.",
                line=number,
            )
        )
    if not _composes_safely(clean):
        findings.append(
            Finding(
                code="piled-accents",
                severity="warning",
                message=f"More than {MOST_MARKS} accents are piled on one letter.",
                advice="Check the line; its accents were left as they are.",
                line=number,
            )
        )
        return clean
    return unicodedata.normalize("NFC", clean)


def _composes_safely(text: str) -> bool:
    """Whether no run of combining marks is too long to be sorted in linear time."""
    if not _MAYBE_MARKS.search(text):
        return True
    run = 0
    for sign in text:
        run = run + 1 if unicodedata.combining(sign) else 0
        if run > MOST_MARKS:
            return False
    return True
