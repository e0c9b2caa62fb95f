"""Folding: two spellings of one word become the same key, for matching only.

Text that is kept is never folded; it is NFC and otherwise as typed (see `letterfit.script.lines`).
"""

import re
import unicodedata

_LATIN_MARKS = re.compile("[\u0300-\u036f]")  # not the kana voicing marks, which tell words apart
_APOSTROPHES = str.maketrans({"’": "'", "‘": "'", "ʼ": "'", "´": "'", "`": "'"})

LONGEST = 200
"""Letters of a word or name; nothing longer is a key of any table."""


def fold(text: str) -> str:
    """The text without case, accents, widths and kinds of apostrophe.

    Args:
        text: A short piece of a line (a word, a name). Only the case of a text longer than
            LONGEST is folded: sorting hundreds of accents piled on one letter takes too long.

    >>> fold("RÉCITATIF"), fold("ＰＡＧＥ　３"), fold("Cont’d")
    ('recitatif', 'page 3', "cont'd")
    """
    if text.isascii() or len(text) > LONGEST:
        return " ".join(text.translate(_APOSTROPHES).casefold().split())
    spread = unicodedata.normalize("NFKD", text.translate(_APOSTROPHES).casefold())
    bare = unicodedata.normalize("NFC", _LATIN_MARKS.sub("", spread))
    return " ".join(bare.split())
