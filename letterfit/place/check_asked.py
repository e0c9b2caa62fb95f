"""What the checker asks of a layout's answers: is it the balloons, outlines and joints asked for?

Every balloon is there once; its outline is the one it names on its menu; it is joined where that
was asked and nowhere else; and it hangs over the top border by just what its outline may, or not at
all.
"""

from collections.abc import Iterator, Sequence

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.check_fault import Fault, named
from letterfit.place.model import PlacedOutline

TOLERANCE = 1e-6
"""In mm: what rounding may cost an overhang."""


def unasked(
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    menus: Sequence[Sequence[Outline]] | None,
    joined: Sequence[bool] | None,
    overhangs: Sequence[Sequence[float]] | None,
) -> Iterator[Fault]:
    """Every answer of a layout that is not to what was asked."""
    asked = [len(given) for given in (menus, joined, overhangs) if given]
    count = max(asked, default=len(placed))
    if sorted(item.index for item in placed) != list(range(count)):
        told = ", ".join(str(item.index + 1) for item in placed)
        yield Fault("balloon-numbers", f"Of balloons 1 to {count} it places {told or 'none'}.")
        return
    for item in placed:
        if menus is not None and not _is_on(menus[item.index], item):
            yield Fault("not-on-menu", "Its outline is not the one it names.", named(item))
        if item.joined and not item.index:
            yield Fault("joined-asked", "There is none before it to be joined to.", named(item))
        elif joined is not None and item.joined != (bool(joined) and joined[item.index]):
            verb = "is" if item.joined else "is not"
            message = f"It {verb} joined to the one before it, against what was asked."
            yield Fault("joined-asked", message, named(item))
        if item.overhang_mm:
            yield from _hangs(panel, item, overhangs)


def _is_on(menu: Sequence[Outline], item: PlacedOutline) -> bool:
    return 0 <= item.choice < len(menu) and menu[item.choice] == item.outline


def _hangs(
    panel: Rect, item: PlacedOutline, overhangs: Sequence[Sequence[float]] | None
) -> Iterator[Fault]:
    """What is wrong with a balloon that says it hangs over the top border."""
    menu = overhangs[item.index] if overhangs else ()
    most = menu[item.choice] if 0 <= item.choice < len(menu) else 0.0
    over = panel.y - (item.y_mm - item.outline.half_height)
    if not abs(item.overhang_mm - most) <= TOLERANCE:
        message = f"It says it hangs over by {item.overhang_mm:.3f} mm; {most:g} mm was asked."
        yield Fault("overhang", message, named(item))
    elif not abs(over - most) <= TOLERANCE:
        message = f"It hangs over by {over:.3f} mm, not by {most:g} mm."
        yield Fault("overhang", message, named(item))
