"""Which balloons are joined: neighbours of one speaker, spoken one way, in outlines that join."""

from dataclasses import replace

import pytest

from letterfit.geometry import Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.report.joints import joints
from letterfit.report.manner import Outlines
from letterfit.report.menus import menus_of
from letterfit.report.panel import PanelJob
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue, ScriptPanel
from tests.box_font import box_font

BOX = open_typeface(box_font())
SETTING = Setting(
    lettering=Lettering(typeface=BOX, size_pt=8.0), effects=Lettering(typeface=BOX, size_pt=14.0)
)
WENNA = Dialogue(kind="dialogue", text="Hold.", line=1, speaker="WENNA")
PILOT = replace(WENNA, speaker="PILOT")


def joined(*elements: Dialogue, setting: Setting = SETTING) -> tuple[bool, ...]:
    """Which balloons of a panel are joined to the one before them."""
    panel = ScriptPanel(number=1, line=1, elements=elements)
    job = PanelJob(panel=panel, rect=Rect(0, 0, 90, 90), id="1.1")
    return joints(job.case(menus_of(job.spots(), setting), setting).menus)


def test_neighbours_of_one_speaker_are_joined() -> None:
    """Two, three; and of two speakers each with its own."""
    assert joined(WENNA, WENNA) == (False, True)
    assert joined(PILOT, WENNA, WENNA, WENNA, PILOT) == (False, False, True, True, False)
    assert joined(PILOT, PILOT, WENNA, WENNA) == (False, True, False, True)


def test_nothing_to_join_is_nothing_said() -> None:
    """One balloon, none, or speakers in turn: no answers at all."""
    assert joined() == joined(WENNA) == joined(WENNA, PILOT, WENNA) == ()


@pytest.mark.parametrize(
    "other",
    [
        replace(WENNA, kind="thought"),
        replace(WENNA, kind="caption"),
        replace(WENNA, modifiers=("OFF",)),
        replace(WENNA, modifiers=("WHISPER",)),
        replace(WENNA, modifiers=("SHOUTING",)),
        replace(WENNA, modifiers=("RADIO",)),
        replace(WENNA, speaker=None),
    ],
    ids=lambda one: f"{one.kind} {one.modifiers}",
)
def test_what_is_spoken_another_way_stays_apart(other: Dialogue) -> None:
    """Thoughts, captions, whispers, shouts, machines, from off: each keeps its own outline."""
    assert joined(WENNA, other) == joined(other, WENNA) == ()


def test_both_from_off_are_joined() -> None:
    """A voice from outside the panel is one voice; that it goes on changes nothing."""
    off = replace(WENNA, modifiers=("OFF",))
    assert joined(off, replace(off, modifiers=("OFF", "CONT'D"))) == (False, True)


@pytest.mark.parametrize(
    "between", [replace(WENNA, kind="sfx", text="KRRRK"), replace(PILOT, text="Ahoy.")]
)
def test_what_comes_between_keeps_them_apart(between: Dialogue) -> None:
    """A sound or another's word between two speeches."""
    assert joined(WENNA, between, WENNA) == ()
    assert joined(between, WENNA, WENNA)[-1]


def test_outlines_that_one_line_cannot_run_round_stay_apart() -> None:
    """Boxes are not joined; superellipses are, but not to ellipses."""
    for speech, expected in (("rounded", ()), ("superellipse", (False, True))):
        setting = replace(SETTING, outlines=Outlines(speech=speech))
        assert joined(WENNA, WENNA, setting=setting) == expected
    mixed = Outlines(speech="ellipse", machine="superellipse")
    radio = replace(WENNA, modifiers=("RADIO",))
    assert joined(WENNA, radio, setting=replace(SETTING, outlines=mixed)) == ()
    shouted = replace(WENNA, modifiers=("SHOUTING",))
    loud = replace(SETTING, outlines=Outlines(shout="ellipse"))
    assert joined(WENNA, shouted, setting=loud) == ()
    assert joined(shouted, shouted, setting=loud) == (False, True)
