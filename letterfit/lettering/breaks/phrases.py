"""Words by language that lean on their neighbours, or that open a clause: what a line breaks near.

The lists are short on purpose: the commonest function words of each language, from common
knowledge of these languages (no source; that a line ends on no one-letter preposition is also a
rule of Czech, Polish and Slovak typography). A language without a list is treated as English.
"""

import unicodedata
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Phrases:
    """Function words, in lower case.

    Args:
        weak_ends: Words that a line should not end on: articles, prepositions, "I".
        openers: Words that open a clause: a line may well begin with one.
        leaners: Words that a line should not begin with: they lean on the word before them.
    """

    weak_ends: frozenset[str]
    openers: frozenset[str]
    leaners: frozenset[str] = frozenset()


def _words(*lists: str) -> frozenset[str]:
    words = [word for listed in lists for word in listed.split()]
    return frozenset(words) | {_as_in_capitals(word) for word in words}


def _as_in_capitals(word: str) -> str:
    """Greek capitals carry no accent, but for "ή", or; in other languages the word as it is."""
    if len(word) == 1 or not "\u0370" <= max(word) <= "\u03ff":
        return word
    return "".join(c for c in unicodedata.normalize("NFD", word) if not unicodedata.combining(c))


def _phrases(weak_ends: str, openers: str, leaners: str = "") -> Phrases:
    return Phrases(_words(weak_ends), _words(openers), _words(leaners))


_BOKMAL = _phrases(
    "en et ei den det de i på av til fra med om ved for jeg min din sin",
    "og men eller så at som hvis når da fordi mens før",
)
_CZECH = _phrases(
    "a i k o s u v z ke se ve ze na do od po za pro při bez pod nad",
    "ale nebo že který která když protože aby jestli než",
)

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
        "un una el la lo los las de del a al en por para con mi tu su mis tus sus yo no",
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
        "een de het in op aan te van voor met bij mijn jouw zijn haar ons ik t n",
        "en maar of want dat die omdat als toen wie hoe terwijl voordat",
    ),
    "sv": _phrases(
        "en ett den det de i på av till från med om vid för jag min din sin",
        "och men eller så att som när då eftersom medan innan",
    ),
    "da": _phrases(
        "en et den det de i på af til fra med om ved for jeg min din sin",
        "og men eller så at som hvis når da fordi mens før",
    ),
    "nb": _BOKMAL,
    "no": _BOKMAL,
    "nn": _BOKMAL,
    "cs": _CZECH,
    "sk": _phrases(
        "a i k o s u v z ku so vo zo na do od po za pre pri bez pod nad",
        "ale alebo že ktorý ktorá keď pretože aby či než",
        "sa si by",
    ),
    "pl": _phrases(
        "a i o u w z we ze na do od po za dla przy bez pod nad nie",
        "ale lub albo że który która kiedy gdy bo żeby czy niż",
        "się",
    ),
    "ru": _phrases(
        "а в во и к ко о об с со у на до от по за для при без под над не ни",
        "но или что который которая когда если потому чтобы пока чем",
        "бы б ли ль же ж",
    ),
    "uk": _phrases(
        "а в у і й з із зі к о об на до від по за для при без під над не ні",
        "але або чи що який яка коли якщо бо щоб поки ніж",
        "б би ж же",
    ),
    "hu": _phrases(
        "a az egy nem",
        "és de vagy hogy ha mert amikor mint aki ami",
        "is",
    ),
    "el": _phrases(
        "ο η το οι τα του της των τον την τους τις στο στη στον στην σε από με για να θα δεν μη "
        "ένα μια ένας",
        "και αλλά ή που ότι αν όταν γιατί πως όμως",
    ),
    "ca": _phrases(
        "un una el la els les de del dels a al als en per amb meu seu jo no",
        "i però o que qui si quan com perquè mentre",
    ),
    "ro": _phrases(
        "un o de la în pe cu din spre pentru nu să eu",
        "și dar sau că care când dacă fiindcă",
    ),
    "tr": _phrases("bir bu şu o", "ve ama veya çünkü ki eğer", "da de mi mı mu mü"),
    "fi": _phrases("ei", "ja mutta tai että joka jos kun koska kuin"),
}
"""By language; dialogue in capitals is compared in lower case."""

TITLES = _words(
    "mr mrs ms dr st prof capt cpt sgt cpl pvt lt maj col cmdr cdr adm gen rev hon insp",  # English
    "mm mme mlle",  # French
    "sr sra srta dra",  # Spanish, Portuguese
    "hr sig dott dhr mevr",  # German, Italian, Dutch
)
"""Abbreviated titles that stand before a name, without their full stop."""

BARE_TITLES = _words("mr mrs ms dr mme mlle")
"""Titles that are also typed without a full stop."""

NAME_ENDS = _words("jr jnr esq ii iii")
"""What stands after a name and belongs to it, without its full stop."""

NUMBER_SIGNS = _words("no. nr. nº n° n.º h № # § p. vol. ch. núm. č.")
"""What stands before a number and belongs to it, in lower case."""

UNITS = _words(
    "% ‰ ° °c °f km m cm mm kg g t l h s min ft lb lbs oz mph kn am pm a.m p.m € $ £ ",
    "o'clock o’clock uhr км м см кг г ч мин",
)
"""What follows a number and belongs to it, in lower case."""
