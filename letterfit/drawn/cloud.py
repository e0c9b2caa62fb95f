"""The thought cloud: circular arcs that bulge out and meet in cusps just outside the core.

Between two cusps the core lies under its two supporting lines there. An arc whose base angles are
at least those of the lines holds the triangle that they make with the chord, and so the core.
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

BULGE = 0.64
"""How far a lobe rises over half its chord: 1 is a half circle."""

MOST_BULGE = 0.95
UNEVEN = 0.28
"""By what share lobes are longer and shorter than their mean."""

START = 0.07
"""Where round the core the first lobe begins: at no axis, where a cusp would show."""

_SIGNS = ((1, 1), (-1, 1), (1, -1), (-1, -1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloud(Drawn):
    """A thought cloud round a core.

    Args:
        core: The convex body that the ink keeps its air from.
        lobes: The number of lobes, 6 or more.

    Raises:
        OutlineError: When the lobes are too few for so flat or so square a core.

    Source: elementary geometry; the segment of a circle is a sector less a triangle.

    >>> from letterfit import Ellipse
    >>> cloud = Cloud(core=Ellipse(half_width=16, half_height=9), lobes=16)
    >>> cloud.contains(16, 0), round(cloud.area_mm2 / cloud.core.area_mm2, 2)
    (True, 1.21)
    """

    kind: ClassVar[str] = "cloud"
    core: Outline = field()
    lobes: int
    half_width: float = field(init=False, compare=False, repr=False)
    half_height: float = field(init=False, compare=False, repr=False)
    _cusps: Floats = field(init=False, compare=False, repr=False)
    _centres: Floats = field(init=False, compare=False, repr=False)
    _radii: Floats = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        cusps, normals = meetings(self.core, uneven(self.lobes, by=UNEVEN), start=START)
        chords = np.roll(cusps, -1, axis=0) - cusps
        lengths = np.hypot(*chords.T)
        out = np.stack([chords[:, 1], -chords[:, 0]], axis=-1) / lengths[:, None]
        # The sine of the angle between chord and supporting line, at either end.
        along = chords / lengths[:, None]
        ends = -(along * normals).sum(axis=-1), (along * np.roll(normals, -1, axis=0)).sum(axis=-1)
        steepest = np.clip(np.maximum(*ends), 0.0, 1.0)
        # An arc of base angle e rises tan(e / 2) half chords; one that holds the triangle of base
        # angles a rises tan a.
        needed = np.tan(np.arcsin(np.minimum(steepest, math.sin(1.5))))
        bulge = np.maximum(BULGE * uneven(self.lobes, by=0.1, start=5), needed)
        if float(bulge.max()) > MOST_BULGE:
            raise OutlineError(
                f"{self.lobes} lobes make no cloud round this core", advice="give more lobes"
            )
        half, rise = lengths / 2, bulge * lengths / 2
        radii = (half**2 + rise**2) / (2 * rise)
        middles = cusps + chords / 2
        object.__setattr__(self, "_cusps", cusps)
        object.__setattr__(self, "_radii", radii)
        object.__setattr__(self, "_centres", middles + out * (rise - radii)[:, None])
        for name, angle in (("half_width", 0.0), ("half_height", math.pi / 2)):
            object.__setattr__(self, name, float(self.support(angle)))
        Outline.__post_init__(self)

    @property
    def area_mm2(self) -> float:
        """The polygon of the cusps (shoelace) and a circular segment r^2 (f - sin f) / 2 a lobe."""
        chords = np.roll(self._cusps, -1, axis=0) - self._cusps
        polygon = cross(self._cusps, np.roll(self._cusps, -1, axis=0)).sum() / 2
        turn = 2 * np.arcsin(np.hypot(*chords.T) / (2 * self._radii))
        return float(polygon + (self._radii**2 * (turn - np.sin(turn))).sum() / 2)

    def support(self, angles: npt.ArrayLike) -> Floats:
        """How far any arc, as drawn or mirrored, reaches: c . u + r, or its cusps."""
        return self._touching(np.asarray(angles, dtype=np.float64))[0]

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """Where the symmetric hull is touched: a point of an arc, or its mirror image."""
        return self._touching(np.asarray(angles, dtype=np.float64))[1]

    def contains(self, x: float, y: float) -> bool:
        """Whether the point lies in the polygon of the cusps or in a lobe on it."""
        return bool(self._holds(np.array([[x, y]]))[0])

    def distance(self, boxes: npt.ArrayLike) -> float:
        """The least distance in mm from boxes of ink, shape (n, 4), inside to the line.

        Corners to arcs and cusps to boxes: an arc that bulges out is nearest to a corner.
        """
        ink = np.asarray(boxes, dtype=np.float64).reshape(-1, 4)
        if not len(ink):
            return math.inf
        points = corners(ink).reshape(-1, 2)
        to_cusps = float(from_boxes(ink, self._cusps).min())
        away = points[:, None] - self._centres
        far = np.hypot(away[..., 0], away[..., 1])
        foot = self._centres + away * (self._radii / np.maximum(far, 1e-300))[..., None]
        on_arc = self._beyond(foot) >= 0
        least = min(to_cusps, float(np.where(on_arc, np.abs(self._radii - far), math.inf).min()))
        inside = bool(self._holds(points).all())
        return least if inside else -least

    def svg_path(self) -> str:
        """One circular arc a lobe, exact."""
        start = self._cusps[0]
        parts = [f"M{mm_text(start[0])} {mm_text(start[1])}"]
        ends = np.roll(self._cusps, -1, axis=0).tolist()
        for radius, (x, y) in zip(self._radii.tolist(), ends, strict=True):
            r = mm_text(radius)
            parts.append(f"A{r} {r} 0 0 1 {mm_text(x)} {mm_text(y)}")
        return "".join(parts) + "Z"

    def _beyond(self, points: Floats) -> Floats:
        """How far points (n, lobes, 2) lie beyond each lobe's chord, times its length."""
        chords = np.roll(self._cusps, -1, axis=0) - self._cusps
        return -cross(chords, points - self._cusps)

    def _holds(self, points: Floats) -> npt.NDArray[np.bool_]:
        beyond = self._beyond(np.repeat(points[:, None], self.lobes, axis=1))
        away = points[:, None] - self._centres
        in_disc = np.hypot(away[..., 0], away[..., 1]) <= self._radii
        in_polygon = np.all(beyond <= 0, axis=1)
        in_lobe = np.any(in_disc & (beyond >= 0), axis=1)
        result: npt.NDArray[np.bool_] = np.logical_or(in_polygon, in_lobe)
        return result

    def _touching(self, t: Floats) -> tuple[Floats, Floats]:
        """The support of the symmetric hull and a point of it, per angle."""
        best = np.full(t.shape, -math.inf)
        where = np.zeros((*t.shape, 2))
        for sx, sy in _SIGNS:
            u = np.stack([sx * np.cos(t), sy * np.sin(t)], axis=-1)
            tops = self._centres + self._radii[:, None] * u[..., None, :]
            tops = np.where((self._beyond(tops) >= 0)[..., None], tops, self._cusps)
            reach = (tops * u[..., None, :]).sum(axis=-1)
            place = reach.argmax(axis=-1)[..., None]
            most = np.take_along_axis(reach, place, axis=-1)[..., 0]
            top = np.take_along_axis(tops, place[..., None], axis=-2)[..., 0, :]
            wins = most > best
            best = np.where(wins, most, best)
            where = np.where(wins[..., None], top * np.array([sx, sy]), where)
        return best, where
