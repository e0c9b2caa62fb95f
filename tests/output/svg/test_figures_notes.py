"""The words under a page: one line of it, one for each panel that holds less."""

from dataclasses import replace

from letterfit.output.svg.figures_notes import (
    MOST_NOTES,
    notes_of,
    page_line,
    panel_line,
    rounded_apart,
)
from letterfit.report.model import FigureRemedy, PageReport
from tests.output import reports
from tests.output.svg import sheets

PAGE = reports.small().pages[0]


def breaking(page: PageReport, remedy: FigureRemedy) -> PageReport:
    """The page, its first panel breaking the steady distance."""
    first, *rest = page.panels
    return replace(page, panels=(replace(first, figure_height_mm=20, steadied=remedy), *rest))


def test_a_page_says_what_all_its_panels_hold_and_its_steady_height() -> None:
    """The report's own figures; or how many panels do not fit."""
    assert page_line(PAGE) == "Page 1 · all hold 42 mm · steady 32 mm"
    spread = reports.nasty().pages[0]
    assert page_line(spread).startswith("Page 104-105 · 1 of 2 does not fit · steady ")
    assert page_line(replace(PAGE, panels=())) == "Page 1 · no panels"
    assert page_line(replace(spread, panels=spread.panels[1:])) == "Page 104-105 · no panel fits"


def test_a_panel_says_what_it_holds_and_what_it_would_take() -> None:
    """In the words of the report's finding; nothing helps: the view moves closer."""
    page = breaking(PAGE, FigureRemedy(height_mm=31.5, words=3, tier_mm=58))
    told = panel_line(page.panels[0], page)
    assert told == "1.1 holds 20 mm, not 32: cut 3 words, or make the tier 58 mm high"
    page = breaking(PAGE, FigureRemedy(height_mm=31.5))
    told = panel_line(page.panels[0], page)
    assert told == "1.1 holds 20 mm, not 32: let the view move closer"


def test_a_panel_that_does_not_fit_says_what_would_make_it() -> None:
    """As its label on the proof does; with nothing to do it only says so."""
    spread, tight = reports.nasty().pages
    told = panel_line(spread.panels[1], spread)
    assert told == "104-105.2 does not fit: cut 9 words or 131 mm high or 6.75 pt"
    assert panel_line(tight.panels[1], tight) == "106.2 does not fit"


def test_heights_that_round_to_one_number_are_told_apart() -> None:
    """49 mm, not 49 would be nonsense."""
    assert rounded_apart(48.96, 49.02) == ("48.96", "49.02")
    assert rounded_apart(20.0, 49.0) == ("20", "49")


def test_many_panels_are_counted_not_listed() -> None:
    """A page of a hundred panels that hold less has a dozen lines and a count."""
    page = breaking(PAGE, FigureRemedy(height_mm=31.5))
    many = replace(page, panels=(page.panels[0],) * 100)
    notes = notes_of(many, width_mm=60)
    assert len(notes) == MOST_NOTES + 2
    assert notes[-1].text.lines == (f"and {100 - MOST_NOTES} more panels",)


def test_notes_are_no_wider_than_asked() -> None:
    """Marks and their gap included, on every page of the demo."""
    for page in sheets.demo().pages:
        for note in notes_of(page, width_mm=34):
            assert note.text.width_mm + (2 if note.state else 0) <= 34 + 0.1
