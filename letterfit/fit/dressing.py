"""From cores to drawn outlines: the fit grows cores; here each gets the line drawn round it.

The public functions of the fit stand here under their own names: what a family draws nothing round
is passed on as it is. "Smallest" is said of the core; the outline round it follows from the core
and the height of the letters. The clearance is measured anew, from the boxes of ink to the line.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from letterfit.drawn.model import Drawn
from letterfit.families import Family, family
from letterfit.fit import balloon, first_fit, front, given
from letterfit.fit.ink import Ink
from letterfit.fit.model import FittedBalloon, Line, Shape
from letterfit.geometry import MM_PER_PT
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

CAPITALS = 0.7
"""Height of capitals over the type size, near enough for the size of lobes."""


def fit_words(
    words: Words,
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
) -> FittedBalloon:
    """`letterfit.fit.balloon.fit_words`, its outline drawn: the core is what is smallest.

    Args, what holds of the result's core, and errors: as there.
    """
    (found,) = fit_texts([words], outline=outline, air_mm=air_mm, aspect=aspect, slack=slack)
    return found


def fit_texts(
    texts: Sequence[Words],
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
) -> tuple[FittedBalloon, ...]:
    """`letterfit.fit.balloon.fit_texts`, every outline drawn.

    Args, what holds of the cores, and errors: as there.
    """
    cores = balloon.fit_texts(texts, outline=outline, air_mm=air_mm, aspect=aspect, slack=slack)
    drawn = family(outline).drawn
    return tuple(
        _dressed(words, core, drawn(core.outline, _letter_mm(words)))
        for words, core in zip(texts, cores, strict=True)
    )


def fit_words_into(words: Words, outline: Outline, *, air_mm: float = 1.2) -> FittedBalloon:
    """`letterfit.fit.given.fit_words_into` for any outline: a drawn one's core takes the words.

    Args, what holds of the result, and errors: as there.
    """
    return _dressed(words, given.fit_words_into(words, outline.core, air_mm=air_mm), outline)


def first_fit_into(words: Words, outline: Outline, *, air_mm: float = 1.2) -> FittedBalloon:
    """`letterfit.fit.first_fit.first_fit_into` for any outline, in the same way.

    Args, what holds of the result, and errors: as there.
    """
    return _dressed(words, first_fit.first_fit_into(words, outline.core, air_mm=air_mm), outline)


def words_front(
    words: Words,
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    slack: float = 0.06,
    room: tuple[float, float] | None = None,
) -> tuple[FittedBalloon, ...]:
    """`letterfit.fit.front.words_front`, every outline drawn.

    Args, what holds of the cores, and errors: as there.
    """
    kind, letter_mm = family(outline), _letter_mm(words)
    cores = front.words_front(
        words,
        outline=outline,
        air_mm=air_mm,
        slack=slack,
        room=_core_room(kind, room, letter_mm),
    )
    return tuple(_dressed(words, b, kind.drawn(b.outline, letter_mm)) for b in cores)


def words_shapes(
    words: Words,
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    slack: float = 0.06,
    room: tuple[float, float] | None = None,
) -> tuple[Shape, ...]:
    """`letterfit.fit.front.words_shapes`, every outline drawn.

    Args, what holds of the cores, and errors: as there.
    """
    (shapes,) = texts_shapes([words], outline=outline, air_mm=air_mm, slack=slack, rooms=[room])
    return shapes


def texts_shapes(
    texts: Sequence[Words],
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    slack: float = 0.06,
    rooms: Sequence[tuple[float, float] | None] | None = None,
) -> tuple[tuple[Shape, ...], ...]:
    """`letterfit.fit.front.texts_shapes`, every outline drawn.

    Args, what holds of the cores, and errors: as there.
    """
    kind, letters = family(outline), [_letter_mm(words) for words in texts]
    places = [None] * len(texts) if rooms is None else rooms
    cores = front.texts_shapes(
        texts,
        outline=outline,
        air_mm=air_mm,
        slack=slack,
        rooms=[_core_room(kind, *pair) for pair in zip(places, letters, strict=True)],
    )
    return tuple(
        tuple(_drawn_round(kind, shape, letter_mm=letter) for shape in shapes)
        for shapes, letter in zip(cores, letters, strict=True)
    )


def set_shapes(
    texts: Sequence[Words], shapes: Sequence[Shape], *, air_mm: float
) -> tuple[FittedBalloon, ...]:
    """`letterfit.fit.front.set_shapes` of shapes whose outlines may be drawn.

    Args: as there.
    """
    cores = [replace(shape, outline=shape.outline.core) for shape in shapes]
    return tuple(
        _dressed(words, found, shape.outline.round_core(found.outline))
        for words, shape, found in zip(
            texts, shapes, front.set_shapes(texts, cores, air_mm=air_mm), strict=True
        )
    )


def ink_on_page(words: Words, fitted: FittedBalloon) -> Floats:
    """The boxes of ink of a fitted text's lines about the outline's centre, as the page has them.

    Returns:
        Shape (n, 4), mm: left, top, right, bottom.
    """
    ink = Ink.of(words)
    parts, first = [np.zeros((0, 4))], 0
    for line in fitted.lines:
        last = _last_piece(words, line, first)
        x, y = _in_text_frame(words, line)
        made_anew = words.reshaped.get((first, last))
        if made_anew is not None:
            boxes, left, base = made_anew.ink.reshape(-1, 4), 0.0, 0.0
        else:
            boxes = ink.boxes[ink.begin[first] : ink.begin[last + 1]]
            left, base = float(-words.ends[last] if words.rtl else words.starts[first]), 0.0
        parts.append(boxes + np.array([x - left, y - base] * 2))
        first = last + 1
    placed = np.concatenate(parts)
    return placed[:, [3, 0, 1, 2]] * np.array([-1, 1, -1, 1]) if words.vertical else placed


def _dressed(words: Words, fitted: FittedBalloon, outline: Outline) -> FittedBalloon:
    """A text fitted in a core, with the outline drawn and the true distance of its ink."""
    if not isinstance(outline, Drawn):
        return fitted
    over = fitted.overflow
    if over is not None:
        # A text over its outline says what would hold it: the same shape, grown with the core.
        factor = over.outline.half_width / outline.core.half_width
        over = replace(over, outline=outline.scaled(factor))
    return replace(
        fitted,
        outline=outline,
        overflow=over,
        clearance_mm=outline.distance(ink_on_page(words, fitted)),
    )


def _drawn_round(kind: Family, shape: Shape, *, letter_mm: float) -> Shape:
    """A shape with its outline drawn: itself where nothing is drawn round it."""
    outline = kind.drawn(shape.outline, letter_mm)
    return shape if outline is shape.outline else replace(shape, outline=outline)


def _letter_mm(words: Words) -> float:
    return CAPITALS * words.size_pt * MM_PER_PT


def _core_room(
    kind: Family, room: tuple[float, float] | None, letter_mm: float
) -> tuple[float, float] | None:
    """The room that is left to a core when the outline round it is to stand in a room."""
    if room is None or min(room) <= 0:
        return room
    core = kind.make(room[0] / 2, room[1] / 2)
    outline = kind.drawn(core, min(letter_mm, min(room) / 6))
    across, down = outline.half_width - core.half_width, outline.half_height - core.half_height
    return max(room[0] - 2 * across, room[0] / 4), max(room[1] - 2 * down, room[1] / 4)


def _last_piece(words: Words, line: Line, first: int) -> int:
    """The last piece of a line that begins with a piece: the one that makes it as wide."""
    widths = [words.width(first, last) for last in range(first, len(words))]
    return first + int(np.abs(np.array(widths) - line.width_mm).argmin())


def _in_text_frame(words: Words, line: Line) -> tuple[float, float]:
    """The left end and the baseline of a line in the text's own frame (`letterfit.fit.turned`)."""
    if not words.vertical:
        return line.x_mm, line.baseline_mm
    return line.baseline_mm, words.cap_height_mm / 2 - line.x_mm
