"""Letters in a notebook's drawings: bundled ones, a user's own, and what stands in for them."""

from dataclasses import replace
from pathlib import Path

import letterfit as lf
from letterfit.output.notebook.letters import OTHERS
from letterfit.shown import as_html
from tests.output.html.parsed import parse
from tests.output.notebook.shown_values import drawings

FONT = Path(__file__).parents[2] / "data" / "fonts" / "MPLUSRounded1c"
OWN = lf.Lettering(typeface=FONT / "MPLUSRounded1c-500Medium.ttf")
SVG = "{http://www.w3.org/2000/svg}"


def test_a_font_that_the_balloon_does_not_hold_is_stood_in_for_and_said_so() -> None:
    """Each line is a text at its place, as long as it was measured; escaped; with a note."""
    balloon = lf.fit_balloon("Hold the <gate> & wait.", OWN)
    document = parse(as_html(balloon) or "")
    assert OTHERS in document.text
    (drawing,) = drawings(document)
    texts = drawing.findall(f".//{SVG}text")
    assert [text.text for text in texts] == [line.text for line in balloon.lines]
    for text, line in zip(texts, balloon.lines, strict=True):
        assert abs(float(text.attrib["textLength"]) - line.width_mm) < 0.001


def test_a_page_knows_its_lettering_and_draws_it() -> None:
    """No stand-ins on a page of a report; without its setting the page says that they stand in."""
    script = lf.parse_script("PAGE 1\n\nPanel 1. The gate.\nWENNA: Hold.\n")
    page = lf.preflight(script, lettering=OWN).pages[0]
    whole, bare = as_html(page), as_html(replace(page, setting=None))
    assert OTHERS not in (whole or "")
    assert OTHERS in (bare or "")


def test_columns_are_stood_in_for_as_columns() -> None:
    """A vertical line is a text that runs down."""
    down = replace(OWN, writing="vertical")
    (drawing,) = drawings(parse(as_html(lf.fit_balloon("水門を開けろ。", down)) or ""))
    texts = drawing.findall(f".//{SVG}text")
    assert texts
    assert all("vertical-rl" in text.attrib["style"] for text in texts)


def test_bundled_letters_stand_in_the_drawing_once() -> None:
    """A letter that is used twice has one shape."""
    (drawing,) = drawings(parse(as_html(lf.fit_balloon("Noon, noon, noon!")) or ""))
    shapes = [one.attrib["d"] for one in drawing.findall(f"{SVG}defs/{SVG}path")]
    assert 0 < len(shapes) == len(set(shapes)) <= 4
