"""Placing many panels at once: each as it is placed alone, and gone over by the checker."""

from dataclasses import replace

from letterfit.geometry import Rect
from letterfit.lettering import Lettering, open_typeface
from letterfit.report import Setting
from letterfit.report.case import Case
from letterfit.report.menus import menu_of
from letterfit.report.placing import Placing, place_case, place_cases, speaker_of
from letterfit.script.model import Dialogue
from tests.box_font import box_font

BOX = open_typeface(box_font())
SETTING = Setting(
    lettering=Lettering(typeface=BOX, size_pt=8.0), effects=Lettering(typeface=BOX, size_pt=14.0)
)
LINES = (
    "Hold a little longer, old thing.",
    "The tide board says two hours. I say four.",
    "Noon! We'll be sitting on the mud by then.",
)


def case(*texts: str, width: float = 70, height: float = 50, setting: Setting = SETTING) -> Case:
    """A panel in which WENNA says these texts."""
    room = Rect(0, 0, width, height)
    said = [
        Dialogue(kind="dialogue", text=text, line=n, speaker="WENNA")
        for n, text in enumerate(texts, start=1)
    ]
    menus = [menu_of(one, room, id=f"1.1.{one.line}", setting=setting) for one in said]
    return Case(menus=tuple(menus), room=room, largest=(150, 220), setting=setting)


def test_panels_placed_together_are_placed_as_each_alone() -> None:
    """Silent, roomy, impossible and flooded panels side by side: the same layouts to the bit."""
    cases = [
        case(),
        case(*LINES),
        case(*LINES, width=30, height=20),
        case("now " * 1000),
        case(LINES[0], width=40),
    ]
    together = [placing.layout for placing in place_cases(cases)]
    assert together == [place_case(one) for one in cases]
    assert [layout.verdict for layout in together] == [
        "placed",
        "placed",
        "impossible",
        "impossible",
        "placed",
    ]
    assert together[3].reason.startswith("words: 1000 in one balloon")


def test_no_panels_give_no_answers() -> None:
    """A page without panels has nothing to place."""
    assert place_cases([]) == ()


def test_the_checker_goes_over_what_was_asked() -> None:
    """A layout of the placing has no fault; the same with a balloon moved has."""
    (placing,) = place_cases([case(*LINES)])
    assert placing.faults() == ()
    ((task, layout),) = placing.tried
    moved = replace(layout, placed=(replace(layout.placed[0], x_mm=0.0), *layout.placed[1:]))
    codes = {fault.code for fault in Placing(layout=moved, tried=((task, moved),)).faults()}
    assert "outside-panel" in codes


def test_speakers_stand_off_the_panel_where_the_script_says_so() -> None:
    """Captions and balloons of nobody have no speaker to point at."""
    said = Dialogue(kind="dialogue", text="Ahoy.", line=1, speaker="PILOT", modifiers=("OFF",))
    speaker = speaker_of(said)
    assert speaker is not None
    assert (speaker.name, speaker.off_panel) == ("PILOT", True)
    assert speaker_of(replace(said, kind="caption")) is None
    assert speaker_of(replace(said, speaker=None)) is None
