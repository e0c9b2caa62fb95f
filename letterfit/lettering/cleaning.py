"""Cleaning: the text of a script as characters that can be set.

White space is folded as in a paragraph, control characters are taken out, letters are composed
(normalisation form C, UAX #15): a script saved with decomposed accents sets like any other.
"""

import re
import unicodedata

from letterfit.lettering.breaks import SPACES

_LINE_END = re.compile("\r\n|[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]")
_SPACE_RUN = re.compile(r"[ \t]{2,}|\t")
_AROUND_END = re.compile(rf"[{SPACES}]*\n[{SPACES}]*")
_CONTROL = re.compile("[\x00-\x08\x0e-\x1b\x1f\x7f-\x84\x86-\x9f]")
_SURROGATE = re.compile("[\ud800-\udfff]")


def clean(text: str, *, keep_lines: bool) -> str:
    r"""The text to set.

    Args:
        text: As it stands in the script.
        keep_lines: Whether its line ends are forced breaks; else they are spaces.

    Returns:
        Text in normalisation form C without control characters; no space at either end, runs of
        spaces and tabs folded into one space, "\n" only where a line must end. No-break spaces
        and spaces of other widths stay. A lone surrogate becomes U+FFFD.

    >>> clean(" The  gate\n is shut. ", keep_lines=False)
    'The gate is shut.'
    """
    text = unicodedata.normalize("NFC", text)
    if not text.isprintable():
        text = _LINE_END.sub("\n", text)
        text = _SURROGATE.sub("\ufffd", _CONTROL.sub("", text))
        text = _AROUND_END.sub("\n" if keep_lines else " ", text)
    return _SPACE_RUN.sub(" ", text).strip(SPACES)
