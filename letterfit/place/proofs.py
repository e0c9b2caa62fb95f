"""Proofs that a panel cannot take its balloons; what has no proof is never called impossible.

- *shape*: a balloon has no outline that enters the panel less its margins.
- *coverage*: the smallest outlines together cover more than the limit.
- *area*: grown by half the gap, outlines stay disjoint and lie in the panel less its margins grown
  by half the gap. By Steiner's formula a convex body of area A and perimeter P grown by r has area
  A + P r + pi r^2 (Schneider, Convex Bodies, 2nd ed., section 4.2).
- *pair*: two balloons do not go into the panel even without the others. Both outlines are symmetric
  about both axes, so their gap grows with |dx| and with |dy|: opposite corners are the best places.

Where balloons are joined or may hang over the border, what that can save at most is granted first.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.kernel import COS, SIN, perimeter, profile
from letterfit.place.model import Proof
from letterfit.place.settle import RIGHT
from letterfit.place.terms import Terms
from letterfit.separation import gap as true_gap

SLACK = 1e-6
"""A proof must win by more than this share of a figure or this many mm: rounding proves nothing."""

MOST_CHOICES = 1024
"""Pairs of outlines of two menus up to which all are tried."""

MOST_PAIRS = 12
"""Balloons up to which every pair is tried."""


Proved = tuple[Proof, str]
"""A proof, and its name and figures in words."""


def proof(panel: Rect, menus: Sequence[Sequence[Outline]], *, terms: Terms) -> Proved | None:
    """The proof that no legal layout exists; None when none is known."""
    case = _Case.of(panel, menus, terms)
    return _shape(case, menus) or _coverage(case) or _area(case) or _pair(case)


def least_area(menus: Sequence[Sequence[Outline]], *, terms: Terms) -> float:
    """The least area in mm2 inside the panel that the balloons can cover, from below."""
    case = _Case.of(Rect(0, 0, 1, 1), menus, terms)
    return _inside_area(case, menus)


@dataclass(frozen=True, slots=True)
class _Case:
    """The task as proofs read it: the room inside the margins, and what enters it."""

    panel: Rect
    terms: Terms
    width: float
    height: float
    inside: tuple[tuple[Outline, ...], ...]
    overs: tuple[tuple[float, ...], ...]

    @classmethod
    def of(cls, panel: Rect, menus: Sequence[Sequence[Outline]], terms: Terms) -> "_Case":
        """The task of a panel: of every menu what enters, and how far that may hang over."""
        margin = terms.margin
        width = panel.width - margin.left - margin.right
        height = panel.height - margin.top - margin.bottom
        overs = terms.overhangs or tuple((0.0,) * len(menu) for menu in menus)
        enters = [
            [
                (outline, over)
                for outline, over in zip(menu, own, strict=True)
                if 2 * outline.half_width <= width + SLACK
                and 2 * outline.half_height <= height + _more(over, terms) + SLACK
            ]
            for menu, own in zip(menus, overs, strict=True)
        ]
        return cls(
            panel,
            terms,
            width,
            height,
            tuple(tuple(outline for outline, _ in own) for own in enters),
            tuple(tuple(over for _, over in own) for own in enters),
        )

    @property
    def joined(self) -> tuple[bool, ...]:
        return self.terms.joined or (False,) * len(self.inside)


def _more(over: float, terms: Terms) -> float:
    """How much higher than the margin a balloon may begin that may hang over, mm."""
    return over + terms.margin.top if over > 0 else 0.0


def _all(case: _Case) -> tuple[int, ...]:
    return tuple(range(len(case.inside)))


def _shape(case: _Case, menus: Sequence[Sequence[Outline]]) -> Proved | None:
    for index, (menu, kept) in enumerate(zip(menus, case.inside, strict=True)):
        if kept:
            continue
        narrow = min(menu, key=lambda o: (o.half_width, o.half_height))
        flat = min(menu, key=lambda o: (o.half_height, o.half_width))
        enter = [o.half_height for o in menu if 2 * o.half_width <= case.width + SLACK]
        needs = 2 * min(enter, default=narrow.half_width)
        holds = max(case.height if enter else case.width, 0.0)
        words = (
            f"shape: balloon {index + 1} needs {2 * narrow.half_width:.1f} x "
            f"{2 * narrow.half_height:.1f} mm at its narrowest, {2 * flat.half_width:.1f} x "
            f"{2 * flat.half_height:.1f} mm at its flattest, of {max(case.width, 0):.1f} x "
            f"{max(case.height, 0):.1f} mm"
        )
        return Proof(name="shape", balloons=(index,), needs=needs, holds=holds), words
    return None


def _coverage(case: _Case) -> Proved | None:
    needs = _inside_area(case, case.inside)
    holds = case.terms.limit * case.panel.area_mm2
    if needs <= holds * (1 + SLACK):
        return None
    return (
        Proof(name="coverage", balloons=_all(case), needs=needs, holds=holds),
        f"coverage: needs {needs:.0f} of {holds:.0f} mm2",
    )


def _inside_area(case: _Case, menus: Sequence[Sequence[Outline]]) -> float:
    """The least area inside the panel, what hangs over and what overlaps taken off, from below."""
    overs = case.terms.overhangs or [[0.0] * len(menu) for menu in menus]
    overs = case.overs if menus is case.inside else overs
    single = [
        min(
            max(o.area_mm2 - 2 * o.half_width * over, 0.0)
            for o, over in zip(menu, own, strict=True)
        )
        for menu, own in zip(menus, overs, strict=True)
    ]
    return math.fsum(single) - _overlaps(menus, case, depth=case.terms.overlap)


def _overlaps(menus: Sequence[Sequence[Outline]], case: _Case, *, depth: float) -> float:
    """No less than the area that joined balloons have in common.

    Two convex bodies that overlap by a depth lie in a strip of that width there, and what they have
    in common is no longer than the shorter of them.
    """
    if depth <= 0:
        return 0.0
    longest = [2 * max(math.hypot(o.half_width, o.half_height) for o in menu) for menu in menus]
    pairs = zip(longest, longest[1:], case.joined[1:], strict=False)
    return math.fsum(depth * (min(one, two) + depth) for one, two, joined in pairs if joined)


def _area(case: _Case) -> Proved | None:
    terms, r = case.terms, case.terms.gap / 2
    more = max((_more(over, terms) for own in case.overs for over in own), default=0.0)
    width, height = case.width, case.height + more
    holds = width * height + 2 * (width + height) * r + math.pi * r * r
    if math.fsum(min(_at_most(o, r) for o in menu) for menu in case.inside) <= holds:
        return None
    needs = math.fsum(min(grown(o, r) for o in menu) for menu in case.inside)
    needs -= _overlaps(case.inside, case, depth=terms.overlap + terms.gap)
    if needs <= holds * (1 + SLACK):
        return None
    return (
        Proof(name="area", balloons=_all(case), needs=needs, holds=holds),
        f"area: needs {needs:.0f} of {holds:.0f} mm2",
    )


def grown(outline: Outline, r: float) -> float:
    """The area of an outline grown by r, from below."""
    return outline.area_mm2 + perimeter(outline) * r + math.pi * r * r


def _at_most(outline: Outline, r: float) -> float:
    """The same from above: of two convex curves the inner one, here of the box, is the shorter."""
    round_it = 4 * (outline.half_width + outline.half_height)
    return outline.area_mm2 + round_it * r + math.pi * r * r


def _pair(case: _Case) -> Proved | None:
    count = min(len(case.inside), MOST_PAIRS)
    for j in range(1, count):
        for i in range(j):
            if j == i + 1 and case.joined[j]:
                continue
            if not _fits_together(case, i, j):
                words = (
                    f"pair: balloons {i + 1} and {j + 1} together do not go into "
                    f"{case.width:.1f} x {case.height:.1f} mm"
                )
                return Proof(name="pair", balloons=(i, j)), words
    return None


def _fits_together(case: _Case, i: int, j: int) -> bool:
    """Whether some outline of each go in together, the second below or right of the first."""
    first, second = case.inside[i], case.inside[j]
    if len(first) * len(second) > MOST_CHOICES:
        return True  # too many to try: no proof
    terms = case.terms
    tight = []
    for one, over in zip(first, case.overs[i], strict=True):
        for two, other in zip(second, case.overs[j], strict=True):
            more = _more(over if terms.ordered else max(over, other), terms)
            dx = max(case.width - one.half_width - two.half_width, 0.0)
            dy = max(case.height + more - one.half_height - two.half_height, 0.0)
            if terms.ordered and not _in_order(one, two, dx=dx, dy=dy, hangs=over > 0):
                continue
            boxes = _boxes_gap(one, two, dx=dx, dy=dy)
            if boxes >= terms.gap or _sampled_gap(one, two, dx=dx, dy=dy) >= terms.gap:
                return True
            tight.append((one, two, dx, dy))
    return any(true_gap(one, two, dx=dx, dy=dy) >= terms.gap - SLACK for one, two, dx, dy in tight)


def _in_order(one: Outline, two: Outline, *, dx: float, dy: float, hangs: bool) -> bool:
    """Whether the farthest the second can go is below the first, or right of it and not higher.

    Nothing is higher than a first one that hangs over the border.
    """
    below = dy >= one.half_height + two.half_height - SLACK
    right = dx >= RIGHT * (one.half_width + two.half_width) - SLACK
    return below or (right and (hangs or dy >= two.half_height - one.half_height - SLACK))


def _boxes_gap(one: Outline, two: Outline, *, dx: float, dy: float) -> float:
    """The gap from below by the boxes alone."""
    return max(dx - one.half_width - two.half_width, dy - one.half_height - two.half_height)


def _sampled_gap(one: Outline, two: Outline, *, dx: float, dy: float) -> float:
    """The gap from below: any direction separates by no more than the best one."""
    apart = dx * COS + dy * SIN - profile(one).support - profile(two).support
    return float(apart.max())
