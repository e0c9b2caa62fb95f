"""The terminal report: leads with what needs doing, stays within its width, says it in words."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from letterfit.findings import Finding
from letterfit.geometry import Point
from letterfit.output.terminal.report import to_text
from letterfit.report.model import PageReport, PanelOverflow, ScriptReport
from tests.output import reports

ALL = {"small": reports.small(), "nasty": reports.nasty(), "long": reports.long()}


def crowded(pages: int) -> ScriptReport:
    """A report where every panel of every page covers too much."""
    made = reports.long(pages)
    return replace(made, pages=tuple(_crowded(page) for page in made.pages))


def _crowded(page: PageReport) -> PageReport:
    panels = tuple(replace(panel, coverage=0.4) for panel in page.panels)
    found = [
        Finding(code="coverage", severity="warning", message="Crowded.", where=panel.id, line=4)
        for panel in panels
        if panel.verdict == "placed"
    ]
    return replace(page, panels=panels, findings=tuple(found))


@pytest.mark.parametrize("report", ALL.values(), ids=ALL)
@pytest.mark.parametrize("width", [60, 80, 132])
def test_no_line_is_wider_than_asked(report: ScriptReport, width: int) -> None:
    """Every line fits the width in cells; none ends in a space."""
    lines = to_text(report, width=width).splitlines()
    assert max(map(cell_len, lines)) <= width
    assert not any(line.endswith(" ") for line in lines)


@pytest.mark.parametrize("report", ALL.values(), ids=ALL)
def test_without_colour_there_is_no_escape_code(report: ScriptReport) -> None:
    """Nothing but printable characters and line feeds, whatever the script holds."""
    text = to_text(report)
    assert all(char == "\n" or ord(char) >= 32 for char in text)
    assert "\x1b" not in text


def test_colour_changes_nothing_but_colour() -> None:
    """With the escape codes taken out, the coloured report is the plain one."""
    plain, coloured = to_text(reports.nasty()), to_text(reports.nasty(), colour=True)
    assert "\x1b[" in coloured
    bare = re.sub(r"\x1b\[[0-9;]*m", "", coloured)
    assert [line.rstrip() for line in bare.splitlines()] == plain.splitlines()


def test_the_first_line_is_the_verdict() -> None:
    """How many panels do not fit, before anything else."""
    first = {name: to_text(report).splitlines()[0] for name, report in ALL.items()}
    assert first["small"] == "✓ All 3 panels fit."
    assert first["nasty"] == "✗ 2 of 4 panels do not fit; 1 more fits against advice."
    assert first["long"] == "✗ 4 of 120 panels do not fit; 8 more fit against advice."


def test_what_to_do_comes_before_the_tables_and_gives_numbers() -> None:
    """Place, script line, why, and each remedy with its figure, above the first page."""
    text = to_text(reports.nasty())
    todo = text[: text.index("PAGE 104-105")]
    folded = " ".join(todo.split())
    assert "104-105.2 line 20 111 words in 3 balloons: 412 mm² more than" in folded
    remedy = "→ Cut 9 words, or make the tier 131 mm high (now 100), or set it at 6.75 pt"
    assert remedy in folded
    assert "script line 7 Nobody could place" in folded


def test_the_most_to_cut_comes_first() -> None:
    """Panels that do not fit are sorted by the words they must lose, warnings follow."""
    lines = to_text(reports.long()).splitlines()
    order = [line.split()[1] for line in lines if line.startswith("  ✗ ")]
    assert order == ["20.3", "15.3", "10.3", "5.3"]
    first_warning = next(n for n, line in enumerate(lines) if line.startswith("  ! "))
    assert first_warning > max(n for n, line in enumerate(lines) if line.startswith("  ✗ "))


def test_a_panel_that_no_cut_mends_comes_before_all() -> None:
    """Where even one word a balloon does not go in, the advice is to share them out."""
    lines = to_text(reports.nasty()).splitlines()
    first = next(line for line in lines if line.startswith("  ✗ "))
    assert first.split()[1] == "106.2"
    assert "share them out over more panels." in " ".join(to_text(reports.nasty()).split())


def test_a_long_report_stays_readable() -> None:
    """24 pages, 116 panels that fit: under a hundred lines, at most ten things to do at once."""
    text = to_text(reports.long())
    assert text.count("\n") < 100
    assert len(re.findall(r"^  [✗!]", text, flags=re.MULTILINE)) <= 10
    assert "3.3 to 5.2" in text


def test_many_of_a_kind_are_gathered_and_counted() -> None:
    """A hundred crowded panels are one thing to do, naming the first and counting the rest."""
    text = " ".join(to_text(crowded(24)).split())
    assert "More than 33% of a panel under lettering: 1.1 (40%), 1.2 (40%)" in text
    assert re.search(r"and \d+ more\.", text)


def test_what_is_not_listed_is_counted_and_found_elsewhere() -> None:
    """More to do than is listed: the rest is counted, and where to read it is said."""
    lost = tuple(
        Finding(code="lost-line", severity="error", message=f"Line {n} is lost.", line=n)
        for n in range(1, 31)
    )
    text = to_text(reports.report(*reports.small().pages, findings=lost))
    assert "and 20 more" in text
    assert "--json" in text


def test_markup_typed_in_a_script_comes_out_as_typed() -> None:
    """Square brackets are words, not styles of the terminal library."""
    assert "[bold]HOLD[/bold]" in to_text(reports.nasty())
    assert "[bold]HOLD[/bold]" in to_text(reports.nasty(), colour=True)


def test_a_verdict_is_a_word_and_a_mark() -> None:
    """Crowded, overflowing, unplaced, silent and roomy panels are told in words."""
    text = to_text(reports.nasty())
    assert re.search(r"^  104-105\.1 .* ! crowded$", text, flags=re.MULTILINE)
    assert re.search(r"^  104-105\.2 .* ✗ overflows$", text, flags=re.MULTILINE)
    assert re.search(r"^  106\.2 .* ✗ unplaced$", text, flags=re.MULTILINE)
    page = reports.page(1, reports.small().pages[0].panels[2])
    assert "✓ silent" in to_text(reports.report(replace(page))) or "✓ roomy" in to_text(
        reports.report(page)
    )


def test_limits_are_called_advice() -> None:
    """The footnote says that limits are no law and whose specification decides."""
    text = " ".join(to_text(reports.small()).split())
    assert "common practice and advice" in text
    assert "the printer's own specification decides" in text


def test_a_script_without_panels_says_so() -> None:
    """Nothing to check is no success."""
    assert to_text(reports.report()).startswith("! There is nothing to check")


def test_few_notes_are_told_and_many_are_counted() -> None:
    """What is only worth knowing takes three lines at most, or one that counts it by kind."""
    note = Finding(code="mixed-dashes", severity="note", message="Dashes are typed in two ways.")
    few = to_text(replace(reports.small(), findings=(note,) * 3))
    assert few.count("Dashes are typed in two ways.") == 3
    many = to_text(replace(reports.small(), findings=(note,) * 4))
    assert "Worth knowing: mixed dashes (4); see --json" in many


@given(
    text=st.text(st.characters(exclude_categories=()), min_size=1, max_size=60),
    name=st.text("0123456789.-b", min_size=1, max_size=12),
)
def test_any_text_stays_within_the_width(text: str, name: str) -> None:
    """Whatever a finding says and however a panel is named, lines stay at 80 cells."""
    panel = replace(reports.small().pages[0].panels[0], id=name)
    found = Finding(code="x", severity="error", message=text, advice=text, where=name, line=3)
    report = reports.report(reports.page(1, panel, findings=(found,)))
    printed = to_text(report)
    assert max(map(cell_len, printed.splitlines())) <= 80
    assert "\x1b" not in printed


def test_the_same_report_gives_the_same_text(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither the environment nor a second run changes a character."""
    first = to_text(reports.nasty())
    for name, value in {
        "COLUMNS": "40",
        "NO_COLOR": "1",
        "FORCE_COLOR": "1",
        "TERM": "dumb",
    }.items():
        monkeypatch.setenv(name, value)
    assert to_text(reports.nasty()) == first


def test_a_point_is_not_needed_for_what_is_not_placed() -> None:
    """A panel of one unplaced balloon is reported without a figure or an order."""
    balloon = reports.balloon("1.1.1", "HOLD.", at=Point(1, 1))
    panel = reports.failing(
        "1.1",
        reports.PAPER.live,
        balloon,
        overflow=PanelOverflow(area_mm2=0.0, words=1, size_pt=None),
    )
    text = to_text(reports.report(reports.page(1, panel)))
    assert "its one panel does not fit" in text
    assert "→ Cut 1 word." in text


@pytest.mark.parametrize(("covered", "said"), [(0.0, "0%"), (0.004, "<1%"), (0.05, "≤5%")])
def test_a_run_of_panels_tells_its_greatest_cover(covered: float, said: str) -> None:
    """A run without lettering has none; a trace of it is not rounded away."""
    made = reports.long(1)
    panels = tuple(replace(panel, coverage=covered) for panel in made.pages[0].panels)
    assert said in to_text(replace(made, pages=(replace(made.pages[0], panels=panels),)))
