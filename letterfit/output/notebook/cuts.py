"""Cuts in a notebook: each balloon as it is then, and the words that went."""

from letterfit.counting import counted
from letterfit.cuts.model import Cut, Proposal
from letterfit.output.html.markup import element, words
from letterfit.output.notebook.balloons import drawn_image
from letterfit.output.notebook.frame import beside, figure
from letterfit.output.terminal.cuts import (
    NO_CUT,
    cut_figures,
    cut_head,
    gone_told,
    least_told,
    write_proposal,
)
from letterfit.output.terminal.sheet import Sheet
from letterfit.shown import as_html, as_text


@as_html.register
def cut_html(value: Cut) -> str:
    """The balloon without the words, and what went from it."""
    drawn, notes = drawn_image(value.after)
    return figure(drawn, [*told(value), *notes])


@as_text.register
def cut_text(value: Cut) -> str:
    """What goes, what is left, and what that saves."""
    return "\n".join(filter(None, told(value)))


@as_html.register
def proposal_html(value: Proposal) -> str:
    """Where there is too much, what the cuts come to, and each balloon without its words."""
    heading = element("strong", words(f"{value.where}  {value.why}"))
    sums = [cut_head(value, "Cut")] if value.cuts else [NO_CUT]
    if value.least is not None:
        sums.append(least_told(value.least, value))
    figures = beside(map(cut_html, value.cuts)) if value.cuts else ""
    return element("div", [heading, *(element("p", words(line)) for line in sums), figures])


@as_text.register
def proposal_text(value: Proposal) -> str:
    """The same, as in a terminal."""
    sheet = Sheet()
    write_proposal(sheet, value)
    return sheet.text().rstrip("\n")


def told(cut: Cut) -> list[str]:
    """What goes, what is left, what that saves: the signs as in a terminal."""
    before, after, least = cut.before, cut.after, cut.least
    saved = cut_figures(cut, named=bool(cut.where))
    if not before.fits:  # in the same outline: nothing but the words is less
        saved = f"words {before.words} to {after.words}, in {counted(len(after.lines), 'line')}"
    fewest = least is not None and least.at_least == cut.words
    return [f"- {gone_told(cut)}", f"= {cut.text}", saved, "No fewer will do." if fewest else ""]
