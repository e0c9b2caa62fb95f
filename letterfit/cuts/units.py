"""What an editor would think of taking out, and how much he would mind: words, phrases, clauses.

Costs are ratios, about 1 for a word that nobody misses (common practice, no source). There is no
grammar behind them, only marks, tables and places in the sentence.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from letterfit.cuts.names import name_runs
from letterfit.cuts.sentences import sentence_ranges, sentence_starts
from letterfit.cuts.tables import CutTable, cut_table
from letterfit.cuts.tokens import Token

NAME, MEANING, JOINT = 9.0, 6.0, 1.5
"""What a name, a negation or number, a torn joint add to a cut."""

MOST_PARTS = 6
"""Parts between marks, and sentences, that go together at most."""

LEFT_BEFORE, MOST_TAIL = 3, 8
"""Words that stay before a phrase at the end of a clause at least; and how many it has at most."""

PAIRING = ("between", "both", "either")
"""Words that want two nouns: "between the gate and the weir"."""

SHORT_SENTENCE = 4
"""A sentence of no more words is about the number or the negation that it holds."""

FILLER = 2.6
"""Words and phrases of at most this cost go before clauses do, where there are enough of them."""

THAT_REACH = 3
"""How many words before "that" may hold the verb that it follows: "told you twice that"."""

LATE = 8.0
"""A cut of more than this is shown after all others."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A run of tokens that may go together.

    Args:
        first: Its first token.
        stop: One past its last.
        kind: What it is: "intensifier", "vocative", "clause".
        cost: How much an editor would mind, a ratio.
        words: How many words it has.
    """

    first: int
    stop: int
    kind: str
    cost: float
    words: int

    @property
    def is_filler(self) -> bool:
        """Whether nobody misses it: a word or two of the tables that bring no meaning along."""
        return (
            self.kind not in ("clause", "phrase", "sentence", "sentences") and self.cost <= FILLER
        )

    @property
    def tokens(self) -> range:
        """The tokens it takes out."""
        return range(self.first, self.stop)


@dataclass(slots=True)
class _Text:
    tokens: Sequence[Token]
    table: CutTable
    names: Sequence[str]
    starts: tuple[bool, ...] = ()
    bare: tuple[str, ...] = ()
    in_name: dict[int, range] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.starts = sentence_starts(self.tokens)
        self.bare = tuple(token.bare for token in self.tokens)
        runs = name_runs(self.tokens, names=self.names)
        self.in_name = {index: run for run in runs for index in run}

    def unit(self, first: int, stop: int, kind: str, cost: float) -> Unit:
        """The unit, dearer for what it takes along; a name torn is refused by the checker."""
        inner = range(first, stop)
        touched = {self.in_name[k] for k in inner if k in self.in_name}
        meant = (
            [w for w in self.bare[first:stop] if self._carries_meaning(w)]
            if kind != "repeat"
            else []
        )
        terse = stop - first <= SHORT_SENTENCE
        cost += MEANING * len(meant) if kind != "sentence" or terse else 2.0 * min(len(meant), 1)
        if kind != "vocative":
            cost += (NAME if kind not in ("sentence", "clause") else 2.0) * len(touched)
        return Unit(first, stop, kind, cost, sum(self.tokens[k].words for k in inner))

    def _carries_meaning(self, word: str) -> bool:
        digits = any(char.isdigit() for char in word)
        return digits or word in self.table.meaning or word.endswith("n't")


def units_of(
    tokens: Sequence[Token], *, language: str = "en", names: Sequence[str] = ()
) -> tuple[Unit, ...]:
    """All that may go, what is least missed first.

    Args:
        tokens: The text.
        language: BCP 47 tag: which table holds.
        names: The speakers of the script.

    >>> from letterfit.cuts.tokens import tokens_of
    >>> tokens = tokens_of("Well, I really think that it holds, old thing.")
    >>> [(unit.kind, unit.first) for unit in units_of(tokens)][:4]
    [('discourse marker', 0), ('intensifier', 2), ('complementiser', 4), ('vocative', 7)]
    """
    text = _Text(tokens, cut_table(language), names)
    best: dict[tuple[int, int], Unit] = {}
    for unit in _all(text):
        key = (unit.first, unit.stop)
        if unit.stop - unit.first < len(tokens) and (key not in best or unit.cost < best[key].cost):
            best[key] = unit
    return tuple(sorted(best.values(), key=lambda u: (u.cost, u.first, u.stop)))


def _all(text: _Text) -> Iterator[Unit]:
    yield from _single_words(text)
    yield from _phrases(text)
    yield from _vocatives(text)
    yield from _repeats(text)
    yield from _tails(text)
    yield from _clauses(text)
    yield from _sentences(text)


def _single_words(text: _Text) -> Iterator[Unit]:
    table, tokens = text.table, text.tokens
    for k, token in enumerate(tokens):
        word, after = token.bare, tokens[k + 1].bare if k + 1 < len(tokens) else ""
        before = tokens[k - 1] if k else None
        alone = text.starts[k] and token.ends_sentence
        if word in table.markers and (token.ending == "," or alone) and text.starts[k]:
            yield text.unit(k, k + 1, "discourse marker", 1.0)
        elif word in table.openers and text.starts[k] and not token.ending and _goes_on(text, k):
            yield text.unit(k, k + 1, "discourse marker", 1.3)
        elif word in table.intensifiers and not (before and _denies(before.bare, table)):
            held = (
                not after or token.ending or (after in table.joints and word in ("just", "rather"))
            )
            yield text.unit(k, k + 1, "intensifier", 2.5 if held else 1.0)
        elif word in table.hedges:
            yield text.unit(k, k + 1, "hedge", 1.4)
        elif word in table.that and not token.ending and _opens_clause(after):
            near = tokens[max(k - THAT_REACH, 0) : k]
            spoken = any(one.bare in table.that_after for one in near)
            if spoken and not any(one.ending for one in near):
                yield text.unit(k, k + 1, "complementiser", 1.1)
        elif _is_adverb(word, table) and not text.starts[k]:
            yield text.unit(k, k + 1, "adverb", 2.0)


def _goes_on(text: _Text, first: int) -> bool:
    """Whether a few words more come in the sentence that a word opens."""
    rest = text.tokens[first + 1 : first + LEFT_BEFORE]
    return len(rest) == LEFT_BEFORE - 1 and not any(token.ends_sentence for token in rest)


def _denies(word: str, table: CutTable) -> bool:
    """Whether the word before makes an intensifier carry the meaning: "not very"."""
    return word in table.meaning or word.endswith("n't") or word in ("too", "how", "so", "the")


def _opens_clause(word: str) -> bool:
    """Whether a clause goes on with this word (English: a pronoun or an article)."""
    openers = "i you he she it we they the my your his her our their this these there nobody no a"
    return word.split("'", maxsplit=1)[0] in openers.split()


def _is_adverb(word: str, table: CutTable) -> bool:
    ending = table.adverb_ending
    return (
        bool(ending)
        and word.endswith(ending)
        and len(word) > len(ending) + 2
        and word not in table.no_adverbs
    )


def _phrases(text: _Text) -> Iterator[Unit]:
    """Discourse markers of several words, where marks part them from the sentence."""
    for first, stop in _found(text, text.table.phrases):
        parted = text.tokens[stop - 1].ending or stop == len(text.tokens)
        opens = text.starts[first] or text.tokens[first - 1].ending
        if parted and (opens or text.tokens[stop - 1].bare in ("all", "of")):
            yield text.unit(first, stop, "discourse marker", 1.2)


def _vocatives(text: _Text) -> Iterator[Unit]:
    """What a person is called, between commas: by a title, or by name."""
    runs = [(run.start, run.stop) for run in dict.fromkeys(text.in_name.values())]
    for first, stop in (*_found(text, text.table.vocatives), *runs):
        tokens = text.tokens
        ended = tokens[stop - 1].ending
        opens, ends = text.starts[first], tokens[stop - 1].ends_sentence or stop == len(tokens)
        after_comma = bool(first) and tokens[first - 1].ending == ","
        if (opens and ended == "," and not ends) or (after_comma and (ends or ended == ",")):
            named = first in text.in_name
            yield text.unit(first, stop, "vocative", (1.6 if named else 1.0) + 0.1 * (stop - first))


def _found(text: _Text, phrases: Sequence[str]) -> Iterator[tuple[int, int]]:
    bare = text.bare
    for phrase in phrases:
        words = tuple(phrase.split())
        for k in range(len(bare) - len(words) + 1):
            inner = text.tokens[k : k + len(words) - 1]
            if bare[k : k + len(words)] == words and not any(token.ending for token in inner):
                yield k, k + len(words)


def _repeats(text: _Text) -> Iterator[Unit]:
    """A word or phrase said twice running: the first is taken out, its mark with it.

    One that ends a sentence which says more is not said twice: "not I. I only turn the wheel".
    """
    bare = text.bare
    begins = {first for first, _ in sentence_ranges(text.tokens)}
    for size in (1, 2, 3, 4):
        for k in range(len(bare) - 2 * size + 1):
            if k + size in begins and k not in begins:
                continue
            if bare[k : k + size] == bare[k + size : k + 2 * size] and all(bare[k : k + size]):
                yield text.unit(k, k + size, "repeat", 1.3 * size)


def _tails(text: _Text) -> Iterator[Unit]:
    """Phrases at the end of a clause: "in the dark", "and the boots on your feet"."""
    table, bare, tokens = text.table, text.bare, text.tokens
    begin = 0
    for stop in range(1, len(tokens) + 1):
        if not tokens[stop - 1].ending:
            continue
        paired = any(word in PAIRING for word in bare[begin:stop])
        for first in range(begin + LEFT_BEFORE, stop - 1):
            inner = bare[first:stop]
            opens = inner[0] in table.prepositions or (
                inner[0] in table.openers and inner[1] in table.articles and not paired
            )
            whole = bare[first - 1] not in table.joints and inner[-1] not in table.joints
            told = any(word in table.verbs or word in table.subordinators for word in inner)
            spoken = any(word.split("'", maxsplit=1)[0] in table.subjects for word in inner)
            if opens and whole and not told and not spoken and len(inner) <= MOST_TAIL:
                yield text.unit(first, stop, "phrase", 2.6 + 0.4 * len(inner))
        begin = stop


def _clauses(text: _Text) -> Iterator[Unit]:
    """Runs between marks inside a sentence: within one part of it, or whole parts.

    A semicolon, a colon or a dash ends a part.
    """
    for first, stop in sentence_ranges(text.tokens):
        cuts = [k + 1 for k in range(first, stop - 1) if text.tokens[k].ending]
        edges = [first, *cuts, stop]
        strong = {first, stop, *(k for k in cuts if text.tokens[k - 1].ending[-1] in ";:—–-")}
        for a, begin in enumerate(edges):
            for end in edges[a + 1 : a + 1 + MOST_PARTS]:
                crossed = any(begin < k < end for k in strong)
                if (begin, end) == (first, stop) or (crossed and not {begin, end} <= strong):
                    continue
                yield _clause(text, begin, end, (first, stop))


def _clause(text: _Text, first: int, stop: int, sentence: tuple[int, int]) -> Unit:
    """A clause: dearer at the head of a sentence, and where it takes a subject or a predicate."""
    table, bare, size = text.table, text.bare, stop - first
    after = bare[stop] if stop < sentence[1] else ""
    cost = 2.0 + 0.35 * size
    head = sentence[0] + (bare[sentence[0]] in table.markers)
    if first <= head:
        cost += 3.0 * JOINT + (JOINT if after in table.joints else 0.0)
    elif bare[first] not in table.joints and stop < sentence[1]:
        cost += JOINT
    if bare[first] in table.verbs or after in table.verbs:
        cost += 4.0 * JOINT
    if first > sentence[0] and bare[first - 1] in table.joints and stop == sentence[1]:
        cost += 4.0 * JOINT  # a joint would be left at the end
    left = stop if first <= head else head
    if left < sentence[1] and bare[left] in table.subordinators and bare[first] not in table.joints:
        cost += 4.0 * JOINT  # what is left may be no sentence
    if sentence[1] - head - size < 3:
        cost += 2.0 * JOINT
    return text.unit(first, stop, "clause", cost)


def _sentences(text: _Text) -> Iterator[Unit]:
    """Whole sentences, and runs of them."""
    ranges = list(sentence_ranges(text.tokens))
    for a in range(len(ranges)):
        for b in range(a, min(a + MOST_PARTS, len(ranges))):
            first, stop = ranges[a][0], ranges[b][1]
            size = stop - first
            unit = text.unit(first, stop, "sentence", 1.5 + 0.45 * size)
            yield replace(unit, kind="sentence" if a == b else "sentences")
