"""Outlines of a WOFF2 font put back into TrueType's tables (W3C, "WOFF File Format 2.0", 5.1, 5.4).

All points of all glyphs are read at once. Nothing that measures looks at hinting: instructions
are left out, and every coordinate is written in full.
"""

import struct
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from letterfit.lettering.woff2_streams import (
    Bytes,
    Ints,
    short_number,
    triplet_moves,
    triplet_sizes,
)

HEAD = 36
"""Bytes before the streams."""

MOST_CONTOURS = 1_000_000
"""Of all glyphs together; the largest fonts of Chinese characters have half of that."""

WORDS, SCALE, MORE, TWO_SCALES, MATRIX, HINTED = 0x0001, 0x0008, 0x0020, 0x0040, 0x0080, 0x0100
"""Flags of a component (OpenType 1.9.1, "glyf")."""


@dataclass(frozen=True, slots=True)
class Outlines:
    """The tables of outlines.

    Args:
        glyf: The outlines.
        loca: Where each glyph is, in the long format.
        lefts: Shape (g,), the least x of each glyph, 0 for one without outlines.
    """

    glyf: bytes
    loca: bytes
    lefts: Ints


@dataclass(frozen=True, slots=True)
class _Points:
    """The points of the simple glyphs: for each point a move and whether it is on the curve."""

    dx: Ints
    dy: Ints
    on_curve: Bytes


def rebuilt(data: bytes) -> Outlines:
    """The tables that a transformed "glyf" stands for.

    Args:
        data: The transformed table.

    Raises:
        IndexError, ValueError, struct.error: When it is damaged.
    """
    count = struct.unpack_from(">H", data, 4)[0]
    sizes = struct.unpack_from(">7L", data, 8)
    if HEAD + sum(sizes) > len(data):
        raise IndexError
    ends = np.cumsum([HEAD, *sizes])
    contours, counts, flags, glyphs, parts, boxes, _ = (data[a:b] for a, b in pairwise(ends))
    per_glyph = np.frombuffer(contours, ">i2", count).astype(np.int64)
    composite = per_glyph < 0
    per_glyph[composite] = 0
    per_contour = _contour_sizes(counts, int(per_glyph.sum()))
    first = np.concatenate([[0], np.cumsum(per_contour)])
    bounds = first[np.concatenate([[0], np.cumsum(per_glyph)])]
    points, components = _read_glyphs(flags, glyphs, parts, bounds=bounds, composite=composite)
    box = _boxes(points, bounds, stated=boxes)
    return _written(points, bounds, per_glyph, per_contour, box, components)


def _contour_sizes(data: bytes, count: int) -> Ints:
    """How many points each contour has."""
    if count > MOST_CONTOURS:
        raise ValueError
    sizes, at = np.zeros(count, np.int64), 0
    for k in range(count):
        sizes[k], at = short_number(data, at)
    return sizes


def _read_glyphs(
    flags: bytes, stream: bytes, parts: bytes, *, bounds: Ints, composite: npt.NDArray[np.bool_]
) -> tuple[_Points, dict[int, bytes]]:
    """The points of all simple glyphs, and the components of each composite one.

    Behind a glyph's points, and behind hinted components, stands the length of its instructions:
    that is why the glyphs are gone through one by one.
    """
    marks = np.frombuffer(flags, np.uint8, int(bounds[-1]))
    sizes = triplet_sizes(marks)
    before = np.concatenate([[0], np.cumsum(sizes)])
    shift = np.zeros(len(bounds) - 1, np.int64)
    at = part_at = 0
    components: dict[int, bytes] = {}
    spans = before[bounds].tolist()
    for glyph, is_composite in enumerate(composite.tolist()):
        hinted = bounds[glyph + 1] > bounds[glyph]
        if is_composite:
            components[glyph], part_at, hinted = _components(parts, part_at)
        shift[glyph] = at - spans[glyph]
        at += spans[glyph + 1] - spans[glyph]
        if hinted:
            _, at = short_number(stream, at)
    starts = before[:-1] + np.repeat(shift, np.diff(bounds))
    dx, dy = triplet_moves(marks, np.frombuffer(stream, np.uint8), starts)
    return _Points(dx, dy, (marks < 0x80).astype(np.uint8)), components


def _components(data: bytes, at: int) -> tuple[bytes, int, bool]:
    """The components of one glyph without their instructions, where they end, and if it had any."""
    found, hinted, more = [], False, True
    while more:
        (flags,) = struct.unpack_from(">H", data, at)
        size = 8 if flags & WORDS else 6
        size += 2 if flags & SCALE else 4 if flags & TWO_SCALES else 8 if flags & MATRIX else 0
        if at + size > len(data):
            raise IndexError
        found += [struct.pack(">H", flags & ~HINTED), data[at + 2 : at + size]]
        hinted |= bool(flags & HINTED)
        more = bool(flags & MORE)
        at += size
    return b"".join(found), at, hinted


