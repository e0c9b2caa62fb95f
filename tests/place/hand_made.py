"""Layouts made by hand for the tests of the checker: claims are shapely's and figure_room's."""

from collections.abc import Sequence

from scipy.optimize import brentq
from shapely import box, union_all

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.figure import figure_room
from letterfit.place.model import PanelLayout, PlacedOutline
from letterfit.separation import gap
from tests.place.shapes import outline_polygon, wedge_polygon


def hand_made(
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    figure_height_mm: float | None = None,
    figures: tuple[Rect, ...] = (),
) -> PanelLayout:
    """A layout of the given outlines, with the coverage and figure height that it has."""
    frame = box(panel.x, panel.y, panel.right, panel.bottom)
    covered = union_all([outline_polygon(item) for item in placed]).intersection(frame).area
    # What a tail crosses counts twice, as covered_area says; its own balloon does not.
    covered += sum(
        wedge_polygon(item).difference(outline_polygon(item)).area
        for item in placed
        if item.tail is not None
    )
    height = figure_room(panel, placed) if figure_height_mm is None else figure_height_mm
    return PanelLayout(
        verdict="placed",
        placed=tuple(placed),
        coverage=covered / panel.area_mm2,
        figure_height_mm=height,
        figures=figures,
    )


def joint(one: PlacedOutline, outline: Outline, *, dx: float, overlap_mm: float) -> PlacedOutline:
    """The next balloon, joined to one: dx to its right, and as far down as the overlap asks."""

    def lacks(dy: float) -> float:
        return gap(one.outline, outline, dx=dx, dy=dy) + overlap_mm

    most = (
        one.outline.half_height + outline.half_height + 1e-9
    )  # rounding may take some off the gap
    dy = float(brentq(lacks, 0.0, most, xtol=1e-13)) if lacks(0.0) < 0 else 0.0
    return PlacedOutline(
        index=one.index + 1,
        choice=0,
        outline=outline,
        x_mm=one.x_mm + dx,
        y_mm=one.y_mm + dy,
        joined=True,
    )
