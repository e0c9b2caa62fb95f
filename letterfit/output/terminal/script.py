"""A script as it was understood: pages, panels and what is lettered, each with its line."""

from letterfit.counting import counted
from letterfit.findings import Finding
from letterfit.output.terminal.marks import finding_mark
from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.script.model import Dialogue, Script, ScriptPage, ScriptPanel

COLUMNS = (Column(right=True), Column(), Column(wraps=True))
LANGUAGES = {
    "en": "English", "fr": "French", "es": "Spanish", "de": "German", "it": "Italian",
    "pt": "Portuguese", "nl": "Dutch", "ja": "Japanese",
}  # fmt: skip
"""English names of the languages that headings are read in (ISO 639-1)."""

MOST_DESCRIPTION = 72
"""Characters of a panel's description that are shown: enough to know it again."""


def script_to_text(script: Script, *, width: int = 80, colour: bool = False) -> str:
    r"""A parsed script as terminal text: what was understood, with the line of each part.

    Args:
        script: The script.
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        Findings first, then the pages; lines of at most `width` cells.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n", source="gate.txt")
    >>> print(script_to_text(script), end="")
    gate.txt · 1 page · 1 panel · 1 lettered element · headings in English
    <BLANKLINE>
    PAGE 1  line 1, 1 panel
      3  panel 1     The lock.
      4    dialogue  WENNA: Shut.
    """
    sheet = Sheet(width=width, colour=colour)
    sheet.line(Cell(_headline(script), "strong"), indent=2)
    if script.findings:
        sheet.line()
        sheet.table(
            (Column(), Column(right=True), Column(wraps=True)),
            [_finding_row(finding) for finding in script.findings],
        )
    for page in script.pages:
        sheet.line()
        _write_page(sheet, page)
    return sheet.text()


def _headline(script: Script) -> str:
    panels = [panel for page in script.pages for panel in page.panels]
    elements = sum(len(panel.elements) for panel in panels)
    parts = [
        script.title or script.source or "Script",
        counted(len(script.pages), "page"),
        counted(len(panels), "panel"),
        counted(elements, "lettered element"),
        f"headings in {LANGUAGES.get(script.language, script.language)}",
    ]
    return " · ".join(parts)


def _finding_row(finding: Finding) -> list[Cell | str]:
    advice = f"\n→ {finding.advice}" if finding.advice else ""
    line = "" if finding.line is None else f"line {finding.line}"
    return [finding_mark(finding), line, f"{finding.message}{advice}"]


def _write_page(sheet: Sheet, page: ScriptPage) -> None:
    kind = "SPREAD" if page.spread else "PAGE"
    facts = [f"line {page.line}", counted(len(page.panels), "panel")]
    if page.stated_panel_count not in (None, len(page.panels)):
        facts.append(f"its heading says {page.stated_panel_count}")
    if page.plan:
        facts.append(f"plan {page.plan}")
    sheet.line(Cell(f"{kind} {page.label}", "strong"), "  ", ", ".join(facts), indent=2)
    if page.note:
        sheet.line(Cell(f"  {page.note}", "quiet"), indent=2)
    rows = [row for panel in page.panels for row in _panel_rows(panel)]
    if rows:
        sheet.table(COLUMNS, rows)


def _panel_rows(panel: ScriptPanel) -> list[list[Cell | str]]:
    description = " ".join(panel.description.split())
    if len(description) > MOST_DESCRIPTION:
        description = f"{description[:MOST_DESCRIPTION].rsplit(' ', 1)[0]} ..."
    head: list[Cell | str] = [
        Cell(str(panel.line), "quiet"),
        Cell(f"panel {panel.number}", "strong"),
        Cell(description, "quiet"),
    ]
    return [head, *(_element_row(element) for element in panel.elements)]


def _element_row(element: Dialogue) -> list[Cell | str]:
    manner = f"({', '.join(element.modifiers)})" if element.modifiers else ""
    who = " ".join(filter(None, [element.speaker, manner]))
    number = "" if element.index is None else f"{element.index}. "
    says = f"{number}{who}: " if who else number
    return [Cell(str(element.line), "quiet"), f"  {element.kind}", f"{says}{element.text}"]
