"""What needs doing: one item for each place, with the figures that tell how much."""

import math
from dataclasses import replace

from letterfit.findings import Finding
from letterfit.geometry import Point
from letterfit.output.terminal.todo import items, remedy, tally, why
from letterfit.report.limits import Limits
from letterfit.report.model import PanelOverflow, PanelReport
from tests.output import reports


def over(
    *,
    area_mm2: float = 0.0,
    words: int | None = None,
    size_pt: float | None = None,
    height_mm: float | None = None,
) -> PanelOverflow:
    """By how much a panel does not fit: nothing helps but what is said."""
    return PanelOverflow(area_mm2=area_mm2, words=words, size_pt=size_pt, height_mm=height_mm)


def panel(overflow: PanelOverflow) -> PanelReport:
    """A panel that does not fit."""
    balloon = reports.balloon("1.1.1", "HOLD IT NOW.")
    return reports.failing("1.1", reports.PAPER.live, balloon, overflow=overflow)


def test_a_remedy_names_each_way_with_its_figure() -> None:
    """Words first, then the tier, the type size last."""
    full = over(words=2, height_mm=240.0, size_pt=6.5)
    assert remedy(panel(full)) == (
        "Cut 2 words, or make the tier 240 mm high (now 228), or set it at 6.5 pt (last resort)."
    )
    assert remedy(panel(over(size_pt=6.5))) == "Set it at 6.5 pt (last resort)."
    assert remedy(panel(over())) == (
        "Make its words fewer or shorter, or share them out over more panels."
    )
    two = panel(over())
    assert remedy(replace(two, balloons=two.balloons * 2)) == (
        "Share its balloons out over more panels."
    )


def test_why_tells_area_from_shape_and_proof_from_search() -> None:
    """Too much area is given in mm2; shapes that do not go in, and a vain search, are said."""
    assert why(panel(over(area_mm2=99.6))) == (
        "3 words in 1 balloon: 100 mm² more than the panel holds"
    )
    assert "do not go in" in why(panel(over()))
    vain = replace(panel(over()), verdict="not found")
    assert "none is proved impossible" in why(vain)


def test_one_panel_is_one_item() -> None:
    """Three warnings on a panel are one thing to do, the most telling first, one cut asked for."""
    words = "THE TIDE WILL NOT WAIT. " * 8
    balloon = reports.balloon("1.1.1", words.strip(), at=Point(40, 40))
    full = replace(reports.panel("1.1", reports.PAPER.live, balloon), coverage=0.5, words=40)
    codes = ("coverage", "balloon-words", "panel-words")
    where = ("1.1", "1.1.1", "1.1")
    found = tuple(
        Finding(code=code, severity="warning", message="m", where=place, line=4)
        for code, place in zip(codes, where, strict=True)
    )
    (item,) = items(reports.report(reports.page(1, full, findings=found)))
    assert item.what == (
        "40 words (advice 35); 50% under lettering (advice 33%); "
        "balloon 1.1.1 has 40 words (advice 25)."
    )
    assert item.todo == ("Cut 5 words, or share them out over 2 panels; make two balloons of it.")


def test_the_same_words_are_said_once() -> None:
    """Two tails that cross are one thing said of a panel."""
    balloon = reports.balloon("1.1.1", "HOLD IT.", at=Point(40, 40))
    one = reports.panel("1.1", reports.PAPER.live, balloon)
    crossing = Finding(code="tail-crosses", severity="warning", message="A tail.", where="1.1")
    (item,) = items(reports.report(reports.page(1, one, findings=(crossing, crossing))))
    assert item.what == "A tail."


def test_a_panel_that_fails_is_listed_once() -> None:
    """The finding that repeats a failing panel's figures, and its warnings, are not listed too."""
    found = tuple(
        Finding(code=code, severity=severity, message="m", where="1.1")  # type: ignore[arg-type]
        for code, severity in (("panel-overflow", "error"), ("panel-words", "warning"))
    )
    page = reports.page(1, panel(over(words=1)), findings=found)
    assert [item.where for item in items(reports.report(page))] == ["1.1"]


def test_nothing_to_do_is_nothing() -> None:
    """A report without errors and warnings has no items; notes are not items."""
    note = Finding(code="mixed-dashes", severity="note", message="m")
    assert items(replace(reports.small(), findings=(note,))) == ()


