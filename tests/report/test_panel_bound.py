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


@pytest.mark.parametrize("gap", [0.0, 1.5])
def test_joined_balloons_may_grow_by_what_they_share(gap: float) -> None:
    """Inside the margins 37 x 25 mm, grown by half a gap; a joint of 0.8 mm as long as may be."""
    texts = ("Ahoy, the lock!", "Open up.")
    elements = tuple(
        Dialogue(kind="dialogue", text=text, line=k, speaker="WENNA")
        for k, text in enumerate(texts, start=1)
    )
    setting = Setting(lettering=BOX, effects=BOX, gap_mm=gap, same_speaker="joined")
    rect = Rect(0, 0, 40, 28)
    job = PanelJob(panel=ScriptPanel(number=1, line=1, elements=elements), rect=rect, id="1")
    short = Shortened(job.case(menus_of(job.spots(), setting), setting), rect.area_mm2)
    bound = PanelBound.of(short, [tokens_of(text) for text in texts])
    long = math.hypot(37, 25)
    room = 37 * 25 + (37 + 25) * gap + math.pi * (gap / 2) ** 2
    assert bound.may_grow == pytest.approx(room + (0.8 + gap) * (long + 0.8 + gap))
    assert bound.may_cover == pytest.approx(40 * 28 / 3 + 0.8 * (long + 0.8))
