"""Pace: a page worked out by hand, sums that agree, and play texts counted without the report."""

import math
import re
from collections import Counter
from dataclasses import replace
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

import letterfit as lf
from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse
from letterfit.paper.model import PagePlan, Tier
from letterfit.report.model import EffectReport, PageReport, PanelReport, ScriptReport
from letterfit.report.pace import SilentRun, TierPace, Typical, longest_silence, pace_of
from tests.output import reports
from tests.plays import play_names, play_pages, play_script

WIDE = Ellipse(half_width=10, half_height=5)
"""50 pi mm2: the area of an ellipse is pi times its half-axes."""

SMALL = Ellipse(half_width=5, half_height=4)
"""20 pi mm2."""

BOX = CaptionBox(half_width=18, half_height=4)
"""36 x 8 = 288 mm2."""


def by_hand() -> ScriptReport:
    """Two pages: four panels in two tiers, then one silent panel.

    tier 1   1.1  60 x 40, 20 % covered   WENNA, 6 words, WIDE; PILOT (OFF), 3 words, SMALL
             1.2  20 x 40, nothing        a sound effect only
    tier 2   1.3  40 x 60, nothing        silent
             1.4  40 x 60, 50 % covered   caption, 2 words, BOX; WENNA, 1 word, SMALL;
                                          a thought without a name, 2 words, SMALL
    tier 1   2.1  80 x 100, nothing       silent
    """
    first, second = Rect(10, 10, 60, 40), Rect(73, 10, 20, 40)
    third, fourth = Rect(10, 53, 40, 60), Rect(53, 53, 40, 60)
    ahoy = reports.balloon(
        "1.1.2", "AHOY, THE LOCK!", speaker="PILOT", modifiers=("OFF",), outline=SMALL
    )
    creak = EffectReport(
        id="1.2.e1", line=9, kind="sfx", text="CREAK", size_pt=14, width_mm=15, height_mm=4
    )
    panels = (
        reports.panel(
            "1.1",
            first,
            reports.balloon("1.1.1", "THE TIDE TURNED AN HOUR AGO.", outline=WIDE),
            ahoy,
            coverage=0.2,
        ),
        replace(reports.panel("1.2", second, coverage=0.0), effects=(creak,)),
        reports.panel("1.3", third, coverage=0.0),
        reports.panel(
            "1.4",
            fourth,
            reports.balloon("1.4.1", "LOCK NINE.", kind="caption", outline=BOX),
            reports.balloon("1.4.2", "HOLD.", outline=SMALL),
            reports.balloon("1.4.3", "NOT NOW.", kind="thought", speaker=None, outline=SMALL),
            coverage=0.5,
        ),
    )
    plan = PagePlan(paper=reports.PAPER, tiers=(Tier((first, second)), Tier((third, fourth))))
    page = PageReport(label="1", numbers=(1,), line=3, plan=plan, panels=panels)
    last = reports.page(2, reports.panel("2.1", Rect(10, 10, 80, 100), coverage=0.0))
    return reports.report(page, last)


PACE = pace_of(by_hand())


def test_a_page_worked_out_by_hand() -> None:
    """Every figure of the first page, each worked out beside it."""
    page = PACE.pages[0]
    # Words by panel: 6 + 3 = 9, 0, 0, 2 + 1 + 2 = 5. Balloons by panel: 2, 0, 0, 3.
    assert (page.label, page.sheets, page.panels, page.words, page.balloons) == ("1", 1, 4, 14, 5)
    assert page.silent_panels == 2  # 1.2 has a sound effect, which is no balloon, and 1.3 nothing
    # Under lettering: 0.2 x 2400 + 0.5 x 2400 = 1680 of 2400 + 800 + 2400 + 2400 = 8000 mm2.
    assert page.mean_coverage == pytest.approx(0.21, abs=1e-12)  # rounding of floats
    # Words of the balloons in order: 1, 2, 2, 3, 6. Of the panels: 0, 0, 5, 9: (0 + 5) / 2.
    assert page.words_per_balloon == Typical(median=2, most=6)
    assert page.words_per_panel == Typical(median=2.5, most=9)
    # Tiers: 9 + 0 and 0 + 5 words: (5 + 9) / 2 = 7. Balloons of the panels: 0, 0, 2, 3.
    assert page.words_per_tier == Typical(median=7, most=9)
    assert page.balloons_per_panel == Typical(median=1, most=3)
    assert page.panels_per_tier == Typical(median=2, most=2)
    assert page.tiers == (
        TierPace(panels=2, words=9, balloons=2, silent_panels=1),
        TierPace(panels=2, words=5, balloons=3, silent_panels=1),
    )


