"""What placing takes and returns: speakers, tails, placed outlines, a panel's layout."""

import math
from dataclasses import dataclass
from typing import Literal, get_args

from letterfit.findings import Finding
from letterfit.geometry import Point, Rect
from letterfit.outline import Outline
from letterfit.shown import Shown

Effort = Literal["brief", "usual", "thorough"]
EFFORTS: tuple[Effort, ...] = get_args(Effort)
"""How hard a layout is looked for: one search; wider ones too; last ones and proofs as well."""

Verdict = Literal["placed", "impossible", "not found"]
Reading = Literal["ltr", "rtl"]
"""The way a page reads: from left to right, or from right to left."""

ProofName = Literal["shape", "coverage", "area", "pair", "cells"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Speaker:
    """Who speaks a balloon, for its tail and its place.

    Args:
        name: The speaker's name; balloons of one name belong together.
        mouth: Where the mouth is in page coordinates, or None when nobody knows yet.
        off_panel: Whether the speaker stands outside the panel: the tail points out of it.

    >>> import letterfit as lf
    >>> pilot = Speaker(name="BARGE PILOT", off_panel=True)
    >>> menu = [lf.Ellipse(half_width=14, half_height=8)]
    >>> (placed,) = lf.place_outlines(lf.Rect(0, 0, 60, 40), [menu], speakers=[pilot]).placed
    >>> placed.tail is None
    False
    """

    name: str
    mouth: Point | None = None
    off_panel: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Tail:
    """A wedge from a balloon towards a mouth, in page coordinates.

    Args:
        root: The two points where the wedge leaves the outline.
        tip: The point of the wedge.
        bend: The control point of the wedge's axis, a quadratic Bezier from the middle of the root
            to the tip; None for a straight wedge.
        to: The balloon of the same speaker, counted from 0, that the tail leads to instead of the
            mouth: a link; None for a mouth or the border.

    >>> import letterfit as lf
    >>> wenna = lf.Speaker(name="WENNA", mouth=lf.Point(40, 70))
    >>> menu = [lf.Ellipse(half_width=14, half_height=8)]
    >>> (placed,) = lf.place_outlines(lf.Rect(0, 0, 60, 80), [menu], speakers=[wenna]).placed
    >>> right, left = placed.tail.root
    >>> round(right.distance(left), 1), placed.tail.tip.y > right.y, placed.tail.to
    (3.0, True, None)
    """

    root: tuple[Point, Point]
    tip: Point
    bend: Point | None = None
    to: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedOutline:
    """An outline at its place on the page.

    Args:
        index: Which balloon, counted from 0 in script order.
        choice: Which outline of that balloon's menu, counted from 0.
        outline: The outline.
        x_mm: Its centre, page coordinates.
        y_mm: Its centre, page coordinates.
        tail: Its tail, or None.
        joined: Whether it is joined to the balloon before it, of the same speaker: the two overlap
            by the depth asked for, and are drawn with one outline and one tail.
        overhang_mm: How far it hangs over the panel's top border, which cuts it flat; 0 inside.

    >>> import letterfit as lf
    >>> menu = [lf.Ellipse(half_width=14, half_height=8)]
    >>> (placed,) = lf.place_outlines(lf.Rect(0, 0, 60, 40), [menu]).placed
    >>> placed.index, placed.choice, placed.y_mm, placed.tail
    (0, 0, 9.5, None)
    """

    index: int
    choice: int
    outline: Outline
    x_mm: float
    y_mm: float
    tail: Tail | None = None
    joined: bool = False
    overhang_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """Why no legal layout exists, in figures that `check_proof` can find again.

    Args:
        name: "shape": a balloon has no outline that enters. "coverage", "area": the balloons need
            more than there is. "pair": two do not go in together. "cells": no arrangement of cells
            stays inside.
        balloons: The balloons it is about, counted from 0; all of them where it is about all.
        needs: What is needed, or more: mm2 for "coverage" and "area"; for "shape" the least width
            or height in mm that does not enter; for "cells" the arrangements refused; else 0.
        holds: What there is, in the same unit; the height in mm inside the margins for "cells";
            else 0.
        cells: Cells that the room of every outline was cut into; 0 for all but "cells".

    >>> import letterfit as lf
    >>> wide = [lf.CaptionBox(half_width=30, half_height=5)]
    >>> proof = lf.place_outlines(lf.Rect(0, 0, 40, 30), [wide]).proof
    >>> proof.name, proof.balloons, proof.needs, proof.holds
    ('shape', (0,), 60, 37.0)
    """

    name: ProofName
    balloons: tuple[int, ...]
    needs: float = 0.0
    holds: float = 0.0
    cells: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelLayout(Shown):
    """A panel's balloons, placed, or why they are not.

    Args:
        verdict: "placed"; "impossible", never said without proof; or "not found".
        reason: The proof's name ("shape", "area", "coverage", "pair", "cells") and its figures for
            "impossible", what was tried for "not found", empty for "placed".
        placed: The outlines in script order; empty unless placed.
        coverage: Share of the panel, 0 to 1, that balloons and tails cover.
        figure_height_mm: Height of the tallest figure box that stands clear of the balloons, in mm.
        figures: The boxes of the figures that stand in the panel, each of the same height: one of
            `figure_height_mm`; or, where several speak, one for each in order of first speech, if
            there is room. Their heads are where the tails point.
        findings: What remains doubtful: tails that cross, say.
        proof: For "impossible": the proof itself; None for all others.
        figure_bound_mm: No layout of these balloons in this panel leaves a taller figure: proved.

    >>> import letterfit as lf
    >>> balloon = lf.fit_balloon("Hold a little longer, old thing.")
    >>> layout = lf.place_outlines(lf.Rect(0, 0, 60, 80), [[balloon.outline]])
    >>> layout.verdict, len(layout.placed), 0 < layout.coverage < 0.1
    ('placed', 1, True)
    """

    verdict: Verdict
    reason: str = ""
    placed: tuple[PlacedOutline, ...] = ()
    coverage: float = 0.0
    figure_height_mm: float = 0.0
    figures: tuple[Rect, ...] = ()
    findings: tuple[Finding, ...] = ()
    proof: Proof | None = None
    figure_bound_mm: float = math.inf
