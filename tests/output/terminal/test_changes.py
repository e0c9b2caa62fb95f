"""What changed between two checks, in a few words."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.output.panel_state import State, states_of
from letterfit.output.terminal.changes import changes_told, write_checked
from letterfit.output.terminal.sheet import Sheet
from letterfit.report.model import PanelOverflow, PanelReport, ScriptReport
from tests.output import reports

EVERY: tuple[State, ...] = ("fits", "doubt", "fails")
STATES = st.lists(st.sampled_from(EVERY), max_size=5)


def made(*states: State) -> ScriptReport:
    """A report of one page whose panels stand so."""
    over = PanelOverflow(area_mm2=9.0, words=3, size_pt=None)
    panels, found = [], []
    for number, state in enumerate(states, start=1):
        name, rect = f"1.{number}", Rect(8, 16 + 20 * number, 100, 18)
        if state == "fails":
            panels.append(reports.failing(name, rect, overflow=over))
        else:
            panels.append(reports.panel(name, rect))
        if state == "doubt":
            found.append(Finding(code="coverage", severity="warning", message="39 %.", where=name))
    report = reports.report(reports.page(1, *panels, findings=tuple(found)))
    assert [*states_of(report.pages[0]).values()] == [*states]
    return report


def test_panels_that_became_better_or_worse_are_named() -> None:
    """The gravest change first; what stands as it stood is not told."""
    before = made("fits", "doubt", "fails", "fails", "fits", "fails", "fits")
    after = made("fails", "fails", "fits", "doubt", "doubt", "fails", "fits")
    assert changes_told(before, after) == (
        "newly failing: 1.1, 1.2; mended: 1.3; mended, but against advice: 1.4; "
        "newly against advice: 1.5."
    )
    assert changes_told(made("doubt"), made("fits")) == "no longer against advice: 1.1."


def test_panels_that_came_or_went_are_counted() -> None:
    """A new one that does not fit is newly failing; names of those gone say nothing."""
    assert changes_told(made("fits"), made("fits", "fails")) == "newly failing: 1.2; 1 panel more."
    assert changes_told(made("fits", "fails", "fits"), made("fits")) == "2 panels fewer."
    moved = made("fits")
    renamed = replace(moved.pages[0].panels[0], id="2.1")
    other = replace(moved, pages=(replace(moved.pages[0], panels=(renamed,)),))
    assert changes_told(moved, other) == "1 panel more and 1 panel fewer."


def test_many_panels_are_counted_after_a_dozen() -> None:
    """Nobody reads a hundred names."""
    told = changes_told(made(*EVERY[:1] * 15), made(*EVERY[2:] * 15))
    assert told == f"newly failing: {', '.join(f'1.{n}' for n in range(1, 13))} and 3 more."


@given(before=STATES, after=STATES)
def test_nothing_is_told_only_if_nothing_changed(before: list[State], after: list[State]) -> None:
    """And the way back tells of as many panels."""
    told = changes_told(made(*before), made(*after))
    assert (told == "no panel's verdict changed.") is (before == after)


def test_the_verdict_leads_and_later_lines_stand_under_it() -> None:
    """The time before it is as wide as the other lines are indented."""
    sheet = Sheet(width=60)
    write_checked(sheet, made("fits"), before=made("fails"), since="14:01:50", lead="14:02:11  ")
    write_checked(sheet, made("fails"), lead="14:05:00  ")
    assert sheet.text().splitlines() == [
        "14:02:11  ✓ The one panel fits.",
        "          Since 14:01:50: mended: 1.1.",
        "14:05:00  ✗ The one panel does not fit.",
    ]


def test_words_that_went_are_told_where_no_verdict_changed() -> None:
    """So a writer who cuts sees that the check has seen it."""
    before = made("doubt", "fits")
    page = before.pages[0]
    first, second = page.panels
    one, several = replace(first, words=1), replace(first, words=first.words + 2)

    def told(panel: PanelReport) -> str:
        pages = (replace(page, panels=(panel, second)),)
        return changes_told(before, replace(before, pages=pages))

    assert told(one) == f"no panel's verdict changed; 1.1 has 1 word (before {first.words})."
    assert told(several).endswith(f"1.1 has {first.words + 2} words (before {first.words}).")
