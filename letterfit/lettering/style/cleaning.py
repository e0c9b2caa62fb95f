"""Cleaning: the text of a script as characters that can be set.

White space is folded as in a paragraph, control characters are taken out, letters are composed
(normalisation form C, UAX #15): a script saved with decomposed accents sets like any other. What no
balloon can hold is refused here, before anything slow is done with it.
"""

import re
import unicodedata

from letterfit.errors import OutlineError
from letterfit.lettering.breaks.breaks import SPACES

LONGEST_TEXT = 5_000
"""Characters: four times as many words as a page of a comic has (common practice, no source)."""

MOST_MARKS = 30
"""How many combining marks one letter keeps: no language in use has more (UAX #15, section 13,
stream-safe text format)."""

CONTROL = re.compile("[\x00-\x08\x0e-\x1b\x1f\x7f-\x84\x86-\x9f]")
"""Characters that print nothing and are left out."""

_LINE_END = re.compile("\r\n|[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]")
_SPACE_RUN = re.compile(r"[ \t]{2,}|\t")
_AROUND_END = re.compile(rf"[{SPACES}]*\n[{SPACES}]*")
_SURROGATE = re.compile("[\ud800-\udfff]")
# Neither letters, digits, white space nor ASCII: what a pile of combining marks is found among.
_PILE = re.compile(rf"[^\w\s!-~]{{{MOST_MARKS + 1},}}")


def clean(text: str, *, keep_lines: bool) -> str:
    r"""The text to set.

    Args:
        text: As it stands in the script.
        keep_lines: Whether its line ends are forced breaks; else they are spaces.

    Returns:
        Text in normalisation form C without control characters; no space at either end, runs of
        spaces and tabs folded into one space, "\n" only where a line must end. No-break spaces
        and spaces of other widths stay. A lone surrogate becomes U+FFFD. A letter keeps its first
        `MOST_MARKS` combining marks.

    Raises:
        OutlineError: When the text is longer than `LONGEST_TEXT`.

    >>> clean(" The  gate\n is shut. ", keep_lines=False)
    'The gate is shut.'
    """
    if len(text) > LONGEST_TEXT:
        raise OutlineError(
            f"a text of {len(text):,} characters goes into no balloon",
            advice=f"split it into balloons of a few lines; at most {LONGEST_TEXT:,} are measured",
        )
    if not text.isascii():
        text = unicodedata.normalize("NFC", _PILE.sub(_lowered, text))
    if not text.isprintable():
        text = _LINE_END.sub("\n", text)
        text = _SURROGATE.sub("\ufffd", CONTROL.sub("", text))
        text = _AROUND_END.sub("\n" if keep_lines else " ", text)
    if "  " in text or "\t" in text:
        text = _SPACE_RUN.sub(" ", text)
    return text.strip(SPACES)


def piled_marks(text: str) -> int:
    r"""How many combining marks of a text are left out because a letter has too many of them.

    >>> piled_marks("o" + 33 * "\u0301")
    3
    """
    if text.isascii():
        return 0
    return sum(len(match[0]) - len(_lowered(match)) for match in _PILE.finditer(text))


def _lowered(match: re.Match[str]) -> str:
    """The characters less the combining marks that stand on too many others."""
    kept, height = [], 0
    for char in match[0]:
        kind = unicodedata.category(char)
        if kind[0] == "M":
            height += 1
        elif kind != "Cf":  # a joiner is part of the letter it stands at
            height = 0
        if height <= MOST_MARKS or kind[0] != "M":
            kept.append(char)
    return "".join(kept)
