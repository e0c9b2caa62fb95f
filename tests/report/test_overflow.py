"""By how much a panel does not go in: every figure is tried, and the next smaller one refused."""

import math
from dataclasses import replace

import numpy as np
import pytest
from shapely import Polygon

from letterfit.fit.model import Shape
from letterfit.geometry import Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import Ellipse
from letterfit.report.case import Case
from letterfit.report.limits import Limits
from letterfit.report.menus import Menu, first_words, menu_of
from letterfit.report.model import PanelOverflow
from letterfit.report.overflow import (
    SIZE_STEP_PT,
    area_over,
    largest_size,
    least_height,
    least_width,
    panel_overflow,
    panel_overflows,
    words_to_cut,
)
from letterfit.report.placing import place_case
from letterfit.report.setting import Setting
from letterfit.report.trials import Remedy, tried
from letterfit.script.model import Dialogue
from tests.box_font import box_font
from tests.words import box_words

BOX = open_typeface(box_font())
SETTING = Setting(
    lettering=Lettering(typeface=BOX, size_pt=8.0), effects=Lettering(typeface=BOX, size_pt=14.0)
)
LONG = (
    "When that sill goes it goes all at once, and it takes the gate, the cottage, the towpath "
    "and every boat between here and the weir, yours first of all."
)
SHORT = "Hold a little longer, old thing."


def case(
    *texts: str, width: float, height: float, largest: tuple[float, float] = (150, 220)
) -> Case:
    """A panel of these balloons."""
    room = Rect(0, 0, width, height)
    menus = tuple(
        menu_of(Dialogue(kind="dialogue", text=text, line=n), room, id=f"1.1.{n}", setting=SETTING)
        for n, text in enumerate(texts, start=1)
    )
    return Case(menus=menus, room=room, largest=largest, setting=SETTING)


def asked(remedy: Remedy) -> float | None:
    """The figure of one remedy, tried by itself."""
    (figure,) = tried([remedy])
    return figure


def test_what_is_told_is_placed() -> None:
    """Every remedy told of a crowded panel is carried out by the real placing."""
    tight = case(LONG, SHORT, LONG, SHORT, width=60, height=45)
    over = panel_overflow(tight)
    assert over.height_mm is not None
    assert over.width_mm is not None
    for room in (Rect(0, 0, 60, over.height_mm), Rect(0, 0, over.width_mm, 45)):
        assert place_case(replace(tight, room=room)).verdict == "placed"


def test_area_over_counts_every_balloon_with_half_its_gap() -> None:
    """Steiner's formula equals the area of the outline grown by half a gap, as shapely grows it."""
    outline = Ellipse(half_width=12, half_height=7)
    shape = Shape(stack=(0, 1), outline=outline, looks=0.0)
    said, room = Dialogue(kind="dialogue", text="", line=1), Rect(0, 0, 18, 16)
    menu = Menu("1.1.1", said, box_words([3.0]), (shape,), room)
    ring = [(12 * math.cos(t), 7 * math.sin(t)) for t in np.linspace(0, 2 * math.pi, 4001)]
    grown = Polygon(ring).buffer(0.75, 256)
    expected = 3 * grown.area - (18 - 3 + 1.5) * (16 - 3 + 1.5)
    assert area_over([menu] * 3, room, setting=SETTING) == pytest.approx(expected, rel=1e-5)
    assert area_over([menu], Rect(0, 0, 60, 60), setting=SETTING) == 0


@pytest.mark.parametrize("count", [1, 2, 5, 12, 31, 40])
def test_first_words_are_the_text_cut_short(count: int) -> None:
    """The first words of a measured text are as wide as those words measured anew."""
    whole = measure(LONG, SETTING.lettering)
    cut = first_words(whole, count)
    text = " ".join(LONG.split()[:count])
    anew = measure(text, SETTING.lettering)
    assert cut.count == min(count, whole.count)
    assert cut.text == anew.text
    assert cut.line(0, len(cut) - 1).width_mm == pytest.approx(anew.line(0, len(anew) - 1).width_mm)
    assert cut.forced[-1]
    assert cut.penalties[-1] == 0


def test_least_words_are_placed_and_one_fewer_is_not() -> None:
    """So many words cut from the ends of the longest balloons do, and one less does not."""
    tight = case(LONG, SHORT, width=48, height=36)
    assert place_case(tight).verdict != "placed"
    words = asked(words_to_cut(tight))
    assert words is not None

    def placed_without(removed: int) -> bool:
        kept = [menu.words.count for menu in tight.menus]
        for _ in range(removed):
            kept[kept.index(max(kept))] -= 1
        texts = [
            " ".join(text.split()[:count]) for text, count in zip((LONG, SHORT), kept, strict=True)
        ]
        again = case(*texts, width=48, height=36)
        return place_case(again).verdict == "placed"

    assert placed_without(int(words))
    assert not placed_without(int(words) - 1)


