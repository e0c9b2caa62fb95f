"""What a panel may cover and grow to, by hand."""

import math

import pytest

import letterfit as lf
from letterfit.cuts.tokens import tokens_of
from letterfit.geometry import Rect
from letterfit.report.menus import menus_of
from letterfit.report.panel import PanelJob
from letterfit.report.panel_bound import PanelBound
from letterfit.report.setting import Setting
from letterfit.report.shortened import Shortened
from letterfit.script.model import Dialogue, ScriptPanel
from tests.box_font import box_font

BOX = lf.Lettering(typeface=lf.open_typeface(box_font()), size_pt=7.5, air_mm=1.0)


TEXTS = ("Ahoy, the lock!", "Open up.")
RECT = Rect(0, 0, 40, 28)


def bound_of(setting: Setting) -> PanelBound:
    """The bound of a panel in which one speaker says both texts."""
    elements = tuple(
        Dialogue(kind="dialogue", text=text, line=k, speaker="WENNA")
        for k, text in enumerate(TEXTS, start=1)
    )
    job = PanelJob(panel=ScriptPanel(number=1, line=1, elements=elements), rect=RECT, id="1")
    short = Shortened(job.case(menus_of(job.spots(), setting), setting), RECT.area_mm2)
    return PanelBound.of(short, [tokens_of(text) for text in TEXTS])


@pytest.mark.parametrize("gap", [0.0, 1.5])
def test_joined_balloons_may_grow_by_what_they_share(gap: float) -> None:
    """Inside the margins 37 x 25 mm, grown by half a gap; a joint of 0.8 mm as long as may be."""
    bound = bound_of(Setting(lettering=BOX, effects=BOX, gap_mm=gap, same_speaker="joined"))
    long = math.hypot(37, 25)
    room = 37 * 25 + (37 + 25) * gap + math.pi * (gap / 2) ** 2
    assert bound.may_grow == pytest.approx(room + (0.8 + gap) * (long + 0.8 + gap))
    assert bound.may_cover == pytest.approx(40 * 28 / 3 + 0.8 * (long + 0.8))


def test_words_are_shared_out_so_that_least_area_is_left() -> None:
    """The first way for every number of words, against all ways there are."""
    setting = Setting(lettering=BOX, effects=BOX)
    bound = bound_of(setting)
    first, second = (own.tolist() for own in bound.ranks)
    ways = {(i, j): first[i] + second[j] for i in range(len(first)) for j in range(len(second))}
    told = bound.splits()
    assert any(told)
    for words, splits in enumerate(told):
        of_so_many = {way: area for way, area in ways.items() if sum(way) == words}
        found = [of_so_many[(i, j)] for i, j in splits]
        assert found == sorted(found)
        if splits:
            allowed = [area for way, area in of_so_many.items() if bound.allows(way)]
            assert found[0] == min(allowed)
