"""Plans read from JSON: every slip has its path, and TOML's plans are no other."""

import pytest

from letterfit.errors import PageError
from letterfit.paper.json_plans import parse_json_plans
from letterfit.paper.read_plans import parse_plans
from letterfit.paper.sheet import Paper

PLACES = '{"pages": [{"page": 3, "tiers": [{"places": [%s]}]}]}'

SLIPS = {
    "no object": ("[]", r"\$: a list of 0, no object"),
    "an unknown key": ('{"tiers": "3"}', r"\$\.tiers: unknown key; the keys are schema, letterfit"),
    "another schema": ('{"schema": 2}', r"\$\.schema: not schema 1"),
    "a gutter in words": ('{"gutter_mm": "wide"}', r"\$\.gutter_mm: 'wide', no number"),
    "a wide gutter": ('{"gutter_mm": 101}', r"\$\.gutter_mm: no width of a gutter: 101"),
    "a paper of no size": ('{"paper": {"name": "x"}}', r"\$\.paper: no trim"),
    "a paper in one number": ('{"paper": {"trim": [170]}}', r"\$\.paper\.trim: a list of 1"),
    "a live area off the page": (
        '{"paper": {"trim": [170, 260], "live": [0, 0, 180, 9]}}',
        r"\$\.paper: a live area",
    ),
    "an unknown paper": ('{"paper": "papyrus"}', r"\$\.paper: no paper is called 'papyrus'"),
    "no page": ('{"pages": [{"tiers": "3"}]}', r"\$\.pages\[0\]: no page"),
    "half a page": ('{"pages": [{"page": 1.5, "tiers": "3"}]}', r"\$\.pages\[0\]\.page: 1\.5"),
    "a page twice": (
        '{"pages": [{"page": 3, "tiers": "3"}, {"page": 3, "tiers": "2"}]}',
        r"\$\.pages\[1\]\.page: page 3 has a plan already",
    ),
    "no tiers": ('{"pages": [{"page": 3}]}', r"\$\.pages\[0\]: no tiers"),
    "tiers of nothing": (
        '{"pages": [{"page": 3, "tiers": []}]}',
        r"\$\.pages\[0\]\.tiers: a list of 0",
    ),
    "no notation": (
        '{"pages": [{"page": 3, "tiers": "3 // 4"}]}',
        r"\$\.pages\[0\]\.tiers: '/ 4' after",
    ),
    "no places": (
        '{"every_page": {"tiers": [{"height": 2}]}}',
        r"\$\.every_page\.tiers\[0\]: no places",
    ),
    "a wide panel": (PLACES % '{"width": 1001}', r"tiers\[0\]: a relative width of 1001"),
    "a width in words": (PLACES % '{"width": "2"}', r"places\[0\]\.width: '2', no number"),
    "half a bleed": (PLACES % '{"bleeds": 1}', r"places\[0\]\.bleeds: 1, neither true nor false"),
    "a stack that bleeds": (
        PLACES % '{"stack": "1/1", "bleeds": true}',
        r"places\[0\]\.bleeds: beside a stack",
    ),
    "an inset of no height": (
        PLACES % '{"insets": [{"corner": "top-left", "width": 0.3}]}',
        r"insets\[0\]: no height",
    ),
    "an inset in the middle": (
        PLACES % '{"insets": [{"corner": "middle", "width": 0.3, "height": 0.3}]}',
        r"insets\[0\]: no corner is called 'middle'",
    ),
    "stacks without end": (
        PLACES % ('{"stack": [{"places": [' * 9 + "{}" + "]}]}" * 9),
        r"stack: stacks nested too deeply",
    ),
    "65 panels in a tier": (PLACES % ", ".join(["{}"] * 65), r"places: a list of 65"),
}


@pytest.mark.parametrize(("text", "told"), SLIPS.values(), ids=SLIPS)
def test_a_slip_is_told_with_its_path(text: str, told: str) -> None:
    """One line: the file, the path, what is wrong and what to do."""
    with pytest.raises(PageError, match=told) as error:
        parse_json_plans(text, source="plan.json")
    assert str(error.value).startswith("plan.json: $")
    assert error.value.advice
    assert "\n" not in str(error.value)


def test_what_is_left_out_is_as_in_toml() -> None:
    """Heights and widths are 1, panels plain, a page's gutter that of all pages."""
    told = parse_plans(
        '{"paper": "a5", "gutter_mm": 4, "pages": [{"page": 3, "tiers": '
        '[{"places": [{"width": 2}, {"stack": [{"places": [{}]}, {"places": [{}]}]}]}, '
        '{"height": 0.8, "places": [{}, {}, {}]}]}]}'
    )
    typed = parse_plans('paper = "a5"\ngutter = 4\n[page.3]\ntiers = "2:(1/1) / 3 @0.8"')
    assert told.paper == typed.paper == Paper.named("a5")
    assert told.gutter_mm == typed.gutter_mm
    (number, shape), (other, twin) = told.pages[0], typed.pages[0]
    assert (number, shape.tiers, shape.gutter_mm) == (other, twin.tiers, twin.gutter_mm)


def test_null_is_the_papers_own_gutter() -> None:
    """A page may go without the gutter of all pages."""
    plans = parse_plans('{"gutter_mm": 4, "pages": [{"page": 1, "gutter_mm": null, "tiers": "2"}]}')
    assert plans.pages[0][1].gutter_mm is None


def test_pages_stand_by_number() -> None:
    """However they are listed."""
    plans = parse_plans('{"pages": [{"page": 9, "tiers": "2"}, {"page": 4, "tiers": "3"}]}')
    assert [number for number, _ in plans.pages] == [4, 9]


def test_json_is_told_from_toml_by_its_brace() -> None:
    """A mark or white space before it changes nothing; anything else is TOML."""
    assert parse_plans('\ufeff \n{"gutter_mm": 2}').gutter_mm == 2
    with pytest.raises(PageError, match="not TOML"):
        parse_plans("[1, 2]")