def test_largest_size_is_placed_and_a_quarter_point_more_is_not() -> None:
    """The size told is on the grid, does, and the next larger one does not."""
    tight = case(LONG, width=46, height=28)
    size = asked(largest_size(tight))
    assert size is not None
    assert size % SIZE_STEP_PT == 0
    assert 6.0 <= size < 8.0
    for points, verdict in ((size, True), (size + SIZE_STEP_PT, False)):
        lettering = Lettering(typeface=BOX, size_pt=points)
        setting = Setting(lettering=lettering, effects=SETTING.effects)
        menu = menu_of(tight.menus[0].element, tight.room, id="1.1.1", setting=setting)
        layout = place_case(replace(tight, menus=(menu,), setting=setting))
        assert (layout.verdict == "placed") is verdict


def test_least_height_is_placed_and_a_millimetre_less_is_not() -> None:
    """The tier height told does; the whole millimetre under it does not."""
    tight = case(LONG, SHORT, width=48, height=30)
    height = asked(least_height(tight))
    assert height is not None
    for tall, verdict in ((height, True), (height - 1, False)):
        room = Rect(0, 0, 48, tall)
        assert (place_case(replace(tight, room=room)).verdict == "placed") is verdict


def test_least_width_is_placed_and_a_millimetre_less_is_not() -> None:
    """The panel width told does; the whole millimetre under it does not."""
    tight = case(LONG, SHORT, width=30, height=36)
    width = asked(least_width(tight))
    assert width is not None
    for wide, verdict in ((width, True), (width - 1, False)):
        room = Rect(0, 0, wide, 36)
        assert (place_case(replace(tight, room=room)).verdict == "placed") is verdict


def test_what_cannot_be_helped_is_told_as_none() -> None:
    """A word wider than its panel goes in at no height, no size and no number of words."""
    over = panel_overflow(case("A" * 100, width=30, height=40))
    assert over == PanelOverflow(area_mm2=over.area_mm2, words=None, size_pt=None)
    wide = panel_overflow(case("A" * 30, width=30, height=40))
    assert wide.width_mm is not None
    assert (wide.words, wide.size_pt, wide.height_mm) == (None, None, None)


def test_no_smaller_size_is_tried_under_the_least_legible_one() -> None:
    """Type at the floor already has nowhere to go."""
    lettering = Lettering(typeface=BOX, size_pt=6.0)
    setting = Setting(lettering=lettering, effects=SETTING.effects, limits=Limits())
    room = Rect(0, 0, 20, 20)
    menu = menu_of(Dialogue(kind="dialogue", text=LONG, line=1), room, id="1.1.1", setting=setting)
    tight = Case(menus=(menu,), room=room, largest=(150, 200), setting=setting)
    assert asked(largest_size(tight)) is None


def test_a_flood_of_words_is_a_misfit_with_figures() -> None:
    """A balloon no panel could hold is set as far as it goes; the words to cut are still found."""
    flood = case("now and then " * 180, SHORT, width=60, height=50)
    assert not flood.menus[0].fits
    assert flood.menus[0].fitted(flood.menus[0].smallest, SETTING).lines
    layout = place_case(flood)
    assert layout.verdict == "impossible"
    assert "540" in layout.reason
    over = panel_overflow(flood)
    assert over.words is not None
    assert 540 + 6 - 90 < over.words < 540
    assert (over.size_pt, over.height_mm) == (None, None)


def test_too_many_balloons_are_not_tried_one_by_one() -> None:
    """Seventeen balloons that do not go in belong in more panels: only the area is told."""
    crowd = case(*["Three turns!"] * 17, width=30, height=30)
    over = panel_overflow(crowd)
    assert over.area_mm2 > 0
    assert over == PanelOverflow(area_mm2=over.area_mm2, words=None, size_pt=None)


def test_panels_helped_side_by_side_are_helped_as_each_alone() -> None:
    """Panels that overflow in every way, one of a flood and one of a crowd: the same figures."""
    cases = [
        case(LONG, SHORT, width=48, height=36),
        case(LONG, width=46, height=28),
        case("A" * 100, width=30, height=40),
        case(*["Three turns!"] * 17, width=30, height=30),
        case(*[SHORT] * 5, width=50, height=26),
        case(LONG, SHORT, LONG, width=60, height=45),
    ]
    together = panel_overflows(cases)
    assert together == tuple(panel_overflow(one) for one in cases)
    assert len(set(together)) == len(cases)
    assert panel_overflows([]) == ()


@pytest.mark.parametrize("scale", [1.0, 0.6])
def test_the_least_area_is_over_all_outlines(scale: float) -> None:
    """No outline is passed over that takes less with its gap than those looked at."""
    (menu,) = case(LONG, width=90, height=60).menus
    setting = replace(SETTING, gap_mm=8.0 * scale)
    half = setting.gap_mm / 2
    least = min(o.area_mm2 + o.perimeter_mm * half + math.pi * half**2 for o in menu.outlines)
    room = Rect(0, 0, 5, 5)
    side = 5 - 2 * setting.margin_mm + setting.gap_mm
    assert area_over([menu], room, setting=setting) == pytest.approx(least - side**2, rel=1e-12)
