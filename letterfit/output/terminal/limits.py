"""Limits in words: how much of what, and on whose word."""

from collections.abc import Sequence

from letterfit.report.limits import Limits

PHRASES = {
    "words_per_page": "{:g} words a page",
    "words_per_tier": "{:g} words a tier",
    "words_per_panel": "{:g} words a panel",
    "words_per_balloon": "{:g} words a balloon",
    "lines_per_balloon": "{:g} lines a balloon",
    "balloons_per_panel": "{:g} balloons a panel",
    "panels_per_tier": "{:g} panels a tier",
    "panels_per_page": "{:g} panels a page",
    "coverage": "{:.0%} of a panel under lettering",
    "least_size_pt": "type of {:g} pt or more",
    "figure_aspect": "figures {:.2f} as wide as high",
    "whole_figure": "a whole figure {:.0%} as high as its panel",
    "steady_share": "figure room at least {:.0%} of the page's middle one",
}
"""How each limit is told."""

WORDS = ("words_per_page", "words_per_tier", "words_per_panel", "words_per_balloon")


def whose(limits: Limits, *, usual: str = "Limits are") -> str:
    """The limits that are not common practice, told; then how a sentence on the others begins.

    >>> whose(Limits())
    'Limits are'
    >>> whose(Limits(words_per_panel=30, coverage=0.4, house=("words_per_panel",)))
    'House rules: 30 words a panel. As asked for: 40% of a panel under lettering. Other limits are'
    """
    told = ""
    for basis in ("house rules", "as asked for"):
        names = [name for name in PHRASES if limits.basis(name) == basis]
        if names:
            phrases = ", ".join(PHRASES[name].format(getattr(limits, name)) for name in names)
            told += f"{basis.capitalize()}: {phrases}. "
    return f"{told}Other {usual[0].lower()}{usual[1:]}" if told else usual


def word_limits(limits: Limits) -> str:
    """The limits of words, by whose word they stand on.

    >>> word_limits(Limits())
    'advice: 210 words a page, 105 a tier, 35 a panel, 25 a balloon'
    >>> word_limits(Limits(words_per_page=180, house=("words_per_page",)))
    'house rules: 180 words a page; advice: 105 words a tier, 35 a panel, 25 a balloon'
    """
    house = [name for name in WORDS if name in limits.house]
    usual = [name for name in WORDS if name not in limits.house]
    parts = (("house rules", house), ("advice", usual))
    return "; ".join(f"{who}: {_listed(names, limits)}" for who, names in parts if names)


def _listed(names: Sequence[str], limits: Limits) -> str:
    """The limits of some names, "words" said once."""
    first, *others = (PHRASES[name].format(getattr(limits, name)) for name in names)
    return ", ".join([first, *(phrase.replace(" words ", " ") for phrase in others)])
