"""Which balloons of a panel are joined: speeches of one speaker that follow each other.

The same speaker twice in a panel, with nothing between: joined, one tail (common practice, no
source). Both are spoken the same way, and their outlines are such that one line can run round two.
"""

from collections.abc import Sequence
from itertools import pairwise

from letterfit.report.menus import Menu
from letterfit.script.delivery import is_off_panel, is_shout

JOINABLE = ("ellipse", "superellipse")
"""Kinds of outlines that `letterfit.joined_outline` joins."""


def joints(menus: Sequence[Menu]) -> tuple[bool, ...]:
    """Per balloon, whether it can be joined to the one before it; empty where none can.

    Args:
        menus: A panel's balloons, in script order.
    """
    answers = [_is_joint(before, own) for before, own in pairwise(menus)]
    return (False, *answers) if any(answers) else ()


def _is_joint(before: Menu, own: Menu) -> bool:
    one, other = before.element, own.element
    return (
        own.follows
        and one.kind == other.kind == "dialogue"
        and one.speaker is not None
        and one.speaker == other.speaker
        and is_off_panel(one.modifiers) == is_off_panel(other.modifiers)
        and is_shout(one.modifiers) == is_shout(other.modifiers)
        and _kinds(before) == _kinds(own)
        and _kinds(own) <= set(JOINABLE)
    )


def _kinds(menu: Menu) -> set[str]:
    return {outline.kind for outline in menu.outlines}
