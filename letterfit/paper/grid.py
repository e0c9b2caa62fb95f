"""The default grid: how many tiers a page of n panels has, and how many panels each.

A steady page: tiers of equal height, at most four panels in a tier, panels much of one size, so
that figures can stand at much the same distance throughout. Commonly four tiers of three to four
panels. Where the panels do not share out evenly the shorter tiers come first: a page opens wide.
Common practice, no source; any plan overrides it.

    panels  1  2  3  4  5  6  7  8  9 10 11 12 13 14 15 16
    tiers   1  2  3  2  3  3  4  4  3  4  4  4  4  4  4  4      beyond: a quarter, rounded up
"""

from letterfit.paper.shapes import PageShape, TierShape

TIERS = (0, 1, 2, 3, 2, 3, 3, 4, 4, 3, 4, 4, 4, 4, 4, 4, 4)
"""Number of tiers by number of panels; nine panels make three tiers of three."""

PANELS_A_TIER = 4
"""Most panels in a tier of one page."""


def default_shape(panel_count: int, *, pages: int = 1) -> PageShape:
    """The default shape of a page, or of a spread, of some panels.

    A spread takes the tiers that half its panels would take on one page.

    Args:
        panel_count: How many panels, at least 1.
        pages: 1, or 2 for a spread.

    >>> from letterfit.paper.notation import write_tiers
    >>> write_tiers(default_shape(5)), write_tiers(default_shape(12))
    ('1 / 2 / 2', '3 / 3 / 3 / 3')
    >>> write_tiers(default_shape(5, pages=2))
    '1 / 2 / 2'
    """
    share = -(-panel_count // pages)
    tiers = TIERS[share] if share < len(TIERS) else -(-share // PANELS_A_TIER)
    fewest, longer = divmod(panel_count, tiers)
    counts = [fewest] * (tiers - longer) + [fewest + 1] * longer
    return PageShape(tiers=tuple(TierShape((1.0,) * count) for count in counts))
