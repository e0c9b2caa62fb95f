"""What the report warns about: limits, each with the word on which it stands."""

import math
from dataclasses import dataclass, fields

from letterfit.errors import PageError


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What the report warns about. Every default is common practice, no source: advice, not law.

    What is said of a tier or a page holds twice over on a spread.

    Args:
        coverage: Greatest share of a panel under lettering.
        words_per_balloon: Most words in one balloon.
        words_per_panel: Most words in one panel.
        words_per_tier: Most words in one tier: three full panels, half of a full page (common
            practice, no source; the figure is ours, from those of a panel and a page).
        words_per_page: Most words on one page.
        least_size_pt: Smallest type size that is not flagged.
        lines_per_balloon: Most lines in one balloon.
        balloons_per_panel: Most balloons and captions in one panel (common practice, no source).
        panels_per_tier: Most panels in one tier (common practice, no source).
        panels_per_page: Most panels on one page: four tiers of four (common practice, no source).
        figure_aspect: Width over height of the figure box, a ratio.
        whole_figure: Share of the panel's height that a whole standing figure wants; with less
            room the view has to come closer.
        steady_share: A panel whose figure room is less than this share of the page's middle one
            breaks the steady distance.
        house: Names of the limits that a house's own rules state, as `parse_limits` reads them.

    Raises:
        PageError: When a limit is not a number over 0, or `house` names none.

    >>> Limits(words_per_page=180).words_per_page
    180
    """

    coverage: float = 1 / 3
    words_per_balloon: int = 25
    words_per_panel: int = 35
    words_per_page: int = 210
    least_size_pt: float = 6.0
    lines_per_balloon: int = 8
    figure_aspect: float = 1 / 3
    whole_figure: float = 0.5
    steady_share: float = 0.75
    words_per_tier: int = 105
    balloons_per_panel: int = 4
    panels_per_tier: int = 4
    panels_per_page: int = 16
    house: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for name in self.names():
            value = getattr(self, name)
            if not math.isfinite(value) or value <= 0:
                raise PageError(f"a limit {name} of {value}", advice="give a number over 0")
        for name in self.house:
            if name not in self.names():
                raise PageError(
                    f"no limit is called {name!r}", advice=f"name some of {', '.join(self.names())}"
                )

    @classmethod
    def names(cls) -> tuple[str, ...]:
        """The names of all limits."""
        return tuple(one.name for one in fields(cls) if one.name != "house")

    def basis(self, name: str) -> str:
        """On whose word a limit stands, to be said wherever it is shown.

        >>> limits = Limits(words_per_panel=30, coverage=0.4, house=("words_per_panel",))
        >>> [limits.basis(name) for name in ("words_per_panel", "words_per_page", "coverage")]
        ['house rules', 'common practice', 'as asked for']
        """
        if name in self.house:
            return "house rules"
        defaults = {one.name: one.default for one in fields(self)}
        return "common practice" if getattr(self, name) == defaults[name] else "as asked for"
