"""The checker of proofs: finds again, from the menus alone, why a panel cannot take its balloons.

It is written apart from the proofs: only the outlines' own support, boundary and area are shared.
A proof is believed when its reason is found again, whatever figures it gives; and its figures must
not say more than holds: what is needed may be understated and what there is overstated, never the
other way.

- *shape*: none of the balloon's outlines enters.
- *coverage*, *area*: the least that the balloons need is more than there is (check_needs).
- *pair*: wherever two balloons stand, they come too close, even in opposite corners: both outlines
  are symmetric about both axes, so their gap grows with |dx| and with |dy|.
- *cells*: a search over cells finds none in which all stay inside (check_nested, check_cells).
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from letterfit.findings import Finding
from letterfit.geometry import Insets, Rect
from letterfit.outline import Outline
from letterfit.place.check_cells import search_cells
from letterfit.place.check_needs import grown_room, least_covered, least_grown
from letterfit.place.check_options import SLACK, Option, Room, make_room, options
from letterfit.place.model import PanelLayout, Proof, Reading
from letterfit.separation import gap

RIGHT_OF = 0.8
"""Share of two balloons' joint half-widths from which on one stands right of the other."""

SHARE = 1e-6
"""Share of an area that rounding and polygons may cost."""

MOST_STATES = 60_000
"""Arrangements looked at for a proof by cells before it is left unchecked."""


@dataclass(frozen=True, slots=True)
class Case:
    """The balloons that a proof is about, and what they may do.

    Args:
        room: The panel.
        menus: The outlines of each.
        ways: Every way each enters.
        joined: Per balloon, whether it is joined to the one before it, among them.
        limit: Most share of the panel covered.
        ordered: Whether the reading order must be certain.
        states: Arrangements looked at before a proof by cells is left unchecked.
    """

    room: Room
    menus: Sequence[Sequence[Outline]]
    ways: Sequence[Sequence[Option]]
    joined: Sequence[bool]
    limit: float
    ordered: bool
    states: int


def check_proof(  # noqa: PLR0913 - the same terms as place_outlines, all with defaults
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    layout: PanelLayout,
    *,
    gap_mm: float = 1.5,
    margin_mm: float | Insets = 1.5,
    reading: Reading = "ltr",  # noqa: ARG001 - a proof holds on the mirrored page too
    coverage_limit: float = 1.0,
    ordered: bool = True,
    joined: Sequence[bool] = (),
    overlap_mm: float = 1.0,
    overhangs: Sequence[Sequence[float]] | None = None,
    states: int = MOST_STATES,
) -> tuple[Finding, ...]:
    """What is wrong with the proof of a layout that is called impossible; nothing if it holds.

    Args:
        panel: The panel.
        menus: The outlines of each balloon, in script order.
        layout: The layout; one of another verdict has nothing to prove.
        gap_mm: Least true distance between outlines that are not joined.
        margin_mm: Least distance from the panel's border, or from each of its sides.
        reading: Reading direction.
        coverage_limit: Most share of the panel covered.
        ordered: Whether the reading order must be certain.
        joined: Whether each balloon is joined to the one before it; empty for none.
        overlap_mm: Depth by which joined balloons overlap.
        overhangs: How far in mm each outline of each menu may hang over the top border; None: not
            at all.
        states: Arrangements looked at before a proof by cells is left unchecked.

    Returns:
        Errors: "proof-missing", there is none; "proof-balloons", it is about none that are there;
        "proof-false", it is not found again; "proof-figures", its figures say more than holds. A
        note: "proof-unchecked", a proof by cells that could be neither found again nor disproved.

    >>> from letterfit import CaptionBox
    >>> menus = [[CaptionBox(half_width=30, half_height=5)]]
    >>> why = Proof(name="shape", balloons=(0,), needs=60.0, holds=37.0)
    >>> layout = PanelLayout(verdict="impossible", proof=why)
    >>> check_proof(Rect(0, 0, 40, 30), menus, layout)
    ()
    >>> [finding.code for finding in check_proof(Rect(0, 0, 80, 30), menus, layout)]
    ['proof-false', 'proof-figures']
    """
    if layout.verdict != "impossible":
        return ()
    if layout.proof is None:
        return (_fault("proof-missing", "It is called impossible without proof."),)
    about = layout.proof.balloons
    if not about or sorted(set(about) & set(range(len(menus)))) != list(about):
        message = f"Its proof is about balloons {about}, of {len(menus)}."
        return (_fault("proof-balloons", message),)
    room = make_room(panel, margin_mm=margin_mm, gap_mm=gap_mm, overlap_mm=overlap_mm)
    ways = options(room, menus, overhangs)
    meets = [bool(joined) and bool(joined[i]) and i - 1 in about for i in about]
    own = [menus[i] for i in about], [ways[i] for i in about]
    case = Case(room, *own, meets, coverage_limit, ordered, states)
    return tuple(_CHECKS[layout.proof.name](layout.proof, case, _numbers(about)))


def _numbers(balloons: Sequence[int]) -> str:
    return "+".join(str(i + 1) for i in balloons)


def _fault(code: str, message: str, where: str = "") -> Finding:
    return Finding(code=code, severity="error", message=message, where=where)


