"""Families of outlines: the shapes a balloon may take, by the names that callers use."""

from collections.abc import Callable
from dataclasses import dataclass

from letterfit.errors import OutlineError
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse


@dataclass(frozen=True, slots=True)
class Family:
    """A family of outlines that the fit can grow: one outline for each half-width and half-height.

    Every member scales: `make(k a, k b)` is `make(a, b).scaled(k)`.

    Args:
        make: Builds the member with the given half-width and half-height in mm.
        aspect: The least and greatest width over height that letterers use for it (common
            practice, no source).
    """

    make: Callable[[float, float], Outline]
    aspect: tuple[float, float]


ROUNDED_SHARE = 0.6
"""Corner radius of a fitted rounded rectangle over its shorter half-side."""

FAMILIES: dict[str, Family] = {
    "ellipse": Family(lambda a, b: Ellipse(half_width=a, half_height=b), (1.0, 2.6)),
    "superellipse": Family(lambda a, b: Superellipse(half_width=a, half_height=b), (1.0, 2.6)),
    "rounded": Family(
        lambda a, b: RoundedRect(half_width=a, half_height=b, radius=ROUNDED_SHARE * min(a, b)),
        (1.0, 3.2),
    ),
    "caption": Family(lambda a, b: CaptionBox(half_width=a, half_height=b), (1.0, 14.0)),
}
"""The families by the name that `fit_balloon(outline=...)` takes."""


def family(name: str) -> Family:
    """The family of outlines called `name`.

    Raises:
        OutlineError: When there is none; the message lists the names.

    >>> family("ellipse").make(2.0, 1.0)
    Ellipse(half_width=2.0, half_height=1.0)
    """
    try:
        return FAMILIES[name]
    except KeyError:
        raise OutlineError(
            f"no outline is called {name!r}", advice=f"choose one of {', '.join(FAMILIES)}"
        ) from None
