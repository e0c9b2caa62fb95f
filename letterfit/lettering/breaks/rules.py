"""Break rules: which rules of comics text are on, and what the breaks they price cost."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, fields
from functools import lru_cache
from numbers import Real
from types import MappingProxyType
from typing import Literal

from letterfit.errors import FontError
from letterfit.lettering.breaks import places
from letterfit.lettering.breaks.prices import PRICED, BreakPrices

Kind = Literal["allowed", "forbidden", "price"]
Japanese = Literal["strict", "normal", "loose"]

JAPANESE: tuple[Japanese, ...] = ("strict", "normal", "loose")

Place = Callable[[str, str], Iterable[int]]
"""From a text and its base language to offsets."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of comics text.

    Args:
        name: What `BreakRules(without=...)` calls it.
        kind: "allowed" adds breaks that Unicode does not have, "forbidden" takes breaks away,
            "price" says what a break costs.
        says: What it says, in one line.
        places: The offsets that it allows or forbids; None for a price.
        marks: A text with none of these has nothing for it; "" stands for what is not ASCII.
    """

    name: str
    kind: Kind
    says: str
    places: Place | None = None
    marks: tuple[str, ...] = ()


def _placed(kind: Kind, *functions: Place) -> tuple[Rule, ...]:
    return tuple(
        Rule(name, kind, (f.__doc__ or "").strip().partition("\n")[0], f, places.MARKS[name])
        for f in functions
        for name in [f.__name__]
    )


INSIDE_PHRASES = Rule(
    "inside_phrases", "price", "Inside a phrase of Japanese, or a word of Chinese or Korean."
)
"""Its places come from ICU's dictionaries: `icu.phrase_ends`."""

_TABLE = (
    *_placed("allowed", places.after_dots, places.after_dashes, places.before_leading_dots),
    *_placed(
        "forbidden",
        places.clusters,
        places.short_phrases,
        places.leading_dots,
        places.dots_alone,
        places.stutters,
        places.one_letter_parts,
        places.before_dashes,
        places.after_first_dash,
        places.after_opening_dashes,
        places.wide_digits,
        places.number_ranges,
        places.number_groups,
        places.curses,
        places.notes,
        places.french_spaces,
    ),
    INSIDE_PHRASES,
    *(Rule(priced.name, "price", priced.says) for priced in PRICED),
)

