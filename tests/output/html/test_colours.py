"""Colours: every ink is readable on every ground, and verdicts are told apart by every eye."""

import re
from collections.abc import Mapping
from itertools import combinations, product

import pytest

from letterfit.output.html.colours import DARK, GROUNDS, INKS, LIGHT, variables
from letterfit.output.html.style_sheet import style_sheet
from letterfit.output.svg import style
from tests.output.html.contrast import GRAPHICS, TEXT, contrast
from tests.output.svg.test_style import VISION, difference

SCHEMES = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
FOCUS = "#155e75"
"""What surrounds a panel of a drawing that is pointed at: drawings stay light."""


def test_the_formula_is_the_standards() -> None:
    """Black on white is 21:1; #777777 on white just fails, #767676 just passes (W3C, G18)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") < TEXT <= contrast("#767676", "#ffffff")


@SCHEMES
def test_every_ink_is_readable_on_every_ground(colours: Mapping[str, str]) -> None:
    """4.5:1 or more for text of any size (WCAG 2.2, 1.4.3)."""
    for ink, ground in product(INKS, GROUNDS):
        assert contrast(colours[ink], colours[ground]) >= TEXT, (ink, ground)
    assert {*INKS, *GROUNDS, "line"} == set(colours)


@SCHEMES
@pytest.mark.parametrize("vision", VISION)
def test_verdicts_differ_from_each_other_or_in_shape(
    colours: Mapping[str, str], vision: str
) -> None:
    """No two verdicts have one colour to any eye; in grey they may, and the shapes tell."""
    for one, other in combinations(("fits", "doubt", "fails"), 2):
        least = 0.0 if vision == "none" else 10.0
        assert difference(colours[one], colours[other], vision=vision) >= least


def test_the_style_sheet_has_no_other_colours() -> None:
    """Every colour is one of the two tables', but for the frame of a panel in a drawing."""
    named = style_sheet()
    for colours in (LIGHT, DARK):
        named = named.replace(variables(colours), "")
    assert set(re.findall(r"#[0-9a-fA-F]{3,8}\b", named)) == {FOCUS}
    assert not re.search(r":[^;]*\b(rgb|hsl|black|white|red|gr[ae]y)\b", named)
    used = set(re.findall(r"var\(--(\w+)\)", named)) - {"width", "ratio", "across", "top"}
    assert used <= set(LIGHT)
    assert set(re.findall(r"background: var\(--(\w+)\)", named)) == set(GROUNDS)


def test_the_frame_round_a_panel_is_seen() -> None:
    """3:1 or more on the sheet and on a panel's ground (WCAG 2.2, 1.4.11)."""
    for ground in (style.PAPER, style.ROOM):
        assert contrast(FOCUS, ground) >= GRAPHICS
