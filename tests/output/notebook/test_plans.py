"""Laid pages in a notebook: a name and a size in every panel, clear of what is set into it."""

import letterfit as lf
from letterfit.output.notebook.plans import plan_text
from letterfit.shown import as_html
from tests.output.html.parsed import parse
from tests.output.notebook.shown_values import drawings

SCRIPT = lf.parse_script("PAGE 1\n\nPanel 1. Gate.\n\nPanel 2. Wheel.\n\nPanel 3. Sea.\n")
SVG = "{http://www.w3.org/2000/svg}"


def laid(tiers: str) -> lf.LaidPage:
    """The page in some tiers."""
    plans = lf.parse_plans(f'[page.1]\ntiers = "{tiers}"')
    return lf.plan_script(SCRIPT, paper=lf.Paper.named("a5"), plans=plans)[0]


def test_the_text_of_a_plan_has_every_panel() -> None:
    """A line with the tiers, then a line a panel."""
    head, *panels = plan_text(laid("2 / 1").plan).split("\n")
    assert head == "a5, 148.0 x 210.0 mm · 3 panels · TIERS: 2 / 1"
    assert [line.split()[0] for line in panels] == ["1", "2", "3"]


def test_every_panel_of_the_drawing_has_a_label() -> None:
    """As many labels as panels, also where one is set into the corner that labels stand in."""
    for tiers in ("2 / 1", "1[top-left 0.4x0.3] / 1"):
        page = laid(tiers)
        (drawing,) = drawings(parse(as_html(page) or ""))
        labels = [one for one in drawing.findall(f"{SVG}g") if one.attrib.get("class") == "words"]
        assert len(labels) == len(page.plan.panels) == 3


def test_a_label_stands_clear_of_an_inset() -> None:
    """The host's own goes to its foot when the inset takes its upper left corner."""
    plan = laid("1[top-left 0.4x0.3] / 1").plan
    (inset,) = (one.index for one in plan.special if one.host is not None)
    (drawing,) = drawings(parse(as_html(plan) or ""))
    first = next(one for one in drawing.findall(f"{SVG}g") if one.attrib.get("class") == "words")
    place = next(one.attrib["transform"] for one in first.iter() if "translate" in str(one.attrib))
    _, y = place.removeprefix("translate(").split(")")[0].split()
    assert float(y) / 1000 > plan.panels[inset].bottom
