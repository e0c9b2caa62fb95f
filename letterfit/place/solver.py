"""Placing: from a panel and its balloons' menus to a layout, or to why there is none."""

from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.errors import PageError
from letterfit.geometry import Insets, Rect
from letterfit.outline import Outline
from letterfit.place.measured import Case
from letterfit.place.model import EFFORTS, Effort, PanelLayout, Reading, Speaker
from letterfit.place.panels import place_cases
from letterfit.place.quick import can_place_cases
from letterfit.place.terms import KeepClear, Terms, make_terms


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelTask:
    """One panel's balloons to be placed, as `place_outlines` takes them.

    Args:
        panel: The panel, page coordinates in mm.
        menus: One sequence of outlines per balloon, in script order, wide to narrow.
        gap_mm: Least true distance between outlines.
        margin_mm: Least distance from the panel's border, or from each of its sides.
        reading: Whether the page reads left to right ("ltr") or right to left ("rtl").
        keep_clear: Rectangles or convex polygons that nothing may lie on.
        speakers: One per balloon, None for captions; None when nobody is known.
        prices: What the looks of each outline of each menu cost, a ratio, 0 or more: 1 is worth a
            tenth of the panel's height of figure room; None when there is nothing to object.
        coverage_limit: Most share of the panel, 0 to 1, that balloons and tails may cover.
        ordered: Whether the reading order must be certain.
        figure_aspect: Width over height of the figure that should stand clear, a ratio.
        joined: Per balloon, whether it is joined to the one before it, of the same speaker; empty
            when none is.
        overlap_mm: Depth by which joined balloons overlap.
        overhangs: How far in mm each outline of each menu may hang over the panel's top border,
            which then cuts it flat: either so far or not at all; None when nothing may.
        effort: How hard a layout is looked for: "brief", by one search; "usual", by wider ones
            where it finds nothing; "thorough", by the last searches and proofs as well.

    >>> import letterfit as lf
    >>> menu = [lf.Ellipse(half_width=14, half_height=8)]
    >>> task = PanelTask(panel=Rect(0, 0, 60, 40), menus=[menu, menu], margin_mm=2)
    >>> [round(placed.y_mm, 1) for placed in lf.place_panels([task])[0].placed]
    [10.0, 26.0]
    """

    panel: Rect
    menus: Sequence[Sequence[Outline]]
    gap_mm: float = 1.5
    margin_mm: float | Insets = 1.5
    reading: Reading = "ltr"
    keep_clear: Sequence[KeepClear] = ()
    speakers: Sequence[Speaker | None] | None = None
    prices: Sequence[Sequence[float]] | None = None
    coverage_limit: float = 1.0
    ordered: bool = True
    figure_aspect: float = 1 / 3
    joined: Sequence[bool] = ()
    overlap_mm: float = 1.0
    overhangs: Sequence[Sequence[float]] | None = None
    effort: Effort = "thorough"

    def terms(self) -> Terms:
        """What must hold, checked.

        Raises:
            PageError: As `place_outlines`; and for an unknown effort.
        """
        if self.effort not in EFFORTS:
            raise PageError(f"unknown effort {self.effort!r}", advice=f"give {', '.join(EFFORTS)}")
        return make_terms(
            self.panel,
            self.menus,
            gap_mm=self.gap_mm,
            margin_mm=self.margin_mm,
            reading=self.reading,
            keep_clear=self.keep_clear,
            speakers=self.speakers,
            prices=self.prices,
            coverage_limit=self.coverage_limit,
            ordered=self.ordered,
            figure_aspect=self.figure_aspect,
            joined=self.joined,
            overlap_mm=self.overlap_mm,
            overhangs=self.overhangs,
        )


