"""Reports made by hand: a small one, one with everything nasty in it, and a long one.

Nothing here measures or places: every number is typed, so that what comes out can be checked
without any other stage of letterfit.
"""

from dataclasses import replace

from letterfit.drawn.plain_lines import Whisper
from letterfit.findings import Finding
from letterfit.fit.model import FittedBalloon, Line, Overflow
from letterfit.geometry import Point, Rect
from letterfit.lettering.settings import Lettering
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.paper.model import PagePlan, Tier
from letterfit.paper.sheet import Paper
from letterfit.place.model import Proof, Tail
from letterfit.report.limits import Limits
from letterfit.report.model import (
    BalloonReport,
    EffectReport,
    PageReport,
    PanelOverflow,
    PanelReport,
    ScriptReport,
)
from letterfit.script.model import Kind

PAPER = Paper(name="test comic", trim=(168.275, 260.35), live=Rect(8, 16, 152.275, 228.35))
SPREAD = Paper(name="test spread", trim=(336.55, 260.35), live=Rect(8, 16, 320.55, 228.35), pages=2)
NASTY = "<&>\"' [bold]HOLD[/bold] É水門 \x1b[31m \u202eabc \ud800 ]]> --"
"""Markup of three kinds, an escape sequence, half a surrogate, East Asian width."""

ROUND = Ellipse(half_width=16.00049, half_height=7.5)
"""Its half-width does not end at a micrometre: rounding shows."""


def fitted(
    text: str, outline: Outline = ROUND, *, overflow: Overflow | None = None
) -> FittedBalloon:
    """A text in an outline, two words a line, every letter 1.5 mm wide."""
    words = text.split(" ")
    rows = [" ".join(words[n : n + 2]) for n in range(0, len(words), 2)]
    lines = tuple(
        Line(row, -0.75 * len(row), 2.8 * (n - (len(rows) - 1) / 2) + 0.9, 1.5 * len(row))
        for n, row in enumerate(rows)
    )
    return FittedBalloon(
        text=text,
        lines=lines,
        outline=outline,
        clearance_mm=1.2345678,
        words=len(words),
        size_pt=7.5,
        overflow=overflow,
    )


def balloon(
    name: str,
    text: str,
    *,
    at: Point | None = None,
    outline: Outline = ROUND,
    kind: Kind = "dialogue",
    modifiers: tuple[str, ...] = (),
    speaker: str | None = "WENNA",
    tail: Tail | None = None,
    line: int = 12,
) -> BalloonReport:
    """A balloon at a place, or at none."""
    return BalloonReport(
        id=name,
        line=line,
        kind=kind,
        speaker=speaker,
        modifiers=modifiers,
        fitted=fitted(text, outline),
        x_mm=None if at is None else at.x,
        y_mm=None if at is None else at.y,
        tail=tail,
    )


def tail_down(centre: Point, *, bend: Point | None = None, outline: Outline = ROUND) -> Tail:
    """A tail from the outline's lowest part to a point 14 mm below its centre."""
    depth = outline.half_height * (1 - (1.5 / outline.half_width) ** 2) ** 0.5
    roots = (Point(centre.x - 1.5, centre.y + depth), Point(centre.x + 1.5, centre.y + depth))
    return Tail(root=roots, tip=Point(centre.x + 4, centre.y + 14), bend=bend)


def panel(name: str, rect: Rect, *balloons: BalloonReport, coverage: float = 0.1) -> PanelReport:
    """A panel that is placed."""
    return PanelReport(
        id=name,
        line=10,
        rect=rect,
        words=sum(b.fitted.words for b in balloons),
        verdict="placed",
        reason="",
        coverage=coverage,
        effects_share=0.0,
        figure_height_mm=rect.height * 0.6,
        reading_certain=True,
        balloons=balloons,
        figures=(Rect(rect.x, rect.y + 0.4 * rect.height, 0.2 * rect.height, 0.6 * rect.height),),
    )


def failing(
    name: str, rect: Rect, *balloons: BalloonReport, overflow: PanelOverflow, proved: bool = True
) -> PanelReport:
    """A panel that is not placed."""
    return PanelReport(
        id=name,
        line=20,
        rect=rect,
        words=sum(b.fitted.words for b in balloons),
        verdict="impossible" if proved else "not found",
        reason="area: 412 mm2 over" if proved else "tried 96 states",
        coverage=1.31,
        effects_share=0.0,
        figure_height_mm=0.0,
        reading_certain=False,
        balloons=tuple(replace(b, x_mm=None, y_mm=None, tail=None) for b in balloons),
        overflow=overflow,
    )


def report(*pages: PageReport, findings: tuple[Finding, ...] = ()) -> ScriptReport:
    """A report on the pages."""
    return ScriptReport(
        title="SLACK TIDE",
        source="gate.txt",
        lettering=Lettering(),
        paper=PAPER,
        reading="ltr",
        limits=Limits(),
        pages=pages,
        findings=findings,
    )


def page(number: int, *panels: PanelReport, findings: tuple[Finding, ...] = ()) -> PageReport:
    """A page with each panel in a tier of its own."""
    return PageReport(
        label=str(number),
        numbers=(number,),
        line=3,
        plan=PagePlan(paper=PAPER, tiers=tuple(Tier((one.rect,)) for one in panels)),
        panels=panels,
        findings=findings,
    )


