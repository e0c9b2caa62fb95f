"""How far balloons may hang over the border: by hand, and against the ink as it is set."""

from dataclasses import replace
from pathlib import Path

import pytest

from letterfit.fit.dressing import ink_on_page
from letterfit.geometry import MM_PER_PT, Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.report.manner import Outlines
from letterfit.report.menus import Menu, menu_of
from letterfit.report.overhangs import LEAST_MM, overhangs
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue, Kind
from tests.box_font import box_font

BOX = open_typeface(box_font())
YUSEI = Path(__file__).parents[1] / "data" / "fonts" / "YuseiMagic" / "YuseiMagic-400Regular.ttf"
SETTING = Setting(
    lettering=Lettering(typeface=BOX, size_pt=10.0, air_mm=1.0),
    effects=Lettering(typeface=BOX, size_pt=14.0),
    outlines=Outlines(whisper=None),
    aside_pt=0.0,
)
BLANK = "\u2800"
LONG = "The tide board says two hours. I say four, and I have kept this gate for thirty years."


def menu(text: str, *, kind: Kind = "dialogue", modifiers: tuple[str, ...] = ()) -> Menu:
    """The menu of one balloon in a wide room."""
    said = Dialogue(kind=kind, text=text, line=1, speaker="WENNA", modifiers=modifiers)
    return menu_of(said, Rect(0, 0, 150, 90), id="1.1.1", setting=SETTING)


def test_a_lone_line_hangs_over_by_hand() -> None:
    """Capitals of 0.7 em: 10 pt are 3.527778 mm, so ink stands 1.234722 mm over the centre.

    With 1 mm of air the outline of half-height b hangs over by b - 2.234722 mm.
    """
    one = menu("Shut it")
    for shape, over in zip(one.front, overhangs(one, SETTING), strict=True):
        if len(shape.stack) == 2:
            left = shape.outline.half_height - 0.35 * 10 * MM_PER_PT - 1.0
            assert over == (pytest.approx(left) if left >= LEAST_MM else 0.0)


@pytest.mark.parametrize("modifiers", [(), ("WHISPER",)])
def test_ink_keeps_the_air_from_the_border(modifiers: tuple[str, ...]) -> None:
    """Wherever an outline hangs over, its highest ink as set is just the air under the border."""
    one = menu(LONG, modifiers=modifiers)
    over = overhangs(one, SETTING)
    assert max(over) > LEAST_MM
    for shape, own in zip(one.front, over, strict=True):
        ink = ink_on_page(one.words, one.fitted(shape, SETTING))
        most = shape.outline.half_height + ink[:, 1].min() - 1.0
        assert own == (pytest.approx(most) if most >= LEAST_MM else 0.0)


def test_no_outline_just_kisses_the_border() -> None:
    """It hangs over by a millimetre or more, or not at all; more air leaves fewer that may."""
    one = menu(LONG)
    assert all(over == 0 or over >= LEAST_MM for over in overhangs(one, SETTING))
    airy = replace(SETTING, lettering=replace(SETTING.lettering, air_mm=30.0))
    assert set(overhangs(one, airy)) == {0.0}


@pytest.mark.parametrize(
    ("kind", "modifiers"), [("caption", ()), ("thought", ()), ("dialogue", ("SHOUTING",))]
)
def test_boxes_clouds_and_bursts_stay_inside(kind: Kind, modifiers: tuple[str, ...]) -> None:
    """Only outlines that bow are cut by a border."""
    one = menu(LONG, kind=kind, modifiers=modifiers)
    assert set(overhangs(one, SETTING)) == {0.0}


def test_columns_keep_the_air_from_the_border() -> None:
    """Of vertical text the highest ink is that of the columns as they stand on the page."""
    lettering = Lettering(typeface=YUSEI, writing="vertical", size_pt=8.0)
    setting = replace(SETTING, lettering=lettering, reading="rtl", language="ja")
    said = Dialogue(
        kind="dialogue", text="潮が変わったのは一時間も前のことだ。", line=1, speaker="A"
    )
    one = menu_of(said, Rect(0, 0, 90, 150), id="1.1.1", setting=setting)
    over = overhangs(one, setting)
    assert max(over) > LEAST_MM
    for shape, own in zip(one.front, over, strict=True):
        fitted = one.fitted(shape, setting)
        tops = [line.baseline_mm for line in fitted.lines]
        assert own < shape.outline.half_height + min(tops) + 1.0


def test_a_text_without_ink_stays_inside() -> None:
    """A glyph that is blank though it is no space (a Braille cell without dots) has no top."""
    typeface = open_typeface(box_font(blanks=BLANK))
    lettering = Lettering(typeface=typeface, size_pt=10.0, air_mm=1.0)
    setting = replace(SETTING, lettering=lettering)
    said = Dialogue(kind="dialogue", text=BLANK, line=1, speaker="WENNA")
    one = menu_of(said, Rect(0, 0, 150, 90), id="1.1.1", setting=setting)
    assert one.front
    assert not len(one.words.ink_boxes()[0])
    assert set(overhangs(one, setting)) == {0.0}
