"""Where the columns of a vertical text end: between phrases, as letterers of Japanese break them.

Kinsoku (what may not begin or end a line) is Unicode's, strict. Beyond it, a column in a balloon
ends where a phrase does, a noun with its particles or a verb with its endings, so that no word is
torn apart (common practice, no source); only a phrase too long for a column is broken inside.
Phrases are ICU's (UTS #35, `lw=phrase`). They count as the text's words, which has no spaces.
"""

from bisect import bisect_left
from dataclasses import replace

from letterfit.lettering.breaks.breaks import phrase_ends, ruled_breaks
from letterfit.lettering.breaks.pieces import Pieces, cut_pieces
from letterfit.lettering.breaks.rules import INSIDE_PHRASES, BreakRules
from letterfit.lettering.style.casing import base_language
from letterfit.lettering.vertical.orientation import orientation

LONGEST_PHRASE = 10
"""Characters. Longer phrases may be broken inside."""

CLOSING = "」』）】〕》〉"

COLUMN_LANGUAGES = frozenset({"ja", "ko", "zh"})


def column_language(language: str) -> str:
    """The language that a vertical text is broken and shaped by: Japanese, if it is none of CJK.

    >>> column_language("en"), column_language("zh-Hant")
    ('ja', 'zh-Hant')
    """
    return language if base_language(language) in COLUMN_LANGUAGES else "ja"


def column_pieces(text: str, *, language: str, rules: BreakRules) -> Pieces:
    r"""Cut a text where its columns may end.

    Args:
        text: As set; "\n" is a forced end.
        language: BCP 47 tag of a language of COLUMN_LANGUAGES.
        rules: The rules on top of Unicode's; without "inside_phrases" and "short_phrases" columns
            end anywhere.

    >>> pieces = column_pieces("潮は変わったのに、誰も来ない。", language="ja", rules=BreakRules())
    >>> [pieces.text[start:end] for start, end in pieces.stretches]
    ['潮は', '変わったのに、', '誰も', '来ない。']
    """
    breaks = ruled_breaks(text, language, rules)
    found = {at for at in phrase_ends(text, language) if not _goes_on(text, at)}
    ends = sorted({0, *found, len(text)})
    if INSIDE_PHRASES.name in rules:
        breaks = tuple(each for each in breaks if each.forced or _ends_column(each.at, ends))
    pieces = cut_pieces(text, breaks)
    begun = [
        sum(any(map(str.isalnum, text[a:b])) for a, b in _phrases(ends, start, end))
        for start, end in pieces.stretches
    ]
    return replace(pieces, counts=begun)


def _ends_column(at: int, ends: list[int]) -> bool:
    """Whether a column may end there: a phrase does, or is too long."""
    after = bisect_left(ends, at)
    return ends[after] == at or ends[after] - ends[after - 1] > LONGEST_PHRASE


def _goes_on(text: str, at: int) -> bool:
    """Whether a phrase goes on for a letterer though ICU ends it.

    A particle goes with the quotation before it, and Latin words with a space between are one name.
    """
    before, after = text[at - 1 : at], text[at : at + 1]
    if before in CLOSING and before:
        return "\u3041" <= after <= "\u3096"
    latin = text[:at].rstrip(" ")[-1:] + after
    return before == " " and after.isalnum() and {orientation(char) for char in latin} == {"R"}


def _phrases(ends: list[int], start: int, end: int) -> list[tuple[int, int]]:
    """The phrases that begin in a stretch of the text."""
    first, last = bisect_left(ends, start), bisect_left(ends, end)
    return [(ends[k], ends[k + 1]) for k in range(first, last)]
