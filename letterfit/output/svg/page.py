"""One page as an SVG proof at print size: what fits drawn as it would print, what fails marked.

The sheet is the trimmed page; the bleed lies outside it, where a drawing program shows it and a
printer does not. Guides, figures and labels are groups of their own, so that one click hides them.
"""

from letterfit.geometry import Point, Rect
from letterfit.lettering import Lettering
from letterfit.output.panel_state import state_of
from letterfit.output.svg import style
from letterfit.output.svg.elements import Names, box, document, tag, title
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.figure import Silhouette, pale
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.labels import label
from letterfit.output.svg.panel import PanelView, panel_group
from letterfit.output.svg.panel_label import GUTTER_MM
from letterfit.paper.sheet import Paper
from letterfit.report.model import PageReport

FOOT_PT = 6.0
FOOT_MM = 4.0
"""The least margin at the foot of a page that takes a line about the page."""


def to_svg(page: PageReport, *, lettering: Lettering | None = None) -> str:
    """A page as one SVG file in mm, as large as the trimmed page, its lettering as outlines.

    Args:
        page: The page.
        lettering: How it was lettered; needed only for a user's own fonts, None finds the bundled
            ones by name.

    Returns:
        SVG with one group for each tier, panel and balloon; no script, no font, no reference to
        anything outside the file. The same page gives the same characters.

    Raises:
        FontError: When a face is neither bundled nor in the lettering's typeface.
    """
    return drawn_page(page, glyphs=Glyphs(glyph_source(lettering)))


def drawn_page(page: PageReport, *, glyphs: Glyphs) -> str:
    """A page as `to_svg` gives it, its lettering drawn by `glyphs`."""
    width, height = page.plan.paper.trim
    parts = page_parts(page, glyphs=glyphs, names=Names())
    return document(width=width, height=height, heading=f"page {page.label}", children=parts)


def page_parts(
    page: PageReport, *, glyphs: Glyphs, names: Names, standing: Silhouette = pale
) -> list[str]:
    """What is drawn on a page, back to front, in mm: its sheet, guides, tiers and foot.

    Args:
        page: The page.
        glyphs: What draws the lettering.
        names: What gives out ids.
        standing: What draws the figures.
    """
    width, height = page.plan.paper.trim
    tiers = _tiers(page, glyphs=glyphs, names=names, standing=standing)
    drawn = [
        tag("g", {"id": names.new(f"tier-{number}"), "class": "tier"}, panels)
        for number, panels in enumerate(tiers, start=1)
    ]
    sheet = tag("rect", {"width": width, "height": height, "fill": style.PAPER})
    return [sheet, _guides(page.plan.paper, names), *drawn, _foot(page, glyphs, names)]


def _tiers(
    page: PageReport, *, glyphs: Glyphs, names: Names, standing: Silhouette
) -> list[list[str]]:
    """Each tier's panels, drawn; tiers and panels both run in reading order."""
    panels = iter(page.panels)
    hosted = {planned.index for planned in page.plan.special if planned.host is not None}
    view = PanelView(
        page.plan.paper.gutter_mm >= GUTTER_MM,
        insets=frozenset(page.panels[index].id for index in hosted),
        standing=standing,
    )
    return [
        [
            panel_group(
                panel,
                state=state_of(panel, page.findings),
                glyphs=glyphs,
                names=names,
                view=view,
            )
            for _, panel in zip(tier.panels, panels, strict=False)
        ]
        for tier in page.plan.tiers
    ]


def _guides(paper: Paper, names: Names) -> str:
    """Bleed, trim and live area as thin lines, and the strip round a spread's fold."""
    trim = Rect(0, 0, *paper.trim)
    drawn = [
        _guide("bleed", trim.inset(-paper.bleed)),
        _guide("trim", trim),
        _guide("live", paper.live, dashes="2 1"),
    ]
    if paper.spine is not None:
        drawn.append(_guide("fold", paper.spine, dashes="0.5 1"))
    return tag("g", {"id": names.new("guides")}, [title("trim, bleed, live area"), *drawn])


def _guide(name: str, area: Rect, *, dashes: str = "none") -> str:
    return tag(
        "rect",
        {
            "class": name,
            **box(area),
            "fill": "none",
            "stroke": style.GUIDE,
            "stroke-width": style.GUIDE_LINE,
            "stroke-dasharray": dashes,
        },
    )


def _foot(page: PageReport, glyphs: Glyphs, names: Names) -> str:
    """A line about the page, in the margin at its foot where there is room."""
    live, (_, height) = page.plan.paper.live, page.plan.paper.trim
    bleeds = any(panel.bleed and panel.bleed.bottom > live.bottom for panel in page.panels)
    if bleeds or height - live.bottom < FOOT_MM:
        return ""
    text = foot_text(page)
    spot = Point(live.x, live.bottom + FOOT_MM * 0.8)
    words = label([text], spot, size_pt=FOOT_PT, colour=style.LABEL, glyphs=glyphs)
    return tag("g", {"id": names.new("foot"), "class": "label"}, [title(text), words])


def foot_text(page: PageReport) -> str:
    """The page in one line: its words, and what its panels have in common."""
    failing = sum(panel.verdict != "placed" for panel in page.panels)
    head = f"Page {page.label} · {page.words} words"
    if failing:
        verb = "does" if failing == 1 else "do"
        return f"{head} · {failing} of {len(page.panels)} panels {verb} not fit"
    return f"{head} · a figure of {page.figure_height_mm:.0f} mm stands clear in every panel"
