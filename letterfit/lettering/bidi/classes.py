"""Bidirectional classes of characters by Unicode 17, whichever Unicode Python itself knows.

Python's unicodedata is older (Python 3.11 has Unicode 14): what was assigned or changed since then,
and what unassigned characters count as, stands here. Sources: Unicode Character Database 17.0,
DerivedBidiClass.txt (its @missing lines too) and BidiBrackets.txt.
"""

import re
import unicodedata
from bisect import bisect_right
from functools import lru_cache

_NAMES = "L R AL EN ES ET AN CS NSM BN B S WS ON LRE RLE LRO RLO PDF LRI RLI FSI PDI"
LETTERS = dict(zip(_NAMES.split(), "LRAESTNCMXBGWOlropdijkq", strict=True))
"""A letter for each class, small for explicit formatting: rules become patterns over letters."""

PLAIN = re.compile(
    "[\0-\u058f\u0900-\u200e\u2010-\u2029\u202f-\u2065\u206a-\ufb1c\ufe00-\ufe6f\uff00-\uffef\U0001f000-\U0001faff]*"
)
"""Text without right-to-left letters, Arabic numbers or explicit formatting."""

_LATE = """
NSM: 0897 0ECE 10D69-10D6D 10EFC-10EFF 11241 113BB-113C0 113CE 113D0 113D2 113E1-113E2
11F00-11F01 11F36-11F3A 11F40 11F42 11F5A 13440 13447-13455 1611E-16129 1612D-1612F 1E08F
1E4EC-1E4EF 1E5EE-1E5EF
BN: 2065 FFF0-FFF8 E0000 E0002-E001F E0080-E00FF E01F0-E0FFF
ON: 2427-2429 2FFC-2FFF 31E4-31E5 31EF 10D6E 1CC00-1CCD5 1CD00-1CEB3 1D6C1 1D6FB 1D735 1D76F
1D7A9 1F6DC 1F774-1F776 1F77B-1F77F 1F7D9 1F8B2-1F8BB 1F8C0-1F8C1 1FA75-1FA77 1FA87-1FA89
1FA8F 1FAAD-1FAAF 1FABB-1FABF 1FAC6 1FACE-1FACF 1FADA-1FADC 1FADF 1FAE8-1FAE9 1FAF7-1FAF8
1FBCB-1FBEF
AN: 10D40-10D49
L: 1171E
EN: 1CCF0-1CCF9
"""
"""Assigned or changed after Unicode 14, where the block's default does not say so already."""

_UNASSIGNED = """
R: 0590-05FF 07C0-085F FB1D-FB4F 10800-10CFF 10D40-10EBF 10F00-10F2F 10F70-10FFF 1E800-1EC6F
1ECC0-1ECFF 1ED50-1EDFF 1EF00-1EFFF
AL: 0600-07BF 0860-08FF FB50-FDCF FDF0-FDFF FE70-FEFF 10D00-10D3F 10EC0-10EFF 10F30-10F6F
1EC70-1ECBF 1ED00-1ED4F 1EE00-1EEFF
ET: 20A0-20CF
"""
"""What an unassigned character counts as by its block; elsewhere L, noncharacters BN."""

_BRACKETS = """
0028:0029 005B:005D 007B:007D 0F3A:0F3B 0F3C:0F3D 169B:169C 2045:2046 207D:207E 208D:208E
2308:2309 230A:230B 2329:232A 2768:2769 276A:276B 276C:276D 276E:276F 2770:2771 2772:2773
2774:2775 27C5:27C6 27E6:27E7 27E8:27E9 27EA:27EB 27EC:27ED 27EE:27EF 2983:2984 2985:2986
2987:2988 2989:298A 298B:298C 298D:2990 298F:298E 2991:2992 2993:2994 2995:2996 2997:2998
29D8:29D9 29DA:29DB 29FC:29FD 2E22:2E23 2E24:2E25 2E26:2E27 2E28:2E29 2E55:2E56 2E57:2E58
2E59:2E5A 2E5B:2E5C 3008:3009 300A:300B 300C:300D 300E:300F 3010:3011 3014:3015 3016:3017
3018:3019 301A:301B FE59:FE5A FE5B:FE5C FE5D:FE5E FF08:FF09 FF3B:FF3D FF5B:FF5D FF5F:FF60
FF62:FF63
"""


def _ranges(table: str) -> list[tuple[int, int, str]]:
    """A table's rows as (first, last, class), in order."""
    rows: list[tuple[int, int, str]] = []
    name = ""
    for word in table.split():
        if word.endswith(":"):
            name = word[:-1]
        else:
            first, _, last = word.partition("-")
            rows.append((int(first, 16), int(last or first, 16), name))
    return sorted(rows)


_LATE_ROWS = _ranges(_LATE)
_UNASSIGNED_ROWS = _ranges(_UNASSIGNED)


def _look_up(code: int, rows: list[tuple[int, int, str]]) -> str:
    """The class that a table gives; "" when it gives none."""
    first, last, name = rows[max(0, bisect_right(rows, (code, 0x110000)) - 1)]
    return name if first <= code <= last else ""


@lru_cache(maxsize=16384)
def bidi_letter(char: str) -> str:
    """The letter (see `LETTERS`) of a character's Bidi_Class.

    >>> [bidi_letter(char) for char in "aא(1\u2067"]
    ['L', 'R', 'O', 'E', 'j']
    """
    code = ord(char)
    return LETTERS[_look_up(code, _LATE_ROWS) or unicodedata.bidirectional(char) or _default(code)]


def _default(code: int) -> str:
    if 0xFDD0 <= code <= 0xFDEF or code & 0xFFFE == 0xFFFE:
        return "BN"
    return _look_up(code, _UNASSIGNED_ROWS) or "L"


def bidi_letters(text: str) -> str:
    """The letters of all characters of a text."""
    return "".join(map(bidi_letter, text))


def _closers() -> dict[str, str]:
    pairs = [pair.split(":") for pair in _BRACKETS.split()]
    return {chr(int(opening, 16)): chr(int(closing, 16)) for opening, closing in pairs}


CANONICAL = {"\u232a": "\u3009"}
"""The one closing bracket that is canonically equivalent to another."""

CLOSERS = {opening: CANONICAL.get(closing, closing) for opening, closing in _closers().items()}
"""The closing bracket, in canonical form, that pairs with each opening one."""

BRACKET = re.compile("[" + re.escape("".join([*_closers().keys(), *_closers().values()])) + "]")
"""Any paired bracket."""
