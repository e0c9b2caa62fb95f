"""A panel as an article: how it stands, what was found of it, and its lines of the script."""

from collections.abc import Iterator, Sequence

from letterfit.findings import Finding
from letterfit.output.html.anchors import Anchors
from letterfit.output.html.cuts import cuts_told
from letterfit.output.html.marks import finding_told, state_told
from letterfit.output.html.markup import classed, element, quoted, spoken, words
from letterfit.output.html.typed import Speech, speeches
from letterfit.output.panel_state import findings_of, state_of
from letterfit.output.terminal.todo import remedy, why
from letterfit.report.model import PageReport, PanelReport
from letterfit.report.page import figure_ways
from letterfit.report.panel_findings import one_of
from letterfit.script.model import ScriptPanel

KINDS = {"thought": "thought", "caption": "caption", "sfx": "sound effect", "sign": "sign"}
"""What a line of lettering is, where it is no speech."""

TOLD_ELSEWHERE = ("panel-overflow", "uneven-figures")
"""Findings that `_own_findings` tells in other words, with the remedies."""


def panel_article(
    panel: PanelReport, page: PageReport, *, typed: ScriptPanel | None, anchors: Anchors
) -> str:
    """Everything there is to say of a panel.

    Args:
        panel: The panel.
        page: Its page.
        typed: The panel as the script has it.
        anchors: The document's ids.
    """
    state = state_of(panel, page.findings)
    found = findings_of(panel, page.findings)
    said = speeches(panel, typed)
    language = language_of(page)
    own = {one.id for one in said}
    head = anchors.new(f"head-{panel.id}")
    parts = [
        classed(
            "div.panel-head",
            [
                element(
                    "h3",
                    [words(f"Panel {panel.id}"), " ", state_told(state)],
                    attributes={"id": head},
                ),
                _where(panel, anchors),
            ],
        ),
        quoted("p", typed.description, kind="description", language=language)
        if typed and typed.description
        else "",
        _list([*_own_findings(panel, page), *_plain([f for f in found if f.where not in own])]),
        _speech_list(said, found, language=language, anchors=anchors),
        cuts_told(
            panel.cuts, said={one.id: one for one in said}, language=language, anchors=anchors
        ),
    ]
    named = {"id": anchors.of(f"about-{panel.id}") or "", "aria-labelledby": head}
    return element("article", parts, attributes={"class": "panel", **named})


def language_of(page: PageReport) -> str:
    """The language of the script."""
    return page.setting.language if page.setting else "en"


def _where(panel: PanelReport, anchors: Anchors) -> str:
    silent = "" if panel.words or panel.effects else " · silent"
    there = anchors.link(f"see-{panel.id}", words("in the drawing"))
    back = classed("span.back", [" · ", there])
    return classed("p.quiet", [words(f"Line {panel.line}{silent}"), back])


def _own_findings(panel: PanelReport, page: PageReport) -> Iterator[str]:
    """That the panel does not fit, or holds less than its page's steady distance."""
    if panel.verdict != "placed":
        yield finding_told("error", f"{why(panel)}.", todo=remedy(panel))
    if panel.steadied is not None:
        ways = figure_ways(panel.steadied)
        todo = f"{one_of(ways)}." if ways else "Let the view move closer."
        holds = f"Holds a figure of {panel.figure_height_mm:.0f} mm"
        asked = f"the page's steady distance asks for {page.steady_height_mm:.0f} mm"
        yield finding_told("note", f"{holds}; {asked}.", todo=todo)


def _plain(found: Sequence[Finding]) -> Iterator[str]:
    for one in found:
        if one.code not in TOLD_ELSEWHERE:
            yield finding_told(one.severity, one.message, todo=one.advice)


def _list(items: Sequence[str], *, kind: str = "findings") -> str:
    return element("ul", items, attributes={"class": kind}) if items else ""


def _speech_list(
    said: Sequence[Speech], found: Sequence[Finding], *, language: str, anchors: Anchors
) -> str:
    """The lines, each with what was found of it."""
    rows = []
    for one in said:
        own = [f for f in found if f.where == one.id]
        text = quoted("span", one.text, kind="said", language=language)
        who = _who(one, language=language)
        parts = [_line(one, anchors), " ", who, text, _list(list(_plain(own)))]
        name = anchors.of(f"say-{one.id}")
        rows.append(element("li", parts, attributes={"id": name} if name else {}))
    return _list(rows, kind="speeches")


def _line(one: Speech, anchors: Anchors) -> str:
    """The number of the line, a link to its balloon in the drawing."""
    number = anchors.link(f"balloon-{one.id}", words(f"line {one.line}"))
    return classed("span.line", number)


def _who(one: Speech, *, language: str) -> str:
    """Who speaks and how, as typed; what it is where it is no speech."""
    kind = KINDS.get(one.kind, "")
    known = any(kind == manner.casefold() for manner in one.manner)
    manner = [*([kind] if kind and not known else []), *one.manner]
    name = element("bdi", words(one.who), attributes=spoken(language)) if one.who else ""
    told = element("bdi", words(f"({', '.join(manner)})")) if manner else ""
    who = " ".join(filter(None, [name, told]))
    return classed("b.who", [who, ": "]) if who else ""
