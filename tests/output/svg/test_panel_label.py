"""A panel's label: mark, number, figures, and only as much as there is room for."""

from dataclasses import replace
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from letterfit.geometry import Rect
from letterfit.output.svg.elements import NAMESPACE
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.page import to_svg
from letterfit.output.svg.panel_label import label_parts, panel_label, ways_out
from letterfit.paper.model import PagePlan
from letterfit.paper.sheet import Paper
from letterfit.report.model import PanelOverflow
from tests.output import reports
from tests.output.svg import raster


def test_a_label_says_what_fits_or_what_would() -> None:
    """Cover and figure for a panel that fits; the remedies for one that does not."""
    fits = reports.small().pages[0].panels[0]
    assert label_parts(fits) == ["1.1", "10% covered", "figure 42 mm"]
    fails = reports.nasty().pages[0].panels[1]
    assert label_parts(fails)[1:] == ["DOES NOT FIT", "cut 9 words or 131 mm high or 6.75 pt"]


def test_no_way_out_is_no_word() -> None:
    """Where nothing helps, the label does not pretend."""
    assert ways_out(PanelOverflow(area_mm2=1.0, words=None, size_pt=None)) == []
    assert ways_out(PanelOverflow(area_mm2=1.0, words=1, size_pt=None)) == ["cut 1 word"]


@pytest.mark.parametrize("width", [4.0, 12.0, 25.0, 60.0])
def test_a_label_is_not_wider_than_its_panel(width: float) -> None:
    """Drawn and looked at: no ink right of the panel; the narrower, the fewer words."""
    panel = replace(reports.small().pages[0].panels[0], rect=Rect(10, 20, width, 40))
    drawn = panel_label(panel, state="fits", glyphs=Glyphs(glyph_source(None)), inside=False)
    sheet = ET.fromstring(  # noqa: S314 - our own output
        f'<svg xmlns="{NAMESPACE}" width="90mm" height="30mm" viewBox="0 0 90 30">{drawn}</svg>'
    )
    columns = np.flatnonzero(raster.render(sheet, dpi=254).max(axis=0) > 0.1)
    assert columns[0] / 10 >= 10 - 0.1
    assert columns[-1] / 10 <= 10 + width + 0.1


def test_without_a_gutter_labels_stand_inside() -> None:
    """Panels that touch keep their labels to themselves."""
    page = reports.small().pages[0]
    tight = Paper(name="tight", trim=(168.275, 260.35), live=page.plan.paper.live, gutter_mm=0.0)
    touching = replace(page, plan=PagePlan(paper=tight, tiers=page.plan.tiers))
    marks = [
        float(mark.attrib["cy"])
        for group in raster.named(raster.parse(to_svg(touching)), "label")
        for mark in group
        if mark.tag.endswith("circle")
    ]
    rects = [panel.rect for panel in page.panels]
    assert all(r.y < y < r.bottom for r, y in zip(rects, marks, strict=True))