def _shape(proof: Proof, case: Case, where: str) -> Iterator[Finding]:
    if any(case.ways):
        yield _fault("proof-false", "A balloon that is said to enter nowhere does.", where)
    outlines = [outline for menu in case.menus for outline in menu]
    room = case.room
    wide = abs(proof.holds - room.inner_width) <= SLACK
    high = room.inner_height - SLACK <= proof.holds
    told = [2 * o.half_width for o in outlines if wide] + [
        2 * o.half_height for o in outlines if high
    ]
    if not (proof.needs > proof.holds and any(abs(proof.needs - t) <= SLACK for t in told)):
        message = f"It says {proof.needs:.1f} of {proof.holds:.1f} mm, which is no side of either."
        yield _fault("proof-figures", message, where)


def _coverage(proof: Proof, case: Case, where: str) -> Iterator[Finding]:
    if not all(case.ways):
        return
    holds = case.limit * case.room.width * case.room.height
    needs = least_covered(case.ways, joined=case.joined, room=case.room)
    if needs <= holds:
        message = f"Balloons of {needs:.1f} mm2 are said to cover more than {holds:.1f} mm2."
        yield _fault("proof-false", message, where)
    apart = least_covered(case.ways, joined=[False] * len(case.ways), room=case.room)
    yield from _figures(proof, most=apart * (1 + SHARE), holds=holds * (1 - SHARE), where=where)


def _area(proof: Proof, case: Case, where: str) -> Iterator[Finding]:
    if not all(case.ways):
        return
    ways, room = case.ways, case.room
    over = max(way.over for own in ways for way in own)
    bounds = [
        (
            least_grown(ways, joined=case.joined, room=room, whole=whole),
            grown_room(room, over=over if whole else 0.0, hangs=over > 0),
        )
        for whole in (False, True)
    ]
    if all(needs <= holds for needs, holds in bounds):
        needs, holds = bounds[0]
        message = f"Balloons of {needs:.1f} mm2 are said not to go into {holds:.1f} mm2."
        yield _fault("proof-false", message, where)
    apart = least_grown(ways, joined=[False] * len(ways), room=room, whole=True)
    holds = min(holds for _, holds in bounds)
    yield from _figures(proof, most=apart * (1 + SHARE), holds=holds * (1 - SHARE), where=where)


def _pair(proof: Proof, case: Case, where: str) -> Iterator[Finding]:
    if len(case.ways) != 2:
        yield _fault("proof-balloons", "Its proof by a pair is not about two balloons.", where)
    elif case.joined[1]:
        yield _fault("proof-false", "Joined balloons are said not to go in side by side.", where)
    elif any(_go_in(case, one, two) for one, two in product(*case.ways)):
        yield _fault("proof-false", "Two balloons said not to go in together do.", where)
    if proof.needs or proof.holds:
        yield _fault("proof-figures", "Its proof by a pair states figures.", where)


def _go_in(case: Case, one: Option, two: Option) -> bool:
    """Whether the one and the other go in together, the other read second where that counts."""
    room = case.room
    a, b = (way.outline.half_width for way in (one, two))
    dx = max(room.inner_width - a - b, 0.0)
    (high, deep), (top, bottom) = room.reach(one), room.reach(two)
    lowest, highest = max(bottom - high, 0.0), max(deep - top, 0.0)
    if not case.ordered:
        return _clear(case, one, two, dx=dx, dy=max(lowest, highest))
    tall, taller = one.outline.half_height, two.outline.half_height
    below = lowest >= tall + taller - SLACK
    seen = [max(y - h, 0.0) for y, h in ((high, tall), (bottom, taller))]
    beside = dx >= RIGHT_OF * (a + b) - SLACK and seen[1] >= seen[0] - SLACK
    return (below and _clear(case, one, two, dx=dx, dy=lowest)) or (
        beside and _clear(case, one, two, dx=dx, dy=max(lowest, highest))
    )


def _clear(case: Case, one: Option, two: Option, *, dx: float, dy: float) -> bool:
    return gap(one.outline, two.outline, dx=dx, dy=dy) >= case.room.gap - SLACK


def _cells(proof: Proof, case: Case, where: str) -> Iterator[Finding]:
    if not case.ordered:
        message = "Without a reading order cells prove nothing."
        yield _fault("proof-false", message, where)
        return
    if proof.cells < 1 or proof.holds < case.room.inner_height - SLACK:
        message = f"{proof.cells} cells in {proof.holds:.1f} mm of height are not its figures."
        yield _fault("proof-figures", message, where)
    result = search_cells(
        case.room,
        case.ways,
        joined=case.joined,
        cells=max(1, proof.cells),
        states=case.states,
    )
    if result.legal:
        yield _fault("proof-false", "An arrangement said to leave the panel stays inside.", where)
    elif result.left:
        message = f"Its proof by cells could not be found again in {case.states} states."
        yield Finding(code="proof-unchecked", severity="note", message=message, where=where)


def _figures(proof: Proof, *, most: float, holds: float, where: str) -> Iterator[Finding]:
    """What is wrong with figures that may not need more than `most` nor have less than `holds`."""
    if not (proof.needs <= most + SLACK and proof.holds >= holds - SLACK):
        message = (
            f"It says {proof.needs:.1f} of {proof.holds:.1f}; {most:.1f} of {holds:.1f} holds."
        )
        yield _fault("proof-figures", message, where)
    elif not proof.needs > proof.holds:
        message = f"It says that {proof.needs:.1f} is more than {proof.holds:.1f}."
        yield _fault("proof-figures", message, where)


_CHECKS: dict[str, Callable[[Proof, Case, str], Iterator[Finding]]] = {
    "shape": _shape,
    "coverage": _coverage,
    "area": _area,
    "pair": _pair,
    "cells": _cells,
}
