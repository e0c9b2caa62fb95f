"""Balloon outlines as convex bodies: a support function, an area, a path.

Everything that affects the shape of an outline lives here. An outline is centred on its own
origin and symmetric about both axes. Its support function is

    h(t) = max over the points p of the outline of p . u(t),    u(t) = (cos t, sin t),

with t in radians and y downwards (Schneider, Convex Bodies: The Brunn-Minkowski Theory, 2nd ed.,
section 1.7). From h alone follow the distance from a point inside to the outline, the gap between
two outlines, and the smallest outline round given ink; `letterfit.separation` holds the first two,
`letterfit.fit` the third.
"""

import math
from abc import ABC, abstractmethod
from dataclasses import dataclass, replace
from typing import ClassVar, Self

import numpy as np
import numpy.typing as npt

from letterfit.errors import OutlineError
from letterfit.outline_path import cubic, cubic_text, mm_text, pair
from letterfit.shown import Shown

Floats = npt.NDArray[np.float64]

PERIMETER_SAMPLES = 1 << 14
"""Directions in Cauchy's formula: errors stay below 1e-6 of the perimeter for every family."""

CURVES_PER_QUADRANT = 4
"""Bezier curves in a quarter of a superellipse's path: off the true outline by under 0.1 % of its
size for exponents from 1.2 to 3, by under 0.25 % beyond."""


class Outline(Shown, ABC):
    """What every outline has: half its width, half its height, and the four questions below.

    Raises:
        OutlineError: When a length is not finite and over 0.

    Source: Schneider, Convex Bodies, 2nd ed., section 1.7 (the support function).

    >>> import letterfit as lf
    >>> outline = lf.fit_balloon("Hold a little longer.").outline
    >>> outline.contains(0, 0), float(outline.support(0)) == outline.half_width
    (True, True)
    """

    __slots__ = ()
    kind: ClassVar[str]
    stretches: ClassVar[bool] = False
    """Whether it stays of its kind when stretched along its axes; round corners would not."""
    half_width: float
    half_height: float

    def __post_init__(self) -> None:
        for name in ("half_width", "half_height"):
            value = getattr(self, name)
            if not math.isfinite(value) or value <= 0:
                raise OutlineError(
                    f"{name} of {value} mm makes no outline", advice="give a finite length over 0"
                )

    @property
    def aspect(self) -> float:
        """Width over height, a ratio."""
        return self.half_width / self.half_height

    @property
    def core(self) -> "Outline":
        """What the ink keeps its air from: the outline itself, or the core it is drawn round."""
        return self

    def round_core(self, core: "Outline") -> "Outline":
        """The same outline with another core: the core itself where nothing is drawn round it."""
        return core

    @property
    def unit(self) -> Self | None:
        """The one of half sides of 1 mm that this is when stretched; None where it is none."""
        if not self.stretches:
            return None
        return replace(self, half_width=1.0, half_height=1.0)  # type: ignore[type-var]

    @property
    @abstractmethod
    def area_mm2(self) -> float:
        """The area enclosed, in mm2, exact to rounding."""

    @abstractmethod
    def support(self, angles: npt.ArrayLike) -> Floats:
        """The support function in mm at the given angles in radians, in the angles' own shape."""

    @abstractmethod
    def contains(self, x: float, y: float) -> bool:
        """Whether the point (x, y) mm lies inside or on the outline."""

    @abstractmethod
    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """A point of the outline with outward normal u(t), per t of angles: shape (..., 2), mm."""

    @abstractmethod
    def svg_path(self) -> str:
        """The outline as SVG path data in mm about its own centre (SVG 2, section 9.3)."""

    @property
    def perimeter_mm(self) -> float:
        """The length of the outline in mm, by Cauchy's formula: the integral of h over a full turn.

        Source: Schneider, Convex Bodies, 2nd ed., section 5.3 (mean width in the plane).
        """
        turn = np.arange(PERIMETER_SAMPLES) * (2 * math.pi / PERIMETER_SAMPLES)
        return float(self.support(turn).mean() * 2 * math.pi)

    def scaled(self, factor: float) -> Self:
        """The outline grown by a factor about its centre: same family, same aspect.

        Raises:
            OutlineError: When the factor is not finite and over 0.
        """
        changes = {name: getattr(self, name) * factor for name in self._lengths()}
        return replace(self, **changes)  # type: ignore[type-var]

    @classmethod
    def _lengths(cls) -> tuple[str, ...]:
        return ("half_width", "half_height")


