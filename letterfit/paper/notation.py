"""The one-line notation of a page's tiers: "3 / 2:1 @1.5 / 4".

Tiers stand from top to bottom, parted by a stroke. A tier is a number of panels of one width (3),
or relative widths parted by colons (2:1; a lone wide panel is 1). What follows an @ is the tier's
relative height; without one it is 1. In the place of a panel tiers may stand over each other, in
brackets: 2:(1/1) is a tall panel beside two of half its width, 2:1.5(1/1) gives the pair a width.
A panel with ~ after it bleeds: it runs off the page where it meets the live area's edge (3~ is
three that do). Square brackets set a panel into a corner of the one before them, with its share of
that panel's width and height: 1[bottom-right 0.4x0.3].

    plan   = tier *( "/" tier )
    tier   = places [ "@" ratio ]
    places = count [ "~" ] / place *( ":" place )
    place  = ratio [ "~" ] *inset / [ ratio ] "(" plan ")"
    inset  = "[" corner ratio "x" ratio "]"
    corner = ( "top" / "bottom" ) "-" ( "left" / "right" )
"""

import re
from typing import cast

from letterfit.errors import PageError
from letterfit.paper.shapes import (
    CORNERS,
    PLAIN,
    Cell,
    Corner,
    InsetShape,
    PageShape,
    PanelShape,
    StackShape,
    TierShape,
)

LONGEST_PLAN = 2000
"""Characters of a plan that are read; longer is no plan of one page."""

MOST_PANELS_A_TIER = 64
"""More panels in one tier than this is a slip: they would be under 5 mm wide on any common page."""

DEEPEST = 8
"""Brackets within brackets; panels within them would be slivers."""

ADVICE = 'write tiers from top to bottom, such as "3 / 2:1 @1.5 / 4"'

_TOKEN = re.compile(
    r"\s*(?:(?P<number>[0-9.]{1,12})|(?P<mark>[/:@~()])|\[(?P<inset>[^\[\]]{0,40})\])"
)
_INSET = re.compile(r"\s*([a-z]+-[a-z]+)\s+([0-9.]{1,12})\s*x\s*([0-9.]{1,12})\s*")

_Token = tuple[str, str]
"""What it is ("number", "inset", a mark, "end") and its text."""


def parse_tiers(text: str, *, line: int | None = None, source: str = "") -> PageShape:
    """The shape that a line of the notation states.

    Args:
        text: The plan of one page.
        line: Its line in the source, for messages.
        source: The name of the source, for messages.

    Returns:
        The shape, its ratios as typed.

    Raises:
        PageError: When it is not in the notation; the message quotes where it stops being so.

    >>> parse_tiers("3 / 2:1 @1.5").tiers
    (TierShape(widths=(1.0, 1.0, 1.0), height=1.0, cells=()), \
TierShape(widths=(2.0, 1.0), height=1.5, cells=()))
    >>> parse_tiers("2:(1/1)").panel_count, parse_tiers("1~[top-left 0.3x0.3]").panel_count
    (3, 2)
    """
    try:
        reader = _Reader(text)
        tiers = reader.plan()
        reader.take("end")
    except PageError as error:
        raise PageError(
            error.what, advice=error.advice or ADVICE, source=source, line=line
        ) from None
    return PageShape(tiers=tiers, line=line)


def write_tiers(shape: PageShape) -> str:
    """The notation of a shape: `parse_tiers` reads it back, ratios to six decimals.

    Args:
        shape: The shape of a page.

    Returns:
        One line, without the gutter.

    >>> write_tiers(parse_tiers("3/2:1@1.50/ 4"))
    '3 / 2:1 @1.5 / 4'
    >>> write_tiers(parse_tiers("1:2( 1/ 2~ )/1[top-right .5x.25]"))
    '1:2(1 / 2~) / 1[top-right 0.5x0.25]'
    """
    return _written(shape.tiers)


