"""The pace of a script in a notebook: words page by page, whose they are, what is usual."""

from letterfit.output.html.markup import element, words
from letterfit.output.html.tables import Head, table
from letterfit.output.terminal.pace import VOICE_COLUMNS, typical_told, voice_rows
from letterfit.output.terminal.sheet import Cell, Column, Sheet, text_of
from letterfit.report.pace import Pace, PagePace
from letterfit.shown import as_html, as_text

PAGE_COLUMNS = (
    Column(head="page"),
    Column(head="words", right=True),
    Column(head="panels", right=True),
    Column(head="silent", right=True),
    Column(head="balloons", right=True),
    Column(head="covered", right=True),
)


@as_html.register
def pace_html(value: Pace) -> str:
    """A table of pages, a table of voices, and the script's own figures in a sentence."""
    parts = [_table(PAGE_COLUMNS, list(map(_row, value.pages)), caption="Words, page by page")]
    if value.voices:
        parts.append(_table(VOICE_COLUMNS, voice_rows(value.voices), caption="Whose words"))
    if value.panels:
        parts.append(element("p", words(typical_told(value))))
    return element("div", parts)


@as_text.register
def pace_text(value: Pace) -> str:
    """The same, letter under letter."""
    sheet = Sheet()
    sheet.table(PAGE_COLUMNS, list(map(_row, value.pages)))
    if value.voices:
        sheet.line()
        sheet.table(VOICE_COLUMNS, voice_rows(value.voices))
    if value.panels:
        sheet.line()
        sheet.line(f"  {typical_told(value)}", indent=2)
    return sheet.text().rstrip("\n")


def _row(page: PagePace) -> list[Cell | str]:
    return [
        page.label,
        str(page.words),
        str(page.panels),
        str(page.silent_panels),
        str(page.balloons),
        f"{page.mean_coverage:.0%}",
    ]


def _table(columns: tuple[Column, ...], rows: list[list[Cell | str]], *, caption: str) -> str:
    heads = [Head(text=column.head, number=column.right) for column in columns]
    cells = [[words(text_of([cell])) for cell in row] for row in rows]
    return table(heads, cells, caption=caption)
