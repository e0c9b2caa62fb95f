"""One panel: a page worked out by hand, planted misfits, and what holds of every panel."""

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.findings import Finding
from letterfit.geometry import MM_PER_PT, Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.place.checker import check_layout
from letterfit.place.model import PanelLayout, PlacedOutline, Reading
from letterfit.report import panel as panel_module
from letterfit.report.case import Case
from letterfit.report.codes import CODES
from letterfit.report.limits import Limits
from letterfit.report.model import PanelReport
from letterfit.report.panel import PanelJob, report_panels
from letterfit.report.placing import Placing, place_cases
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue, Kind, ScriptPanel
from tests.box_font import box_font, width_em

BOX = open_typeface(box_font())
SETTING = Setting(
    lettering=Lettering(typeface=BOX, size_pt=10, leading=1.2, air_mm=1.0),
    effects=Lettering(typeface=BOX, size_pt=20),
    aside_pt=0.0,
)
LINES = (
    "Still with us?",
    "The tide board says two hours. I say four.",
    "That crack's no wider than my thumb, and you'd hold up the whole river for it?",
    "Noon! We'll be sitting on the mud by then.",
    "Heave!",
)


def said(*texts: str, kind: Kind = "dialogue", speaker: str | None = None) -> ScriptPanel:
    """A panel of elements on lines 11, 12 and so on."""
    return ScriptPanel(
        number=1,
        line=10,
        elements=tuple(
            Dialogue(kind=kind, text=text, line=10 + n, speaker=speaker)
            for n, text in enumerate(texts, start=1)
        ),
    )


def report(
    panel: ScriptPanel, rect: Rect, *, live: Rect | None = None, setting: Setting = SETTING
) -> tuple[PanelReport, tuple[Finding, ...]]:
    """The report of panel 1.1 and its findings."""
    (done,) = report_panels([PanelJob(panel=panel, rect=rect, id="1.1", live=live)], setting)
    return done


def em_mm(size_pt: float) -> float:
    """One em in mm: 1 pt = 25.4/72 mm."""
    return size_pt * MM_PER_PT


def test_a_captions_box_by_hand() -> None:
    """One line of two words, worked out from the font's table.

    10 pt: 1 em = 3.527778 mm. "AB CD" advances 4 x 0.6 + 0.3 = 2.7 em; its ink begins and ends 0.05
    em inside: 2.6 em = 9.172222 mm. Capitals are 0.7 em = 2.469444 mm high. With 1 mm of air all
    round the box is 11.172222 x 4.469444 mm = 49.933633 mm2, of a panel of 80 x 32 = 2560 mm2:
    1.9505 %. The panel is as high as it was beside the caption: a figure of 32 mm is 10.7 mm wide.
    """
    panel, findings = report(said("AB CD", kind="caption"), Rect(10, 10, 80, 32))
    width, height = (width_em("AB CD") - 0.1) * em_mm(10) + 2, 0.7 * em_mm(10) + 2
    (caption,) = panel.balloons
    assert 2 * caption.fitted.outline.half_width == pytest.approx(width)
    assert 2 * caption.fitted.outline.half_height == pytest.approx(height)
    assert panel.coverage == pytest.approx(width * height / 2560)
    assert panel.coverage == pytest.approx(0.019505, abs=1e-6)
    assert panel.figure_height_mm == pytest.approx(32)
    assert (panel.words, panel.verdict, panel.reading_certain) == (2, "placed", True)
    # 1.5 mm from the panel's top left corner: where the trade puts place and time.
    assert caption.x_mm == pytest.approx(10 + 1.5 + width / 2)
    assert caption.y_mm == pytest.approx(10 + 1.5 + height / 2)
    assert findings == ()


