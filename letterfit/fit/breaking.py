"""The ways to break a text into the lines of a given outline, by the names of the field.

"Total fit" and "first fit" are the terms of Knuth and Plass, "Breaking Paragraphs into Lines",
Software: Practice and Experience 11, 1981.
"""

from typing import Literal, Protocol

from letterfit.errors import OutlineError
from letterfit.fit.dressing import first_fit_into, fit_words_into
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.words import Words
from letterfit.outline import Outline

Breaks = Literal["total-fit", "first-fit"]
"""All lines together, or one by one from the top."""


class Breaking(Protocol):
    """Sets a text in a given outline."""

    def __call__(self, words: Words, outline: Outline, *, air_mm: float) -> FittedBalloon:
        """The balloon, with its overflow where the text does not fit."""
        ...


WAYS: dict[str, Breaking] = {"total-fit": fit_words_into, "first-fit": first_fit_into}


def way_to_break(name: str) -> Breaking:
    """The way to break lines that bears a name.

    Raises:
        OutlineError: When there is no such way.

    >>> way_to_break("first-fit") is first_fit_into
    True
    """
    if name not in WAYS:
        raise OutlineError(
            f"lines cannot be broken by {name!r}", advice=f"give one of {', '.join(WAYS)}"
        )
    return WAYS[name]
