"""A page's drawing: the proof as one picture with a name, and over it a link for each panel.

The picture is an image to a screen reader (WAI-ARIA 1.2, role img): what it shows is told in its
description, and its words stand beside it as text. So the links lie over it, in a layer of their
own.
"""

import re

from letterfit.counting import counted
from letterfit.geometry import Rect
from letterfit.output.html.anchors import Anchors
from letterfit.output.html.markup import element, words
from letterfit.output.html.shared_figure import SharedFigure
from letterfit.output.html.shared_glyphs import SharedGlyphs
from letterfit.output.panel_state import State, states_of
from letterfit.output.svg import style
from letterfit.output.svg.elements import box, length
from letterfit.output.svg.elements import tag as svg_tag
from letterfit.output.svg.page import page_parts
from letterfit.report.model import PageReport, PanelReport

_UNHEARD = re.compile(r'<title>[^<]*</title>\n?| aria-label="[^"]*"')
"""What the parts of an image say of themselves, which nobody can hear or point at here."""


def drawing(
    page: PageReport, *, glyphs: SharedGlyphs, figures: SharedFigure, anchors: Anchors
) -> str:
    """A page's drawing with its links, as a figure.

    Args:
        page: The page.
        glyphs: What draws the lettering.
        figures: What draws the figures.
        anchors: The document's ids.
    """
    width, height = page.plan.paper.trim
    frame = {"viewBox": f"0 0 {length(width)} {length(height)}"}
    name = anchors.new(f"drawing-{page.label}")
    told = [
        svg_tag("title", {"id": f"{name}-title"}, [words(f"Page {page.label}, lettered")]),
        svg_tag("desc", {"id": f"{name}-desc"}, [words(description(page))]),
    ]
    parts = page_parts(page, glyphs=glyphs, names=anchors, standing=figures.standing)
    drawn = [_UNHEARD.sub("", part) for part in parts]
    spoken = {"aria-labelledby": f"{name}-title", "aria-describedby": f"{name}-desc"}
    picture = svg_tag("svg", {"class": "picture", "role": "img", **spoken, **frame}, told + drawn)
    states = states_of(page)
    links = [_link(panel, page, state=states[panel.id], anchors=anchors) for panel in page.panels]
    called = {"role": "group", "aria-label": f"Panels of page {page.label}"}
    layer = svg_tag("svg", {"class": "links", **called, **frame}, links) if links else ""
    sizes = f"--width: {length(width)}; --ratio: {width / height:.4f}"
    return element("figure", [picture, layer], attributes={"class": "sheet", "style": sizes})


def description(page: PageReport) -> str:
    """What a page's drawing shows, tier by tier.

    >>> from tests.output.reports import small
    >>> description(small().pages[0])
    '3 tiers with 3 panels. Tier 1: 1.1 fits. Tier 2: 1.2 fits. Tier 3: 1.3 fits.'
    """
    states, tiers = states_of(page), page.tier_panels
    told = [f"{counted(len(tiers), 'tier')} with {counted(len(page.panels), 'panel')}."]
    for number, own in enumerate(tiers, start=1):
        standing = ", ".join(f"{panel.id} {style.WORDS[states[panel.id]]}" for panel in own)
        told.append(f"Tier {number}: {standing}.")
    return " ".join(told)


def _link(panel: PanelReport, page: PageReport, *, state: State, anchors: Anchors) -> str:
    """The panel's area as a link to what is told of it."""
    own = {
        "id": anchors.of(f"see-{panel.id}") or "",
        "href": f"#{anchors.of(f'about-{panel.id}')}",
        "aria-label": f"Panel {panel.id}, {style.WORDS[state]}: to its text",
        "style": f"--top: {length(100 * _top(panel.rect, page))}",
    }
    hint = svg_tag("title", {}, [words(f"Panel {panel.id}: {style.WORDS[state]}")])
    return svg_tag("a", own, [hint, svg_tag("rect", box(panel.rect))])


def _top(rect: Rect, page: PageReport) -> float:
    """How far down the page a panel begins, as a share of the page's width."""
    return rect.y / page.plan.paper.trim[0]
