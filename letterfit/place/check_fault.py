"""A broken rule, as every part of the checker says it, and the names of balloons in it."""

from typing import NamedTuple

from letterfit.place.model import PlacedOutline


class Fault(NamedTuple):
    """A broken rule, before it is worded as a finding.

    Args:
        code: The rule's name.
        message: What is wrong, one sentence.
        where: The balloons it is about, counted from 1 and joined by "+"; empty for none.
    """

    code: str
    message: str
    where: str = ""


def named(*items: PlacedOutline) -> str:
    """The balloons' numbers as people count them.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> named(PlacedOutline(index=0, choice=0, outline=box, x_mm=0, y_mm=0))
    '1'
    """
    return "+".join(str(item.index + 1) for item in items)
