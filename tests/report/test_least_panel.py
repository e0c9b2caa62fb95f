"""The least number of words of a panel: against every subset, and never contradicted."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import letterfit as lf
from letterfit.cuts.mend import mended
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import Token, joined, tokens_of, word_count
from letterfit.geometry import Rect
from letterfit.report import least_panel
from letterfit.report.menus import menus_of
from letterfit.report.panel import PanelJob
from letterfit.report.panel_bound import PanelBound
from letterfit.report.placing import place_cases
from letterfit.report.setting import Setting
from letterfit.report.shortened import Shortened
from letterfit.script.model import Dialogue, ScriptPanel
from tests.box_font import box_font
from tests.plays import speeches

BOX = lf.Lettering(typeface=lf.open_typeface(box_font()), size_pt=7.5)
TABLE = cut_table("en")
LINES = [s.text for s in speeches("hamlet", max_words=6) if 2 <= len(s.text.split()) <= 3][:120]
LONGER = [s.text for s in speeches("macbeth") if 8 <= len(s.text.split()) <= 20][:80]


def panel(texts: Sequence[str], names: Sequence[str] = ()) -> ScriptPanel:
    """A panel in which two speakers take turns."""
    names = names or ("WENNA", "PILOT")
    elements = tuple(
        Dialogue(kind="dialogue", text=text, line=k + 1, speaker=names[k % len(names)])
        for k, text in enumerate(texts)
    )
    return ScriptPanel(number=1, line=1, elements=elements)


def is_right(
    many: Sequence[Sequence[str]],
    rect: Rect,
    limits: lf.Limits,
    *,
    joined_too: bool = False,
    check: bool = False,
) -> list[bool]:
    """Whether each panel is placed under its limits; and whether the checker says so too."""
    setting = Setting(
        lettering=BOX,
        effects=BOX,
        limits=limits,
        same_speaker="joined" if joined_too else "linked",
    )
    names = ("WENNA",) if joined_too else ()
    jobs = [PanelJob(panel=panel(texts, names), rect=rect, id="1") for texts in many]
    cases = [job.case(menus_of(job.spots(), setting), setting) for job in jobs]
    # Separate balloons cover no less than their smallest shapes: those need not be placed.
    may = [
        k
        for k, case in enumerate(cases)
        if joined_too
        or sum(menu.smallest.area_mm2 for menu in case.menus) <= limits.coverage * rect.area_mm2
    ]
    placed = dict(zip(may, place_cases([cases[k] for k in may]) if may else (), strict=True))
    return [
        k in placed
        and placed[k].layout.verdict == "placed"
        and placed[k].layout.coverage <= limits.coverage
        and sum(map(word_count, texts)) <= limits.words_per_panel
        and not (check and placed[k].faults())
        for k, texts in enumerate(many)
    ]


def every_removal(texts: Sequence[str]) -> Iterator[tuple[int, list[list[str]]]]:
    """All removals that leave every balloon a word: words gone, and what is left, both ways."""
    tokens = [tokens_of(text) for text in texts]
    ways = [
        [gone for size in range(len(own)) for gone in combinations(range(len(own)), size)]
        for own in tokens
    ]
    for chosen in product(*ways):
        words = sum(own[k].words for own, gone in zip(tokens, chosen, strict=True) for k in gone)
        pairs = list(zip(tokens, chosen, strict=True))
        yield words, [[_left(*pair) for pair in pairs], [_mended(*pair) for pair in pairs]]


def _left(tokens: Sequence[Token], gone: Sequence[int]) -> str:
    return joined(token for k, token in enumerate(tokens) if k not in gone)


def _mended(tokens: Sequence[Token], gone: Sequence[int]) -> str:
    return mended(tokens, set(gone), table=TABLE)


def made(texts: Sequence[str], least: lf.LeastWords) -> list[str]:
    """The texts with the cuts made."""
    cut = {one.where: one.text for one in least.cuts}
    return [cut.get(f"1.{k}", text) for k, text in enumerate(texts, start=1)]


@settings(max_examples=8, deadline=None)
@given(
    texts=st.lists(st.sampled_from(LINES), min_size=1, max_size=2),
    width=st.integers(18, 40),
    height=st.integers(14, 26),
    share=st.sampled_from((0.25, 1 / 3, 0.5)),
    most=st.sampled_from((3, 5, 35)),
)
def test_every_subset_agrees(
    *, texts: list[str], width: int, height: int, share: float, most: int
) -> None:
    """No removal there is does with fewer words than proved; what was found really does."""
    agrees(texts, Rect(0, 0, width, height), lf.Limits(coverage=share, words_per_panel=most))


@pytest.mark.parametrize("share", [0.3, 0.45])
def test_every_subset_agrees_where_balloons_are_joined(share: float) -> None:
    """The same of one speaker's balloons, which overlap: what they share is taken off."""
    texts = ["Ahoy, the lock!", "Open up."]
    agrees(texts, Rect(0, 0, 36, 26), lf.Limits(coverage=share), joined_too=True)


