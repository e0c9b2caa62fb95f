"""The one-line notation of a page's tiers: "3 / 2:1 @1.5 / 4".

Tiers stand from top to bottom, parted by a stroke. A tier is a number of panels of one width (3),
or the panels' relative widths parted by colons (2:1; a lone wide panel is 1). What follows an @ is
the tier's relative height; without one it is 1.

    plan   = tier *( "/" tier )
    tier   = panels [ "@" ratio ]
    panels = count / ratio ":" ratio *( ":" ratio )
"""

import re

from letterfit.errors import PageError
from letterfit.paper.model import PageShape, TierShape

LONGEST_PLAN = 2000
"""Characters of a plan that are read; longer is no plan of one page."""

MOST_PANELS_A_TIER = 64
"""More panels in one tier than this is a slip: they would be under 5 mm wide on any common page."""

ADVICE = 'write tiers from top to bottom, such as "3 / 2:1 @1.5 / 4"'

_TIER = re.compile(
    r"\s*(?P<panels>[0-9.]{1,12}(?:\s*:\s*[0-9.]{1,12})*)\s*(?:@\s*(?P<height>[0-9.]{1,12})\s*)?"
)


def parse_tiers(text: str, *, line: int | None = None, source: str = "") -> PageShape:
    """The shape that a line of the notation states.

    Args:
        text: The plan of one page.
        line: Its line in the source, for messages.
        source: The name of the source, for messages.

    Raises:
        PageError: When it is not in the notation; the message quotes the tier at fault.

    >>> parse_tiers("3 / 2:1 @1.5").tiers
    (TierShape(widths=(1.0, 1.0, 1.0), height=1.0), TierShape(widths=(2.0, 1.0), height=1.5))
    """
    try:
        tiers = tuple(_tier(part) for part in _parts(text))
    except PageError as error:
        raise PageError(
            error.what, advice=error.advice or ADVICE, source=source, line=line
        ) from None
    return PageShape(tiers=tiers, line=line)


def write_tiers(shape: PageShape) -> str:
    """The notation of a shape: `parse_tiers` reads it back, ratios to six decimals.

    >>> write_tiers(parse_tiers("3/2:1@1.50/ 4"))
    '3 / 2:1 @1.5 / 4'
    """
    return " / ".join(map(_written, shape.tiers))


def _parts(text: str) -> list[str]:
    if len(text) > LONGEST_PLAN:
        raise PageError(f"a plan of {len(text)} characters")
    if not text.strip():
        raise PageError("an empty plan")
    return text.split("/")


def _tier(text: str) -> TierShape:
    match = _TIER.fullmatch(text)
    if match is None:
        raise PageError(f"{text.strip()[:40]!r} is no tier")
    height = _ratio(match["height"] or "1")
    widths = match["panels"].split(":")
    if len(widths) > 1:
        return TierShape(tuple(map(_ratio, widths)), height)
    return TierShape((1.0,) * _count(widths[0]), height)


def _ratio(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise PageError(f"{text.strip()!r} is no number") from None


def _count(text: str) -> int:
    if not text.isdigit() or not 1 <= int(text) <= MOST_PANELS_A_TIER:
        raise PageError(
            f"a tier of {text.strip()} panels",
            advice=f"give a whole number from 1 to {MOST_PANELS_A_TIER}",
        )
    return int(text)


def _written(tier: TierShape) -> str:
    steady = len(set(tier.widths)) == 1
    panels = str(len(tier.widths)) if steady else ":".join(map(_number, tier.widths))
    return panels if tier.height == 1 else f"{panels} @{_number(tier.height)}"


def _number(ratio: float) -> str:
    return f"{ratio:.6f}".rstrip("0").rstrip(".")
