"""The bundled typefaces in text: styles, measures at print size, scripts they cover, licence."""

from letterfit.lettering import Typeface, open_typeface
from letterfit.lettering.bundled import BUNDLED, DEFAULT_FAMILY, SYMBOLS
from letterfit.lettering.face import Face
from letterfit.output.terminal.sheet import Cell, Column, Sheet

STYLE_NAMES = {"regular": "R", "bold": "B", "italic": "I", "bold italic": "BI"}

# Letters that tell whether a face sets a group of languages: the letters beyond a-z of their
# alphabets (Unicode CLDR, main exemplar characters; from memory).
ALPHABETS = {
    "Western": "ÀÂÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÖØŒÙÚÛÜŸß¿¡«»",
    "Central": "ĄĆČĎĘĚŁŃŇŐÓŘŚŠŤŮŰŹŻŽĂȘȚ",
    "Cyrillic": "АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯЁЄІЇҐ",
    "Greek": "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩΆΈΉΊΌΎΏ",
}
CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

COLUMNS = (
    Column(head="family"),
    Column(head="styles"),
    Column(head="cap height", right=True),
    Column(head="mean capital", right=True),
    Column(head="languages", wraps=True),
)

FOOTNOTE = (
    "Cap height and mean capital (advance) as shares of the type size. R regular, B bold, "
    "I italic, BI bold italic; emphasis falls back on the nearest style there is. What a face "
    "lacks is taken from Balsamiq Sans, Comic Relief and Letterfit Symbols, and reported. All are "
    "under the SIL Open Font License 1.1, whole and unmodified; OFL.txt lies beside each family. "
    "A path to your own font file serves as well: --typeface FILE."
)


def fonts_to_text(*, width: int = 80, colour: bool = False) -> str:
    """The bundled typefaces as terminal text.

    Args:
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        A table, a line for each family; lines of at most `width` cells.
    """
    sheet = Sheet(width=width, colour=colour)
    families = [open_typeface(name) for name in BUNDLED if name != SYMBOLS]
    sheet.line(Cell(f"{len(families)} typefaces come with letterfit", "strong"))
    sheet.table(COLUMNS, [_row(typeface) for typeface in families])
    sheet.line()
    sheet.line(Cell(FOOTNOTE, "quiet"))
    return sheet.text()


def _row(typeface: Typeface) -> list[Cell | str]:
    face = typeface.styled("regular")
    default = " (default)" if typeface.family == DEFAULT_FAMILY else ""
    return [
        Cell(f"{typeface.family}{default}", "strong"),
        " ".join(STYLE_NAMES[style] for style in typeface.styles),
        f"{face.cap_height_em:.3f}",
        f"{mean_capital(face):.3f}",
        ", ".join(languages(face)) or "English",
    ]


def mean_capital(face: Face) -> float:
    """The mean advance of A to Z in em, unkerned: how wide the face runs."""
    return sum(face.advance_em(letter) for letter in CAPITALS) / len(CAPITALS)


def languages(face: Face) -> tuple[str, ...]:
    """The groups of languages whose every letter the face has."""
    return tuple(name for name, letters in ALPHABETS.items() if all(map(face.covers, letters)))
