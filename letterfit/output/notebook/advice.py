"""Tier advice in a notebook: the page before and after, and what moves."""

from letterfit.output.html.markup import element, words
from letterfit.output.html.tables import Head, table
from letterfit.output.notebook.frame import beside
from letterfit.output.notebook.pages import page_figure
from letterfit.output.terminal.sheet import text_of
from letterfit.output.terminal.tiers import (
    COLUMNS,
    FOOTNOTE,
    advice_rows,
    in_the_way,
    outcome_told,
    tiers_line,
    tiers_to_text,
)
from letterfit.shown import as_html, as_text
from letterfit.tiers.model import TierAdvice

HALF = "calc(50% - 1em)"

HEADS = tuple(Head(text=column.head, number=column.right) for column in COLUMNS)


@as_html.register
def advice_html(value: TierAdvice) -> str:
    """What came of it; where the grid changes, the page as it was and as it would be."""
    told = [element("strong", words(text_of([outcome_told(value)])))]
    if value.outcome == "not found":
        told += [element("p", words(line)) for line in in_the_way(value)]
    if value.outcome != "advised":
        return element("div", [*told, page_figure(value.before, [f"Page {value.before.label}"])])
    pages = [
        page_figure(page, [f"Page {page.label}, {when}"])
        for page, when in ((value.before, "before"), (value.after, "after"))
    ]
    rows = [[words(text_of([cell])) for cell in row] for row in advice_rows(value)]
    moved = table(HEADS, rows, caption="In mm, tier by tier")
    line = element("p", [element("code", words(tiers_line(value)))])
    whose = element("p", [element("small", words(FOOTNOTE))])
    return element("div", [*told, beside(pages, least=HALF), moved, line, whose])


@as_text.register
def advice_text(value: TierAdvice) -> str:
    """As in a terminal."""
    return tiers_to_text([value]).rstrip("\n")