@dataclass(frozen=True, slots=True, kw_only=True)
class Superellipse(Outline):
    """The curve |x/a|^n + |y/b|^n = 1: fuller than an ellipse for n > 2.

    Args:
        half_width: a, in mm.
        half_height: b, in mm.
        exponent: n, a number over 1; 2 is the ellipse, 2.5 a comfortable balloon.

    Raises:
        OutlineError: When a length is not finite and over 0, or the exponent not finite and over 1.

    Source: NIST DLMF, 5.14.1 (Dirichlet's integral: the area), 1.7(i) (Hoelder: the support).

    >>> round(Superellipse(half_width=30, half_height=18, exponent=4).area_mm2, 6)
    2002.400651
    """

    kind: ClassVar[str] = "superellipse"
    stretches: ClassVar[bool] = True
    half_width: float
    half_height: float
    exponent: float = 2.5

    def __post_init__(self) -> None:
        Outline.__post_init__(self)
        if not math.isfinite(self.exponent) or self.exponent <= 1:
            raise OutlineError(
                f"exponent {self.exponent} makes no convex curve", advice="give a number over 1"
            )

    @property
    def area_mm2(self) -> float:
        """4 a b G(1 + 1/n)^2 / G(1 + 2/n), G the gamma function (Dirichlet's integral)."""
        n = self.exponent
        return (
            4
            * self.half_width
            * self.half_height
            * math.gamma(1 + 1 / n) ** 2
            / math.gamma(1 + 2 / n)
        )

    def support(self, angles: npt.ArrayLike) -> Floats:
        """((a |cos t|)^q + (b |sin t|)^q)^(1/q), q = n/(n-1): the dual norm (Hoelder)."""
        q = self.exponent / (self.exponent - 1)
        t = np.asarray(angles, dtype=np.float64)
        across = self.half_width * np.abs(np.cos(t))
        down = self.half_height * np.abs(np.sin(t))
        longest = np.maximum(across, down)
        result: Floats = longest * ((across / longest) ** q + (down / longest) ** q) ** (1 / q)
        return result

    def contains(self, x: float, y: float) -> bool:
        """Whether |x/a|^n + |y/b|^n <= 1."""
        across, down = abs(x / self.half_width), abs(y / self.half_height)
        return max(across, down) <= 1 and across**self.exponent + down**self.exponent <= 1

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """The gradient of the support function: where the tangent with normal u(t) touches."""
        q = self.exponent / (self.exponent - 1)
        t = np.asarray(angles, dtype=np.float64)
        cos, sin = np.cos(t), np.sin(t)
        h = self.support(t)
        x = np.sign(cos) * self.half_width * (self.half_width * np.abs(cos) / h) ** (q - 1)
        y = np.sign(sin) * self.half_height * (self.half_height * np.abs(sin) / h) ** (q - 1)
        return np.stack([x, y], axis=-1)

    def svg_path(self) -> str:
        """Cubic Bezier curves through points of the outline, with its own tangents there."""
        return _smooth_path(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ellipse(Outline):
    """The ellipse (x/a)^2 + (y/b)^2 = 1.

    Args:
        half_width: a, in mm.
        half_height: b, in mm.

    Raises:
        OutlineError: When a length is not finite and over 0.

    Source: the superellipse of exponent 2; Schneider, section 1.7, for a linear image of the disc.

    >>> round(Ellipse(half_width=30, half_height=18).area_mm2, 4)
    1696.46
    """

    kind: ClassVar[str] = "ellipse"
    stretches: ClassVar[bool] = True
    half_width: float
    half_height: float

    @property
    def area_mm2(self) -> float:
        """Pi a b."""
        return math.pi * self.half_width * self.half_height

    def support(self, angles: npt.ArrayLike) -> Floats:
        """sqrt((a cos t)^2 + (b sin t)^2)."""
        t = np.asarray(angles, dtype=np.float64)
        result: Floats = np.hypot(self.half_width * np.cos(t), self.half_height * np.sin(t))
        return result

    def contains(self, x: float, y: float) -> bool:
        """Whether (x/a)^2 + (y/b)^2 <= 1."""
        return (x / self.half_width) ** 2 + (y / self.half_height) ** 2 <= 1

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """(a^2 cos t, b^2 sin t) / h(t)."""
        t = np.asarray(angles, dtype=np.float64)
        h = self.support(t)
        across, down = self.half_width**2 * np.cos(t), self.half_height**2 * np.sin(t)
        return np.stack([across / h, down / h], axis=-1)

    def svg_path(self) -> str:
        """Two elliptical arcs, exact."""
        a, b = mm_text(self.half_width), mm_text(self.half_height)
        return f"M-{a} 0A{a} {b} 0 0 1 {a} 0A{a} {b} 0 0 1 -{a} 0Z"


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundedRect(Outline):
    """A rectangle with quarter-circle corners.

    Args:
        half_width: a, in mm.
        half_height: b, in mm.
        radius: Radius of the corners in mm, from 0 to the shorter of a and b.

    Raises:
        OutlineError: When a length is not finite and over 0, or the radius is out of its range.

    Source: Schneider, Convex Bodies, 2nd ed., chapter 4 (Steiner's formula: the area of a body
    grown by a disc) and section 1.7 (its support function: the sum of both).

    >>> round(RoundedRect(half_width=30, half_height=12, radius=4).area_mm2, 6)
    1426.265482
    """

    kind: ClassVar[str] = "rounded"
    half_width: float
    half_height: float
    radius: float

    def __post_init__(self) -> None:
        Outline.__post_init__(self)
        if not 0 <= self.radius <= min(self.half_width, self.half_height):
            raise OutlineError(
                f"a corner radius of {self.radius} mm does not go into half-sides of "
                f"{self.half_width} and {self.half_height} mm",
                advice="give a radius from 0 to the shorter half-side",
            )

    @property
    def area_mm2(self) -> float:
        """4 a b - (4 - pi) r^2."""
        return 4 * self.half_width * self.half_height - (4 - math.pi) * self.radius**2

    def support(self, angles: npt.ArrayLike) -> Floats:
        """(a - r) |cos t| + (b - r) |sin t| + r: a rectangle grown by a disc."""
        t = np.asarray(angles, dtype=np.float64)
        flat, tall = self.half_width - self.radius, self.half_height - self.radius
        result: Floats = flat * np.abs(np.cos(t)) + tall * np.abs(np.sin(t)) + self.radius
        return result

    def contains(self, x: float, y: float) -> bool:
        """Whether the point is within r of the rectangle of the corners' centres."""
        across = max(abs(x) - (self.half_width - self.radius), 0.0)
        down = max(abs(y) - (self.half_height - self.radius), 0.0)
        if not self.radius:
            return across == down == 0.0
        return math.hypot(across, down) <= self.radius

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """A corner of the inner rectangle plus the radius along u(t)."""
        t = np.asarray(angles, dtype=np.float64)
        cos, sin = np.cos(t), np.sin(t)
        across = np.copysign(self.half_width - self.radius, cos) + self.radius * cos
        down = np.copysign(self.half_height - self.radius, sin) + self.radius * sin
        return np.stack([across, down], axis=-1)

    def svg_path(self) -> str:
        """Four sides and four circular arcs, exact."""
        a, b, r = mm_text(self.half_width), mm_text(self.half_height), mm_text(self.radius)
        if not float(r):
            return f"M-{a} -{b}H{a}V{b}H-{a}Z"
        flat, tall = mm_text(self.half_width - self.radius), mm_text(self.half_height - self.radius)
        arc = f"A{r} {r} 0 0 1"
        return (
            f"M-{flat} -{b}H{flat}{arc} {a} -{tall}V{tall}{arc} {flat} {b}"
            f"H-{flat}{arc} -{a} {tall}V-{tall}{arc} -{flat} -{b}Z"
        )

    @classmethod
    def _lengths(cls) -> tuple[str, ...]:
        return ("half_width", "half_height", "radius")


@dataclass(frozen=True, slots=True, kw_only=True)
class CaptionBox(Outline):
    """A plain rectangle: the box of a caption.

    Args:
        half_width: a, in mm.
        half_height: b, in mm.

    Raises:
        OutlineError: When a length is not finite and over 0.

    >>> CaptionBox(half_width=20, half_height=4).area_mm2
    320
    """

    kind: ClassVar[str] = "caption"
    stretches: ClassVar[bool] = True
    half_width: float
    half_height: float

    @property
    def area_mm2(self) -> float:
        """4 a b."""
        return 4 * self.half_width * self.half_height

    def support(self, angles: npt.ArrayLike) -> Floats:
        """A |cos t| + b |sin t|."""
        t = np.asarray(angles, dtype=np.float64)
        result: Floats = self.half_width * np.abs(np.cos(t)) + self.half_height * np.abs(np.sin(t))
        return result

    def contains(self, x: float, y: float) -> bool:
        """Whether |x| <= a and |y| <= b."""
        return abs(x) <= self.half_width and abs(y) <= self.half_height

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """The corner that u(t) points to."""
        t = np.asarray(angles, dtype=np.float64)
        across = np.copysign(self.half_width, np.cos(t))
        return np.stack([across, np.copysign(self.half_height, np.sin(t))], axis=-1)

    def svg_path(self) -> str:
        """Four sides, exact."""
        a, b = mm_text(self.half_width), mm_text(self.half_height)
        return f"M-{a} -{b}H{a}V{b}H-{a}Z"


def _smooth_path(outline: Outline) -> str:
    """Cubic curves whose ends and middles lie on the outline and whose ends are tangent to it."""
    normals = np.linspace(0, 2 * math.pi, 4 * CURVES_PER_QUADRANT + 1)
    # Equal steps of the normal bunch up in a flat outline: spread them by the aspect.
    normals = np.arctan2(
        outline.half_width * np.sin(normals), outline.half_height * np.cos(normals)
    )
    points = outline.boundary(normals)
    curves = [
        _curve(outline, points[k : k + 2], normals[k : k + 2]) for k in range(len(points) - 1)
    ]
    return f"M{pair(points[0])}{''.join(curves)}Z"


def _curve(outline: Outline, ends: Floats, normals: Floats) -> str:
    """One cubic between two points of the outline with normals at these angles."""
    units = np.stack([np.cos(normals), np.sin(normals)], axis=-1)
    return cubic_text(cubic(ends, units, holds=lambda point: outline.contains(*point.tolist())))
