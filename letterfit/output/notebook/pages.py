"""Panels, pages and whole scripts in a notebook: drawn as in a proof, with what there is to do."""

from collections.abc import Iterator, Sequence

from letterfit.counting import counted
from letterfit.output.html.drawing import description
from letterfit.output.html.markup import element, words
from letterfit.output.notebook.frame import beside, figure, image
from letterfit.output.notebook.letters import lettered
from letterfit.output.svg.page import drawn_page
from letterfit.output.svg.panel_file import drawn_panel
from letterfit.output.svg.panel_label import label_parts
from letterfit.output.terminal.panels import page_verdict, write_page
from letterfit.output.terminal.report import headline, setting_told, to_text
from letterfit.output.terminal.sheet import Sheet, text_of
from letterfit.output.terminal.todo import Item, items, page_items, remedy, why
from letterfit.report.limits import Limits
from letterfit.report.model import PageReport, PanelReport, ScriptReport
from letterfit.shown import as_html, as_text

PAGE_SCALE = 1.0
PANEL_SCALE = 2.0

MOST_ITEMS = 10
"""So many things to do are told; the rest are counted."""

MOST_PAGES = 24
"""So many pages are drawn, an issue's; the rest are counted."""

A_THIRD = "calc(33.3% - 1em)"

LIST = "list-style:none;margin:0 0 1em;padding:0"


@as_html.register
def panel_html(value: PanelReport) -> str:
    """A panel, its figures, and what would make it fit."""
    svg, notes = lettered(lambda glyphs: drawn_panel(value, glyphs=glyphs))
    alt = " ".join(balloon.fitted.text for balloon in value.balloons) or "A silent panel."
    return figure(image(svg, scale=PANEL_SCALE, alt=alt), [*panel_told(value), *notes])


@as_text.register
def panel_text(value: PanelReport) -> str:
    """Its lines, and what is told under its drawing."""
    said = [f"{b.id}  {b.speaker or b.kind}: {b.fitted.text}" for b in value.balloons]
    return "\n".join([*panel_told(value), *said])


def panel_told(panel: PanelReport) -> list[str]:
    """A panel in a line, and why it does not fit."""
    _, *parts = label_parts(panel)
    load = counted(panel.words, "word")
    told = [" · ".join([f"Panel {panel.id}", load, *parts])]
    if panel.verdict != "placed":
        told.append(f"✗ {why(panel)}. → {remedy(panel)}")
    return told


@as_html.register
def page_html(value: PageReport) -> str:
    """A page, and what there is to do on it."""
    told = [f"Page {value.label}: {text_of([page_verdict(value)])}"]
    return page_figure(value, [*told, *_todo(page_items(value, limits_of(value)))])


@as_text.register
def page_text(value: PageReport) -> str:
    """The page's table, and what there is to do on it."""
    sheet = Sheet()
    limits = limits_of(value)
    write_page(sheet, value, limits)
    for line in _todo(page_items(value, limits)):
        sheet.line(line, indent=2)
    return sheet.text().rstrip("\n")


def page_figure(page: PageReport, told: Sequence[str]) -> str:
    """A page's proof with some lines underneath."""
    lettering = page.setting.lettering if page.setting else None
    svg, notes = lettered(lambda glyphs: drawn_page(page, glyphs=glyphs), lettering=lettering)
    alt = f"Page {page.label}. {description(page)}"
    return figure(image(svg, scale=PAGE_SCALE, alt=alt), [*told, *notes])


def limits_of(page: PageReport) -> Limits:
    """What a page was held against."""
    return page.setting.limits if page.setting else Limits()


@as_html.register
def script_html(value: ScriptReport) -> str:
    """The verdict, what there is to do, and the pages beside each other."""
    todo = items(value)
    head = element("p", [element("strong", words(text_of(headline(value, todo))))])
    setting = element("p", words(setting_told(value)))
    lines = [element("li", words(line)) for line in _todo(todo)]
    listed = element("ul", lines, attributes={"style": LIST}) if lines else ""
    drawn = [page_figure(page, [f"Page {page.label}"]) for page in value.pages[:MOST_PAGES]]
    rest = len(value.pages) - MOST_PAGES
    more = element("p", words(f"{counted(rest, 'page')} more, not drawn here.")) if rest > 0 else ""
    return element("div", [head, setting, listed, beside(drawn, least=A_THIRD), more])


@as_text.register
def script_text(value: ScriptReport) -> str:
    """As in a terminal."""
    return to_text(value).rstrip("\n")


def _todo(todo: Sequence[Item]) -> Iterator[str]:
    for item in todo[:MOST_ITEMS]:
        line = "" if item.line is None else f" (line {item.line})"
        advice = f" → {item.todo}" if item.todo else ""
        yield f"{'✗' if item.grave else '!'} {item.where}{line}: {item.what}{advice}"
    rest = len(todo) - MOST_ITEMS
    if rest > 0:
        yield f"and {rest} more"
