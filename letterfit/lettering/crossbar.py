"""The crossbar I: English comics letter the pronoun with bars, every other I without.

A plain I elsewhere, a barred one for I, I'M, I'LL, I'D, I'VE (common practice, no source). Only
faces that are known to keep the barred I in an alternate set get it.
"""

import re

from letterfit.lettering.casing import base_language

CROSSBAR_FEATURE = {"Grandstander": "ss01"}
"""The OpenType feature that turns on the barred I, by family."""

_PRONOUN = re.compile(r"(?<![\w'’&])I(?![\w&])(?!['’](?!(?:m|ll|d|ve)(?!\w))\w)", re.IGNORECASE)


def pronouns(text: str, language: str) -> tuple[int, ...]:
    """Where the capital pronoun I stands.

    >>> pronouns("I THINK I'M IN. I-I'LL SINK", "en")
    (0, 8, 16, 18)
    """
    if "I" not in text or base_language(language) != "en":
        return ()
    return tuple(match.start() for match in _PRONOUN.finditer(text) if match[0] == "I")
