"""Names of panels and pages, and what only a page as a whole can tell."""

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.paper.model import PagePlan, Tier
from letterfit.paper.sheet import Paper
from letterfit.place.model import Reading
from letterfit.report.limits import Limits
from letterfit.report.model import FigureRemedy, PageReport, PanelReport
from letterfit.report.page import PageJob, page_findings, unique_names
from letterfit.script.model import ScriptPage
from letterfit.script.parse import parse_script
from letterfit.stages import preflight


def panels(figures: Sequence[float], *, words: int = 10) -> tuple[PanelReport, ...]:
    """Placed panels that hold figures of the given heights."""
    return tuple(
        PanelReport(
            id=f"1.{number}",
            line=number,
            rect=Rect(0, 0, 50, 60),
            words=words,
            verdict="placed",
            reason="",
            coverage=0.2,
            effects_share=0.0,
            figure_height_mm=figure,
            reading_certain=True,
        )
        for number, figure in enumerate(figures, start=1)
    )


JOB = PageJob(
    label="1",
    page=ScriptPage(numbers=(1,), line=1),
    plan=PagePlan(paper=Paper.named("a5"), tiers=()),
)


def codes(reports: tuple[PanelReport, ...], *, limits: Limits | None = None) -> list[str]:
    """The codes of a page of these panels."""
    return [f.code for f in page_findings(JOB, reports, limits=limits or Limits())]


@given(st.lists(st.sampled_from(["1", "1b", "2", "4-1", "1c"]), max_size=12))
def test_names_are_unique_and_first_come_keeps(names: list[str]) -> None:
    """No two names are the same, and whatever was typed once keeps its name."""
    unique = unique_names(names)
    assert len(set(unique)) == len(names)
    for position, (name, new) in enumerate(zip(names, unique, strict=True)):
        assert new.startswith(name)
        if name not in names[:position]:
            assert new == name


def test_many_panels_of_one_number_stay_quick() -> None:
    """Ten thousand panels typed with one number get ten thousand names."""
    assert len(set(unique_names(["1"] * 10_000))) == 10_000


def test_the_panels_that_break_the_steady_distance_are_named() -> None:
    """Each says what it holds, what is asked for, and what would do."""
    held = list(panels([40, 42, 20, 38]))
    held[2] = replace(held[2], steadied=FigureRemedy(height_mm=30, words=2, tier_mm=55))
    held[3] = replace(held[3], steadied=FigureRemedy(height_mm=40))
    note, bare = page_findings(JOB, tuple(held), limits=Limits())
    assert (note.code, note.where, note.line) == ("uneven-figures", "1.3", 3)
    assert "20.0 mm" in note.message
    assert "30.0 mm" in note.message
    assert note.advice == "Cut 2 words, or make the tier 55 mm high."
    assert bare.advice == "Let the view move closer there."


def test_words_of_a_page_are_held_against_the_limit() -> None:
    """At most 210 words a page, twice that on a spread (common practice, no source)."""
    assert codes(panels([40] * 7, words=30)) == []
    assert codes(panels([40] * 7, words=31)) == ["page-words"]
    spread = replace(JOB, plan=PagePlan(paper=Paper.named("a5").spread(), tiers=()))
    assert list(page_findings(spread, panels([40] * 7, words=60), limits=Limits())) == []


def test_the_lowest_figure_is_told_by_tier_and_page() -> None:
    """Each tier holds the lowest of its panels' figures, the page the lowest of all."""
    reports, rect = panels([40, 42, 20, 38, 20]), Rect(10, 10, 20, 20)
    tiers = (Tier((rect, rect)), Tier((rect,)), Tier((rect, rect)))
    plan = PagePlan(paper=Paper.named("a5"), tiers=tiers)
    whole = PageReport(label="1", numbers=(1,), line=1, plan=plan, panels=reports)
    assert whole.tier_figure_heights_mm == (40, 20, 20)
    assert (whole.figure_height_mm, whole.lowest_panel) == (20, reports[2])
    bare = PageReport(label="1", numbers=(1,), line=1, plan=JOB.plan, panels=())
    assert (bare.figure_height_mm, bare.lowest_panel, bare.fits) == (0, None, True)


SCRIPT = parse_script(
    "PAGE 1\nTIERS: {plan}\n\n"
    + "".join(
        f"Panel {n}.\nWENNA: Nobody comes this early, not even eels.\n\n" for n in range(1, 5)
    )
)


def laid(plan: str, *, reading: Reading = "ltr") -> PageReport:
    """Four panels of one speech each on an A5 page of that plan, checked."""
    page = replace(SCRIPT.pages[0], plan=plan)
    script = replace(SCRIPT, pages=(page,))
    return preflight(script, paper=Paper.named("a5"), reading=reading, check=True).pages[0]


def test_balloons_and_figures_keep_off_an_inset() -> None:
    """Neither lies over it, and what it takes counts neither as covered nor as open."""
    whole, held = laid("1 @2 / 3").panels[0], laid("1[top-left 0.5x0.5] @2 / 2").panels[0]
    (inset,) = held.insets
    (balloon,) = held.balloons
    assert balloon.x_mm is not None
    assert balloon.y_mm is not None
    outline = balloon.fitted.outline
    assert (
        balloon.x_mm - outline.half_width > inset.right
        or balloon.y_mm - outline.half_height > inset.bottom
    )
    assert all(box.common(inset) is None for box in held.figures)
    assert held.area_mm2 == pytest.approx(whole.rect.area_mm2 - inset.area_mm2)
    assert held.coverage * held.area_mm2 == pytest.approx(whole.coverage * whole.area_mm2, rel=0.4)


def test_lettering_of_a_bleeding_panel_stays_in_the_live_area() -> None:
    """The panel is what is left on the trimmed page; its balloons keep their margin inside."""
    page = laid("1~ / 3")
    first, live = page.panels[0], page.plan.paper.live
    assert (first.rect.x, first.rect.y) == (0, 0)
    assert first.bleed == Rect(-3, -3, 154, first.rect.bottom + 3)
    (balloon,) = first.balloons
    assert balloon.y_mm is not None
    assert balloon.y_mm - balloon.fitted.outline.half_height > live.y
    assert page.findings == ()


@pytest.mark.parametrize("reading", ["ltr", "rtl"])
def test_stacks_that_make_rows_are_told(reading: Reading) -> None:
    """Two stacks of one height read row by row; with gutters that do not meet they do not."""
    (told,) = (f for f in laid("(1/1):(1/1)", reading=reading).findings if "order" in f.code)
    assert (told.code, told.where) == ("panel-order", "1.2")
    assert "panel 1.3 before panel 1.2" in told.message
    apart = laid("(1/1):(1/1.0 @2)".replace("1.0", "1"), reading=reading)
    assert [f for f in apart.findings if f.code == "panel-order"] == []
