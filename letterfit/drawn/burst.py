"""The shout burst: points with slightly hollow flanks, which meet just outside the core.

A flank is a quadratic Bezier curve from a valley to a tip. Its handle and its tip lie on the outer
side of the core's supporting line at the valley, so the whole flank does, and the core is inside.
"""

import math
from dataclasses import dataclass, field
from typing import ClassVar

import numpy as np
import numpy.typing as npt

from letterfit.drawn.model import Drawn, corners, cross, from_boxes
from letterfit.drawn.spacing import meetings, uneven
from letterfit.errors import OutlineError
from letterfit.outline import Floats, Outline
from letterfit.outline_path import mm_text

LENGTH = 0.62
"""How far a point rises over its own base, on average."""

UNEVEN = 0.3
"""By what share points are wider and narrower than their mean."""

RAGGED = 0.34
"""By what share points are longer and shorter than their mean."""

CORNERS = 0.5
"""How much longer points at the corners are, left and right half as much."""

HOLLOW = 0.24
"""How hollow flanks are: 0 is straight, 1 bends them to the middle of the point's base."""

FLAT_MM = 0.0004
"""How far the tangents that stand for a flank may lie inside it."""

START = 0.045


@dataclass(frozen=True, slots=True, kw_only=True)
class Burst(Drawn):
    """A shout's burst round a core.

    Args:
        core: The convex body that the ink keeps its air from.
        points: The number of points, 6 or more.

    Raises:
        OutlineError: When the points are too few for so flat or so square a core.

    >>> from letterfit import Ellipse
    >>> burst = Burst(core=Ellipse(half_width=16, half_height=9), points=14)
    >>> burst.contains(16, 0), burst.half_width > 17
    (True, True)
    """

    kind: ClassVar[str] = "burst"
    core: Outline = field()
    points: int
    half_width: float = field(init=False, compare=False, repr=False)
    half_height: float = field(init=False, compare=False, repr=False)
    _corners: Floats = field(init=False, compare=False, repr=False)
    """Valleys and tips in turn, clockwise: shape (2 n, 2)."""
    _handles: Floats = field(init=False, compare=False, repr=False)
    """The handle of the flank from each corner to the next: shape (2 n, 2)."""

    def __post_init__(self) -> None:
        valleys, normals = meetings(self.core, uneven(self.points, by=UNEVEN, start=2), start=START)
        tips = self._tips(valleys, normals)
        nexts, next_normals = np.roll(valleys, -1, axis=0), np.roll(normals, -1, axis=0)
        base = (valleys + nexts) / 2
        handles = np.stack(
            [_handles(valleys, normals, tips, base), _handles(nexts, next_normals, tips, base)],
            axis=1,
        )
        object.__setattr__(self, "_corners", np.stack([valleys, tips], axis=1).reshape(-1, 2))
        object.__setattr__(self, "_handles", handles.reshape(-1, 2))
        for name, angle in (("half_width", 0.0), ("half_height", math.pi / 2)):
            object.__setattr__(self, name, float(self.support(angle)))
        Outline.__post_init__(self)

    def _tips(self, valleys: Floats, normals: Floats) -> Floats:
        """The points' tips: outwards, longer at the corners, each beyond both supporting lines."""
        chords = np.roll(valleys, -1, axis=0) - valleys
        lengths = np.hypot(*chords.T)
        middles = valleys + chords / 2
        flat = middles / np.array([self.core.half_width, self.core.half_height])
        turn = np.arctan2(flat[:, 1], flat[:, 0])
        emphasis = 1 + CORNERS * (np.sin(2 * turn) ** 2 + np.cos(turn) ** 2 / 2 - 0.5)
        out = np.stack([chords[:, 1], -chords[:, 0]], axis=-1) / lengths[:, None]
        away = middles / np.hypot(*middles.T)[:, None]
        way = out + 0.6 * away
        way /= np.hypot(*way.T)[:, None]
        ragged = uneven(self.points, by=RAGGED, start=3)
        reach = LENGTH * 1.35 * lengths.mean() * emphasis * ragged
        needed = np.zeros(self.points)
        for lines, at in (
            (normals, valleys),
            (np.roll(normals, -1, axis=0), np.roll(valleys, -1, axis=0)),
        ):
            rising = (way * lines).sum(axis=-1)
            if float(rising.min()) <= 0:
                raise OutlineError(
                    f"{self.points} points make no burst round this core",
                    advice="give more points",
                )
            lacking = ((at - middles) * lines).sum(axis=-1)
            needed = np.maximum(needed, lacking / rising)
        reach = np.maximum(reach, 1.3 * needed)
        result: Floats = middles + reach[:, None] * way
        return result

    @property
    def area_mm2(self) -> float:
        """The polygon of valleys and tips, less 2/3 of each flank's triangle (Archimedes)."""
        nexts = np.roll(self._corners, -1, axis=0)
        polygon = cross(self._corners, nexts).sum() / 2
        triangles = cross(nexts - self._corners, self._handles - self._corners).sum() / 2
        return float(polygon - 2 / 3 * triangles)

    def support(self, angles: npt.ArrayLike) -> Floats:
        """How far any tip, as drawn or mirrored, reaches."""
        t = np.asarray(angles, dtype=np.float64)[..., None]
        x, y = np.abs(self._corners).T
        result: Floats = (x * np.abs(np.cos(t)) + y * np.abs(np.sin(t))).max(axis=-1)
        return result

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """A tip, or its mirror image, where the symmetric hull is touched."""
        t = np.asarray(angles, dtype=np.float64)
        cos, sin = np.cos(t), np.sin(t)
        x, y = np.abs(self._corners).T
        place = (x * np.abs(cos)[..., None] + y * np.abs(sin)[..., None]).argmax(axis=-1)
        return np.stack([np.copysign(x[place], cos), np.copysign(y[place], sin)], axis=-1)

    def contains(self, x: float, y: float) -> bool:
        """Whether the point lies in the polygon and in none of the hollows beside it."""
        return bool(self._holds(np.array([[x, y]]))[0])

    def distance(self, boxes: npt.ArrayLike) -> float:
        """The least distance in mm from boxes of ink, shape (n, 4), inside to the line.

        Corners to tangents of the flanks, and the tangents' own corners to boxes. Tangents
        of a hollow flank lie on the ink's side of it: what they tell is never too large.
        """
        ink = np.asarray(boxes, dtype=np.float64).reshape(-1, 4)
        if not len(ink):
            return math.inf
        most = float(from_boxes(ink, self._corners).min())
        starts, ends = self._corners, np.roll(self._corners, -1, axis=0)
        coarse = np.stack([starts, self._handles, ends], axis=1)
        near = [k for k, chain in enumerate(coarse) if _to_chain(ink, chain) <= most]
        least = min(
            (_to_chain(ink, _tangents(coarse[k])) for k in near),
            default=most,
        )
        inside = bool(self._holds(corners(ink).reshape(-1, 2)).all())
        return min(least, most) if inside else -min(least, most)

    def svg_path(self) -> str:
        """One cubic curve a flank, exact (degree elevation)."""
        ends = np.roll(self._corners, -1, axis=0)
        first = self._corners + (self._handles - self._corners) * (2 / 3)
        second = ends + (self._handles - ends) * (2 / 3)
        parts = [f"M{mm_text(self._corners[0, 0])} {mm_text(self._corners[0, 1])}"]
        curves = np.concatenate([first, second, ends], axis=1).tolist()
        parts.extend("C" + " ".join(map(mm_text, numbers)) for numbers in curves)
        return "".join(parts) + "Z"

    def _holds(self, points: Floats) -> npt.NDArray[np.bool_]:
        """In the polygon (crossing number), and on no hollow's wrong side.

        With weights v, q, t of valley, handle and tip, the curve is q^2 = 4 v t; a hollow lies
        between it and the flank's chord (Farin, Curves and Surfaces for CAGD, 5th ed., ch. 12).
        """
        x, y = points[:, :1], points[:, 1:]
        (x0, y0), (x1, y1) = self._corners.T, np.roll(self._corners, -1, axis=0).T
        spans = (y0 > y) != (y1 > y)
        rise = np.where(y1 == y0, 1.0, y1 - y0)
        crossing = x < x0 + (y - y0) / rise * (x1 - x0)
        inside = (spans & crossing).sum(axis=1) % 2 == 1
        start, end = self._corners, np.roll(self._corners, -1, axis=0)
        whole = cross(end - start, self._handles - start)
        p = points[:, None]
        with np.errstate(divide="ignore", invalid="ignore"):
            q = cross(end - start, p - start) / whole
            t = cross(p - start, self._handles - start) / whole
            v = 1 - q - t
        hollow = (q > 0) & (v > 0) & (t > 0) & (q * q < 4 * v * t)
        result: npt.NDArray[np.bool_] = inside & ~hollow.any(axis=1)
        return result


