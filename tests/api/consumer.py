"""A small program of somebody else's: what a type checker knows of the installed package.

`.ci/run` copies it beside nothing else, checks it with mypy --strict against the wheel and runs it.
Every `type: ignore` is a fault put there on purpose: should the types not reach the user, mypy says
that it is not needed.
"""

from typing import Literal, assert_type

import letterfit as lf


def widest(report: lf.ScriptReport) -> lf.BalloonReport | None:
    """The widest balloon of a report."""
    panels = [panel for page in report.pages for panel in page.panels]
    balloons = [balloon for panel in panels for balloon in panel.balloons]
    return max(balloons, key=lambda each: each.fitted.outline.half_width, default=None)


def first_glyph(line: lf.Line) -> lf.Glyph:
    """The glyph that a line begins with."""
    return line.glyphs[0]


script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: The gate is shut.\n")
lettering = lf.Lettering(size_pt=7.5, habits=lf.Habits(quotes="curly"))
report = lf.preflight(script, lettering=lettering, paper=lf.Paper.named("a5"), reading="ltr")
balloon = widest(report)
layout = lf.place_outlines(lf.Rect(0, 0, 60, 40), [[lf.Ellipse(half_width=14, half_height=8)]])

assert_type(script, lf.Script)
assert_type(report.reading, Literal["ltr", "rtl"])
assert_type(report.pages[0].panels[0].figure_height_mm, float)
assert_type(layout.verdict, Literal["placed", "impossible", "not found"])
assert_type(layout.placed[0].tail, lf.Tail | None)
assert_type(lf.fit_balloon("Shut.").overflow, lf.Overflow | None)
assert_type(lf.to_pdf(report) if not report.fits else b"", bytes)
assert_type(lf.to_json(report), str)


def slips() -> None:
    """What a checker must object to; nobody calls it."""
    lf.fit_balloon(5)  # type: ignore[arg-type]
    lf.Lettering(case="lower")  # type: ignore[arg-type]
    lf.Point(1, 2).x = 3  # type: ignore[misc]
    lf.fit_into("Shut.")  # type: ignore[call-arg]
    lf.to_text(report.pages)  # type: ignore[arg-type]
    lf.preflight(script, reading="up")  # type: ignore[arg-type]


if balloon is None or first_glyph(balloon.fitted.lines[0]).em_mm <= 0:
    raise SystemExit("the report has no lettering")
