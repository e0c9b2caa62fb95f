"""The bundled typefaces in text: styles, measures at print size, languages, licence."""

from letterfit.lettering import FontFacts, bundled_families
from letterfit.lettering.bundled import DEFAULT_FAMILY
from letterfit.output.terminal.sheet import Cell, Column, Sheet

STYLE_NAMES = {"regular": "R", "bold": "B", "italic": "I", "bold italic": "BI"}

COLUMNS = (
    Column(head="family"),
    Column(head="styles"),
    Column(head="cap height", right=True),
    Column(head="mean capital", right=True),
    Column(head="languages", wraps=True),
)

FOOTNOTE = (
    "* the default. Cap height and mean capital (its advance) as shares of the type size. "
    "R regular, B bold, "
    "I italic, BI bold italic. A style that a family lacks is set in the nearest it has; a letter "
    "it lacks is taken from Balsamiq Sans, Comic Relief or Letterfit Symbols, and reported. "
    "Your own font file serves as well: --typeface FILE."
)


def fonts_to_text(*, width: int = 80, colour: bool = False) -> str:
    """The bundled typefaces as terminal text.

    Args:
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        A table, a row for each family; lines of at most `width` cells.
    """
    sheet = Sheet(width=width, colour=colour)
    families = bundled_families()
    sheet.line(Cell(f"{len(families)} typefaces come with letterfit", "strong"))
    sheet.table(COLUMNS, [_row(facts) for facts in families])
    sheet.line()
    for licence in dict.fromkeys(facts.licence for facts in families):
        sheet.line(Cell(f"Licence: {licence}", "quiet"))
    sheet.line(Cell(FOOTNOTE, "quiet"))
    return sheet.text()


def _row(facts: FontFacts) -> list[Cell | str]:
    default = " *" if facts.family == DEFAULT_FAMILY else ""
    return [
        Cell(f"{facts.family}{default}", "strong"),
        " ".join(STYLE_NAMES[style] for style in facts.styles),
        f"{facts.cap_height_em:.3f}",
        f"{facts.capital_width_em:.3f}",
        " ".join(facts.languages),
    ]
