"""The section on pace: words page by page as bars, each voice's share, the middle and the most."""

from collections.abc import Sequence

from letterfit.counting import counted
from letterfit.output.terminal.limits import word_limits
from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.report.model import PageReport, ScriptReport
from letterfit.report.pace import Pace, PagePace, SpeakerShare, Typical, pace_of

BAR_CELLS = 20
"""Length of the bar of a page that is just at the limit."""

MOST_VOICES = 8
"""So many voices have a line of their own; the rest share one."""

COLUMNS = (
    Column(head="page"),
    Column(head="words", right=True),
    Column(head="against the limit"),
    Column(head="panels", right=True),
    Column(head="balloons", right=True),
    Column(head="words each", right=True),
    Column(head="figure", right=True),
)

VOICE_COLUMNS = (
    Column(head="voice", wraps=True),
    Column(head="balloons", right=True),
    Column(head="words", right=True),
    Column(head="of all words", right=True),
    Column(head="of lettered area", right=True),
)


def write_pace(sheet: Sheet, report: ScriptReport) -> None:
    """A line for each page, a line for each voice, and the script's own figures in a sentence."""
    pace = pace_of(report)
    sheet.line(Cell("PACE", "strong"), f"  {word_limits(report.limits)}", indent=6)
    curve = zip(report.pages, pace.pages, strict=True)
    sheet.table(COLUMNS, [_row(page, own, report) for page, own in curve])
    if pace.voices:
        sheet.line()
        sheet.table(VOICE_COLUMNS, voice_rows(pace.voices))
    if pace.panels:
        sheet.line()
        sheet.line(f"  {typical_told(pace)}", indent=2)


def _row(page: PageReport, pace: PagePace, report: ScriptReport) -> list[Cell | str]:
    limit = report.limits.words_per_page * pace.sheets
    over = pace.words > limit
    return [
        pace.label,
        Cell(str(pace.words), "doubt" if over else ""),
        Cell(bar(pace.words / limit) + (" !" if over else ""), "doubt" if over else "quiet"),
        str(pace.panels),
        str(pace.balloons),
        f"{pace.words / pace.balloons:.1f}" if pace.balloons else "-",
        f"{page.figure_height_mm:.0f} mm" if page.fits and page.panels else "-",
    ]


def voice_rows(voices: Sequence[SpeakerShare]) -> list[list[Cell | str]]:
    """A line for each voice, most words first; more than a few share the last line."""
    own = voices if len(voices) <= MOST_VOICES else voices[: MOST_VOICES - 1]
    rest = voices[len(own) :]
    rows = [_voice_row(share.speaker or share.voice, [share]) for share in own]
    return [*rows, _voice_row(f"{len(rest)} more", rest)] if rest else rows


def _voice_row(name: str, shares: Sequence[SpeakerShare]) -> list[Cell | str]:
    return [
        name,
        str(sum(share.balloons for share in shares)),
        str(sum(share.words for share in shares)),
        percent_of(sum(share.words_share for share in shares)),
        percent_of(sum(share.area_share for share in shares)),
    ]


def percent_of(share: float) -> str:
    """A share that is not nothing is never shown as nothing, nor all but all as all."""
    if 0 < share < 0.005:
        return "<1%"
    return ">99%" if 0.995 <= share < 1 - 1e-9 else f"{share:.0%}"


def typical_told(pace: Pace) -> str:
    """What is typical of the script, and where it is silent."""
    told = [
        _pair(pace.words_per_balloon, "words a balloon"),
        _pair(pace.words_per_panel, "a panel" if pace.balloons else "words a panel"),
        _pair(pace.words_per_tier, "a tier"),
        _pair(pace.balloons_per_panel, "balloons a panel"),
    ]
    return f"Median (most): {', '.join(part for part in told if part)}. {_silence(pace)}"


def _pair(typical: Typical | None, what: str) -> str:
    return "" if typical is None else f"{typical.median:g} ({typical.most:g}) {what}"


def _silence(pace: Pace) -> str:
    run = pace.longest_silence
    if run is None:
        return "No panel is silent."
    verb = "is" if pace.silent_panels == 1 else "are"
    told = f"{pace.silent_panels} of {counted(pace.panels, 'panel')} {verb} silent"
    if run.panels == 1:
        return f"{told}, never two in a row." if pace.silent_panels > 1 else f"{told}: {run.first}."
    return f"{told}, at most {run.panels} in a row: {run.first} to {run.last}."


def bar(share: float) -> str:
    """A bar that is full at the limit; what goes over it is drawn heavier, up to a quarter more.

    >>> bar(0.25), bar(1.2)
    ('▪▪▪▪▪...............', '▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪■■■■')
    """
    cells = round(share * BAR_CELLS)
    inside = min(cells, BAR_CELLS)
    over = min(max(cells - BAR_CELLS, 0), BAR_CELLS // 4)
    return "▪" * inside + "." * (BAR_CELLS - inside) + "■" * over
