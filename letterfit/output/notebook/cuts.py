"""A cut in a notebook: the balloon as it is then, and the words that went."""

from letterfit.counting import counted
from letterfit.cuts.model import Cut
from letterfit.output.notebook.balloons import drawn_image
from letterfit.output.notebook.frame import figure
from letterfit.output.terminal.cuts import cut_figures, gone_told
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


def told(cut: Cut) -> list[str]:
    """What goes, what is left, what that saves: the signs as in a terminal."""
    before, after, least = cut.before, cut.after, cut.least
    saved = cut_figures(cut, named=bool(cut.where))
    if not before.fits:  # in the same outline: nothing but the words is less
        saved = f"words {before.words} to {after.words}, in {counted(len(after.lines), 'line')}"
    fewest = least is not None and least.at_least == cut.words
    return [f"- {gone_told(cut)}", f"= {cut.text}", saved, "No fewer will do." if fewest else ""]
