"""Layouts in a notebook: every outline, link and figure is drawn, and why nothing is."""

from tests.output.notebook.shown_values import bundle, drawings, tree, value

SVG = "{http://www.w3.org/2000/svg}"


def test_outlines_links_and_figures_stand_in_the_drawing() -> None:
    """As many as the layout has, all inside the ground."""
    (drawing,) = drawings(tree("layout"))
    groups = [one.attrib.get("class", "") for one in drawing.iter(f"{SVG}g")]
    assert groups.count("balloon dialogue") == 3
    assert groups.count("tail bridge") == 1
    assert groups.count("figure") == len(getattr(value("layout"), "figures", ()))


def test_a_layout_is_told_in_a_line() -> None:
    """Outlines, cover and figure where it is placed; else the proof in its own words."""
    assert bundle("layout")["text/plain"].startswith("3 outlines placed · ")
    assert bundle("layout without a place")["text/plain"].startswith("impossible: ")
