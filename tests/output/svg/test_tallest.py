"""The tallest figure's place: as tall as the report says, on the floor, clear of all lettering."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import Polygon
from shapely.geometry import box as area

from letterfit.output.report_json import centre_of
from letterfit.output.svg.tallest import tallest_box
from letterfit.report.model import ScriptReport
from tests.output import reports
from tests.output.svg import sheets

TURN = np.linspace(0, 2 * np.pi, 720, endpoint=False)


@pytest.mark.parametrize("report", [sheets.demo, sheets.special, sheets.right_to_left])
def test_it_is_as_tall_as_reported_and_meets_no_balloon_by_shapely(
    report: Callable[[], ScriptReport],
) -> None:
    """Whether one figure stands in the panel or several lower ones do."""
    several = 0
    for page in report().pages:
        for panel in page.panels:
            box = tallest_box(panel, page)
            if panel.verdict != "placed":
                assert box is None
                continue
            assert box is not None
            several += len(panel.figures) > 1
            assert box.height == pytest.approx(panel.figure_height_mm, rel=1e-5)
            assert box.bottom == pytest.approx(panel.figures[0].bottom)
            assert panel.rect.holds(box, tolerance=1e-6)
            body = area(box.x, box.y, box.right, box.bottom)
            for balloon in panel.balloons:
                centre = centre_of(balloon)
                assert centre is not None
                outline = balloon.fitted.outline.boundary(TURN) + np.array([centre.x, centre.y])
                assert Polygon(outline).intersection(body).area < 0.02
            for inset in panel.insets:
                assert area(inset.x, inset.y, inset.right, inset.bottom).disjoint(body)
    assert several


def test_a_report_that_claims_more_than_there_is_gets_the_figures_it_has() -> None:
    """No gap takes such a box: the first figure is drawn."""
    page = reports.small().pages[0]
    first = page.panels[0].figures[0]
    claimed = replace(page.panels[0], figure_height_mm=5000.0, figures=(first, first))
    assert tallest_box(claimed, page) == first
