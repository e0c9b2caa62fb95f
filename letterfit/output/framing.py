"""How close a panel must be framed for its figure room: whole figure, or how much of it shows.

A standing figure wants a share of its panel's height (`Limits.whole_figure`, by default half:
common practice, no source). Where less is clear, the view moves closer and the panel shows that
share of the figure, from the head down.
"""

# Shares of a standing figure from the crown down, on the common drawing scale of 7 1/2 heads:
# knees at 5 1/2, waist at 3, chest at 2, chin at 1 (common practice, no source).
FRAMES = (
    (1.0, "full"),
    (5.5 / 7.5, "knees"),
    (3 / 7.5, "waist"),
    (2 / 7.5, "chest"),
    (1 / 7.5, "head"),
)
NO_FIGURE = "none"


def framing(share: float, *, whole: float = 0.5) -> str:
    """The widest framing a panel allows: down to where the figure shows.

    Args:
        share: Figure room over the panel's height, 0 to 1.
        whole: The share that a whole figure wants.

    >>> framing(0.62), framing(0.31), framing(0.02)
    ('full', 'waist', 'none')
    """
    return next((name for least, name in FRAMES if share / whole >= least - 1e-9), NO_FIGURE)