def agrees(texts: list[str], rect: Rect, limits: lf.Limits, *, joined_too: bool = False) -> None:
    """Hold the least number of words against every removal."""
    least = lf.least_panel_cut(
        panel(texts, ("WENNA",) if joined_too else ()),
        rect,
        lettering=BOX,
        limits=limits,
        same_speaker="joined" if joined_too else "linked",
    )
    end = least.at_most if least.at_most is not None else 99
    fewer = [(words, way) for words, both in every_removal(texts) for way in both if words < end]
    answers = is_right([way for _, way in fewer], rect, limits, joined_too=joined_too)
    does = [words for (words, _), answer in zip(fewer, answers, strict=True) if answer]
    assert least.at_least <= min(does, default=99)
    assert not (does and (least.proved or least.at_most is None))
    if least.at_most is not None:
        asked = [made(texts, least)]
        assert is_right(asked, rect, limits, joined_too=joined_too, check=True) == [True]
        assert sum(cut.words for cut in least.cuts) == least.at_most


@settings(max_examples=8, deadline=None)
@given(
    texts=st.lists(st.sampled_from(LONGER), min_size=1, max_size=3),
    width=st.integers(40, 80),
    height=st.integers(30, 60),
    data=st.data(),
)
def test_no_cut_found_another_way_contradicts_it(
    *, texts: list[str], width: int, height: int, data: st.DataObject
) -> None:
    """Words taken anywhere, so many that the panel is right, are never fewer than `at_least`."""
    rect, limits = Rect(0, 0, width, height), lf.Limits()
    least = lf.least_panel_cut(panel(texts), rect, lettering=BOX, limits=limits)
    assert least.at_most is None or least.at_least <= least.at_most
    words = sum(map(word_count, texts))
    for _ in range(4):
        left = []
        for text in texts:
            tokens = tokens_of(text)
            count = data.draw(st.integers(1, len(tokens)))
            # the shortest words stay: a hard rival
            kept = sorted(range(len(tokens)), key=lambda k, t=tokens: (len(t[k].text), k))[:count]  # type: ignore[misc]
            left.append(joined(tokens[k] for k in sorted(kept)))
        if is_right([left], rect, limits) == [True]:
            assert words - sum(map(word_count, left)) >= least.at_least


@pytest.mark.parametrize("family", ["ellipse", "superellipse", "rounded", "caption"])
def test_a_crowded_panel_is_nearly_proved(family: str) -> None:
    """Crowded for its area: the bound is from areas, and a cut of a few words more is found.

    Between them lie the tails, and that balloons are not all placed in their smallest shapes.
    """
    texts = [
        "Well, I really think that we ought to wait here a little longer, old thing.",
        "Ahoy, the lock! Are you asleep in there? Open up, Wenna, or we lose the tide.",
    ]
    rect = Rect(0, 0, 48, 34)
    least = lf.least_panel_cut(panel(texts), rect, outline=family)
    assert least.at_most is not None
    assert 4 <= least.at_least <= least.at_most <= least.at_least + 5


def test_no_word_but_those_said_is_lost() -> None:
    """What is left and what was taken out are the words as typed, in every cut."""
    texts = [LONGER[0], LONGER[1]]
    least = lf.least_panel_cut(panel(texts), Rect(0, 0, 52, 36))
    assert least.cuts
    for cut in least.cuts:
        before = [token.bare for token in tokens_of(texts[int(cut.where[-1]) - 1])]
        gone = [token.bare for text in cut.removed for token in tokens_of(text)]
        after = [token.bare for token in tokens_of(cut.text)]
        assert sorted(before) == sorted(gone + after)


