"""Anchors: ids once, and links only to what is there."""

from letterfit.output.html.anchors import Anchors, reserve
from letterfit.output.html.typed import speeches
from letterfit.report.menus import elements
from tests.output import reports
from tests.output.html.made import lettered


def test_a_place_leads_to_the_nearest_thing_that_is_there() -> None:
    """A balloon's own line, else its panel, else its page; else nothing."""
    anchors = Anchors()
    reserve(reports.small(), anchors)
    found = [anchors.place(where, "x") for where in ("1.1.1", "1.3.7", "1.9", "page 1", "2.1", "")]
    assert found == [
        '<a href="#say-1.1.1">x</a>',
        '<a href="#about-1.3">x</a>',
        '<a href="#page-1">x</a>',
        '<a href="#page-1">x</a>',
        "x",
        "x",
    ]


def test_a_name_that_is_asked_for_twice_leads_to_the_first() -> None:
    """The second id is another one."""
    anchors = Anchors()
    assert [anchors.new("page-1"), anchors.new("page-1")] == ["page-1", "page-1_2"]
    assert anchors.of("page-1") == "page-1"
    assert anchors.of("page-9") is None


def test_lines_of_the_script_have_the_reports_own_ids() -> None:
    """Balloons and effects are counted as the report counts them, in the script's order."""
    for page in lettered().pages:
        assert page.typed is not None
        for panel, typed in zip(page.panels, page.typed.panels, strict=True):
            said = speeches(panel, typed)
            assert [one.line for one in said] == [one.line for one in typed.elements]
            lines = {one.id: one.line for one in said}
            reported = {own.id: own.line for own in panel.balloons}
            reported |= {own.id: own.line for own in panel.effects}
            assert reported == lines
            assert len(elements(typed, placed=True)) == len(panel.balloons)


def test_without_the_script_the_report_tells_what_it_set() -> None:
    """A report made by other means has its balloons' words as set."""
    panel = reports.small().pages[0].panels[0]
    (one,) = speeches(panel, None)
    assert (one.id, one.who, one.text) == ("1.1.1", "WENNA", "THE TIDE TURNED AN HOUR AGO.")