RULES: Mapping[str, Rule] = MappingProxyType({rule.name: rule for rule in _TABLE})
"""Every rule by name, in the order in which they are applied."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakRules:
    """How the lines of comics text may break, on top of Unicode's rules.

    Args:
        without: Names of rules that are off, of those that the error for a wrong one lists.
        prices: What the breaks cost.
        japanese: What may begin a line of Japanese (CSS Text 3, "line-break"; UTS #35, "lb"):
            "strict" keeps small kana and the long-vowel mark off it, "normal" lets them stand
            there, "loose" also iteration marks and some punctuation. Strict is the default: a line
            of a balloon holds few characters, and one that begins with a small kana is read wrong
            before it is read right.
        phrases: Whether Japanese breaks between phrases and Korean between words only (UTS #35,
            "lw=phrase"), however long they are. Else the rules "short_phrases" and
            "inside_phrases" keep short ones whole and let long ones break at a price: letterers
            break between phrases, but a narrow balloon may leave them no choice.
        hyphenate: Whether words are hyphenated by the rules of the text's language, all languages
            but English.
        hyphenate_english: The same for English, which letterers never hyphenate.
        allowed: The rules that add breaks and are on; follows from `without`.
        forbidden: The rules that take breaks away and are on; follows from `without`.
        all_placed: Whether all that allow or forbid are on.
        priced: The price of a break by the price rules that hold for it, one bit each.

    Raises:
        FontError: When a rule or a way of breaking has no such name, or a price is no number >= 0.

    >>> rules = BreakRules(without=("notes",), prices=BreakPrices(compound=0.2))
    >>> "notes" in rules, "stutters" in rules
    (False, True)
    """

    without: tuple[str, ...] = ()
    prices: BreakPrices = field(default_factory=BreakPrices)
    japanese: Japanese = "strict"
    phrases: bool = False
    hyphenate: bool = False
    hyphenate_english: bool = False
    allowed: tuple[Rule, ...] = field(init=False, repr=False, compare=False)
    forbidden: tuple[Rule, ...] = field(init=False, repr=False, compare=False)
    all_placed: bool = field(init=False, repr=False, compare=False)
    priced: tuple[float, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        names = (self.without,) if isinstance(self.without, str) else tuple(self.without)
        for name in names:
            if name not in RULES:
                raise FontError(
                    f"no rule for line breaks is called {name!r}",
                    advice=f"choose from {', '.join(RULES)}",
                )
        if self.japanese not in JAPANESE:
            raise FontError(
                f"no way to break Japanese is called {self.japanese!r}",
                advice=f"choose from {', '.join(JAPANESE)}",
            )
        for each in fields(self.prices):
            _check_price(each.name, getattr(self.prices, each.name))
        without = tuple(name for name in RULES if name in names)
        for name, value in {
            "without": without,
            "allowed": _placed_rules("allowed", without),
            "forbidden": _placed_rules("forbidden", without),
            "all_placed": all(RULES[name].kind == "price" for name in without),
            "priced": _price_table(self.prices, without),
        }.items():
            object.__setattr__(self, name, value)

    def __reduce__(self) -> tuple[object, ...]:
        return _again, tuple(getattr(self, name) for name in _GIVEN)

    def __contains__(self, name: str) -> bool:
        return name not in self.without


_GIVEN = tuple(each.name for each in fields(BreakRules) if each.init)


def _again(*values: object) -> BreakRules:
    """Break rules from what was given: what follows from it does not travel to other processes."""
    return BreakRules(**dict(zip(_GIVEN, values, strict=True)))  # type: ignore[arg-type]


def _placed_rules(kind: Kind, without: tuple[str, ...]) -> tuple[Rule, ...]:
    return tuple(rule for rule in RULES.values() if rule.kind == kind and rule.name not in without)


def _price_table(prices: BreakPrices, without: tuple[str, ...]) -> tuple[float, ...]:
    """The price of a break by the rules of `PRICED` that hold for it, one bit each."""
    table = [prices.ordinary]
    for rule in reversed(PRICED):  # each rule before the last ones takes the lowest bit
        price = None if rule.name in without else float(getattr(prices, rule.price))
        table = [p for old in table for p in (old, old if price is None else price)]
    return tuple(table)


_MARKS = frozenset().union(*(mark for rule in _TABLE for mark in rule.marks))


def asked_of(text: str, rules: BreakRules) -> tuple[tuple[Place, ...], tuple[Place, ...]]:
    """The rules that may have something to say of a text: those that allow, those that forbid."""
    return _asked(rules.without, _MARKS.intersection(text), ascii_only=text.isascii())


@lru_cache(maxsize=512)
def _asked(
    without: tuple[str, ...], present: frozenset[str], *, ascii_only: bool
) -> tuple[tuple[Place, ...], tuple[Place, ...]]:
    """The same by the marks that a text has: few sets of them come again and again."""

    def chosen(kind: Kind) -> tuple[Place, ...]:
        return tuple(
            rule.places
            for rule in _placed_rules(kind, without)
            if rule.places and any(present.issuperset(mark) for mark in rule.marks)
            if not (ascii_only and "" in rule.marks)
        )

    return chosen("allowed"), chosen("forbidden")


def _check_price(name: str, value: float) -> None:
    is_number = isinstance(value, Real) and not isinstance(value, bool)
    if not is_number or not 0 <= value < float("inf"):
        raise FontError(
            f"a price of {value} for {name} is impossible",
            advice="give a ratio of 0 or more; 1 is a break to avoid at almost any cost",
        )