def test_what_a_balloon_gives_alone_is_true() -> None:
    """So many words of it alone are placed; shares add up; who gives most comes first."""
    texts = ["Hold the gate, Wenna, the tide has turned and the barge is late.", "Ahoy there!"]
    rect = Rect(0, 0, 40, 28)
    least = lf.least_panel_cut(panel(texts), rect)
    first, second = least.gives
    assert (first.where, first.words) == ("1.1", 13)
    assert first.alone is not None
    assert second.alone is None
    assert first.alone >= least.at_least
    assert sum(one.share for one in least.gives) == pytest.approx(1)
    setting = Setting(lettering=lf.Lettering(), effects=lf.Lettering())
    job = PanelJob(panel=panel(texts), rect=rect, id="1")
    area = menus_of(job.spots(), setting)[0].smallest.area_mm2
    assert 0.1 * area < first.area_per_word_mm2 * first.alone < 0.5 * area  # 3 of its 13 words


def test_of_those_that_do_not_do_alone_who_gives_most_area_is_first() -> None:
    """Two long texts, of which both must give: the order is that of the area a word gives."""
    texts = [
        "I do so. It is a tide that we all go by, as you do, and so is he, or so I say to you.",
        "Notwithstanding everything Pilot promised, nobody remembered Wenna's thunderstruck barge.",
    ]
    for order in (texts, texts[::-1]):
        gives = lf.least_panel_cut(panel(order), Rect(0, 0, 36, 28), lettering=BOX).gives
        assert [one.alone for one in gives] == [None, None]
        assert gives[0].area_per_word_mm2 > gives[1].area_per_word_mm2


def test_what_does_is_found_though_layouts_run_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a layout to spare for the least number, and none known, a removal is found."""
    monkeypatch.setattr(least_panel, "MOST_ASKED", 0)
    texts = ["Hold the gate, Wenna, the tide has turned and the barge is late.", "Ahoy there!"]
    rect, setting = Rect(0, 0, 40, 28), Setting(lettering=BOX, effects=BOX)
    job = PanelJob(panel=panel(texts), rect=rect, id="1")
    short = Shortened(job.case(menus_of(job.spots(), setting), setting), rect.area_mm2)
    tokens = [tokens_of(text) for text in texts]
    bound = PanelBound.of(short, tokens)
    found = least_panel.least_words(short, tokens, bound, known=None)
    assert found.removal is not None
    assert found.at_most == sum(
        tokens[k][at].words for k, own in found.removal[0].items() for at in own
    )
    assert short.is_right(found.removal[1])


def test_a_panel_that_is_right_asks_for_nothing() -> None:
    """As does one without words."""
    rect = Rect(0, 0, 80, 60)
    for texts in (["Shut it."], []):
        least = lf.least_panel_cut(panel(texts), rect)
        assert (least.at_least, least.at_most, least.cuts) == (0, 0, ())


def test_a_panel_that_no_cut_mends_is_proved_to_be_one() -> None:
    """Two balloons of one word each do not go into a stamp."""
    least = lf.least_panel_cut(panel(["Notwithstanding.", "Ahoy, the lock!"]), Rect(0, 0, 14, 9))
    assert least.at_most is None
    assert least.at_least == 3


def test_too_many_balloons_are_one_clear_line() -> None:
    """More than remedies are tried for."""
    with pytest.raises(lf.OutlineError, match="17 balloons"):
        lf.least_panel_cut(panel(["Go."] * 17), Rect(0, 0, 80, 60))


def test_the_same_panel_gives_the_same_answer() -> None:
    """To the last figure."""
    texts, rect = [LONGER[2], LONGER[3]], Rect(0, 0, 50, 40)
    first, again = (lf.least_panel_cut(panel(texts), rect) for _ in range(2))
    assert [(c.text, c.words) for c in first.cuts] == [(c.text, c.words) for c in again.cuts]
    assert replace(first, cuts=()) == replace(again, cuts=())