def _boxes(points: _Points, bounds: Ints, *, stated: bytes) -> Ints:
    """The box of each glyph, shape (g, 4): stated for composites, else that of its points."""
    count = len(bounds) - 1
    boxes = np.zeros((count, 4), np.int64)
    drawn = np.flatnonzero(np.diff(bounds))
    if len(drawn):
        starts = bounds[drawn]
        for column, moves in ((0, points.dx), (1, points.dy)):
            ran = np.cumsum(moves)
            ran -= np.repeat(ran[starts] - moves[starts], np.diff(bounds)[drawn])
            boxes[drawn, column] = np.minimum.reduceat(ran, starts)
            boxes[drawn, column + 2] = np.maximum.reduceat(ran, starts)
    marks = (count + 31) // 32 * 4
    listed = np.flatnonzero(np.unpackbits(np.frombuffer(stated, np.uint8, marks))[:count])
    numbers = np.frombuffer(stated, ">i2", 4 * len(listed), marks)
    boxes[listed] = numbers.reshape(-1, 4)
    return np.clip(boxes, -0x8000, 0x7FFF)


def _written(  # noqa: PLR0913, PLR0917 - all that was read, once
    points: _Points,
    bounds: Ints,
    per_glyph: Ints,
    per_contour: Ints,
    boxes: Ints,
    components: dict[int, bytes],
) -> Outlines:
    """The tables: a head of ten bytes, ends of contours, no instructions, flags, x, y."""
    count = np.diff(bounds)
    sizes = np.where(count > 0, 12 + 2 * per_glyph + 5 * count, 0)
    for glyph, data in components.items():
        sizes[glyph] = 10 + len(data)
    places = np.concatenate([[0], np.cumsum(sizes)])
    out = np.zeros(int(places[-1]), np.uint8)
    contours = per_glyph.copy()
    contours[list(components)] = -1
    there = np.flatnonzero(sizes)
    _put_words(out, places[there], contours[there])
    for k in range(4):
        _put_words(out, places[there] + 2 + 2 * k, boxes[there, k])
    owner = np.repeat(np.arange(len(count)), per_glyph)
    number = np.arange(len(owner)) - np.repeat(np.cumsum(per_glyph) - per_glyph, per_glyph)
    drawn = count[owner] > 0
    ends = np.cumsum(per_contour) - bounds[owner] - 1
    _put_words(out, (places[owner] + 10 + 2 * number)[drawn], ends[drawn])
    owner = np.repeat(np.arange(len(count)), count)
    number = np.arange(len(owner)) - bounds[owner]
    flags = places[owner] + 12 + 2 * per_glyph[owner]
    out[flags + number] = points.on_curve
    _put_words(out, flags + count[owner] + 2 * number, points.dx)
    _put_words(out, flags + 3 * count[owner] + 2 * number, points.dy)
    for glyph, data in components.items():
        start = int(places[glyph]) + 10
        out[start : start + len(data)] = np.frombuffer(data, np.uint8)
    loca = places.astype(">u4").tobytes()
    return Outlines(out.tobytes(), loca, np.where(sizes > 0, boxes[:, 0], 0))


def _put_words(out: Bytes, places: Ints, values: Ints) -> None:
    """Write 16-bit numbers, the high byte first."""
    out[places] = values >> 8 & 0xFF
    out[places + 1] = values & 0xFF


def rebuilt_metrics(data: bytes, *, lefts: Ints, full: int) -> bytes:
    """The "hmtx" that a transformed one stands for: left bearings are the outlines' least x.

    Args:
        data: The transformed table.
        lefts: Shape (g,), the least x of each glyph.
        full: How many glyphs have an advance of their own ("hhea", numberOfHMetrics).

    Raises:
        IndexError, ValueError, struct.error: When it is damaged.
    """
    kind = data[0]
    advances = np.frombuffer(data, ">u2", full, 1)
    at = 1 + 2 * full
    bearings = lefts.copy()
    for bit, part in ((1, slice(0, full)), (2, slice(full, None))):
        if not kind & bit:
            count = len(bearings[part])
            bearings[part] = np.frombuffer(data, ">i2", count, at)
            at += 2 * count
    pairs = np.column_stack([advances, bearings[:full] & 0xFFFF]).astype(">u2")
    return pairs.tobytes() + bearings[full:].astype(">i2").tobytes()
