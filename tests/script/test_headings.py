"""What makes a line the heading of a page or panel. Words of eight languages, from memory."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.script.headings import page_heading, panel_heading

PAGES = {
    "PAGE 3": (3,),
    "page 3": (3,),
    "PAGE THREE (five panels)": (3,),
    "PAGE FOUR - SPLASH": (4,),
    "PAGE TWENTY-ONE": (21,),
    "Page XII": (12,),
    "PAGES 4-5": (4, 5),
    "PAGES 4–5": (4, 5),
    "PAGES FOUR-FIVE": (4, 5),
    "PAGES FOUR AND FIVE": (4, 5),
    "PAGES 4 & 5": (4, 5),
    "PAGE 4/5": (4, 5),
    "Page 2 - 3 (spread)": (2, 3),
    "PAGE 2 - 5 PANELS": (2,),
    "PAGE 3/24": (3,),
    "Page 3 of 24": (3,),
    "PAGE #7": (7,),
    "Page 12a": (12,),
    "p. 3": (3,),
    "P3": (3,),
    "SPLASH PAGE 4": (4,),
    "DOUBLE-PAGE SPREAD: PAGES 2-3": (2, 3),
    "PLANCHE 1": (1,),
    "Planche vingt et un": (21,),
    "Pages deux et trois": (2, 3),
    "PÁGINA 1": (1,),
    "Página dos": (2,),
    "Páginas 2 y 3": (2, 3),
    "SEITE DREI": (3,),
    "Seiten 4 und 5": (4, 5),
    "Doppelseite 4-5": (4, 5),
    "TAVOLA 2": (2,),
    "Pagina ventuno": (21,),
    "Tavole 2 e 3": (2, 3),
    "PRANCHA UM": (1,),
    "Páginas 6 e 7": (6, 7),
    "BLADZIJDE TWEE": (2,),
    "Pagina's 4 en 5": (4, 5),
    "3ページ": (3,),
    "第３頁": (3,),
    "ページ3": (3,),
    "三ページ": (3,),
    "二十三ページ": (23,),
    "見開き 4-5": (4, 5),
    "２・３ページ": (2, 3),
    "第2-3頁（見開き）": (2, 3),
    "4〜5ページ目": (4, 5),
}  # fmt: skip


@pytest.mark.parametrize("text", PAGES)
def test_page_headings_of_eight_languages(text: str) -> None:
    """Digits, number words, roman numerals and kanji; single pages and spreads."""
    heading = page_heading(text)
    assert heading is not None
    assert heading.numbers == PAGES[text]
    assert heading.spread is (len(PAGES[text]) == 2)
    assert heading.panel is None
    assert heading.rest == ""


@pytest.mark.parametrize(
    "text",
    [
        "Pages: 22",
        "Page 4 should echo this one.",
        "Page one of the ledger lies open.",
        "Page I saw",
        "PAGE",
        "PAGE 0",
        "PAGE 99999",
        "P. I. Lock: detective",
        "Page three! Page three!",
        "Paging 3",
        "The page 3",
        "Seite an Seite",
        "",
    ],
)
def test_prose_about_pages_is_no_heading(text: str) -> None:
    """A keyword in a sentence, without a number or with small words behind it, is prose."""
    assert page_heading(text) is None


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("PAGE ONE (five panels)", 5),
        ("PAGE 2 - 5 PANELS", 5),
        ("PAGE ONE: FIVE PANELS", 5),
        ("PAGE ONE—SIX PANELS", 6),
        ("Page 3 / 6 panels", 6),
        ("PAGE 5 five panels", 5),
        ("PLANCHE 3 (six cases)", 6),
        ("PÁGINA 3 (cinco viñetas)", 5),
        ("SEITE 3 (4 Bilder)", 4),
        ("TAVOLA 1 (quattro vignette)", 4),
        ("PÁGINA 3 (5 quadros)", 5),
        ("PAGINA 3 (vijf kaders)", 5),
        ("3ページ（5コマ）", 5),
        ("3ページ　全5コマ", 5),
    ],
)
def test_a_stated_panel_count_is_read(text: str, count: int) -> None:
    """A number and the word for panels behind the page's number state how many there are."""
    heading = page_heading(text)
    assert heading is not None
    assert heading.panel_count == count
    assert heading.rest == ""


