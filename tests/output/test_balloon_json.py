"""One balloon as JSON: kind, lines, outline, clearance, overflow and front."""

import json

import pytest

from letterfit.lettering.settings import Lettering
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.output.balloon_json import balloon_to_json
from tests.output import reports

OUTLINES = (
    (Ellipse(half_width=9, half_height=5), {"half_width": 9.0, "half_height": 5.0}),
    (CaptionBox(half_width=9, half_height=5), {"half_width": 9.0, "half_height": 5.0}),
    (
        Superellipse(half_width=9, half_height=5, exponent=2.25),
        {"half_width": 9.0, "half_height": 5.0, "exponent": 2.25},
    ),
    (
        RoundedRect(half_width=9, half_height=5, radius=2.0004),
        {"half_width": 9.0, "half_height": 5.0, "radius": 2.0},
    ),
)


@pytest.mark.parametrize(("outline", "numbers"), OUTLINES)
def test_an_outline_is_its_kind_and_its_numbers(
    outline: Outline, numbers: dict[str, float]
) -> None:
    """Each kind of outline is told by what fixes it, and by no number of another kind."""
    value = json.loads(balloon_to_json(reports.fitted("HOLD.", outline)))
    assert value["outline"] == {"kind": outline.kind, **numbers}
    assert value["area_mm2"] == round(outline.area_mm2, 3)


def test_lines_stand_in_the_balloons_own_frame() -> None:
    """The origin is the outline's centre: a centred line starts left of it by half its width."""
    value = json.loads(balloon_to_json(reports.fitted("HOLD IT.")))
    assert value["lines"] == [{"text": "HOLD IT.", "x": -6.0, "baseline": 0.9, "width": 12.0}]


def test_a_text_that_does_not_fit_says_by_how_much() -> None:
    """Overflow names the words left over, the size that fits and the outline that would do."""
    given = reports.nasty().pages[1].panels[0].balloons[0].fitted
    value = json.loads(balloon_to_json(given))
    assert value["fits"] is False
    assert value["overflow"] == {
        "words": 3,
        "size_pt": 6.4,
        "least_size_pt": 6.0,
        "outline": {"kind": "ellipse", "half_width": 20.0, "half_height": 9.0},
    }


def test_a_size_under_the_least_legible_one_is_no_remedy() -> None:
    """It is null, beside the least size; at exactly the least it is offered (common practice)."""
    given = reports.nasty().pages[1].panels[0].balloons[0].fitted
    told = json.loads(balloon_to_json(given, least_size_pt=6.41))["overflow"]
    assert (told["size_pt"], told["least_size_pt"]) == (None, 6.41)
    at_least = json.loads(balloon_to_json(given, least_size_pt=6.4))["overflow"]
    assert at_least["size_pt"] == 6.4


def test_lettering_and_front_are_told_when_they_are_given() -> None:
    """Without them the keys are there, null and empty; with them they are filled."""
    fitted, other = reports.fitted("HOLD."), reports.fitted("HOLD NOW.")
    bare = json.loads(balloon_to_json(fitted))
    full = json.loads(balloon_to_json(fitted, lettering=Lettering(size_pt=7), front=[other]))
    assert (bare["lettering"], bare["front"]) == (None, [])
    assert full["lettering"]["size_pt"] == 7.0
    assert [one["text"] for one in full["front"]] == ["HOLD NOW."]
