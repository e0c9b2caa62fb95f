"""Names from a font's name table, made fit to show: hostile ones are cleaned and cut."""

import unicodedata

import uharfbuzz as hb

LONGEST_NAME = 80
"""Characters of a family's, style's or axis' name; what goes on is cut off."""

LOOKED_AT = 4096
"""Characters of a name that are looked at; a name table can hold a megabyte of spaces."""

LONGEST_TEXT = 400
"""Characters of a licence or copyright notice; the rest is for whoever opens the font."""


def name_of(face: hb.Face, *ids: int) -> str:
    """The first of these names that the font states, in one clean line; empty if none.

    Args:
        face: HarfBuzz's face.
        ids: Name identifiers (OpenType 1.9.1, "name", Name IDs), the wished for first.
    """
    for number in ids:
        found = cleaned(face.get_name(number) or "", longest=LONGEST_NAME)
        if found:
            return found
    return ""


def notice_of(face: hb.Face, number: int) -> str:
    """A notice of the font, such as its licence, in one clean line; empty if it has none."""
    return cleaned(face.get_name(number) or "", longest=LONGEST_TEXT)


def cleaned(text: str, *, longest: int) -> str:
    r"""The text in one line without controls, escape sequences or invisible characters.

    Characters of the general categories Cc, Cf, Cs, Co and Cn become spaces, runs of spaces one.

    >>> cleaned("Nib\x1b[31m\nBold\u202e", longest=40)
    'Nib [31m Bold'
    >>> cleaned("a" * 50, longest=10)
    'aaaaaaaaa…'
    """
    kept = "".join(
        " " if unicodedata.category(char).startswith("C") else char for char in text[:LOOKED_AT]
    )
    line = " ".join(kept.split())
    return line if len(line) <= longest else line[: longest - 1].rstrip() + "…"
