"""The crossbar I: English comics letter the pronoun with bars, every other I without.

A plain I elsewhere, a barred one for I, I'M, I'LL, I'D, I'VE (common practice, no source). It comes
from an alternate set of the face, or from one of the two slots of a font that has capitals in both.
"""

import re
from collections.abc import Sequence
from functools import lru_cache

from letterfit.errors import FontError
from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.latin_text import latin_buffer
from letterfit.lettering.fonts.typeface import Typeface
from letterfit.lettering.style.casing import base_language
from letterfit.lettering.style.habits import CROSSBARS, CrossbarIn

CROSSBAR_FEATURE = {"Grandstander": "ss01"}
"""The OpenType feature that turns on the barred I, by family."""

PLAIN_SLOT = {"upper-slot": "i", "lower-slot": "I"}
BARRED_SLOT = {"upper-slot": "I", "lower-slot": "i"}
"""The character whose glyph is the I without and with crossbars, by the slot of the barred one."""

SMALL = 0.9
"""A font whose x is lower than this share of its capitals has small letters, and no second I."""

_PRONOUN = re.compile(
    r"I(?<![\w'’&]I)(?<!\w\.I)(?![\w&])(?!\.\w)(?!['’](?!(?:M|LL|D|VE|m|ll|d|ve)(?!\w))\w)"
)
_INITIALS = re.compile(r"(?<![\w'’&.])[^\W\d_](?:\.[^\W\d_])+(?!\w)")


def pronouns(text: str, language: str, *, crossbar_in: CrossbarIn = "pronoun") -> tuple[int, ...]:
    """Where the I that is lettered with crossbars stands.

    Args:
        text: The text as set.
        language: BCP 47 tag; only English has the pronoun I.
        crossbar_in: What gets crossbars, see `Habits`.

    >>> pronouns("I THINK I'M IN. I-I'LL SINK, A.I.", "en")
    (0, 8, 16, 18)
    """
    if "I" not in text or (language != "en" and base_language(language) != "en"):
        return ()
    found = [match.start() for match in _PRONOUN.finditer(text)]
    if crossbar_in == "pronoun-and-initials" and "." in text:
        for match in _INITIALS.finditer(text):
            found += [at for at in range(*match.span()) if text[at] == "I"]
        found.sort()
    return tuple(found)


def crossbar_feature(family: str, *, own: str, crossbar: str) -> str | None:
    """The OpenType feature that turns a face's I into the barred one, for the barred I's only.

    Args:
        family: The family of the face that sets the run.
        own: The typeface's family: a face of the fallback chain has another.
        crossbar: See `Habits`.

    Returns:
        A feature's tag, or None when the I is drawn as it is.

    >>> crossbar_feature("Grandstander", own="Grandstander", crossbar="auto")
    'ss01'
    """
    if crossbar == "auto":
        return CROSSBAR_FEATURE.get(family)
    return None if crossbar in CROSSBARS or family != own else crossbar


def slot_letters(text: str, crossbars: Sequence[int], *, crossbar: str) -> str | None:
    """The text to shape in a font whose two slots for I hold a plain and a barred capital.

    Args:
        text: The text as set.
        crossbars: Where a barred I stands, see `pronouns`.
        crossbar: See `Habits`.

    Returns:
        A text of the same length, i and I changed so that the right glyph is drawn; None when the
        text is shaped as it is. Only for runs in the typeface's own family: other faces have a
        small i there. The text to read and to report keeps its letters.

    >>> slot_letters("I THINK SO", (0,), crossbar="upper-slot")
    'I THiNK SO'
    """
    if crossbar not in PLAIN_SLOT:
        return None
    plain, barred = PLAIN_SLOT[crossbar], BARRED_SLOT[crossbar]
    drawn = list(text.replace(barred, plain))
    for at in crossbars:
        drawn[at] = barred
    return "".join(drawn)


def check_crossbar(typeface: Typeface, crossbar: str) -> None:
    """Refuse a source of the crossbar I that the typeface does not have.

    Args:
        typeface: The typeface asked for.
        crossbar: See `Habits`.

    Raises:
        FontError: When the feature leaves its I alone, or its second slot holds a small letter.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> check_crossbar(open_typeface("Grandstander"), "ss01")
    """
    if crossbar in ("auto", "none"):
        return
    regular = typeface.styled("regular")
    if crossbar in PLAIN_SLOT:
        if regular.x_height_em < SMALL * regular.cap_height_em:
            raise FontError(
                f"{typeface.family} has small letters: its i is no second capital I",
                advice="take auto or none, or a feature of the font for the crossbar I",
            )
    elif not _has_alternate(regular, crossbar):
        raise FontError(
            f"{typeface.family} has no other I in its feature {crossbar!r}",
            advice="take auto or none, or a feature that the font has",
        )


@lru_cache(maxsize=64)
def _has_alternate(face: Face, feature: str) -> bool:
    """Whether the feature changes the face's I."""
    glyphs = []
    for setting in (0, 1):
        buffer = latin_buffer("I")
        engine(face).shape(buffer, {feature: setting == 1})
        glyphs.append([info.codepoint for info in buffer.glyph_infos])
    return glyphs[0] != glyphs[1]
