"""Measures in the terminal: one page, two side by side, never wider than asked."""

from dataclasses import replace

import pytest

import letterfit as lf
from letterfit.findings import Finding
from tests.existing import pages

PAGE = lf.measure_page(lf.parse_drawn_page(pages.in_mm().encode(), source="lock.svg"))


def test_a_page_is_told_panel_by_panel() -> None:
    """Its size, what told its panels, each panel's figures, its tiers."""
    lines = lf.measures_to_text(PAGE).splitlines()
    assert lines[0] == "✓ lock.svg: fits."
    assert "existing · 170.0 x 260.0 mm · 2 tiers, 3 panels · 13 words" in lines[1]
    assert "Panels told by their names; balloons told by their names" in lines
    assert any("72x110" in line and "6.4%" in line and "certain" in line for line in lines)
    assert "  Tiers: 110.0, 121.0 mm high" in lines


def test_two_pages_stand_side_by_side() -> None:
    """Marks, sizes, words, cover and room of both, and what is between them."""
    other = replace(PAGE, panels=(replace(PAGE.panels[0], placed=False, coverage=0.5),))
    text = lf.comparison_to_text(lf.compare_pages(PAGE, other))
    rows = [line.split() for line in text.splitlines()]
    assert next(row[:10] for row in rows if row[:3] == ["✓", "✗", "1"]) == [
        "✓",
        "✗",
        "1",
        "72x110",
        "72x110",
        "6",
        "6",
        "6%",
        "50%",
        "+44",
    ]
    assert next(row[:9] for row in rows if row[:3] == ["✓", "-", "3"]) == [
        "✓",
        "-",
        "3",
        "150x121",
        "-",
        "4",
        "-",
        "3%",
        "-",
    ]
    assert "B  ✗ lock.svg: 1 of 1 panel does not fit." in text


@pytest.mark.parametrize("width", [60, 80, 120])
def test_no_line_is_wider_than_asked(width: int) -> None:
    """80 columns hold both pages."""
    long = replace(PAGE, source="a/very/long/folder/" * 5 + "lock.svg")
    found = Finding(code="x", severity="warning", message="HOLD " * 40, advice="Cut.", where="1.1")
    many = replace(long, findings=(found,) * 12)
    for text in (
        lf.measures_to_text(many, width=width),
        lf.comparison_to_text(lf.compare_pages(many, PAGE), width=width),
    ):
        assert max(map(len, text.splitlines())) <= max(width, 60)
        assert "and 4 more" in text


def test_a_doubt_is_marked_and_named() -> None:
    """Not by colour alone."""
    page = replace(PAGE, panels=(replace(PAGE.panels[0], order="doubtful", doubt=(1, 2)),))
    text = lf.measures_to_text(page)
    assert "! 1" in " ".join(text.split())
    assert "doubt: 1 or 2" in text


def test_colour_says_nothing_that_words_do_not() -> None:
    """Without colour there is no escape."""
    assert "\x1b" not in lf.measures_to_text(PAGE)
    assert "\x1b" in lf.measures_to_text(PAGE, colour=True)