def _handles(valleys: Floats, normals: Floats, tips: Floats, base: Floats) -> Floats:
    """The flanks' handles: drawn in towards the point's base, not past the supporting line."""
    middles = (valleys + tips) / 2
    rise = ((middles - valleys) * normals).sum(axis=-1)
    fall = ((base - valleys) * normals).sum(axis=-1)
    most = rise / np.maximum(rise - fall, 1e-300)
    share = np.minimum(HOLLOW, 0.9 * most)
    result: Floats = middles + share[:, None] * (base - middles)
    return result


def _tangents(flank: Floats) -> Floats:
    """The corners of tangents to a flank, closer to it than FLAT_MM: de Casteljau at even steps."""
    start, handle, end = flank
    bend = float(np.hypot(*(start - 2 * handle + end)))
    pieces = min(max(1, math.ceil(math.sqrt(bend / (4 * FLAT_MM)))), 4096)
    t = np.arange(pieces)[:, None] / pieces
    after = t + 1 / pieces
    # The handle of the piece from t to t': the blossom of both.
    inner = (1 - t) * (1 - after) * start + (t + after - 2 * t * after) * handle + t * after * end
    result: Floats = np.concatenate([start[None], inner, end[None]])
    return result


def _to_chain(boxes: Floats, chain: Floats) -> float:
    """The least distance from boxes to a chain of straight lines outside them."""
    points = corners(boxes).reshape(-1, 1, 2)
    starts, along = chain[:-1], np.diff(chain, axis=0)
    square = np.maximum((along**2).sum(axis=-1), 1e-300)
    share = np.clip(((points - starts) * along).sum(axis=-1) / square, 0.0, 1.0)
    off = points - (starts + share[..., None] * along)
    to_lines = float(np.hypot(off[..., 0], off[..., 1]).min())
    return min(to_lines, float(from_boxes(boxes, chain).min()))
