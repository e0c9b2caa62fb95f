"""Cuts in text: where there is too much, what may go, and how the rest fits, before and after."""

from collections.abc import Iterator

from letterfit.counting import counted
from letterfit.cuts.model import Cut, LeastWords, Proposal
from letterfit.fit.model import FittedBalloon
from letterfit.output.cuts_json import proposals
from letterfit.output.plain import one_line
from letterfit.output.terminal.limits import whose
from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.report.model import ScriptReport

ROWS = (Column(), Column(wraps=True))
"""A mark, and what it says."""

NO_CUT = "No cut of ours will do: give it more room, or share it out."

ADVICE = (
    "Proposals; the writer decides. Grammar is not checked. Every text was lettered anew. {limits} "
    "common practice."
)


def cuts_to_text(report: ScriptReport, *, width: int = 80, colour: bool = False) -> str:
    """The cuts proposed in a report as terminal text, most pressing first.

    Args:
        report: The report of `preflight(..., cuts=True)`.
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        Lines of at most `width` cells.
    """
    sheet = Sheet(width=width, colour=colour)
    found = proposals(report)
    name = one_line(report.source or report.title or "script")
    if not found:
        sheet.line(Cell(name, "strong"), "  Nothing is too long: no cuts to propose.")
        return sheet.text()
    places = counted(len({one.where for one in found}), "place")
    sheet.line(Cell(name, "strong"), f"  {places} with too much, most pressing first")
    last = ""
    for one in found:
        if one.where != last:
            sheet.line()
        write_proposal(sheet, one, again=one.where == last)
        last = one.where
    sheet.line()
    sheet.table((Column(wraps=True),), [(Cell(cut_advice(report), "quiet"),)])
    return sheet.text()


def cut_advice(report: ScriptReport) -> str:
    """What proposals are, and on whose word the limits stand."""
    return ADVICE.format(limits=whose(report.limits, usual="Limits of words and cover are"))


def write_proposal(sheet: Sheet, one: Proposal, *, again: bool = False) -> None:
    """Write where there is too much, and what may go from there.

    Args:
        sheet: What is written on.
        one: The proposal.
        again: Whether another for the same place stands right above.
    """
    if not again:
        sheet.line(Cell(one.where, "strong"), f"  {one.why}  ", Cell(f"line {one.line}", "quiet"))
    sheet.table(ROWS, list(_rows(one, again=again)))


def _rows(one: Proposal, *, again: bool) -> Iterator[tuple[Cell | str, Cell | str]]:
    if not one.cuts:
        yield "", NO_CUT
    else:
        yield "", Cell(cut_head(one, "Or cut" if again else "Cut"), "strong")
    if one.least is not None:
        yield "", least_told(one.least, one)
        if len(one.least.gives) > 1:
            yield "", _most(one.least)
    for own in one.cuts:
        yield "-", gone_told(own)
        yield "=", one_line(own.text)
        yield "", Cell(cut_figures(own, named=own.where != one.where), "quiet")


def gone_told(cut: Cut) -> str:
    """What a cut takes out, and why that."""
    gone = " / ".join(map(one_line, cut.removed))
    return f"{gone} ({', '.join(dict.fromkeys(cut.kinds))})"


def cut_head(one: Proposal, verb: str) -> str:
    """What a proposal comes to: words and cover, before and after."""
    cut = one.words - one.words_after
    text = f"{verb} {counted(cut, 'word')}: {one.words} to {one.words_after}"
    if one.least is None and one.least_words and one.least_words < cut:
        text += f" ({one.least_words} at least)"
    if one.coverage:
        text += f"; cover {one.coverage[0]:.0%} to {one.coverage[1]:.0%}"
    return text


def least_told(least: LeastWords, one: Proposal) -> str:
    """What is known of the least number of words, beside a proposal that takes out so many."""
    cut, words = one.words - one.words_after, one.words
    if least.at_most is None:
        if least.gives and least.at_least > words - len(least.gives):
            return "Not even a word a balloon will do."
        return f"At least {counted(least.at_least, 'word')} must go; no cut was found that does."
    enough = counted(least.at_most, "word")
    if least.proved:
        if least.at_most == cut:
            return "No fewer will do."
        return f"{enough} would do, chosen by measure alone; no fewer will."
    chosen = "" if least.at_most == cut else ", chosen by measure alone"
    return f"At least {counted(least.at_least, 'word')} must go; {least.at_most} would do{chosen}."


def _most(least: LeastWords) -> str:
    """Which balloon gives most."""
    first = least.gives[0]
    won = f"{first.area_per_word_mm2:.0f} mm² a word"
    if first.alone is None:
        return f"{first.where} gives most, {won}; no balloon alone would do."
    return f"{first.where} gives most: {counted(first.alone, 'word')} alone would do, {won}."


def cut_figures(cut: Cut, *, named: bool) -> str:
    """A balloon before and after a cut, with its name if asked."""
    before, after = cut.before, cut.after
    told = [
        f"words {before.words} to {after.words}",
        f"lines {len(before.lines)} to {len(after.lines)}",
        f"area {before.area_mm2:.0f} to {after.area_mm2:.0f} mm²",
        f"{_size(before)} to {_size(after)} mm",
    ]
    return (f"{cut.where}: " if named else "") + ", ".join(told)


def _size(fitted: FittedBalloon) -> str:
    outline = fitted.outline
    return f"{2 * outline.half_width:.0f} x {2 * outline.half_height:.0f}"