@pytest.mark.parametrize(
    ("text", "panel", "rest"),
    [
        ("Planche 2, Case 1 :", 1, ""),
        ("Page 3 / Panel 2", 2, ""),
        ("PAGE ONE PANEL ONE", 1, ""),
        ("Page 10, Panel 3: She runs.", 3, "She runs."),
        ("P1 Panel 2", 2, ""),
        ("3ページ 2コマ目", 2, ""),
        ("Seite 1, Bild 2: Die Schleuse.", 2, "Die Schleuse."),
    ],
)
def test_page_and_panel_in_one_heading(text: str, panel: int, rest: str) -> None:
    """A panel heading may follow the page's on the same line."""
    heading = page_heading(text)
    assert heading is not None
    assert heading.panel is not None
    assert (heading.panel.number, heading.panel.rest) == (panel, rest)


@pytest.mark.parametrize(
    ("text", "splash", "rest"),
    [
        ("PAGE 2 - SPLASH. The barge fills the page.", True, "The barge fills the page."),
        ("PAGE 3 - THE LOCK AT DAWN", False, "THE LOCK AT DAWN"),
        ("Page 3: Double doors open", False, "Double doors open"),
        ("Page 3. Splash! She falls.", False, "Splash! She falls."),
        ("PAGE 3 – 3 panels – night", False, "night"),
        ("PAGE 4: “Hold on”", False, "“Hold on”"),
    ],
)
def test_what_stands_behind_a_page_heading_is_kept(text: str, *, splash: bool, rest: str) -> None:
    """Remarks are understood only where they end; the rest of the line stays as typed."""
    heading = page_heading(text)
    assert heading is not None
    assert (heading.splash, heading.rest) == (splash, rest)


PANELS = {
    "Vign. 3: Largo": (3, "Largo"),
    "Viñ. 3. Plano": (3, "Plano"),
    "Panel 1. Wide": (1, "Wide"),
    "PANEL ONE: Wide": (1, "Wide"),
    "Panel 3 WIDE": (3, "WIDE"),
    "PANEL 3 wide": (3, "wide"),
    "Panel 2 -- Wide": (2, "Wide"),
    "Panel 1: ...and then": (1, "...and then"),
    "Panel 4.1": ("4.1", ""),
    "PANEL 3A - Wide": ("3A", "Wide"),
    "Panels 2-3: three": ("2-3", "three"),
    "Panel 1/5": (1, ""),
    "PANEL IV": (4, ""),
    "Panel 2 (inset): the lamp": (2, "(inset): the lamp"),
    "PANEL:": (None, ""),
    "PANEL": (None, ""),
    "Frame 2: Wide": (2, "Wide"),
    "CASE 1 : Plan large.": (1, "Plan large."),
    "Case deux": (2, ""),
    "VIÑETA 1: La esclusa.": (1, "La esclusa."),
    "Viñeta 1ª.": (1, ""),
    "Bild 3": (3, ""),
    "2. Bild: Nebel": (2, "Nebel"),
    "Vignetta tre.": (3, ""),
    "Quadro 3 – A eclusa": (3, "A eclusa"),
    "Kader 2": (2, ""),
    "コマ2": (2, ""),
    "コマ二": (2, ""),
    "２コマ目": (2, ""),
    "2コマ：夜": (2, "夜"),
}  # fmt: skip


@pytest.mark.parametrize("text", PANELS)
def test_panel_headings_of_eight_languages(text: str) -> None:
    """The number as typed, and the description behind it."""
    heading = panel_heading(text)
    assert heading is not None
    assert (heading.number, heading.rest) == PANELS[text]


@pytest.mark.parametrize(
    "text",
    [
        "Panel 3 is a mirror of this one.",
        "Panel two! Check panel two!",
        "3 panels",
        "5 panels on this page",
        "Case: closed.",
        "Picture the lock at dawn.",
        "Frame her from below.",
        "Panelled walls.",
        "Panel 1 of 5",
        "Bild: Nebel",
    ],
)
def test_prose_about_panels_is_no_heading(text: str) -> None:
    """Everyday words and sentences about panels stay prose."""
    assert panel_heading(text) is None


@given(st.text(max_size=300))
def test_any_line_is_judged_without_complaint(text: str) -> None:
    """No line makes the grammar raise, and a heading never invents characters of its rest."""
    page, panel = page_heading(text), panel_heading(text)
    for rest in (page.rest if page else "", panel.rest if panel else ""):
        assert rest in text
