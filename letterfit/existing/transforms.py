"""Affine transforms: the six numbers a b c d e f of SVG, read, composed and applied.

x' = a x + c y + e, y' = b x + d y + f (SVG 2, section 8.5; CSS Transforms 1, section 12).
"""

import math
import re
from dataclasses import dataclass

import numpy as np

from letterfit.existing.lengths import LARGEST, MOST_CHARACTERS, numbers
from letterfit.outline import Floats

_ONE = re.compile(r" ?,? ?(matrix|translate|scale|rotate|skewX|skewY) ?\(([^()]*)\)")

MOST_TRANSFORMS = 1000
"""Transforms in one attribute."""


@dataclass(frozen=True, slots=True)
class Transform:
    """An affine transform; without arguments the identity.

    >>> Transform(2, 0, 0, 2, 1, 0).point(3, 4)
    (7, 8)
    """

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def after(self, first: "Transform") -> "Transform":
        """The transform that does another one first, then this one.

        >>> Transform(e=5).after(Transform(a=2, d=2)).point(1, 1)
        (7.0, 2.0)
        """
        return Transform(
            self.a * first.a + self.c * first.b,
            self.b * first.a + self.d * first.b,
            self.a * first.c + self.c * first.d,
            self.b * first.c + self.d * first.d,
            self.a * first.e + self.c * first.f + self.e,
            self.b * first.e + self.d * first.f + self.f,
        )

    def point(self, x: float, y: float) -> tuple[float, float]:
        """A point moved."""
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def points(self, points: Floats) -> Floats:
        """Points moved, shape (..., 2)."""
        matrix = np.array([[self.a, self.b], [self.c, self.d]])
        result: Floats = points @ matrix + np.array([self.e, self.f])
        return result

    def shrinks(self, size: tuple[float, float] | None, least: float) -> bool:
        """Whether a box of a size is under a least length both ways when it is transformed.

        >>> Transform(a=0.5, d=0.5).shrinks((4, 5), 3), Transform().shrinks(None, 3)
        (True, False)
        """
        if size is None:
            return False
        width, height = size
        return (
            abs(self.a) * width + abs(self.c) * height < least
            and abs(self.b) * width + abs(self.d) * height < least
        )

    @property
    def scale(self) -> float:
        """The square root of what it does to areas."""
        return math.sqrt(abs(self.a * self.d - self.b * self.c))

    @property
    def is_sound(self) -> bool:
        """Whether its numbers are finite and within reason."""
        return all(
            math.isfinite(value) and abs(value) <= LARGEST
            for value in (self.a, self.b, self.c, self.d, self.e, self.f)
        )


def parse_transform(text: str) -> Transform | None:
    """The transform of an attribute; None where it is broken, as for renderers.

    Args:
        text: Transforms one after the other; the last is done first.

    >>> parse_transform("translate(10) scale(2)").point(1, 1)
    (12.0, 2.0)
    >>> parse_transform("tilt(3)") is None
    True
    """
    done, at, count = Transform(), 0, 0
    text = " ".join(text[:MOST_CHARACTERS].split())
    while at < len(text):
        match = _ONE.match(text, at)
        count += 1
        if match is None or count > MOST_TRANSFORMS:
            return None
        values = numbers(match[2])
        one = None if values is None else _one(match[1], values)
        if one is None:
            return None
        done, at = done.after(one), match.end()
    return done if done.is_sound else None


def _one(name: str, values: list[float]) -> Transform | None:
    """One transform by its name and its numbers."""
    count = len(values)
    if name == "matrix" and count == 6:
        return Transform(*values)
    if name == "translate" and count in (1, 2):
        return Transform(e=values[0], f=values[1] if count == 2 else 0.0)
    if name == "scale" and count in (1, 2):
        return Transform(a=values[0], d=values[-1])
    if name == "rotate" and count in (1, 3):
        turn = math.radians(values[0])
        turned = Transform(math.cos(turn), math.sin(turn), -math.sin(turn), math.cos(turn))
        x, y = values[1:] if count == 3 else (0.0, 0.0)
        return Transform(e=x, f=y).after(turned).after(Transform(e=-x, f=-y))
    return _skewed(name, values) if count == 1 else None


def _skewed(name: str, values: list[float]) -> Transform | None:
    slope = math.tan(math.radians(values[0]))
    if name == "skewX":
        return Transform(c=slope)
    return Transform(b=slope) if name == "skewY" else None