def test_a_tally_counts_the_most_frequent_first() -> None:
    """Codes in plain words with their number, equals in order of the alphabet."""
    codes = ["long-word", "mixed-dashes", "long-word", "mixed-quotes"]
    found = tuple(Finding(code=code, severity="note", message="m") for code in codes)
    assert tally(found) == "long word (2), mixed dashes (1), mixed quotes (1)"


def test_every_page_finding_is_an_item() -> None:
    """A page with too many words is a place to act, named by its page."""
    found = Finding(code="page-words", severity="warning", message="250 words.", where="1", line=3)
    page = replace(reports.small().pages[0], findings=(found,))
    (item,) = items(reports.report(page))
    assert (item.where, item.line, item.what) == ("page 1", 3, "250 words.")


def test_a_figure_that_no_layout_lets_stand_taller_is_told() -> None:
    """Where it is proved that no whole figure stands clear, the item says so; else nothing."""
    balloon = reports.balloon("1.1.1", "HOLD IT NOW.", at=Point(40, 40))
    full = reports.panel("1.1", reports.PAPER.live, balloon)
    found = Finding(code="coverage", severity="warning", message="Crowded.", where="1.1", line=4)
    for bound, told in ((90.0, True), (120.0, False), (math.inf, False)):
        short = replace(full, figure_height_mm=80.4, figure_bound_mm=bound)
        (item,) = items(reports.report(reports.page(1, short, findings=(found,))))
        clause = "a figure of 80 mm, at most 90 mm in any layout."
        assert item.what.endswith(clause) is told


def wordy(pages: int, *, limits: Limits | None = None) -> tuple[str, ...]:
    """What is to be done where so many pages have too many words, and each its own number."""
    made = reports.long(pages)
    found = [
        Finding(code="page-words", severity="warning", message=f"{n} words.", where=str(n), line=n)
        for n in range(1, pages + 1)
    ]
    each = tuple(
        replace(page, findings=(finding,)) for page, finding in zip(made.pages, found, strict=True)
    )
    told = items(replace(made, pages=each, limits=limits or Limits()))
    return tuple(f"{one.where}: {one.what}" for one in told if not one.grave)


def test_a_few_pages_that_go_against_a_limit_are_told_one_by_one() -> None:
    """Up to five pages each have an item of their own."""
    assert wordy(5) == tuple(f"page {n}: {n} words." for n in range(1, 6))


def test_many_pages_that_go_against_a_limit_are_one_thing_to_do() -> None:
    """Past five they are gathered: the first dozen by name, the others counted."""
    assert wordy(6) == ("6 pages: More than 210 words on a page: 1, 2, 3, 4, 5, 6.",)
    (one,) = wordy(14)
    assert one.endswith("on a page: 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 and 2 more.")


def test_a_gathered_limit_of_the_house_is_called_so() -> None:
    """Whose limit it is stands beside its number."""
    (one,) = wordy(6, limits=Limits(words_per_page=180, house=("words_per_page",)))
    assert one == "6 pages: More than 180 words on a page (house rules): 1, 2, 3, 4, 5, 6."


def test_pages_with_an_error_are_never_gathered() -> None:
    """What lost lettering is told where it is, however many pages there are."""
    made = reports.long(6)
    lost = Finding(code="lost-line", severity="error", message="Lost.", where="1")
    each = tuple(replace(page, findings=(lost,)) for page in made.pages)
    told = [one for one in items(replace(made, pages=each)) if one.what == "Lost."]
    assert [one.where for one in told] == [f"page {n}" for n in range(1, 7)]


def test_pace_alone_is_the_least_pressing() -> None:
    """A crowded panel comes before a tier with many words; a page with too many words before it."""
    made = reports.long(3)
    page = made.pages[2]  # its second panel is crowded
    both = [
        Finding(code=code, severity="warning", message=code, where="3")
        for code in ("tier-words", "page-words")
    ]
    pages = (*made.pages[:2], replace(page, findings=(*page.findings, *both)))
    told = [one.what for one in items(replace(made, pages=pages)) if not one.grave]
    assert told[0] == "page-words"
    assert "under lettering" in told[1]
    assert told[2:] == ["tier-words"]
