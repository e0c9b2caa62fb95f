"""The whole report as one HTML document: nothing is fetched, nothing is run.

It is read without a script and without a network, and its policy says so to the browser (Content
Security Policy 3): whatever a script's words may hold, nothing of it is loaded or executed.
"""

from letterfit.output.cuts_json import proposals
from letterfit.output.html.anchors import Anchors, reserve
from letterfit.output.html.drawing import drawing
from letterfit.output.html.legend import legend
from letterfit.output.html.markup import LANGUAGE, element, spoken, words
from letterfit.output.html.pace import pace_section
from letterfit.output.html.page import page_section
from letterfit.output.html.panel import language_of
from letterfit.output.html.shared_figure import SharedFigure
from letterfit.output.html.shared_glyphs import SharedGlyphs
from letterfit.output.html.style_sheet import style_sheet
from letterfit.output.html.summary import (
    about_script,
    name_of,
    page_list,
    verdict,
    what_to_do,
)
from letterfit.output.svg.faces import glyph_source
from letterfit.output.terminal.cuts import cut_advice
from letterfit.output.terminal.report import footnote
from letterfit.output.terminal.todo import items
from letterfit.report.model import ScriptReport
from letterfit.version import VERSION

POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; "
    "form-action 'none'"
)
"""Nothing but the document's own style; the one image is the empty icon below."""

NO_ICON = "data:,"
"""An empty icon, so that no browser asks a server for one."""


def to_html(report: ScriptReport) -> str:
    r"""The report as one HTML file: every page drawn, and beside each panel what was found of it.

    Args:
        report: The whole report; its cuts are shown where it has any.

    Returns:
        A document that stands alone: no script, no font, no reference to anything outside it. The
        same report gives the same characters.

    Raises:
        FontError: When a face is neither bundled nor in the report's lettering.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> to_html(lf.preflight(script)).partition("\n")[0]
    '<!doctype html>'
    """
    anchors = Anchors()
    for name in ("report", "what-to-do", "the-script", "pace", "reading"):
        anchors.new(name)
    reserve(report, anchors)
    glyphs = SharedGlyphs(glyph_source(report.lettering), anchors)
    figures = SharedFigure(anchors)
    drawn = [
        drawing(page, glyphs=glyphs, figures=figures, anchors=anchors) for page in report.pages
    ]
    pages = [
        page_section(page, drawn=own, limits=report.limits, anchors=anchors)
        for page, own in zip(report.pages, drawn, strict=True)
    ]
    todo = items(report)
    name = name_of(report)
    body = [
        element("a", "Skip to the report", attributes={"class": "skip", "href": "#report"}),
        element(
            "svg",
            [figures.shape(), glyphs.shapes()],
            attributes={"class": "shapes", "aria-hidden": "true"},
        ),
        element("header", [_heading(report, name), verdict(report, todo)]),
        page_list(report, anchors),
        element(
            "main",
            [
                what_to_do(todo, anchors),
                about_script(report),
                *pages,
                pace_section(report, anchors) if report.pages else "",
                _reading(),
            ],
            attributes={"id": "report", "tabindex": "-1"},
        ),
        _foot(report),
    ]
    return _document(_head(name), body)


def _head(name: str) -> list[str]:
    csp = {"http-equiv": "Content-Security-Policy", "content": POLICY}
    return [
        element("meta", attributes={"charset": "utf-8"}),
        element("meta", attributes=csp),
        element(
            "meta",
            attributes={"name": "viewport", "content": "width=device-width, initial-scale=1"},
        ),
        element("meta", attributes={"name": "color-scheme", "content": "light dark"}),
        element("title", words(f"{name}: does the lettering fit?")),
        element("link", attributes={"rel": "icon", "href": NO_ICON}),
        element("style", f"\n{style_sheet()}"),
    ]


def _document(head: list[str], body: list[str]) -> str:
    page = element(
        "html",
        ["\n", element("head", ["\n", *head]), element("body", ["\n", *body])],
        attributes={"lang": LANGUAGE},
    )
    return f"<!doctype html>\n{page}"


def _heading(report: ScriptReport, name: str) -> str:
    """The script's title, in the script's language; the name of a file is in none."""
    language = language_of(report.pages[0]) if report.pages and report.title else LANGUAGE
    return element("h1", [element("bdi", words(name), attributes=spoken(language))])


def _reading() -> str:
    parts = [element("h2", "How to read the drawings", attributes={"id": "reading"}), legend()]
    return element("section", parts, attributes={"aria-labelledby": "reading"})


def _foot(report: ScriptReport) -> str:
    """What the report goes by, and what made it."""
    told = [footnote(report), f"Made by letterfit {VERSION}."]
    if proposals(report):
        told.insert(1, cut_advice(report))
    return element("footer", [element("p", words(one)) for one in told])