class _Reader:
    """Reads a plan token by token, each rule of the grammar a method."""

    def __init__(self, text: str) -> None:
        if len(text) > LONGEST_PLAN:
            raise PageError(f"a plan of {len(text)} characters")
        if not text.strip():
            raise PageError("an empty plan")
        self._text = text
        self._at = 0
        self._depth = 0
        self._next, self._end = self._read()

    def plan(self) -> tuple[TierShape, ...]:
        """Tiers parted by strokes."""
        tiers = [self._tier()]
        while self._took("/"):
            tiers.append(self._tier())
        return tuple(tiers)

    def take(self, kind: str) -> str:
        """The next token, which has to be of a kind."""
        found, text = self._next
        if found != kind:
            raise self._stop()
        self._at = self._end
        self._next, self._end = self._read()
        return text

    def _took(self, kind: str) -> bool:
        if self._next[0] != kind:
            return False
        self.take(kind)
        return True

    def _tier(self) -> TierShape:
        typed, first = self._place()
        widths, cells = [typed], [first]
        while self._took(":"):
            typed, cell = self._place()
            widths.append(typed)
            cells.append(cell)
        if len(cells) > MOST_PANELS_A_TIER:
            raise self._stop()
        height = _ratio(self.take("number")) if self._took("@") else 1.0
        if len(cells) == 1 and isinstance(first, PanelShape):
            count = _count(widths[0])
            if first.insets and count > 1:
                raise PageError(
                    "an inset in a tier of several panels",
                    advice="write their widths, so that one has the inset: 1:1[top-left 0.4x0.3]",
                )
            every = () if first == PLAIN else (first,) * count
            return TierShape((1.0,) * count, height, every)
        ratios = tuple(_ratio(width or "1") for width in widths)
        plain = all(cell == PLAIN for cell in cells)
        return TierShape(ratios, height, () if plain else tuple(cells))

    def _place(self) -> tuple[str, Cell]:
        """A width as typed, empty where a stack has none, and what stands there."""
        width = self.take("number") if self._next[0] == "number" else ""
        if self._took("("):
            self._depth += 1
            if self._depth > DEEPEST:
                raise PageError("brackets nested too deeply", advice="give the page fewer panels")
            tiers = self.plan()
            self.take(")")
            self._depth -= 1
            return width, StackShape(tiers)
        if not width:
            raise self._stop()
        bleeds = self._took("~")
        insets = []
        while self._next[0] == "inset":
            insets.append(_inset(self.take("inset")))
        return width, PanelShape(bleeds, tuple(insets)) if bleeds or insets else PLAIN

    def _read(self) -> tuple[_Token, int]:
        """The token that comes next, and where it ends."""
        if not self._text[self._at :].strip():
            return ("end", ""), len(self._text)
        match = _TOKEN.match(self._text, self._at)
        if match is None:
            raise self._stop()
        kind = match["mark"] or str(match.lastgroup)
        return (kind, match[str(match.lastgroup)]), match.end()

    def _stop(self) -> PageError:
        """What stands where the notation does not allow it."""
        before, rest = self._text[: self._at].strip(), self._text[self._at :].strip()
        after = f" after {before[-20:]!r}" if before else ""
        return PageError(f"{rest[:40]!r}{after} is no tier" if rest else f"no panels{after}")


def _ratio(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise PageError(f"{text.strip()!r} is no number") from None


def _count(text: str) -> int:
    if not text.isdigit() or not 1 <= int(text) <= MOST_PANELS_A_TIER:
        raise PageError(
            f"a tier of {text} panels",
            advice=f"give a whole number from 1 to {MOST_PANELS_A_TIER}",
        )
    return int(text)


def _inset(text: str) -> InsetShape:
    match = _INSET.fullmatch(text)
    if match is None or match[1] not in CORNERS:
        raise PageError(
            f"{text.strip()!r} is no inset",
            advice="write a corner and shares of the panel's width and height: "
            "[bottom-right 0.4x0.3]",
        )
    return InsetShape(cast("Corner", match[1]), _ratio(match[2]), _ratio(match[3]))


def _written(tiers: tuple[TierShape, ...]) -> str:
    return " / ".join(map(_written_tier, tiers))


def _written_tier(tier: TierShape) -> str:
    (width, first), *others = tier.places
    alike = all(place == (width, first) for place in others)
    if alike and isinstance(first, PanelShape) and not (others and first.insets):
        panels = f"{len(tier.widths)}{_marks(first)}"
    elif not others:
        panels = _stack(first)
    else:
        panels = ":".join(_place(width, cell) for width, cell in tier.places)
    return panels if tier.height == 1 else f"{panels} @{_number(tier.height)}"


def _place(width: float, cell: Cell) -> str:
    if isinstance(cell, PanelShape):
        return f"{_number(width)}{_marks(cell)}"
    return f"{'' if width == 1 else _number(width)}{_stack(cell)}"


def _stack(cell: Cell) -> str:
    return f"({_written(cell.tiers)})" if isinstance(cell, StackShape) else f"1{_marks(cell)}"


def _marks(panel: PanelShape) -> str:
    insets = (f"[{i.corner} {_number(i.width)}x{_number(i.height)}]" for i in panel.insets)
    return ("~" if panel.bleeds else "") + "".join(insets)


def _number(ratio: float) -> str:
    return f"{ratio:.6f}".rstrip("0").rstrip(".")
