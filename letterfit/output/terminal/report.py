"""The report for the terminal: the verdict, what to do, then the tables that show why."""

from letterfit.counting import counted, does
from letterfit.findings import Finding
from letterfit.output.balloon_json import family_name
from letterfit.output.panel_state import states_of
from letterfit.output.terminal.figures import write_figures
from letterfit.output.terminal.limits import whose
from letterfit.output.terminal.pace import write_pace
from letterfit.output.terminal.panels import write_panels
from letterfit.output.terminal.sheet import Cell, Column, Sheet, Tone
from letterfit.output.terminal.todo import Item, items, named, notes, tally
from letterfit.report.model import ScriptReport

MOST_ITEMS = 10
"""So many things to do are listed; the rest are counted."""

MOST_NOTES = 3
"""So many notes are told; more are counted by kind."""

ITEM_COLUMNS = (Column(), Column(), Column(right=True), Column(wraps=True))

FOOTNOTE = (
    "{limits} common practice and advice, no rule; the printer's own specification decides bleed, "
    "live area and least type size. Figure room: the tallest standing figure that clears all "
    "balloons, and its share of the panel's height. Framing: how much of a figure shows there when "
    "it is drawn {whole:.0%} as high as the panel."
)


def to_text(report: ScriptReport, *, width: int = 80, colour: bool = False) -> str:
    r"""The report as terminal text that leads with what needs doing.

    Args:
        report: The whole report.
        width: Cells in a line.
        colour: Whether to colour with escape codes; nothing is said by colour alone.

    Returns:
        Lines of at most `width` cells, a line feed at the end. The same report gives the same
        characters.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n", source="gate.txt")
    >>> to_text(lf.preflight(script)).splitlines()[0]
    '✓ The one panel fits.'
    """
    sheet = Sheet(width=width, colour=colour)
    todo = items(report)
    sheet.line(*headline(report, todo), indent=2)
    sheet.line(Cell(setting_told(report), "quiet"), indent=2)
    sheet.line()
    _write_todo(sheet, todo, report)
    write_panels(sheet, report)
    write_figures(sheet, report)
    if report.pages:
        write_pace(sheet, report)
        sheet.line()
    sheet.line(Cell(footnote(report), "quiet"))
    return sheet.text()


def footnote(report: ScriptReport) -> str:
    """On whose word the limits stand, and what figure room and framing mean."""
    return FOOTNOTE.format(limits=whose(report.limits), whole=report.limits.whole_figure)


def headline(report: ScriptReport, todo: tuple[Item, ...]) -> tuple[Cell, ...]:
    """The verdict on the whole script in one line."""
    states = [state for page in report.pages for state in states_of(page).values()]
    failing, count = states.count("fails"), len(states)
    tone: Tone = "fails" if failing else "doubt" if todo else "fits"
    if not count:
        return (Cell("! There is nothing to check: the script has no panels.", "doubt"),)
    if failing:
        doubt = states.count("doubt")
        more = f"; {doubt} more {'fits' if doubt == 1 else 'fit'} against advice" if doubt else ""
        if count == 1:
            return (Cell("✗ The one panel does not fit.", tone),)
        return (Cell(f"✗ {failing} of {count} panels {does(failing)} not fit{more}.", tone),)
    fit = "The one panel fits" if count == 1 else f"All {count} panels fit"
    if not todo:
        return (Cell(f"✓ {fit}.", tone),)
    if not report.fits:
        return (Cell(f"✗ {fit}, but not all of the lettering can be set.", "fails"),)
    return (Cell(f"! {fit}; {counted(len(todo), 'thing')} to look at again.", tone),)


def setting_told(report: ScriptReport) -> str:
    """The script's name, its paper and its lettering in one line."""
    lettering, paper = report.lettering, report.paper
    width, height = paper.trim
    way = "" if report.reading == "ltr" else "read right to left"
    parts = [
        report.source or report.title or "",
        f"{paper.name} {width:.1f} x {height:.1f} mm",
        f"{family_name(lettering)} {lettering.size_pt:g} pt".strip(),
        way,
    ]
    return " · ".join(part for part in parts if part)


def _write_todo(sheet: Sheet, todo: tuple[Item, ...], report: ScriptReport) -> None:
    noted = notes(report)
    if todo:
        sheet.line(Cell("WHAT TO DO", "strong"), "  most pressing first")
        sheet.table(ITEM_COLUMNS, [_item_row(item) for item in todo[:MOST_ITEMS]])
        rest = len(todo) - MOST_ITEMS
        if rest > 0:
            sheet.line(f"  and {rest} more: marked ✗ or ! below, in full with --json", indent=2)
    if len(noted) > MOST_NOTES:
        sheet.line(Cell(f"  Worth knowing: {tally(noted)}; see --json", "quiet"), indent=2)
    elif noted:
        sheet.line(Cell("  Worth knowing", "quiet"))
        sheet.table(ITEM_COLUMNS, [_note_row(note) for note in noted])
    if todo or noted:
        sheet.line()


def _note_row(note: Finding) -> list[Cell | str]:
    line = "" if note.line is None else f"line {note.line}"
    return ["·", named(note.where), line, note.message]


def _item_row(item: Item) -> list[Cell | str]:
    tone: Tone = "fails" if item.grave else "doubt"
    return [
        Cell("✗" if item.grave else "!", tone),
        Cell(item.where, tone),
        "" if item.line is None else f"line {item.line}",
        "\n".join(part for part in (item.what, item.todo and f"→ {item.todo}") if part),
    ]
