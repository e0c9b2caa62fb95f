"""What is written in a panel of a small page, and where: beside its figure or at its feet.

Nothing is written over something else. Where there is no room the framing goes first, then the
unit; a number that has no room is left to the line under the page.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from letterfit.geometry import Point, Rect
from letterfit.output.panel_state import State
from letterfit.output.svg import style
from letterfit.output.svg.elements import box, tag, title
from letterfit.output.svg.figure import room_of
from letterfit.output.svg.figures_view import Drawing
from letterfit.output.svg.panel_label import mark
from letterfit.output.svg.small_text import TextBlock
from letterfit.place.silhouette import body_in

LABEL_PT = 4.4
MARK_MM = 0.75
"""Half the room of a mark."""
AIR_MM = 0.35
"""Between words and whatever is beside them."""
EDGE_MM = 0.5
"""Between words and the frame: half of the heaviest frame, and air."""
LEGS = 0.3
"""Words at a figure's feet may hide no more of it than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Labels:
    """What is to be written in a panel, and what is in the way; all places on the sheet, mm.

    Args:
        number: The panel's number on its page.
        height: Its figure's height in mm.
        framing: The framing that it allows.
        room: The panel.
        figure: The box of its figure, or None.
        kept: What words keep off besides: panels set into it, the fold of a spread.
        balloons: The boxes round its balloons.
    """

    number: str
    height: str
    framing: str
    room: Rect
    figure: Rect | None
    kept: tuple[Rect, ...] = ()
    balloons: tuple[Rect, ...] = ()


def panel_labels(labels: Labels, *, state: State, drawing: Drawing) -> list[str]:
    """The mark and number of a panel that breaks the steady distance, and its figure's height.

    Args:
        labels: What is to be written.
        state: How the panel stands.
        drawing: How it is drawn.
    """
    drawn, taken = [], [area.inset(-EDGE_MM - AIR_MM) for area in labels.kept]
    if state != "fits":
        marked = _marked(labels, taken, rtl=drawing.reading == "rtl")
        if marked is not None:
            taken.append(marked[1])
            drawn.append(_drawn_mark(*marked, state=state, drawing=drawing))
    if state != "fails":
        found = height_label(labels, taken)
        if found is not None:
            block, spot = found
            words = block.drawn(spot, colour=style.INK, glyphs=drawing.glyphs, centred=True)
            plate = tag("rect", {**box(_plate(spot, labels)), "fill": style.ROOM})
            said = title(" ".join(block.lines))
            drawn.append(tag("g", {"class": "label figure-height"}, [said, plate, *words]))
    return drawn


def _plate(spot: Rect, labels: Labels) -> Rect:
    """The ground under words: down to the floor, so that no soles peep out under them."""
    plate = spot.inset(-AIR_MM / 2)
    floor = plate.bottom if labels.figure is None else labels.figure.bottom
    return Rect(plate.x, plate.y, plate.width, max(plate.height, floor - plate.y))


def height_label(labels: Labels, taken: Sequence[Rect]) -> tuple[TextBlock, Rect] | None:
    """The fullest wording of a figure's height that goes in, and its box; None for no room.

    Args:
        labels: What is to be written.
        taken: What it must not touch.
    """
    inside = _inside(labels.room)
    if inside is None:
        return None
    for block, spot, soft in _offers(labels, inside):
        blocked = [*taken, *soft]
        if inside.holds(spot) and all(_clear(spot, other) for other in blocked):
            return block, spot
    return None


