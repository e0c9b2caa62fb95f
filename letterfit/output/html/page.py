"""A page of the comic as a section: its drawing, and beside it the table and text of its panels."""

from collections.abc import Iterator, Sequence

from letterfit.output.framing import framing
from letterfit.output.html.anchors import Anchors
from letterfit.output.html.cuts import cuts_told
from letterfit.output.html.marks import finding_told, state_told
from letterfit.output.html.markup import classed, element, words
from letterfit.output.html.panel import language_of, panel_article
from letterfit.output.html.tables import Head, table
from letterfit.output.html.typed import Speech, speeches, typed_panels
from letterfit.output.panel_state import State, own_findings, states_of
from letterfit.output.svg.page import foot_text
from letterfit.report.limits import Limits
from letterfit.report.model import PageReport, PanelReport

HEADS = (
    Head(text="panel"),
    Head(text="verdict"),
    Head(text="words", number=True),
    Head(text="covered", number=True),
    Head(text="figure, mm", number=True),
    Head(text="framing"),
    Head(text="order"),
)


def page_section(page: PageReport, *, drawn: str, limits: Limits, anchors: Anchors) -> str:
    """A page, whole.

    Args:
        page: The page.
        drawn: Its drawing.
        limits: What it is held against.
        anchors: The document's ids.
    """
    typed = typed_panels(page)
    head = anchors.new(f"head-page-{page.label}")
    told = [
        _panel_table(page, limits=limits, anchors=anchors),
        *(
            panel_article(panel, page, typed=own, anchors=anchors)
            for panel, own in zip(page.panels, typed, strict=True)
        ),
    ]
    wide = " wide" if page.plan.paper.pages > 1 else ""
    parts = [
        element("h2", words(f"Page {page.label}"), attributes={"id": head}),
        classed("p.quiet", words(_about(page))),
        _own_findings(page),
        cuts_told(
            page.cuts, said=_said(page), language=language_of(page), anchors=anchors, level="h3"
        ),
        classed(f"div.spread{wide}", [drawn, classed("div.told", told)]),
    ]
    named = {"id": anchors.of(f"page-{page.label}") or "", "aria-labelledby": head}
    return element("section", parts, attributes={"class": "page", **named})


def _about(page: PageReport) -> str:
    """The page in a line, with the figure that every panel of a tier holds."""
    if not page.panels:
        return "No panels."
    parts = [foot_text(page).partition(" · ")[2]]
    if page.fits and len(page.plan.tiers) > 1:
        heights = " / ".join(f"{height:.0f}" for height in page.tier_figure_heights_mm)
        steady = f"{page.steady_height_mm:.0f} mm keep the page's distance steady"
        parts.append(f"tier by tier {heights} mm; {steady}")
    return f"{' · '.join(parts)}."


def _own_findings(page: PageReport) -> str:
    """What was found of the page as a whole."""
    items = [finding_told(f.severity, f.message, todo=f.advice) for f in own_findings(page)]
    return element("ul", items, attributes={"class": "findings"}) if items else ""


def _said(page: PageReport) -> dict[str, Speech]:
    """What is typed on a page, by the balloon's id."""
    pairs = zip(page.panels, typed_panels(page), strict=True)
    return {one.id: one for panel, typed in pairs for one in speeches(panel, typed)}


def _panel_table(page: PageReport, *, limits: Limits, anchors: Anchors) -> str:
    if not page.panels:
        return ""
    states = states_of(page)
    rows = [_row(panel, states[panel.id], limits=limits, anchors=anchors) for panel in page.panels]
    return table(HEADS, rows, caption=f"Panels of page {page.label}")


def _row(panel: PanelReport, state: State, *, limits: Limits, anchors: Anchors) -> Sequence[str]:
    return (
        anchors.link(f"about-{panel.id}", words(panel.id)),
        state_told(state),
        str(panel.words),
        f"{panel.coverage:.0%}",
        *_if_placed(panel, limits),
    )


def _if_placed(panel: PanelReport, limits: Limits) -> Iterator[str]:
    """Figure, framing and order; a dash where nothing stands."""
    if panel.verdict != "placed":
        yield from ("–",) * 3
        return
    yield words(f"{panel.figure_height_mm:.0f} ({panel.figure_share:.0%})")
    yield words(framing(panel.figure_share, whole=limits.whole_figure))
    yield "certain" if panel.reading_certain else "in doubt"
