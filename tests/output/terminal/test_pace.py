"""The section on pace: bars page by page, each voice's share, the middle and the most."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from letterfit.output.terminal.report import to_text
from letterfit.report.limits import Limits
from letterfit.report.model import PageReport, ScriptReport
from tests.output import reports


def section(report: ScriptReport, *, width: int = 80) -> str:
    """What stands from PACE to the footnote."""
    text = to_text(report, width=width)
    whole = text[text.index("PACE  ") :]
    return whole[: re.search(r"\n\n(House|As|Limits|Other)", whole).start()]  # type: ignore[union-attr]


def cast(names: list[str]) -> ScriptReport:
    """A page where each name says as many words as it stands in the list, counted from 1."""
    said = [
        reports.balloon(f"1.1.{n}", " ".join(["TIDE"] * n), speaker=name)
        for n, name in enumerate(names, start=1)
    ]
    return reports.report(reports.page(1, reports.panel("1.1", reports.PAPER.live, *said)))


def silent(*lettered: bool) -> PageReport:
    """A page of panels with a word each, or none."""
    panels = [
        reports.panel(
            f"1.{n}", reports.PAPER.live, *([reports.balloon(f"1.{n}.1", "HO.")] if says else [])
        )
        for n, says in enumerate(lettered, start=1)
    ]
    return reports.page(1, *panels)


def test_the_section_of_a_small_script_in_full() -> None:
    """Three panels: six words said, two told, the third silent.

    Areas: pi x 16 x 7.5 = 377 mm2 and 36 x 8 = 288 mm2 of 665 mm2.
    """
    assert section(reports.small()).splitlines() == [
        "PACE  advice: 210 words a page, 105 a tier, 35 a panel, 25 a balloon",
        "  page  words  against the limit     panels  balloons  words each  figure",
        "  1         8  ▪...................       3         2         4.0   42 mm",
        "",
        "  voice     balloons  words  of all words  of lettered area",
        "  WENNA            1      6           75%               57%",
        "  captions         1      2           25%               43%",
        "",
        "  Median (most): 4 (6) words a balloon, 2 (6) a panel, 2 (6) a tier, 1 (1)",
        "  balloons a panel. 1 of 3 panels is silent: 1.3.",
    ]


def test_a_long_issue_has_a_line_for_each_page() -> None:
    """Forty pages: forty bars, one table of voices, one sentence."""
    lines = section(reports.long(40)).splitlines()
    assert len([line for line in lines if "▪" in line]) == 40
    assert len(lines) < 40 + 10


@pytest.mark.parametrize(
    ("lettered", "said"),
    [
        ([True, True], "No panel is silent."),
        ([True, False], "1 of 2 panels is silent: 1.2."),
        ([False, True, False], "2 of 3 panels are silent, never two in a row."),
        ([True, False, False], "2 of 3 panels are silent, at most 2 in a row: 1.2 to 1.3."),
    ],
)
def test_silence_is_told_in_words(lettered: list[bool], said: str) -> None:
    """None, one, some apart, some together."""
    text = " ".join(section(reports.report(silent(*lettered))).split())
    assert text.endswith(said)


def test_a_silent_script_has_no_voices() -> None:
    """No table of none, and no median of no balloons."""
    text = section(reports.report(silent(False, False)))
    assert "voice" not in text
    assert "Median (most): 0 (0) words a panel, 0 (0) a tier, 0 (0) balloons a panel." in text


def test_a_large_cast_shares_the_last_line() -> None:
    """Seven voices of 12 by name, most words first; the other five together: 1 + 2 + 3 + 4 + 5."""
    text = section(cast([f"MATE {n}" for n in range(1, 13)]))
    names = [line.split()[1] for line in text.splitlines() if line.startswith("  MATE")]
    assert names == ["12", "11", "10", "9", "8", "7", "6"]
    (rest,) = [line for line in text.splitlines() if line.startswith("  5 more")]
    assert rest.split()[2:5] == ["5", "15", "19%"]  # 15 of 78 words


def test_eight_voices_all_have_a_line() -> None:
    """Nobody is "1 more" where a line would hold the name."""
    text = section(cast([f"MATE {n}" for n in range(1, 9)]))
    assert "more" not in text
    assert "MATE 1 " in text


def test_a_share_that_is_not_nothing_is_not_shown_as_nothing() -> None:
    """One word of 501 is less than 1 %, and the others are not all."""
    said = [
        reports.balloon("1.1.1", " ".join(["TIDE"] * 500)),
        reports.balloon("1.1.2", "HO.", speaker="PILOT"),
    ]
    page = reports.page(1, reports.panel("1.1", reports.PAPER.live, *said))
    text = section(reports.report(page))
    assert re.search(r"WENNA +1 +500 +>99% ", text)
    assert re.search(r"PILOT +1 +1 +<1% ", text)


def test_the_house_is_named_where_its_limits_are_shown() -> None:
    """Over the curve and in the footnote; the others stay advice and common practice."""
    limits = Limits(words_per_page=4, house=("words_per_page",))
    text = " ".join(to_text(replace(reports.small(), limits=limits)).split())
    assert "PACE house rules: 4 words a page; advice: 105 words a tier, 35 a panel" in text
    assert "House rules: 4 words a page. Other limits are common practice and advice" in text
    assert "▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪■■■■■ !" in text


@given(st.text(st.characters(exclude_categories=()), min_size=1, max_size=120))
def test_any_name_stays_within_the_width(name: str) -> None:
    """However a speaker is called, lines stay at 80 cells and hold no escape."""
    text = section(cast([name, "WENNA"]))
    assert max(map(cell_len, text.splitlines())) <= 80
    assert "\x1b" not in text
