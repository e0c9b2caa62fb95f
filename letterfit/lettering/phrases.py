"""Words by language that lean on the next word, or that open a clause: what a line breaks near.

The lists are short on purpose: the commonest function words of each language, from common
knowledge of these languages (no source). A language without a list is treated as English.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Phrases:
    """Function words, in lower case.

    Args:
        weak_ends: Words that a line should not end on: articles, prepositions, "I".
        openers: Words that open a clause: a line may well begin with one.
    """

    weak_ends: frozenset[str]
    openers: frozenset[str]


def _words(*lists: str) -> frozenset[str]:
    return frozenset(word for words in lists for word in words.split())


def _phrases(weak_ends: str, openers: str) -> Phrases:
    return Phrases(_words(weak_ends), _words(openers))


PHRASES: dict[str, Phrases] = {
    "en": _phrases(
        "a an the i of to in on at by for from with my your his her its our their no",
        "and but or nor so yet that which who because if when while until though unless before "
        "after where than as",
    ),
    "fr": _phrases(
        "un une le la les des du de d' l' à au aux en dans sur par pour mon ma mes ton ta tes son "
        "sa ses ce cet cette ces je tu il ne",
        "et mais ou donc car que qui si quand comme parce lorsque puisque avant après",
    ),
    "es": _phrases(
        "un una el la los las de del a al en por para con mi tu su mis tus sus yo no",
        "y e pero o u que quien si cuando como porque aunque mientras",
    ),
    "de": _phrases(
        "ein eine einen einem einer der die das den dem des in im an am auf zu zum zur von vom mit "
        "für mein dein sein ihr ich",
        "und aber oder denn dass weil wenn ob als wie sondern doch bevor nachdem",
    ),
    "it": _phrases(
        "un uno una il lo la i gli le di del della dei a al alla in nel nella da dal su per con "
        "mio mia tuo tua suo sua io non",
        "e ed ma o che chi se quando come perché mentre però dove",
    ),
    "pt": _phrases(
        "um uma o a os as de do da dos das em no na a ao à por para com meu minha seu sua eu não",
        "e mas ou que quem se quando como porque enquanto porém onde",
    ),
    "nl": _phrases(
        "een de het in op aan te van voor met bij mijn jouw zijn haar ons ik",
        "en maar of want dat die omdat als toen wie hoe terwijl voordat",
    ),
}
"""By language; dialogue in capitals is compared in lower case."""

TITLES = _words(
    "mr mrs ms dr st prof capt sgt lt col gen rev",  # English
    "mm mme mlle",  # French
    "sr sra srta",  # Spanish, Portuguese
    "hr sig dott dhr mevr",  # German, Italian, Dutch
)
"""Abbreviated titles that stand before a name, without their full stop."""

BARE_TITLES = _words("mr mrs ms dr mme mlle")
"""Titles that are also typed without a full stop."""

UNITS = _words("% ‰ km m cm mm kg g t l h s min ft lb lbs oz mph kn am pm a.m p.m € $ £")
"""What follows a number and belongs to it, in lower case."""
