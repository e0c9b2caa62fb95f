"""Break rules: which rules of comics text are on, and what the breaks they price cost."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, fields
from numbers import Real
from types import MappingProxyType
from typing import Literal

from letterfit.errors import FontError
from letterfit.lettering import break_places as places
from letterfit.lettering.break_prices import PRICED, BreakPrices

Kind = Literal["allowed", "forbidden", "price"]
Japanese = Literal["strict", "normal", "loose"]

JAPANESE: tuple[Japanese, ...] = ("strict", "normal", "loose")

Place = Callable[[str], Iterable[int]]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of comics text.

    Args:
        name: What `BreakRules(without=...)` calls it.
        kind: "allowed" adds breaks that Unicode does not have, "forbidden" takes breaks away,
            "price" says what a break costs.
        says: What it says, in one line.
        places: The offsets that it allows or forbids; None for a price.
    """

    name: str
    kind: Kind
    says: str
    places: Place | None = None


def _placed(kind: Kind, *functions: Place) -> tuple[Rule, ...]:
    return tuple(
        Rule(f.__name__, kind, (f.__doc__ or "").strip().partition("\n")[0], f) for f in functions
    )


_TABLE = (
    *_placed("allowed", places.after_dots),
    *_placed(
        "forbidden",
        places.leading_dots,
        places.dots_alone,
        places.stutters,
        places.one_letter_heads,
        places.before_dashes,
        places.after_first_dash,
        places.notes,
        places.french_spaces,
    ),
    *(Rule(priced.name, "price", priced.says) for priced in PRICED),
)

RULES: Mapping[str, Rule] = MappingProxyType({rule.name: rule for rule in _TABLE})
"""Every rule by name, in the order in which they are applied."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakRules:
    """How the lines of comics text may break, on top of Unicode's rules.

    Args:
        without: Names of rules that are off, of those in `RULES`.
        prices: What the breaks cost.
        japanese: How near to its punctuation and small kana Japanese may break (CSS Text 3,
            `line-break`; UAX #14, LB1 and section 5.2): strict keeps small kana and the long-vowel
            mark off a line's start, as letterers do; normal lets them stand there, and loose also
            the iteration mark and centred punctuation.
        phrases: Whether Japanese breaks between phrases only, and Korean between words only.
        hyphenate: Whether words are hyphenated by the rules of the text's language, all languages
            but English (`hyphens.hyphenated`).
        hyphenate_english: The same for English, which letterers never hyphenate.
        allowed: The rules that add breaks and are on; follows from `without`.
        forbidden: The rules that take breaks away and are on; follows from `without`.
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
    allowed: tuple[Place, ...] = field(init=False, repr=False, compare=False)
    forbidden: tuple[Place, ...] = field(init=False, repr=False, compare=False)
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
            "priced": _price_table(self.prices, without),
        }.items():
            object.__setattr__(self, name, value)

    def __contains__(self, name: str) -> bool:
        return name not in self.without


def _placed_rules(kind: Kind, without: tuple[str, ...]) -> tuple[Place, ...]:
    chosen = (rule for rule in RULES.values() if rule.kind == kind and rule.name not in without)
    return tuple(rule.places for rule in chosen if rule.places)


def _price_table(prices: BreakPrices, without: tuple[str, ...]) -> tuple[float, ...]:
    """The price of a break by the rules of `PRICED` that hold for it, one bit each."""
    found = [prices.ordinary] * (1 << len(PRICED))
    for held in range(len(found)):
        for k, rule in enumerate(PRICED):
            if held >> k & 1 and rule.name not in without:
                found[held] = getattr(prices, rule.price)
                break
    return tuple(found)


def _check_price(name: str, value: float) -> None:
    is_number = isinstance(value, Real) and not isinstance(value, bool)
    if not is_number or not 0 <= value < float("inf"):
        raise FontError(
            f"a price of {value} for {name} is impossible",
            advice="give a ratio of 0 or more; 1 is a break to avoid at almost any cost",
        )
