"""Laid pages in the terminal."""

import letterfit as lf


def test_bleeds_and_insets_are_marked() -> None:
    """With ~ and [ ], as the note under the pages says."""
    script = lf.parse_script("PAGE 1\n\nPanel 1.\n\nPanel 2.\n\nPanel 3.\n\nPAGE 2\n")
    plans = lf.Plans(pages=((1, lf.parse_tiers("1~[top-left 0.3x0.3] / 1")),))
    text = lf.page_plans_to_text(lf.plan_script(script, plans=plans))
    first = next(line for line in text.splitlines() if line.startswith("  1 "))
    assert first.split()[3].endswith("~")
    assert first.split()[4].startswith("[")
    assert "no panels" in text
    assert "the printer's own" in " ".join(text.split())


def test_a_plan_for_all_pages_that_does_not_go_is_told() -> None:
    """The page takes the default, and the reader hears of it."""
    script = lf.parse_script("PAGE 1\n\nPanel 1.\n\nPanel 2.\n")
    plans = lf.Plans(every_page=lf.parse_tiers("3"))
    text = lf.page_plans_to_text(lf.plan_script(script, plans=plans))
    assert "! the plan for all pages has 3 panels, page 1 has 2" in " ".join(text.split())


def test_hostile_labels_do_not_reach_the_terminal() -> None:
    """An escape sequence in a name is shown as a mark."""
    script = lf.parse_script("PAGE 1\n\nPanel 1.\n")
    (page,) = lf.plan_script(script)
    evil = lf.LaidPage(label="1\x1b[31m", page=page.page, plan=page.plan)
    assert "\x1b" not in lf.page_plans_to_text([evil])
