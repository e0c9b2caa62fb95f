"""A script's pages laid before they are lettered: the places and names of the report."""

import pytest

import letterfit as lf

SCRIPT = lf.parse_script(
    "PAGE 1\nTIERS: 1 / 2\n\nPanel 1.\n\nPanel 2.\nWENNA: Shut it.\n\nPanel 2.\n\n"
    "PAGE 2-3\n\nPanel 1.\n\nPAGE 2\n\nPanel 1.\n",
    source="gate.txt",
)


def test_pages_are_laid_as_preflight_lays_them() -> None:
    """The same labels, plans and panel names, also where the script numbers something twice."""
    plans = lf.Plans(every_page=lf.parse_tiers("1"), gutter_mm=4)
    laid = lf.plan_script(SCRIPT, paper=lf.Paper.named("a5"), plans=plans)
    report = lf.preflight(SCRIPT, paper=lf.Paper.named("a5"), plans=plans)
    assert [page.label for page in laid] == [page.label for page in report.pages]
    assert [page.plan for page in laid] == [page.plan for page in report.pages]
    ids = [tuple(panel.id for panel in page.panels) for page in report.pages]
    assert [page.ids for page in laid] == ids
    assert laid[0].ids == ("1.1", "1.2", "1.2b")


def test_the_plans_paper_is_used_unless_another_is_asked_for() -> None:
    """And a US comic page where nobody says anything."""
    plans = lf.Plans(paper=lf.Paper.named("a4"))
    asked = lf.plan_script(SCRIPT, paper=lf.Paper.named("a5"), plans=plans)
    papers = [
        pages[0].plan.paper.name
        for pages in (lf.plan_script(SCRIPT), lf.plan_script(SCRIPT, plans=plans), asked)
    ]
    assert papers == ["us-comic", "a4", "a5"]


def test_pages_read_as_their_balloons_do() -> None:
    """Hebrew from the right: the first panel stands right; who asks for otherwise gets it."""
    script = lf.parse_script("PAGE 1\nTIERS: 2\n\nPanel 1.\nWENNA: השער סגור.\n\nPanel 2.\n")
    (own,), (asked,) = lf.plan_script(script), lf.plan_script(script, reading="ltr")
    assert (own.reading, asked.reading) == ("rtl", "ltr")
    assert own.plan.panels[0].x > own.plan.panels[1].x
    assert asked.plan.panels[0].x < asked.plan.panels[1].x


def test_a_plan_that_contradicts_the_script_names_file_and_line() -> None:
    """Two panels planned, one written."""
    script = lf.parse_script("PAGE 1\nTIERS: 2\n\nPanel 1.\n", source="gate.txt")
    with pytest.raises(lf.PageError, match=r"^gate\.txt:2: .* has 2 panels"):
        lf.plan_script(script)
