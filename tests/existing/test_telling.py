"""What is a panel, a balloon, a tail, lettering: by name, then by size and nesting."""

import pytest

import letterfit as lf
from letterfit.existing.model import DrawnPanel

ROOT = '<svg xmlns="http://www.w3.org/2000/svg" width="170mm" height="260mm" viewBox="0 0 170 260">'
GROUND = '<rect width="170" height="260" fill="#fff"/>'
PANELS = (
    '<rect x="10" y="10" width="70" height="100"/><rect x="90" y="10" width="70" height="100"/>'
)
TEXT = '<text x="20" y="30" font-size="3">HOLD THE GATE.</text>'
"""About 22 mm wide, its middle near (31, 29)."""


def read(inside: str) -> lf.DrawnPage:
    """A page of 170 x 260 mm."""
    return lf.parse_drawn_page(f"{ROOT}{inside}</svg>".encode())


def only(page: lf.DrawnPage) -> DrawnPanel:
    """The page's first panel, where all is."""
    return page.panels[0]


def rect(x: float, y: float, width: float, height: float, more: str = "") -> str:
    """A rectangle."""
    return f'<rect x="{x}" y="{y}" width="{width}" height="{height}" {more}/>'


def test_the_ground_of_the_page_is_no_panel() -> None:
    """Nothing is named: the page-size shape is dropped, two panels are left."""
    page = read(GROUND + PANELS)
    assert [round(panel.rect.x) for panel in page.panels] == [10, 90]
    assert {panel.rule for panel in page.panels} == {"geometry"}


def test_a_frame_round_the_panels_is_no_panel() -> None:
    """The live area, drawn as a guide round four panels that fill most of it."""
    four = PANELS + rect(10, 120, 70, 125) + rect(90, 120, 70, 125)
    page = read(rect(8, 8, 154, 240, 'fill="none" stroke="blue"') + four)
    assert len(page.panels) == 4


def test_what_lies_in_a_panel_is_none() -> None:
    """A window in the picture of a fifth of the page; the panel's own border, drawn again."""
    scene = rect(10, 10, 150, 200) + rect(30, 40, 80, 100) + rect(10, 10, 150, 200, 'fill="none"')
    assert len(read(scene).panels) == 1


def test_small_shapes_are_no_panels() -> None:
    """Under a fiftieth of the page they are artwork, and that is said where they hold nothing."""
    page = read(PANELS + rect(20, 60, 20, 20))
    assert len(page.panels) == 2
    assert [f.code for f in page.findings] == ["untold-shapes"]


def test_names_go_before_geometry() -> None:
    """Where one panel is named, only what is named is one."""
    page = read(GROUND + PANELS + rect(10, 120, 150, 90, 'id="panel-3"'))
    assert [(panel.name, panel.rule) for panel in page.panels] == [("panel-3", "name")]


def test_what_a_panels_group_holds_inside_its_panel_is_its_content() -> None:
    """The artwork of a group called panel is no panel; panels of one layer have their lines."""
    group = (
        f'<g id="panels">{rect(10, 10, 150, 100)}{rect(20, 20, 60, 60)}{rect(10, 120, 150, 90)}</g>'
    )
    page = read(group)
    assert [panel.name for panel in page.panels] == ["panels, line 1"] * 2
    assert [panel.rect.height for panel in page.panels] == pytest.approx([100, 90])


def test_labels_and_guides_are_no_part_of_the_page() -> None:
    """What a name calls so is left out, text and all."""
    page = read(PANELS + f'<g class="label">{TEXT}{rect(15, 20, 40, 20)}</g>')
    assert only(page).effects == ()
    assert page.findings == ()


def test_a_panel_that_bleeds_ends_at_the_trim() -> None:
    """Its area is that of what is printed."""
    (panel,) = read(rect(-5, -5, 100, 120, 'class="panel"')).panels
    assert (panel.rect.width, panel.rect.height) == pytest.approx((95, 115))


