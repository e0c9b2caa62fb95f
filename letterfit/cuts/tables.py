"""Words that editors cut first, and words they do not touch: a small table for each language.

Common practice, no source; the classes are those of grammars (intensifiers, hedges, discourse
markers, complementisers). A language without a row is cut by its repeats, clauses and sentences
alone.
"""

from dataclasses import dataclass

_NONE: frozenset[str] = frozenset()


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


@dataclass(frozen=True, slots=True, kw_only=True)
class CutTable:
    """What may go first in one language, in lower case.

    Args:
        intensifiers: Strengthen and are not missed: "very", "really".
        hedges: Weaken: "perhaps", "quite".
        markers: Discourse markers before a comma: "well", "oh".
        phrases: Discourse markers and hedges of several words: "you know".
        vocatives: What a person is called but by name: "sir", "my lord".
        that_after: Words after which "that" opens a clause and can go.
        that: The complementisers that can go there.
        adverb_ending: How most adverbs of manner end; empty for none.
        no_adverbs: Words that end so and are none, or that carry the meaning.
        meaning: Negations and words of number, which go last.
        verbs: Finite verbs that go on with a clause after a comma.
        subordinators: Words that open a clause which cannot stand alone.
        joints: Words that open a clause or a phrase: one may not be left at an end.
        conjunctions: Words that join clauses: a sentence that opens with one has lost its head.
        subjects: Pronouns that are subjects: there is a clause where one is.
        openers: Words that join a sentence to the one before and are not missed.
        prepositions: Open a phrase that can go from the end of a clause, a noun coming after.
        articles: Words before a noun: "and the boots" is a phrase, "and nimble" is not.
        clitics: Endings of a verb run into its subject: "'ll".
    """

    intensifiers: frozenset[str] = _NONE
    hedges: frozenset[str] = _NONE
    markers: frozenset[str] = _NONE
    phrases: tuple[str, ...] = ()
    vocatives: tuple[str, ...] = ()
    that_after: frozenset[str] = _NONE
    that: frozenset[str] = _NONE
    adverb_ending: str = ""
    no_adverbs: frozenset[str] = _NONE
    meaning: frozenset[str] = _NONE
    verbs: frozenset[str] = _NONE
    joints: frozenset[str] = _NONE
    subordinators: frozenset[str] = _NONE
    conjunctions: frozenset[str] = _NONE
    subjects: frozenset[str] = _NONE
    clitics: tuple[str, ...] = ()
    openers: frozenset[str] = _NONE
    prepositions: frozenset[str] = _NONE
    articles: frozenset[str] = _NONE