def _offers(labels: Labels, inside: Rect) -> Iterator[tuple[TextBlock, Rect, tuple[Rect, ...]]]:
    """Wordings with their places and what else each should keep clear of, the best first."""
    unit = f"{labels.height} mm"
    high = TextBlock((unit, labels.framing), LABEL_PT)
    full = TextBlock((f"{unit} {labels.framing}",), LABEL_PT)
    short, bare = TextBlock((unit,), LABEL_PT), TextBlock((labels.height,), LABEL_PT)
    figure = labels.figure
    if figure is None:
        for block in (TextBlock(("no figure",), LABEL_PT), TextBlock(("0 mm",), LABEL_PT), bare):
            spot = block.box(inside.centre.x - block.width_mm / 2, inside.bottom - block.height_mm)
            yield block, spot, labels.balloons
            yield block, spot, ()
        return
    body = body_in(room_of(figure))
    for block in (high, full, short):
        for spot in _beside(block, figure, inside):
            yield block, spot, (body, *labels.balloons)
    for block in (full, high, short, bare):
        if block.height_mm + AIR_MM <= LEGS * figure.height:
            yield block, _at_feet(block, figure, inside), ()
    for block in (high, short, bare):
        for spot in _beside(block, figure, inside):
            yield block, spot, (body,)
    yield bare, _at_feet(bare, figure, inside), ()


def _beside(block: TextBlock, figure: Rect, inside: Rect) -> list[Rect]:
    """At the figure's foot on either side, the roomier first."""
    body = body_in(room_of(figure))
    top = min(figure.bottom, inside.bottom) - block.height_mm
    right = block.box(body.right + AIR_MM, top)
    left = block.box(body.x - AIR_MM - block.width_mm, top)
    roomier = inside.right - body.right >= body.x - inside.x
    return [right, left] if roomier else [left, right]


def _at_feet(block: TextBlock, figure: Rect, inside: Rect) -> Rect:
    """Before the figure's feet, in the middle or as far that way as the frame lets it."""
    left = figure.centre.x - block.width_mm / 2
    left = max(min(left, inside.right - block.width_mm), inside.x)
    return block.box(left, min(figure.bottom, inside.bottom) - block.height_mm)


def _inside(room: Rect) -> Rect | None:
    if min(room.width, room.height) <= 2 * EDGE_MM:
        return None
    return room.inset(EDGE_MM)


def _clear(one: Rect, other: Rect) -> bool:
    return one.common(other) is None


def _marked(
    labels: Labels, taken: Sequence[Rect], *, rtl: bool
) -> tuple[TextBlock | None, Rect] | None:
    """The panel's number with room for a mark before it, in the first corner that is free.

    A corner where the figure stands is taken only if there is no other. The number goes first
    where both have no room.
    """
    inside = _inside(labels.room)
    if inside is None:
        return None
    body = [] if labels.figure is None else [body_in(room_of(labels.figure))]
    number = TextBlock((labels.number,), LABEL_PT)
    side = 2 * MARK_MM
    sizes = [(number, side + AIR_MM + number.width_mm), (None, side)]
    for blocked in ([*taken, *body], taken):
        for block, width in sizes:
            for spot in _corners(inside, width, max(side, number.height_mm), rtl=rtl):
                if inside.holds(spot) and all(_clear(spot, other) for other in blocked):
                    return block, spot
    return None


def _corners(inside: Rect, width: float, height: float, *, rtl: bool) -> Iterator[Rect]:
    """A box in each corner of a panel, as reading goes."""
    for top in (inside.y, inside.bottom - height):
        for right in (rtl, not rtl):
            yield Rect(inside.right - width if right else inside.x, top, width, height)


def _drawn_mark(number: TextBlock | None, spot: Rect, *, state: State, drawing: Drawing) -> str:
    colour = style.COLOURS[state]
    plate = tag("rect", {**box(spot.inset(-AIR_MM / 2)), "fill": style.PAPER})
    shape = mark(state, Point(spot.x + MARK_MM, spot.centre.y), half_mm=MARK_MM)
    words = []
    if number is not None:
        left = spot.x + 2 * MARK_MM + AIR_MM
        room = number.box(left, spot.centre.y - number.height_mm / 2)
        words = number.drawn(room, colour=colour, glyphs=drawing.glyphs)
    said = title("" if number is None else number.lines[0])
    return tag("g", {"class": "label panel-mark"}, [said, plate, shape, *words])
