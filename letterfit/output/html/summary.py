"""The head of the report: the verdict, and what to do first."""

import re
from collections.abc import Sequence

from letterfit.output.html.anchors import Anchors
from letterfit.output.html.marks import Tone, finding_told, mark
from letterfit.output.html.markup import classed, element, words
from letterfit.output.panel_state import State, states_of
from letterfit.output.svg import style
from letterfit.output.terminal.report import headline, setting_told
from letterfit.output.terminal.todo import Item
from letterfit.report.model import PageReport, ScriptReport

MOST_ITEMS = 10
"""So many things to do are shown at once; the rest unfold."""

_NAMED = re.compile(r"[^\s,()]++(?= \(|,|$| and )")
"""What may be the name of a place in a list of them."""


_BALLOON = re.compile(r"(?<=balloon )[^\s,;()]++")
"""What may be the name of a balloon in an item about its panel."""


def name_of(report: ScriptReport) -> str:
    """The script's title, or its file, for a heading."""
    return report.title or report.source or "A script"


def verdict(report: ScriptReport, todo: Sequence[Item]) -> str:
    """The verdict on the whole script, and how it was lettered."""
    (cell,) = headline(report, tuple(todo))
    tone = cell.tone if cell.tone in ("fits", "doubt", "fails") else "quiet"
    told = cell.text.lstrip("✓✗! ")
    return "".join(
        [
            classed(f"p.verdict {tone}", [mark(tone), " ", words(told)]),
            classed("p.quiet", words(setting_told(report))),
        ]
    )


def what_to_do(todo: Sequence[Item], anchors: Anchors) -> str:
    """A section with what needs doing, most pressing first."""
    if not todo:
        told = [element("p", "Nothing: everything fits, and nothing goes against advice.")]
    else:
        items = [_item(one, anchors) for one in todo]
        told = [element("ol", items[:MOST_ITEMS], attributes={"class": "todo-list"})]
        if len(items) > MOST_ITEMS:
            more = element("summary", words(f"{len(items) - MOST_ITEMS} more"))
            start = {"class": "todo-list", "start": str(MOST_ITEMS + 1)}
            told.append(
                element("details", [more, element("ol", items[MOST_ITEMS:], attributes=start)])
            )
    parts = [element("h2", "What to do", attributes={"id": "what-to-do"}), *told]
    return element("section", parts, attributes={"aria-labelledby": "what-to-do"})


def _item(one: Item, anchors: Anchors) -> str:
    tone: Tone = "fails" if one.grave else "doubt"
    kind = "Does not fit" if one.grave else "Look again"
    line = f" (line {one.line})" if one.line is not None else ""
    what = words(one.what)
    names = _NAMED if one.where.endswith(" places") else _BALLOON
    what = names.sub(lambda match: _place(match[0], anchors), what)
    parts = [
        classed(f"strong.{tone}", [mark(tone), " ", words(kind)]),
        " ",
        classed("b.where", anchors.place(one.where, words(one.where))),
        words(line) and f" {words(line)}",
        ": ",
        element("bdi", what),
    ]
    if one.todo:
        parts.append(classed("span.todo", words(f"→ {one.todo}")))
    return element("li", parts)


def _place(name: str, anchors: Anchors) -> str:
    """A name as a link where it is that of a panel or a balloon: already escaped."""
    bare = name.rstrip(".")
    if "." not in bare or not any(anchors.of(f"{kind}-{bare}") for kind in ("about", "say")):
        return name
    return anchors.place(bare, bare) + name[len(bare) :]


def page_list(report: ScriptReport, anchors: Anchors) -> str:
    """Links to all pages, each with how it stands."""
    if not report.pages:
        return ""
    links = [
        element("li", anchors.link(f"page-{page.label}", _page_link(page))) for page in report.pages
    ]
    return element("nav", [element("ul", links)], attributes={"aria-label": "Pages"})


def _page_link(page: PageReport) -> str:
    states = states_of(page).values()
    grave: tuple[State, ...] = ("fails", "doubt", "fits")
    worst = next((state for state in grave if state in states), None)
    tone: Tone = worst or "quiet"
    told = style.WORDS[worst] if worst else "no panels"
    return f"{mark(tone)} {words(f'Page {page.label}')} {classed(f'small.{tone}', words(told))}"


def about_script(report: ScriptReport) -> str:
    """What was found of the script as a whole; nothing when nothing was."""
    if not report.findings:
        return ""
    items = []
    for one in report.findings:
        line = "" if one.line is None else f"Line {one.line}: "
        items.append(finding_told(one.severity, f"{line}{one.message}", todo=one.advice))
    parts = [
        element("h2", "The script as a whole", attributes={"id": "the-script"}),
        element("ul", items, attributes={"class": "findings"}),
    ]
    return element("section", parts, attributes={"aria-labelledby": "the-script"})