def test_a_figure_under_a_caption_by_hand() -> None:
    """In a panel of 14 x 30 mm a caption of two lines leaves no room beside itself.

    10 pt as above. "ABCD EFGH" in one line is 5 em = 17.6 mm, wider than the 11 mm between the
    margins. In two lines its ink is 4 x 0.6 - 0.1 = 2.3 em = 8.113889 mm wide, the box 10.113889
    mm; high 0.7 em + one leading of 1.2 em = 6.702778 mm, the box 8.702778 mm. Beside the box
    14 - 1.5 - 10.113889 = 2.386111 mm are free: a figure of 3 x 2.386111 = 7.158333 mm. Under it
    30 - 1.5 - 8.702778 = 19.797222 mm are free, and a figure as high is 6.6 mm wide: it stands
    there, 65.99 % of the panel's height.
    """
    panel, _ = report(said("ABCD EFGH", kind="caption"), Rect(0, 0, 14, 30))
    (caption,) = panel.balloons
    assert [line.text for line in caption.fitted.lines] == ["ABCD", "EFGH"]
    assert 2 * caption.fitted.outline.half_width == pytest.approx(10.113889, abs=1e-6)
    assert panel.figure_height_mm == pytest.approx(19.797222, abs=1e-6)
    assert panel.figure_share == pytest.approx(0.6599, abs=1e-4)


def test_effects_are_measured_by_ink_and_counted_apart() -> None:
    """Sound effects are neither words nor coverage.

    "HO" at 20 pt: ink 1.1 em x 0.7 em, 1 em = 7.055556 mm: 7.761111 x 4.938889 = 38.331265 mm2.
    """
    elements = (
        Dialogue(kind="sfx", text="HO", line=11),
        Dialogue(kind="sign", text="HO", line=12),
    )
    panel, _ = report(ScriptPanel(number=1, line=10, elements=elements), Rect(0, 0, 57, 64))
    assert (panel.words, panel.coverage, len(panel.balloons)) == (0, 0, 0)
    assert [effect.id for effect in panel.effects] == ["1.1.e1", "1.1.e2"]
    assert panel.effects[0].width_mm == pytest.approx(7.761111, abs=1e-6)
    assert panel.effects[0].height_mm == pytest.approx(4.938889, abs=1e-6)
    assert panel.effects_share == pytest.approx(2 * 38.331265 / (57 * 64), abs=1e-8)


def test_a_silent_panel_has_room_for_a_whole_figure() -> None:
    """Nothing is covered; the figure is as high as the panel, or three times its width."""
    for rect, figure in ((Rect(0, 0, 57, 64), 64), (Rect(0, 0, 19, 64), 57)):
        panel, findings = report(said(), rect)
        assert (panel.verdict, panel.coverage, panel.words, findings) == ("placed", 0, 0, ())
        assert panel.figure_height_mm == pytest.approx(figure)
        assert panel.overflow is None


def test_a_panel_that_overflows_says_by_how_much() -> None:
    """A misfit is a value: verdict, reason, figures, and a finding that leads with remedies."""
    panel, findings = report(
        said(LINES[2], LINES[2], LINES[1], speaker="WENNA"),
        Rect(0, 0, 46, 36),
        live=Rect(0, 0, 152, 228),
    )
    assert panel.verdict == "impossible"
    assert panel.reason
    assert panel.overflow is not None
    assert panel.overflow.area_mm2 > 0
    assert panel.overflow.height_mm is not None
    assert panel.coverage > 0.8
    assert (panel.figure_height_mm, panel.reading_certain) == (0, False)
    assert all(balloon.x_mm is None and balloon.fitted.fits for balloon in panel.balloons)
    first = findings[0]
    assert (first.code, first.severity, first.where, first.line) == (
        "panel-overflow",
        "error",
        "1.1",
        10,
    )
    assert f"{panel.overflow.height_mm:g} mm high" in first.advice


def test_limits_are_warned_of_at_their_own_numbers() -> None:
    """Each limit is crossed by one, and each warning says the figure and the limit."""
    limits = Limits(words_per_balloon=9, words_per_panel=11, coverage=0.05, lines_per_balloon=2)
    setting = replace(SETTING, limits=limits)
    _, findings = report(said(LINES[1], LINES[0]), Rect(0, 0, 75, 60), setting=setting)
    assert {(f.code, f.where, f.line) for f in findings} >= {
        ("coverage", "1.1", 10),
        ("panel-words", "1.1", 10),
    }
    assert all(f.severity != "error" for f in findings)
    loose = replace(setting, limits=replace(limits, words_per_panel=12, coverage=0.9))
    _, fewer = report(said(LINES[1], LINES[0]), Rect(0, 0, 75, 60), setting=loose)
    assert not {"coverage", "panel-words"} & {f.code for f in fewer}
    _, long = report(said(f"{LINES[1]} Now."), Rect(0, 0, 75, 60), setting=setting)
    assert "balloon-words" in {f.code for f in long}


