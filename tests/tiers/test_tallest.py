"""Where a figure cannot be had: the tallest that can, run again."""

import letterfit as lf
from tests.tiers.test_advise import page


def test_the_tallest_figure_can_be_had_and_one_more_millimetre_cannot() -> None:
    """What is told is advised or stands as it is; a millimetre taller nothing is found."""
    before = page("2 / 2", "LC--")
    little = {"tier_change": 0.08, "panel_change": 0.05}
    asked = lf.tier_advice(before, limits=lf.TierLimits(figure_mm=100, **little))
    assert asked.outcome == "not found"
    assert asked.tallest_mm is not None
    tallest = asked.tallest_mm
    had = lf.tier_advice(before, limits=lf.TierLimits(figure_mm=tallest, **little))
    assert had.outcome in ("kept", "advised")
    assert min(panel.figure_height_mm for panel in had.after.panels) >= tallest - 1e-6
    more = lf.tier_advice(before, limits=lf.TierLimits(figure_mm=tallest + 1, **little))
    assert (more.outcome, more.tallest_mm) == ("not found", tallest)


def test_where_words_do_not_go_in_there_is_none() -> None:
    """A panel that does not take its balloons has no figure of any height."""
    before = page("4 / 4", "LLLLLLLL")
    nothing = lf.TierLimits(tier_change=0, panel_change=0)
    asked = lf.tier_advice(before, limits=nothing)
    assert (asked.outcome, asked.tallest_mm) == ("not found", None)
