"""Two parts of one speech in two joined balloons: the second lower, and to one side.

The balloons overlap by a set depth that is at most the air. Let u be the direction in which they
overlap least, by the depth e: the lower lies where p . u >= h(u) - e, h the upper's support. The
upper's ink, air m inside, lies where p . u <= h(u) - m. So the ink of either part is at least m - e
clear of the other's balloon, the two inks are at least 2 m - e apart, and where the line between
the balloons is left out no ink stands. Nothing is tried out for it.

For an offset dx to the side the lower's height follows: d . u(t) <= h1(t) + h2(t + pi) - e holds
for all t, with equality for one, so

    dy = min over t in (0, pi) of (h1(t) + h2(t + pi) - e - dx cos t) / sin t.
"""

import math
from dataclasses import dataclass

import numpy as np

from letterfit.errors import OutlineError
from letterfit.findings import Finding
from letterfit.fit.balloon import fit_texts
from letterfit.fit.model import FittedBalloon, Line
from letterfit.fit.turned import exchanged
from letterfit.geometry import Point
from letterfit.joined_outline import Joined
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline
from letterfit.separation import least_near
from letterfit.shown import Shown

OVERLAP = 0.8
"""The depth of the overlap over the air, where none is asked for."""

SHIFTS = (0.5, 0.45, 0.4, 0.35, 0.3, 0.25, 0.2, 0.15, 0.1)
"""How far the lower may stand to the side, over the sum of half the widths: the most that leaves
its first line a line below the upper's last one, so that the two read one after the other."""