def test_a_script_worked_out_by_hand() -> None:
    """The same page, and a silent one after it."""
    assert (PACE.panels, PACE.words, PACE.balloons, PACE.silent_panels) == (5, 14, 5, 3)
    # Silent are 1.2 and 1.3 together, and 2.1 alone: 1.4 speaks in between.
    assert PACE.longest_silence == SilentRun(first="1.2", last="1.3", panels=2)
    # Panels: 0, 0, 0, 5, 9 words; 0, 0, 0, 2, 3 balloons. Tiers: 0, 5, 9 words; 1, 2, 2 panels.
    assert PACE.words_per_panel == Typical(median=0, most=9)
    assert PACE.balloons_per_panel == Typical(median=0, most=3)
    assert PACE.words_per_tier == Typical(median=5, most=9)
    assert PACE.panels_per_tier == Typical(median=2, most=2)
    assert PACE.words_per_page == Typical(median=7, most=14)  # pages of 0 and 14 words


def test_voices_worked_out_by_hand() -> None:
    """Wenna, the pilot though off the panel, all captions together, and who has no name."""
    whole = 50 * math.pi + 3 * 20 * math.pi + 288
    told = [
        (share.speaker or share.voice, share.balloons, share.off_panel, share.words)
        for share in PACE.voices
    ]
    # Wenna 6 + 1; the pilot 3; then 2 words each, the caption first since it comes first.
    assert told == [
        ("WENNA", 2, 0, 7),
        ("PILOT", 1, 1, 3),
        ("captions", 1, 0, 2),
        ("unnamed", 1, 0, 2),
    ]
    assert [share.words_share for share in PACE.voices] == [7 / 14, 3 / 14, 2 / 14, 2 / 14]
    areas = [70 * math.pi, 20 * math.pi, 288, 20 * math.pi]
    assert [share.area_mm2 for share in PACE.voices] == pytest.approx(areas)
    assert [share.area_share for share in PACE.voices] == pytest.approx(
        [area / whole for area in areas]
    )


def test_a_caption_of_a_named_voice_is_no_speech_of_that_speaker() -> None:
    """What Wenna narrates stands with the captions, what she says with her."""
    told = reports.balloon("1.1.1", "LOCK NINE.", kind="caption", speaker="WENNA", outline=BOX)
    said = reports.balloon("1.1.2", "HOLD.")
    panel = reports.panel("1.1", reports.PAPER.live, told, said)
    voices = pace_of(reports.report(reports.page(1, panel))).voices
    assert [(v.voice, v.speaker, v.words) for v in voices] == [
        ("captions", None, 2),
        ("speaker", "WENNA", 1),
    ]


def test_a_spread_counts_as_two_pages() -> None:
    """A spread of 120 words and a page of 106: pages of 60, 60 and 10 words."""
    pace = pace_of(reports.nasty())
    spread, single = pace.pages
    assert (spread.sheets, single.sheets) == (2, 1)
    halves = [spread.words / 2, spread.words / 2, single.words]
    assert pace.words_per_page == Typical(median=median(halves), most=max(halves))


def test_nothing_is_counted_of_nothing() -> None:
    """A script without pages, a page without panels and one without words have no median."""
    empty = pace_of(reports.report())
    assert (empty.pages, empty.words_per_page, empty.longest_silence, empty.voices) == (
        (),
        None,
        None,
        (),
    )
    bare = pace_of(reports.report(reports.page(1)))
    assert (bare.pages[0].words_per_panel, bare.pages[0].mean_coverage) == (None, 0.0)
    silent = pace_of(reports.report(reports.page(1, reports.panel("1.1", reports.PAPER.live))))
    assert (silent.words_per_balloon, silent.words_per_panel) == (None, Typical(median=0, most=0))


BOOKS = st.lists(
    st.lists(st.lists(st.lists(st.integers(1, 9), max_size=3), min_size=1, max_size=3), max_size=3),
    max_size=4,
)
"""Pages of tiers of panels of balloons, each by its number of words."""


def _panel(name: str, words: list[int], rect: Rect) -> PanelReport:
    names = ("WENNA", "PILOT", None)
    said = [
        reports.balloon(f"{name}.{n}", " ".join(["TIDE"] * count), speaker=names[count % 3])
        for n, count in enumerate(words, start=1)
    ]
    return reports.panel(name, rect, *said, coverage=0.05 * len(said))