def test_an_element_without_words_is_noted_and_nothing_breaks() -> None:
    """A balloon of spaces has no outline; the others keep their numbers."""
    panel, findings = report(said("  ", "Heave!"), Rect(0, 0, 60, 50))
    assert [balloon.id for balloon in panel.balloons] == ["1.1.2"]
    assert [(f.code, f.where, f.line) for f in findings] == [("no-words", "1.1.1", 11)]


def test_missing_glyphs_pass_through_from_the_measure() -> None:
    """What the lettering stage found of a text stands in the panel's findings, with its balloon."""
    _, findings = report(said("Heave \U000f0000!"), Rect(0, 0, 60, 50))
    assert [(f.where, f.line) for f in findings if "glyph" in f.code] == [("1.1.1", 11)]
    _, of_effects = report(said("KRR\U000f0000K", kind="sfx"), Rect(0, 0, 60, 50))
    assert [(f.where, f.line) for f in of_effects if "glyph" in f.code] == [("1.1.e1", 11)]


def test_a_panel_without_room_for_a_whole_figure_is_noted() -> None:
    """With the limit just over the figure's share the view comes closer; just under it does not."""
    panel, _ = report(said("ABCD EFGH", kind="caption"), Rect(0, 0, 14, 30))
    for whole, codes in ((0.67, ["close-view"]), (0.65, [])):
        limits = Limits(whole_figure=whole, coverage=0.9)
        setting = replace(SETTING, limits=limits)
        _, findings = report(said("ABCD EFGH", kind="caption"), Rect(0, 0, 14, 30), setting=setting)
        assert panel.figure_share == pytest.approx(0.66, abs=0.001)
        assert [f.code for f in findings] == codes


def test_a_figure_that_no_layout_lets_stand_taller_is_told() -> None:
    """Only where the proof says that a whole figure stands clear in no layout."""
    rect = Rect(0, 0, 14, 30)
    for whole, told in ((0.82, True), (0.79, False)):
        setting = replace(SETTING, limits=Limits(whole_figure=whole, coverage=0.9))
        panel, (close,) = report(said("ABCD EFGH", kind="caption"), rect, setting=setting)
        assert panel.figure_height_mm <= panel.figure_bound_mm
        assert panel.bound_share == pytest.approx(0.80, abs=0.005)
        assert close.message.endswith("; at most 24.0 mm in any layout.") is told
    free, _ = report(said("ABCD EFGH", kind="caption"), Rect(0, 0, 80, 30))
    assert free.figure_bound_mm == pytest.approx(30)


def test_an_impossible_panel_carries_its_proof() -> None:
    """The proof names the balloon that enters nowhere; a placed panel has none."""
    panel, _ = report(said(LINES[2]), Rect(0, 0, 20, 12))
    assert panel.verdict == "impossible"
    assert panel.proof is not None
    assert (panel.proof.name, panel.proof.balloons) == ("shape", (0,))
    assert panel.proof.needs > panel.proof.holds
    assert panel.figure_bound_mm == 0
    placed, _ = report(said(LINES[0]), Rect(0, 0, 80, 60))
    assert (placed.proof, placed.verdict) == (None, "placed")


def test_captions_and_whispers_are_set_half_a_point_smaller() -> None:
    """Common practice, no source; never under the least legible size."""
    setting = replace(SETTING, aside_pt=0.5)
    elements = (
        Dialogue(kind="caption", text="Lock Nine.", line=11),
        Dialogue(kind="dialogue", text="Hold.", line=12, modifiers=("WHISPER",)),
        Dialogue(kind="dialogue", text="Shut.", line=13),
    )
    for size, expected in ((10, [9.5, 9.5, 10]), (6.2, [6, 6, 6.2]), (5, [5, 5, 5])):
        sized = replace(setting, lettering=Lettering(typeface=BOX, size_pt=size))
        whole, _ = report(
            ScriptPanel(number=1, line=1, elements=elements), Rect(0, 0, 80, 80), setting=sized
        )
        assert [b.fitted.size_pt for b in whole.balloons] == pytest.approx(expected)


