"""One page as an SVG proof at print size: what fits drawn as it would print, what fails marked.

The sheet is the trimmed page; the bleed lies outside it, where a drawing program shows it and a
printer does not. Guides, figures and labels are groups of their own, so that one click hides them.
"""

from letterfit.counting import does
from letterfit.errors import FontError
from letterfit.geometry import Point
from letterfit.lettering.settings import Lettering
from letterfit.output.panel_state import state_of
from letterfit.output.svg import style
from letterfit.output.svg.elements import Names, document, tag, title
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.figure import Silhouette, pale
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.guides import guides
from letterfit.output.svg.labels import label
from letterfit.output.svg.live_text import LiveText
from letterfit.output.svg.panel import PanelView, panel_group
from letterfit.output.svg.panel_label import GUTTER_MM
from letterfit.output.svg.texts import TEXTS, Text
from letterfit.report.model import PageReport

FOOT_PT = 6.0
FOOT_MM = 4.0
"""The least margin at the foot of a page that takes a line about the page."""


def to_svg(page: PageReport, *, lettering: Lettering | None = None, text: Text = "outlines") -> str:
    r"""A page as one SVG file in mm, as large as the trimmed page.

    Args:
        page: The page.
        lettering: How it was lettered; needed only for a user's own fonts, None finds the bundled
            ones by name.
        text: "outlines" draws the lettering, as it prints whatever fonts a reader has; "live" sets
            it as text in mm, one element a line, for programs that go on working on it: they need
            the font installed. Columns stay outlines.

    Returns:
        SVG with one group for each tier, panel, balloon and lettering, and for each tail its axis,
        which is not painted: the ids are `tier-1`, `panel-1.3`, `balloon-1.3.2`,
        `lettering-1.3.2`, `tail-1.3.2`. No script, no font, no reference to anything outside the
        file. The same page gives the same characters.

    Raises:
        FontError: When a face is neither bundled nor in the lettering's typeface, or `text` is
            neither.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> to_svg(lf.preflight(script).pages[0]).count('id="balloon-1.1.1"')
    1
    """
    return drawn_page(page, glyphs=_letterer(page, lettering, text))


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
    return [sheet, guides(page.plan.paper, names), *drawn, _foot(page, glyphs, names)]


def _letterer(page: PageReport, lettering: Lettering | None, text: Text) -> Glyphs:
    """What draws the lettering: outlines, or text."""
    if text not in TEXTS:
        raise FontError(
            f"no way to write lettering is called {text!r:.40}",
            advice=f"give {' or '.join(TEXTS)}",
        )
    if text == "outlines":
        return Glyphs(glyph_source(lettering))
    setting = page.setting
    own = lettering or (setting.lettering if setting else None)
    return LiveText(own, language=setting.language if setting else "en")


def _tiers(
    page: PageReport, *, glyphs: Glyphs, names: Names, standing: Silhouette
) -> list[list[str]]:
    """Each tier's panels, drawn."""
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
            for panel in own
        ]
        for own in page.tier_panels
    ]


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
        return f"{head} · {failing} of {len(page.panels)} panels {does(failing)} not fit"
    return f"{head} · a figure of {page.figure_height_mm:.0f} mm stands clear in every panel"