CUT_TABLES: dict[str, CutTable] = {
    "en": CutTable(
        intensifiers=_words(
            "very really just quite rather truly utterly totally absolutely completely simply"
            " actually literally definitely certainly extremely awfully terribly"
        ),
        hedges=_words("perhaps maybe somehow somewhat probably possibly apparently basically"),
        markers=_words(
            "well oh ah ay aye hey look listen now so why say yes nay marry indeed come hm huh"
            " anyway honestly frankly okay ok right please alas"
        ),
        phrases=(
            "you know",
            "you see",
            "i mean",
            "i think",
            "i suppose",
            "i guess",
            "i tell you",
            "i pray you",
            "i say",
            "if you please",
            "if you ask me",
            "after all",
            "of course",
            "in fact",
            "at all",
            "to be honest",
            "as it were",
            "sort of",
            "kind of",
        ),
        vocatives=(
            "my good lord",
            "good my lord",
            "my dear lord",
            "my lord",
            "my lady",
            "my liege",
            "my friend",
            "my friends",
            "my dear",
            "my son",
            "my love",
            "good sir",
            "old thing",
            "old man",
            "old friend",
            "sir",
            "madam",
            "ma'am",
            "gentlemen",
            "friend",
            "friends",
            "girl",
            "boy",
            "lad",
            "lass",
            "captain",
            "doctor",
            "pilot",
        ),
        that_after=_words(
            "say says said think thinks thought know knows knew hope hopes hoped believe believes"
            " believed see sees saw sure glad sorry afraid swear swears swore tell tells told wish"
            " fear feel feels felt guess suppose suppose hear heard you me him her us them"
        ),
        that=_words("that"),
        adverb_ending="ly",
        no_adverbs=_words(
            "only early family fly reply july ugly holy likely lonely friendly lovely silly belly"
            " bully ally rally jelly italy apply supply imply rely melancholy hardly barely"
            " scarcely"
            " nearly almost daily weekly deadly lively elderly heavenly earthly costly worldly"
            " manly ghostly princely kingly folly lily hilly chilly jolly homely sickly unlikely"
            " curly woolly wily comely unmanly unholy goodly assembly anomaly doily sly ply"
        ),
        meaning=_words(
            "not no never none nothing nobody nowhere neither nor cannot without unless hardly"
            " barely scarcely only except but if one two three four five six seven eight nine ten"
            " eleven twelve twenty thirty forty fifty sixty hundred thousand million first second"
            " third half twice once"
        ),
        verbs=_words(
            "is are was were has have had will would shall should can could may might must do does"
            " did am be 's"
        ),
        conjunctions=_words("and or but nor than that which who whom whose because so"),
        subjects=_words("i you he she it we they there who"),
        openers=_words("and"),
        prepositions=_words(
            "in on at by from with into upon about before after until since like over under"
            " through between within beyond behind beneath beside across along against"
            " toward towards during than"
        ),
        articles=_words("the a an my your his her its our their this these those every"),
        clitics=("'s", "'re", "'ve", "'ll", "'d", "'m", "n't"),
        subordinators=_words(
            "that if when while as though although because since until unless where who which whose"
        ),
        joints=_words(
            "and or but because so if when while where that which who whom whose as than then to of"
            " in on at by for from with into upon about the a an my your his her its our their this"
            " these those before after until since though although like over under through between"
            " i you he she we they is are was were be been am has have had do does did will would"
            " shall should can could may might must"
        ),
    ),
    "fr": CutTable(
        intensifiers=_words("très vraiment tout simplement absolument complètement tellement trop"),
        hedges=_words("peut-être plutôt quelque probablement apparemment"),
        markers=_words("eh ben bon bah oh ah hé alors voyons enfin tiens allons oui dis"),
        phrases=(
            "tu sais",
            "vous savez",
            "tu vois",
            "vous voyez",
            "je crois",
            "en fait",
            "du tout",
        ),
        vocatives=(
            "monsieur",
            "madame",
            "mon ami",
            "mon vieux",
            "ma chère",
            "mon cher",
            "messieurs",
        ),
        adverb_ending="ment",
        no_adverbs=_words(
            "moment comment élément vêtement bâtiment document argument tourment serment"
            " gouvernement appartement mouvement sentiment monument aliment ciment"
        ),
        meaning=_words(
            "ne pas jamais rien personne aucun aucune ni non sans sauf que plus point un une deux"
            " trois quatre cinq six sept huit neuf dix onze douze vingt cent mille premier"
        ),
        openers=_words("et"),
        conjunctions=_words("et ou mais car que qui dont ni"),
        subjects=_words("je j tu il elle on nous vous ils elles ce c"),
        verbs=_words("est sont était a ont avait sera peut doit va fait"),
        joints=_words(
            "et ou mais car si quand où que qui dont de du des à au aux en dans sur par pour"
            " avec le"
            " la les un une mon ma mes ton ta tes son sa ses notre votre leur ce cette ces je tu il"
            " elle on nous vous ils elles est sont"
        ),
    ),
    "de": CutTable(
        intensifiers=_words("sehr wirklich ganz ziemlich völlig total absolut einfach eben halt"),
        hedges=_words("vielleicht wohl irgendwie eigentlich wahrscheinlich doch mal ja"),
        markers=_words("also na ach oh nun hör schau komm tja"),
        phrases=("weißt du", "wissen sie", "ich meine", "ich glaube", "sozusagen"),
        vocatives=("mein herr", "mein freund", "meine liebe", "mein lieber", "alter"),
        meaning=_words(
            "nicht kein keine keinen keiner nie niemals nichts niemand ohne außer nur nein ein eine"
            " zwei drei vier fünf sechs sieben acht neun zehn elf zwölf zwanzig hundert tausend"
        ),
        openers=_words("und"),
        conjunctions=_words("und oder aber denn dass weil"),
        subjects=_words("ich du er sie es wir ihr man"),
        joints=_words(
            "und oder aber denn weil wenn als dass ob der die das den dem des ein eine einen einem"
            " mein dein sein ihr unser in im an am auf aus bei mit nach von vom zu zum zur für um"
            " ich du er sie es wir ist sind war hat haben wird"
        ),
    ),
}
"""By the first part of a language tag. To add one: write its words in lower case, one row."""


def cut_table(language: str) -> CutTable:
    """The table of a language; an empty one where there is none.

    >>> "very" in cut_table("en-GB").intensifiers, cut_table("sv") == CutTable()
    (True, True)
    """
    return CUT_TABLES.get(language.replace("_", "-").split("-")[0].casefold(), CutTable())
