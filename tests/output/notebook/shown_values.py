"""One value of every kind that notebooks show, hostile words in most, and what is in its HTML."""

import re
from base64 import b64decode
from collections.abc import Callable
from functools import cache
from xml.etree import ElementTree as ET

import letterfit as lf
from letterfit.shown import Shown
from tests.output import reports
from tests.output.html.made import HOSTILE, lettered
from tests.output.html.parsed import Node, parse

DATA = "data:image/svg+xml;base64,"


SPEECH = f"Well, hold. {HOSTILE}"
SMALL = lf.Ellipse(half_width=12, half_height=5)


def _advice() -> lf.TierAdvice:
    page = lettered().pages[0]
    return lf.TierAdvice(
        outcome="advised", figure_mm=30, change=0.1, plan=page.plan, before=page, after=page
    )


def _beside() -> lf.SideBySide:
    return lf.SideBySide([lf.fit_balloon("Hold."), lf.measure_page(lettered().pages[0])])


def _compared() -> lf.PageComparison:
    measured = lf.measure_page(lettered().pages[0])
    return lf.compare_pages(measured, measured)


def _laid() -> lf.LaidPage:
    return lf.plan_script(lf.parse_script(f"PAGE 1\n\nPanel 1. {HOSTILE}\n"))[0]


def placed(panel: lf.Rect) -> lf.PanelLayout:
    """Two speakers in a panel, the first with two linked balloons."""
    outline = lf.Ellipse(half_width=10, half_height=5)
    names = ("WENNA", "WENNA", "PILOT")
    speakers = [lf.Speaker(name=name) for name in names]
    return lf.place_outlines(panel, [[outline]] * 3, speakers=speakers)


def _proposal(*speeches: str) -> lf.Proposal:
    """What may go from a panel that is to hold one word."""
    told = "".join(f"WENNA: {speech}\n" for speech in speeches)
    script = lf.parse_script(f"PAGE 1\n\nPanel 1. A gate.\n{told}")
    report = lf.preflight(script, limits=lf.Limits(words_per_panel=1), cuts=True)
    return report.pages[0].panels[0].cuts[0]


def _table() -> lf.FittedTable:
    texts = ("Hold the gate.", SPEECH)
    return lf.fit_table([lf.TextRow(id=f"1.{text}", text=text, outline=SMALL) for text in texts])


DRAWN: dict[str, Callable[[], Shown]] = {
    "balloon": lambda: lf.fit_balloon(SPEECH),
    "overflowing": lambda: lf.fit_into(SPEECH, outline=SMALL),
    "joined": lambda: lf.fit_joined(("Hold the gate.", SPEECH)),
    "outline": lambda: lf.Superellipse(half_width=15, half_height=8, exponent=3),
    "burst": lambda: lf.fit_balloon("Hold!", outline="burst").outline,
    "cut": lambda: lf.suggest_cuts("Well, I really hold the gate.", most_words=4)[0],
    "proposal": lambda: _proposal(SPEECH),
    "hopeless proposal": lambda: _proposal("Hold.", "Ahoy."),
    "reported": lambda: lettered().pages[0].panels[0].balloons[0],
    "panel": lambda: lettered().pages[0].panels[1],
    "failing panel": lambda: reports.nasty().pages[0].panels[1],
    "layout": lambda: placed(lf.Rect(10, 20, 70, 60)),
    "page": lambda: lettered().pages[0],
    "nasty page": lambda: reports.nasty().pages[0],
    "report": lettered,
    "empty report": reports.report,
    "laid": _laid,
    "plan": lambda: lettered().pages[1].plan,
    "advice": _advice,
    "pace": lambda: lf.pace_of(lettered()),
    "beside": _beside,
}
"""What is drawn, by name; made when it is asked for."""

TOLD: dict[str, Callable[[], Shown]] = {
    "measures": lambda: lf.measure_page(lettered().pages[0]),
    "comparison": _compared,
    "table": _table,
    "font": lambda: lf.font_facts(lf.open_typeface("bangers")),
    "layout without a place": lambda: placed(lf.Rect(10, 20, 12, 8)),
}
"""What is only told."""


@cache
def value(name: str) -> Shown:
    """One of them."""
    return (DRAWN | TOLD)[name]()


@cache
def bundle(name: str) -> dict[str, str]:
    """What a notebook is given for a value."""
    return value(name)._repr_mimebundle_()


def tree(name: str) -> Node:
    """A value's HTML, read strictly."""
    return parse(bundle(name)["text/html"])


def drawings(document: Node) -> list[ET.Element]:
    """The SVG files that stand in a document as images."""
    sources = [node.attributes["src"] for node in document.named("img")]
    assert all(source.startswith(DATA) for source in sources)
    return [ET.fromstring(b64decode(source.removeprefix(DATA))) for source in sources]  # noqa: S314


def width_mm(node: Node) -> float:
    """How wide an image is shown where there is room."""
    found = re.search(r"width:([0-9.]+)mm;max-width:100%", node.attributes["style"])
    assert found is not None
    return float(found[1])