def test_lettering_stays_in_the_live_area_of_a_panel_that_bleeds() -> None:
    """The panel runs past the trim; its balloons keep to the page's live area."""
    live = Rect(10, 10, 80, 100)
    panel, _ = report(said(*LINES[:2]), Rect(-3, -3, 106, 60), live=live)
    assert panel.verdict == "placed"
    for balloon in panel.balloons:
        assert balloon.x_mm is not None
        assert balloon.y_mm is not None
        a, b = balloon.fitted.outline.half_width, balloon.fitted.outline.half_height
        box = Rect(balloon.x_mm - a, balloon.y_mm - b, 2 * a, 2 * b)
        assert live.holds(box, tolerance=1e-6)
    with pytest.raises(PageError, match="live area"):
        report(said(), Rect(200, 200, 10, 10), live=live)


@settings(max_examples=12)
@given(
    texts=st.lists(st.sampled_from(LINES), min_size=1, max_size=3),
    width=st.integers(35, 90),
    height=st.integers(35, 80),
    reading=st.sampled_from(["ltr", "rtl"]),
)
def test_what_holds_of_every_panel(
    texts: list[str], width: int, height: int, reading: Reading
) -> None:
    """Words are counted once, the independent checker agrees, figures are in their range."""
    setting = replace(SETTING, reading=reading)
    rect = Rect(7, 9, width, height)
    panel, findings = report(said(*texts), rect, setting=setting)
    assert panel.words == sum(len(text.split()) for text in texts)
    assert all(f.code in CODES or f.where for f in findings)
    assert (panel.overflow is None) == (panel.verdict == "placed")
    assert 0 <= panel.figure_height_mm <= min(height, 3 * width) + 1e-9
    if panel.verdict != "placed":
        return
    assert panel.reading_certain
    area = math.fsum(b.fitted.area_mm2 for b in panel.balloons)
    assert panel.coverage == pytest.approx(area / rect.area_mm2)
    placed = tuple(
        PlacedOutline(
            index=n, choice=0, outline=b.fitted.outline, x_mm=b.x_mm or 0, y_mm=b.y_mm or 0
        )
        for n, b in enumerate(panel.balloons)
    )
    layout = PanelLayout(
        verdict="placed",
        placed=placed,
        coverage=panel.coverage,
        figure_height_mm=panel.figure_height_mm,
    )
    assert check_layout(rect, layout, reading=setting.reading) == ()


def test_a_checked_panel_has_nothing_held_against_it() -> None:
    """The independent checker goes over real layouts when it is asked to, and finds no fault."""
    setting = replace(SETTING, check=True)
    done, findings = report(said(*LINES[:3]), Rect(0, 0, 90, 70), setting=setting)
    assert done.verdict == "placed"
    assert [finding for finding in findings if finding.severity == "error"] == []


def test_a_layout_that_breaks_a_rule_is_an_error_when_checked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A planted fault: a balloon moved onto the border is told with its panel and line."""

    def shifted(cases: Sequence[Case]) -> tuple[Placing, ...]:
        (placing,) = place_cases(cases)
        ((task, layout),) = placing.tried
        (spot,) = layout.placed
        layout = replace(layout, placed=(replace(spot, x_mm=0.0),))
        return (Placing(layout=layout, tried=((task, layout),)),)

    monkeypatch.setattr(panel_module, "place_cases", shifted)
    setting = replace(SETTING, check=True)
    _, findings = report(said(LINES[0]), Rect(0, 0, 60, 50), setting=setting)
    _, unchecked = report(said(LINES[0]), Rect(0, 0, 60, 50))
    errors = [finding for finding in findings if finding.severity == "error"]
    assert errors
    assert {(finding.where, finding.line) for finding in errors} == {("1.1", 10)}
    assert [finding for finding in unchecked if finding.severity == "error"] == []