def _book(pages: list[list[list[list[int]]]]) -> ScriptReport:
    done = []
    for number, tiers in enumerate(pages, start=1):
        rows = [
            Tier(tuple(Rect(10 + 30 * x, 10 + 40 * y, 25, 35) for x in range(len(row))))
            for y, row in enumerate(tiers)
        ]
        rects = [rect for row in rows for rect in row.panels]
        own = [words for row in tiers for words in row]
        panels = tuple(
            _panel(f"{number}.{n}", words, rect)
            for n, (words, rect) in enumerate(zip(own, rects, strict=True), start=1)
        )
        plan = PagePlan(paper=reports.PAPER, tiers=tuple(rows))
        done.append(
            PageReport(label=str(number), numbers=(number,), line=1, plan=plan, panels=panels)
        )
    return reports.report(*done)


def _typical(values: list[int]) -> tuple[float, float] | None:
    return (median(values), max(values)) if values else None


def _pair(typical: Typical | None) -> tuple[float, float] | None:
    return None if typical is None else (typical.median, typical.most)


@given(BOOKS)
def test_all_figures_follow_from_the_lists_of_words(pages: list[list[list[list[int]]]]) -> None:
    """Sums and medians are those of the plain lists (medians by Python's statistics module)."""
    pace = pace_of(_book(pages))
    tiers = [row for page in pages for row in page]
    panels = [panel for row in tiers for panel in row]
    balloons = [words for panel in panels for words in panel]
    assert (pace.panels, pace.words, pace.balloons) == (len(panels), sum(balloons), len(balloons))
    assert _pair(pace.words_per_balloon) == _typical(balloons)
    assert _pair(pace.words_per_panel) == _typical([sum(panel) for panel in panels])
    assert _pair(pace.words_per_tier) == _typical([sum(map(sum, row)) for row in tiers])
    assert _pair(pace.words_per_page) == _typical([sum(sum(map(sum, r)) for r in p) for p in pages])
    assert _pair(pace.balloons_per_panel) == _typical([len(panel) for panel in panels])
    assert _pair(pace.panels_per_tier) == _typical([len(row) for row in tiers])
    silences = re.findall("S+", "".join("-" if panel else "S" for panel in panels))
    run = pace.longest_silence
    assert (run.panels if run else 0) == max(map(len, silences), default=0)
    assert pace.silent_panels == sum(map(len, silences))


@given(BOOKS)
def test_pages_tiers_and_voices_add_up(pages: list[list[list[list[int]]]]) -> None:
    """Words, balloons and silent panels add up over pages and tiers, shares of voices to one."""
    pace = pace_of(_book(pages))
    assert sum(page.words for page in pace.pages) == pace.words
    for page in pace.pages:
        for name in ("words", "balloons", "panels", "silent_panels"):
            assert sum(getattr(tier, name) for tier in page.tiers) == getattr(page, name)
    assert sum(share.words for share in pace.voices) == pace.words
    assert sum(share.balloons for share in pace.voices) == pace.balloons
    if pace.voices:
        assert sum(share.words_share for share in pace.voices) == pytest.approx(1)
        assert sum(share.area_share for share in pace.voices) == pytest.approx(1)
    counts = [share.words for share in pace.voices]
    assert counts == sorted(counts, reverse=True)


def test_the_first_of_two_runs_as_long_is_named() -> None:
    """Two silent panels, a word, two silent panels: the first two."""
    book = _book([[[[], []], [[3]]], [[[], []]]])
    panels = [panel for page in book.pages for panel in page.panels]
    assert longest_silence(panels) == SilentRun(first="1.1", last="1.2", panels=2)


def test_a_silence_goes_on_over_the_page() -> None:
    """The last panel of a page and the first of the next are one run."""
    book = _book([[[[2], []]], [[[], [1]]]])
    assert pace_of(book).longest_silence == SilentRun(first="1.2", last="2.1", panels=2)


def _words(text: str) -> int:
    """Words of a play's text: what stands between spaces and dashes and has a letter."""
    return sum(bool(re.search(r"\w", word)) for word in re.split(r"[\s—]+|--", text))


@pytest.mark.parametrize("play", play_names()[:4])
def test_words_by_speaker_are_those_of_the_play(play: str) -> None:
    """Each speaker of a play has the words, and the balloons, counted in the play's own text."""
    script = lf.parse_script(play_script(play, pages=2, panels=(3,)))
    pace = pace_of(lf.preflight(script))
    words: Counter[str] = Counter()
    balloons: Counter[str] = Counter()
    for speech in (s for page in play_pages(play, pages=2, panels=(3,)) for p in page for s in p):
        words[speech.speaker] += _words(speech.text)
        balloons[speech.speaker] += 1
    assert {share.speaker: share.words for share in pace.voices} == words
    assert {share.speaker: share.balloons for share in pace.voices} == balloons
    assert pace.words == words.total()
