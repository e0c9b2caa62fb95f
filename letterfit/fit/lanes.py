"""Lanes: texts set in so many lines in one shape, with every break's window, all lanes at once.

A lane is a text, a number of lines and a unit shape grown to a largest scale that matters. Filled
from the top, each line as long as goes in, a break stands as late as it can; filled from the bottom
it stands as early as it can. Between the two lies a narrow *window* for every break, and every
stack of the lane has its breaks in the windows. So the lines to look at are few: for each line the
pairs of its windows' breaks.
"""

from dataclasses import dataclass
from functools import reduce

import numpy as np
import numpy.typing as npt

from letterfit.fit.lines import Ints, Shapes
from letterfit.fit.profiles import COS, DIRECTIONS, DOWN, SIN, UP, Profiles
from letterfit.outline import Floats

Bools = npt.NDArray[np.bool_]

LAST = len(DIRECTIONS) - 1

CHUNK = 128
"""Lanes whose room is told at once: their tables stay in a processor's cache."""

NEARBY = (-1, 0, 1)
"""Directions looked at, counted from the one in which a full line touches; and one more."""

CLOSE = 1e-9
"""A line wider than its room by this share is as wide as its room."""


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Lanes:
    """K lanes and the windows of their breaks; lines are counted from the bottom, at most M.

    Args:
        texts: The texts.
        shapes: The unit shapes.
        text: Shape (K,): the number of each lane's text.
        count: Shape (K,): its lines.
        which: Shape (K,): its shape.
        limit: Shape (K,): the largest scale of the shape that matters.
        room: Shape (K, M), mm: half the room between airs for a line of capitals, at that scale.
        capacity: Shape (K, M), mm: the longest advance that may go in there.
        steps: Shape (K, M, 4): the directions in which a line may touch, the second a full line.
        low: Shape (K, M + 1): the earliest piece that may begin the line above each break; the
            first break is the end of the text, those over the top line are its beginning.
        high: Shape (K, M + 1): the latest.
    """

    texts: Profiles
    shapes: Shapes
    text: Ints
    count: Ints
    which: Ints
    limit: Floats
    room: Floats
    capacity: Floats
    steps: Ints
    low: Ints
    high: Ints

    def room_at(self, limit: Floats) -> Floats:
        """Half the room of each line, shape (K, M) in mm, at other scales, shape (K,), nearby."""
        inverse = self.shapes.coarse[self.which[:, None, None], self.steps]
        clear = (limit - self.limit)[:, None, None] / inverse / COS[self.steps]
        least: Floats = reduce(np.minimum, np.moveaxis(clear, -1, 0))
        return self.room + least

    def chosen(self, some: Ints) -> "Lanes":
        """Some of the lanes."""
        most = int(self.count[some].max())
        return Lanes(
            texts=self.texts,
            shapes=self.shapes,
            text=self.text[some],
            count=self.count[some],
            which=self.which[some],
            limit=self.limit[some],
            room=self.room[some, :most],
            capacity=self.capacity[some, :most],
            steps=self.steps[some, :most],
            low=self.low[some, : most + 1],
            high=self.high[some, : most + 1],
        )


def open_lanes(
    texts: Profiles, shapes: Shapes, *, lanes: tuple[Ints, Ints, Ints], limit: Floats
) -> Lanes | None:
    """The lanes in which some stack may go in; None where there is none.

    Args:
        texts: The texts.
        shapes: The unit shapes.
        lanes: Per lane the text, the number of lines and the shape.
        limit: Per lane the largest scale.
    """
    text, count, which = lanes
    most = int(count.max())
    places = count[:, None] - 1 - 2 * np.arange(most)
    room, steps = _rooms(texts, shapes, places=places, lanes=lanes, limit=limit)
    side = np.where(places < 0, UP, DOWN)
    bonus = texts.bonus[text[:, None], side, steps[..., 1]]
    capacity = 2 * (room + bonus)
    capacity += CLOSE * np.abs(capacity)
    low, high, good = _windows(texts, text=text, count=count, capacity=capacity)
    every = Lanes(
        texts=texts, shapes=shapes, text=text, count=count, which=which, limit=limit,
        room=room, capacity=capacity, steps=steps, low=low, high=high,
    )  # fmt: skip
    if not len(good):
        return None
    return every if len(good) == len(text) else every.chosen(good)


def _rooms(
    texts: Profiles, shapes: Shapes, *, places: Ints, lanes: tuple[Ints, Ints, Ints], limit: Floats
) -> tuple[Floats, Ints]:
    """Half the room of every line, and the directions in which it touches."""
    text, _, which = lanes
    edges = np.abs(places) * texts.half_leading[text][:, None] + texts.half_cap[text][:, None]
    clear = limit[:, None] / shapes.coarse[which] - texts.air
    room, touch = np.empty(places.shape), np.empty(places.shape, dtype=np.int64)
    for first in range(0, len(places), CHUNK):
        some = slice(first, first + CHUNK)
        rooms = (clear[some, None, :-1] - edges[some, :, None] * SIN[:-1]) / COS[:-1]
        touch[some] = nearest = rooms.argmin(axis=-1)
        room[some] = np.take_along_axis(rooms, nearest[..., None], axis=-1)[..., 0]
    steps = np.empty((*places.shape, len(NEARBY) + 1), dtype=np.int64)
    steps[..., :-1] = (touch[..., None] + np.array(NEARBY)).clip(0, LAST - 1)
    steps[..., -1] = (steps[..., -2] + LAST) // 2  # in which a shorter line touches
    return room, steps


def _windows(
    texts: Profiles, *, text: Ints, count: Ints, capacity: Floats
) -> tuple[Ints, Ints, Ints]:
    """The earliest and the latest place of every break, and the lanes in which all have one."""
    lanes, most = capacity.shape
    begin, end = texts.base[text], texts.base[text + 1]
    starts, ends = texts.shifted_starts, texts.shifted_ends
    low = np.empty((lanes, most + 1), dtype=np.int64)
    high = np.empty_like(low)
    low[:, 0] = end
    high[:, most] = begin
    for line in range(most - 1, -1, -1):
        first = high[:, line + 1]
        reached = starts.take(first, mode="clip") + capacity[:, line]
        farthest = np.minimum(ends.searchsorted(reached, "right"), end)
        high[:, line] = np.where(line < count, farthest, begin)
    for line in range(most):
        last = low[:, line]
        reached = ends.take(last - 1, mode="clip") - capacity[:, line]
        earliest = starts.searchsorted(reached, "left")
        low[:, line + 1] = np.where(last > begin, np.minimum(earliest, last), begin)
    breaks = np.arange(most + 1)
    above = count[:, None] - breaks  # lines over each break
    good = (high[:, 0] >= end) & (low[np.arange(lanes), count] <= begin)
    outside = (breaks == 0) | (above <= 0)
    ends_of_text = np.where(breaks == 0, end[:, None], begin[:, None])
    low = np.where(outside, ends_of_text, np.maximum(low, begin[:, None] + above))
    high = np.where(outside, ends_of_text, np.minimum(high, end[:, None] - breaks))
    good &= (low <= high).all(axis=1)
    return low, high, np.flatnonzero(good)
