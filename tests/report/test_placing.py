"""Placing many panels at once: each as it is placed alone, and gone over by the checker."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from letterfit.geometry import Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.outline import Ellipse
from letterfit.place.model import PanelLayout, PlacedOutline, Proof, Verdict
from letterfit.place.solver import PanelTask
from letterfit.report import placing as placing_module
from letterfit.report.case import Case
from letterfit.report.menus import menu_of
from letterfit.report.placing import Placing, place_case, place_cases, speaker_of
from letterfit.report.setting import Setting
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


JOINED = replace(SETTING, same_speaker="joined")


def joinable(*texts: str, width: float, height: float, setting: Setting = JOINED) -> Case:
    """The same panel, its speeches one after the other."""
    plain = case(*texts, width=width, height=height, setting=setting)
    menus = [replace(menu, follows=k > 0) for k, menu in enumerate(plain.menus)]
    return replace(plain, menus=tuple(menus))


def test_speeches_are_joined_by_most_of_their_air() -> None:
    """Each after the first is joined, so deep that the ink keeps clear; the checker agrees."""
    (placing,) = place_cases([joinable(*LINES, width=100, height=70)])
    assert [spot.joined for spot in placing.layout.placed] == [False, True, True]
    ((task, _),) = placing.tried
    assert task.overlap_mm == pytest.approx(0.8 * SETTING.lettering.air_mm)
    assert (placing.layout.findings, placing.faults()) == ((), ())


def answers(monkeypatch: pytest.MonkeyPatch, *verdicts: Verdict) -> list[PanelTask]:
    """Make the placing answer so, one after the other; returns what it is asked."""
    asked: list[PanelTask] = []

    def answer(tasks: Sequence[PanelTask]) -> tuple[PanelLayout, ...]:
        asked.extend(tasks)
        verdict = verdicts[len(asked) - 1]
        bound = 0.0 if verdict == "impossible" else 30.0 + len(asked)
        proof = Proof(name="area", balloons=(0,)) if verdict == "impossible" else None
        return (PanelLayout(verdict=verdict, figure_bound_mm=bound, reason="-", proof=proof),)

    monkeypatch.setattr(placing_module, "place_panels", answer)
    return asked


WAYS = {
    "at once": (("placed",), "placed", 31.0, 0),
    "joined but inside": (("not found", "placed"), "placed", 32.0, 0),
    "linked": (("not found", "impossible", "placed"), "placed", 33.0, 1),
    "in no way": (("impossible",) * 4, "impossible", 0.0, 0),
    "in no way that was found": (
        ("impossible", "not found", "impossible", "impossible"), "not found", 32.0, 0,
    ),
}  # fmt: skip


@pytest.mark.parametrize(("verdicts", "told", "bound", "notes"), WAYS.values(), ids=WAYS)
def test_one_way_is_tried_after_the_other(
    monkeypatch: pytest.MonkeyPatch,
    verdicts: tuple[Verdict, ...],
    told: Verdict,
    bound: float,
    notes: int,
) -> None:
    """Joined and butted, joined, butted, plain; impossible only where every way is."""
    asked = answers(monkeypatch, *verdicts)
    setting = replace(JOINED, butted=True)
    (placing,) = place_cases([joinable(*LINES[:2], width=80, height=60, setting=setting)])
    wanted = [(True, True), (True, False), (False, True), (False, False)]
    assert [(any(t.joined), t.overhangs is not None) for t in asked] == wanted[: len(asked)]
    assert len(asked) == len(verdicts)
    assert (placing.layout.verdict, placing.layout.figure_bound_mm) == (told, bound)
    assert (placing.layout.proof is not None) == (told == "impossible")
    assert [f.code for f in placing.layout.findings] == ["not-joined"] * notes


def test_only_the_panels_own_border_cuts_balloons() -> None:
    """Where the live area ends below the panel's border there is no line to be cut by."""
    setting = replace(SETTING, butted=True)
    whole = case(LINES[1], setting=setting)
    (over,) = place_case(whole).placed
    assert over.overhang_mm >= 1
    assert over.y_mm == pytest.approx(over.outline.half_height - over.overhang_mm)
    (inside,) = place_case(replace(whole, under_border=False)).placed
    assert inside.overhang_mm == 0


def test_a_wrong_proof_is_held_against_the_placing() -> None:
    """A real proof is found again; one for a panel that is large enough is false."""
    (placing,) = place_cases([case(*LINES, width=30, height=20)])
    assert (placing.layout.verdict, placing.faults()) == ("impossible", ())
    ((task, layout),) = placing.tried
    roomy = replace(task, panel=Rect(0, 0, 200, 200))
    codes = {f.code for f in Placing(layout=layout, tried=((roomy, layout),)).faults()}
    assert "proof-false" in codes


def test_what_reads_in_the_wrong_order_will_not_do(monkeypatch: pytest.MonkeyPatch) -> None:
    """A joined layout that readers take the other way round is passed over for a linked one."""
    disc = Ellipse(half_width=5, half_height=5)
    first = PlacedOutline(index=0, choice=0, outline=disc, x_mm=20, y_mm=30)
    second = replace(first, index=1, y_mm=10)

    def answer(tasks: Sequence[PanelTask]) -> tuple[PanelLayout, ...]:
        (task,) = tasks
        placed = (first, second) if any(task.joined) else (second, first)
        ordered = tuple(replace(spot, index=k) for k, spot in enumerate(placed))
        return (PanelLayout(verdict="placed", placed=ordered),)

    monkeypatch.setattr(placing_module, "place_panels", answer)
    (placing,) = place_cases([joinable(*LINES[:2], width=80, height=60)])
    assert [spot.y_mm for spot in placing.layout.placed] == [10, 30]
    assert [(f.code, f.where) for f in placing.layout.findings] == [("not-joined", "2")]
    ((task, _),) = placing.tried
    assert not any(task.joined)