def test_the_innermost_shape_round_text_is_its_balloon() -> None:
    """Not the wall behind it, not the panel, not a mark smaller than the words."""
    wall, balloon, mark = rect(12, 15, 60, 60), rect(17, 22, 30, 12), rect(29, 27, 4, 4)
    panel = only(read(PANELS + wall + balloon + mark + TEXT))
    (told,) = panel.balloons
    assert told.region.box.width == pytest.approx(30)
    assert told.rule == "geometry"
    assert told.words == 3


def test_scenery_with_a_sign_on_it_is_no_balloon() -> None:
    """A shape that takes most of its panel: the text is a sign."""
    panel = only(read(PANELS + rect(11, 11, 68, 90) + TEXT))
    assert panel.balloons == ()
    assert [effect.text for effect in panel.effects] == ["HOLD THE GATE."]


def test_a_shape_across_a_balloons_outline_is_its_tail() -> None:
    """Told by nesting; it covers, and is no balloon."""
    panel = only(read(PANELS + rect(17, 22, 30, 12) + '<path d="M25 32h5l-4 30z"/>' + TEXT))
    assert len(panel.balloons) == 1
    assert len(panel.covers) == 2


def test_empty_shapes_of_a_balloons_layer_are_balloons_or_tails() -> None:
    """A page before its lettering: two balloons; a bubble too small for a letter is a tail."""
    layer = rect(17, 22, 30, 12) + rect(20, 60, 20, 10) + '<circle cx="40" cy="42" r="1.5"/>'
    panel = only(read(f'<g id="panels">{PANELS}</g><g id="balloons">{layer}</g>'))
    assert len(panel.balloons) == 2
    assert len(panel.covers) == 3
    assert [balloon.words for balloon in panel.balloons] == [0, 0]


def test_a_layer_of_lettering_may_hold_its_balloons() -> None:
    """A shape round live text is a balloon there, one across its outline a tail, others letters."""
    layer = rect(17, 22, 30, 12) + '<path d="M25 32h5l-4 30z"/>' + TEXT + rect(20, 80, 20, 6)
    panel = only(read(f'{PANELS}<g id="Lettering">{layer}</g>'))
    assert len(panel.balloons) == 1
    assert panel.balloons[0].words == 3
    assert len(panel.covers) == 2
    assert len(panel.effects) == 1


def test_captions_are_told_from_balloons_by_name() -> None:
    """A class, or a layer of captions."""
    page = read(PANELS + f'<g id="Captions">{rect(17, 22, 30, 12)}</g>' + TEXT)
    assert [balloon.part for balloon in only(page).balloons] == ["caption"]


def test_text_in_no_balloon_is_an_effect() -> None:
    """And counts for no cover."""
    panel = only(read(PANELS + TEXT))
    assert panel.covers == ()
    assert [effect.rule for effect in panel.effects] == ["geometry"]


def test_a_balloon_in_no_panel_is_named() -> None:
    """It stands in the margin, where nobody counts it."""
    named = 'id="balloon-9"'
    page = read(f'<g id="panels">{PANELS}</g>{rect(20, 200, 30, 12, named)}')
    assert [f.code for f in page.findings] == ["balloon-outside"]
    assert "balloon-9" in page.findings[0].message


def test_a_balloon_across_two_panels_covers_both() -> None:
    """It belongs to the one that its middle lies in, or in the gutter to the first."""
    named = 'class="balloon"'
    page = read(f'<g id="panels">{PANELS}</g>{rect(60, 40, 50, 20, named)}')
    assert [len(panel.balloons) for panel in page.panels] == [1, 0]
    assert [len(panel.covers) for panel in page.panels] == [1, 1]
    first, second = lf.measure_page(page).panels
    assert first.coverage == pytest.approx(20 * 20 / 7000)
    assert second.coverage == pytest.approx(20 * 20 / 7000)