def place_panels(tasks: Sequence[PanelTask]) -> tuple[PanelLayout, ...]:
    """Place the balloons of many panels: sooner than one by one, with the same layouts.

    Args:
        tasks: The panels, those of a page, say.

    Returns:
        What `place_outlines` returns for each, to the last bit.

    Raises:
        PageError: As `place_outlines`; nothing is placed then.

    >>> from letterfit import Ellipse
    >>> menu = [Ellipse(half_width=14, half_height=8)]
    >>> tasks = [PanelTask(panel=Rect(0, 0, w, 40), menus=[menu]) for w in (60, 20)]
    >>> [layout.verdict for layout in place_panels(tasks)]
    ['placed', 'impossible']
    """
    return place_cases([Case(task.panel, task.menus, task.terms(), task.effort) for task in tasks])


def can_place_panels(tasks: Sequence[PanelTask]) -> tuple[bool, ...]:
    """Whether a quick search finds any layout, for many panels: sooner than `can_place` for each.

    Args:
        tasks: The panels.

    Returns:
        What `can_place` returns for each.

    Raises:
        PageError: As `place_outlines`.

    >>> from letterfit.outline import Ellipse
    >>> menu = [Ellipse(half_width=14, half_height=8)]
    >>> can_place_panels([PanelTask(panel=Rect(0, 0, w, 30), menus=[menu, menu]) for w in (70, 30)])
    (True, False)
    """
    return can_place_cases([Case(task.panel, task.menus, task.terms()) for task in tasks])


def place_outlines(  # noqa: PLR0913 - a question of this many parts, all with defaults
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    *,
    gap_mm: float = 1.5,
    margin_mm: float | Insets = 1.5,
    reading: Reading = "ltr",
    keep_clear: Sequence[KeepClear] = (),
    speakers: Sequence[Speaker | None] | None = None,
    prices: Sequence[Sequence[float]] | None = None,
    coverage_limit: float = 1.0,
    ordered: bool = True,
    figure_aspect: float = 1 / 3,
    joined: Sequence[bool] = (),
    overlap_mm: float = 1.0,
    overhangs: Sequence[Sequence[float]] | None = None,
) -> PanelLayout:
    """Give every balloon of a panel an outline and a place, or say why it cannot be done.

    Args:
        panel: The panel, page coordinates in mm.
        menus: One sequence of outlines per balloon, in script order, wide to narrow.
        gap_mm: Least true distance between outlines.
        margin_mm: Least distance from the panel's border, or from each of its sides.
        reading: Whether the page reads left to right ("ltr") or right to left ("rtl").
        keep_clear: Rectangles or convex polygons, page coordinates in mm, that nothing may lie on.
        speakers: One per balloon, None for captions; None when nobody is known.
        prices: What the looks of each outline cost, a ratio, as `PanelTask.prices`.
        coverage_limit: Most share of the panel, 0 to 1, that balloons and tails may cover.
        ordered: Whether the reading order must be certain.
        figure_aspect: Width over height of the figure that should stand clear, a ratio.
        joined: Per balloon, whether it is joined to the one before it, of the same speaker; empty
            when none is.
        overlap_mm: Depth by which joined balloons overlap.
        overhangs: How far in mm each outline may hang over the top border, as
            `PanelTask.overhangs`.

    Returns:
        A layout of verdict "placed" that passes `check_layout`; "impossible" with its proof, which
        `check_proof` finds again; or "not found" with what was tried.

    Raises:
        PageError: When a number is out of its range, a menu is empty, or speakers, prices or
            overhangs are not as many as balloons or outlines.

    >>> from letterfit import Ellipse
    >>> layout = place_outlines(Rect(0, 0, 60, 40), [[Ellipse(half_width=14, half_height=8)]])
    >>> layout.verdict, layout.placed[0].y_mm
    ('placed', 9.5)
    """
    task = PanelTask(
        panel=panel,
        menus=menus,
        gap_mm=gap_mm,
        margin_mm=margin_mm,
        reading=reading,
        keep_clear=keep_clear,
        speakers=speakers,
        prices=prices,
        coverage_limit=coverage_limit,
        ordered=ordered,
        figure_aspect=figure_aspect,
        joined=joined,
        overlap_mm=overlap_mm,
        overhangs=overhangs,
    )
    return place_panels([task])[0]
