"""Placing balloons in panels: from menus of outlines to positions, tails and a verdict."""

from letterfit.place.check_proofs import check_proof
from letterfit.place.checker import check_layout
from letterfit.place.coverage import covered_area
from letterfit.place.figure import figure_room
from letterfit.place.model import (
    PanelLayout,
    PlacedOutline,
    Proof,
    Reading,
    Speaker,
    Tail,
    Verdict,
)
from letterfit.place.order import highest_first, reading_order, reads_in_order
from letterfit.place.quick import can_place
from letterfit.place.solver import (
    PanelTask,
    can_place_panels,
    place_outlines,
    place_panels,
)
from letterfit.place.wedge import tail_polygon

__all__ = [
    "PanelLayout",
    "PanelTask",
    "PlacedOutline",
    "Proof",
    "Reading",
    "Speaker",
    "Tail",
    "Verdict",
    "can_place",
    "can_place_panels",
    "check_layout",
    "check_proof",
    "covered_area",
    "figure_room",
    "highest_first",
    "place_outlines",
    "place_panels",
    "reading_order",
    "reads_in_order",
    "tail_polygon",
]