STEP = math.pi / 720
_HALF_TURN: Floats = np.arange(1, 720, dtype=np.float64) * STEP


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedBalloon(Shown):
    """Two parts of one speech, each set in a balloon, and the outline round both.

    Args:
        upper: The part read first, in its own balloon's frame.
        lower: The part read second, in its own.
        outline: The union of both balloons, in a frame of its own.
        clearance_mm: The least distance from the ink of both parts to the union's outline.

    >>> import letterfit as lf
    >>> pair = lf.fit_joined(("The gate is shut.", "The tide turned an hour ago."))
    >>> pair.words, pair.upper.text, pair.area_mm2 < pair.upper.area_mm2 + pair.lower.area_mm2
    (10, 'THE GATE IS SHUT.', True)
    """

    upper: FittedBalloon
    lower: FittedBalloon
    outline: Joined
    clearance_mm: float

    @property
    def parts(self) -> tuple[tuple[FittedBalloon, Point], tuple[FittedBalloon, Point]]:
        """Both balloons in reading order, each with its centre in the outline's frame."""
        return (
            (self.upper, self.outline.upper_centre),
            (self.lower, self.outline.lower_centre),
        )

    @property
    def text(self) -> str:
        """Both parts as set, on one line."""
        return f"{self.upper.text} {self.lower.text}"

    @property
    def words(self) -> int:
        """Number of words of both parts."""
        return self.upper.words + self.lower.words

    @property
    def size_pt(self) -> float:
        """The type size."""
        return self.upper.size_pt

    @property
    def area_mm2(self) -> float:
        """The area of the union in mm2."""
        return self.outline.area_mm2

    @property
    def looks(self) -> float:
        """What the looks of both stacks cost on average, a ratio."""
        return (self.upper.looks + self.lower.looks) / 2

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found of either text when it was measured."""
        return tuple(dict.fromkeys((*self.upper.findings, *self.lower.findings)))


def fit_words_joined(  # noqa: PLR0913 - keyword-only
    upper: Words,
    lower: Words,
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
    overlap_mm: float | None = None,
    rtl: bool | None = None,
) -> JoinedBalloon:
    """Set two parts of one speech in joined balloons, each as `fit_words` would set it alone.

    Args:
        upper: The part read first, measured.
        lower: The part read second.
        outline: The family of both: "ellipse" or "superellipse".
        air_mm: The least distance from ink to outline, over 0.
        aspect: Least and greatest width over height of each; None for the family's own.
        slack: By what share an area may exceed the least for the sake of looks.
        overlap_mm: How deep the balloons overlap, at most the air; None for 0.8 of it.
        rtl: Whether the second part stands to the left, as on pages read from the right; None for
            as the first part reads. Columns go from the right anyhow: their second part stands to
            the left and a little lower.

    Returns:
        Both balloons and their union. The ink of each part keeps its air from the union's outline,
        and air less overlap from the other part's balloon.

    Raises:
        OutlineError: When a text is empty or too long, the family is unknown or cannot be joined,
            only one part is set in columns, or a number is out of its range.
    """
    deep = _checked_overlap(air_mm, overlap_mm)
    if upper.vertical != lower.vertical:
        raise OutlineError("rows and columns cannot be joined", advice="measure both parts one way")
    one, other = fit_texts(
        (upper, lower), outline=outline, air_mm=air_mm, aspect=aspect, slack=slack
    )
    aside = upper.rtl if rtl is None else rtl
    dx, dy = _offset(one, other, deep=deep, leading=upper.leading_mm, rtl=aside)
    union = Joined(upper=one.outline, lower=other.outline, dx=dx, dy=dy)
    ink = [
        corners(words, balloon) + np.array([centre.x, centre.y])
        for words, balloon, centre in (
            (upper, one, union.upper_centre),
            (lower, other, union.lower_centre),
        )
    ]
    room = union.clearance(np.concatenate(ink))
    return JoinedBalloon(upper=one, lower=other, outline=union, clearance_mm=room)


def corners(words: Words, balloon: FittedBalloon) -> Floats:
    """The corners of a balloon's ink about its outline's centre on the page, shape (n, 2), mm.

    Args:
        words: The text.
        balloon: It set in full.
    """
    parts, first = [np.zeros((0, 2))], 0
    for line in balloon.lines:
        last = _last_piece(words, line, first)
        dots = words.line(first, last).corners()
        if line.vertical:
            left, baseline = line.baseline_mm, words.cap_height_mm / 2 - line.x_mm
            dots = dots + np.array([left, baseline])
            parts.append(np.stack([-dots[:, 1], dots[:, 0]], axis=-1))
        else:
            parts.append(dots + np.array([line.x_mm, line.baseline_mm]))
        first = last + 1
    return np.concatenate(parts)


def _last_piece(words: Words, line: Line, first: int) -> int:
    """The last piece of the line that begins with piece `first`."""
    for last in range(first, len(words)):
        if words.line_text(first, last).replace("\u00ad", "") == line.text:
            return last
    raise AssertionError(f"no run of pieces is the line {line.text!r}")  # pragma: no cover


def _checked_overlap(air: float, overlap: float | None) -> float:
    """The depth of the overlap.

    Raises:
        OutlineError: When the air is not over 0, or the depth not over 0 and at most the air.
    """
    if not (math.isfinite(air) and air > 0):
        raise OutlineError(
            f"air of {air} mm leaves no room to join balloons", advice="give air over 0 mm"
        )
    deep = OVERLAP * air if overlap is None else overlap
    if not 0 < deep <= air:
        raise OutlineError(
            f"an overlap of {deep} mm goes into the letters, or nowhere",
            advice=f"give a depth over 0 mm, at most the air of {air} mm",
        )
    return deep


def _offset(
    one: FittedBalloon, other: FittedBalloon, *, deep: float, leading: float, rtl: bool
) -> tuple[float, float]:
    """Where the lower's centre stands from the upper's on the page, mm."""
    if one.vertical:  # in the frame of the columns, as `letterfit.fit.turned` has it
        down = one.lines[-1].x_mm - other.lines[0].x_mm
        shapes = exchanged(one.outline), exchanged(other.outline)
    else:
        down = other.lines[0].baseline_mm - one.lines[-1].baseline_mm
        shapes = one.outline, other.outline
    for share in SHIFTS:
        aside = share * (shapes[0].half_width + shapes[1].half_width)
        below = height_for(*shapes, dx=aside, deep=deep)
        if below + down >= leading:
            break
    if one.vertical:
        return -below, aside
    return (-aside if rtl else aside), below


def height_for(one: Outline, other: Outline, *, dx: float, deep: float) -> float:
    """How far below an outline's centre another's stands, dx to the side, to overlap by `deep`.

    Args:
        one: The upper outline.
        other: The lower one.
        dx: mm; less than both half-widths together, less the depth.
        deep: The least of the depths over all directions, mm.

    >>> from letterfit.outline import Ellipse
    >>> disc = Ellipse(half_width=5, half_height=5)
    >>> round(height_for(disc, disc, dx=6, deep=0), 9)
    8.0
    """

    def height(t: Floats) -> Floats:
        reach = one.support(t) + other.support(t + math.pi) - deep
        result: Floats = (reach - dx * np.cos(t)) / np.sin(t)
        return result

    near = _HALF_TURN[height(_HALF_TURN).argmin()]
    return float(least_near(height, np.array([near]), step=STEP / 2)[0][0])