def small() -> ScriptReport:
    """Three panels that fit: a tail, a caption, a silent one."""
    spot = Point(30, 32)
    said = balloon("1.1.1", "THE TIDE TURNED AN HOUR AGO.", at=spot, tail=tail_down(spot))
    box = CaptionBox(half_width=18, half_height=4)
    told = balloon("1.2.1", "LOCK NINE.", at=Point(28, 100), outline=box, kind="caption")
    panels = (
        panel("1.1", Rect(8, 16, 152.275, 70), said),
        panel("1.2", Rect(8, 90, 152.275, 70), told, coverage=0.02),
        panel("1.3", Rect(8, 164, 152.275, 70), coverage=0.0),
    )
    return report(page(1, *panels))


def nasty() -> ScriptReport:
    """Every verdict, every outline, overflow, effects, a spread, 3-digit numbers, hostile text."""
    return report(
        _spread(),
        _tight(),
        findings=(
            Finding(
                code="lost-line", severity="error", message=f"Nobody could place {NASTY}", line=7
            ),
        ),
    )


def _spread() -> PageReport:
    left, right = Rect(8, 16, 150, 100), Rect(170, 16, 158.55, 100)
    spots = (Point(40, 40), Point(60, 80), Point(120, 40))
    soft = Superellipse(half_width=17, half_height=8, exponent=2.5)
    dashed = Whisper(core=soft)
    boxy = RoundedRect(half_width=15, half_height=7, radius=4.2)
    first = (
        balloon("104-105.1.1", NASTY, at=spots[0], outline=dashed, modifiers=("WHISPER",)),
        balloon("104-105.1.2", "A RADIO.", at=spots[1], outline=boxy, modifiers=("RADIO",)),
        balloon(
            "104-105.1.3",
            "SHUT?",
            at=spots[2],
            kind="thought",
            speaker=None,
            tail=tail_down(spots[2], bend=Point(121, 50)),
        ),
    )
    over = PanelOverflow(area_mm2=412.34567, words=9, size_pt=6.75, height_mm=131.0)
    crowd = [balloon(f"104-105.2.{n}", "WAIT FOR THE FLOOD. " * 9 + "NOW.") for n in (1, 2, 3)]
    hit = EffectReport(
        id="104-105.1.e1", line=9, kind="sfx", text=NASTY, size_pt=24, width_mm=31, height_mm=9
    )
    one = panel("104-105.1", left, *first, coverage=0.41)
    area = Proof(name="area", balloons=(0, 1, 2), needs=15412.34567, holds=15000.0)
    panels = (
        replace(one, effects=(hit,), effects_share=0.0186, figure_bound_mm=81.00049),
        replace(failing("104-105.2", right, *crowd, overflow=over), proof=area, figure_bound_mm=0),
    )
    return PageReport(
        label="104-105",
        numbers=(104, 105),
        line=3,
        plan=PagePlan(paper=SPREAD, tiers=(Tier((left, right)),)),
        panels=panels,
        findings=(
            Finding(code="coverage", severity="warning", message="41 %.", where="104-105.1"),
            Finding(code="mixed-dashes", severity="note", message=NASTY, where="104-105.1.1"),
            Finding(code="panel-overflow", severity="error", message="Over.", where="104-105.2"),
        ),
    )


def _tight() -> PageReport:
    """Page 106: one panel never placed though nothing is proved, one balloon in a given outline."""
    top, low = Rect(8, 16, 152.275, 60), Rect(8, 80, 152.275, 60)
    over = Overflow(words=3, size_pt=6.4, outline=Ellipse(half_width=20, half_height=9))
    spot = Point(40, 40)
    given = replace(
        balloon("106.1.1", "HOLD IT NOW.", at=spot), fitted=fitted(NASTY, overflow=over)
    )
    nowhere = PanelOverflow(area_mm2=0.0, words=None, size_pt=None, height_mm=None)
    panels = (
        panel("106.1", top, given),
        failing("106.2", low, balloon("106.2.1", "WAIT."), overflow=nowhere, proved=False),
    )
    return page(106, *panels)


def long(pages: int = 24) -> ScriptReport:
    """Many pages of five panels: every third page is crowded, every fifth does not fit."""
    return report(*(_long_page(number) for number in range(1, pages + 1)))


def _long_page(number: int) -> PageReport:
    panels, findings = [], []
    for row in range(1, 6):
        name, rect = f"{number}.{row}", Rect(8, 16 + 45 * (row - 1), 152.275, 42)
        words = balloon(f"{name}.1", "THE TIDE WILL NOT WAIT.", at=Point(40, rect.y + 10))
        if number % 5 == 0 and row == 3:
            over = PanelOverflow(area_mm2=20.0 * number, words=number, size_pt=6.5, height_mm=50.0)
            panels.append(failing(name, rect, words, overflow=over))
        elif number % 3 == 0 and row == 2:
            panels.append(panel(name, rect, words, coverage=0.39))
            message = "Lettering covers 39 % of the panel."
            findings.append(
                Finding(code="coverage", severity="warning", message=message, where=name, line=5)
            )
        else:
            panels.append(panel(name, rect, words))
    return page(number, *panels, findings=tuple(findings))
