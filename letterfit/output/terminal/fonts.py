"""Typefaces in text: styles, measures, languages and what lacks, licence, what is odd."""

from collections.abc import Iterator, Sequence
from unicodedata import normalize

from letterfit.lettering.fonts.alphabets import languages
from letterfit.lettering.fonts.bundled import DEFAULT_FAMILY
from letterfit.lettering.fonts.contents import FileFace
from letterfit.lettering.fonts.embedding import NO_ADVICE
from letterfit.lettering.fonts.facts import FontFacts, bundled_families
from letterfit.output.terminal.sheet import Cell, Column, Sheet

STYLE_NAMES = {"regular": "R", "bold": "B", "italic": "I", "bold italic": "BI"}

COLUMNS = (
    Column(head="family"),
    Column(head="styles"),
    Column(head="cap height", right=True),
    Column(head="x-height", right=True),
    Column(head="mean capital", right=True),
    Column(head="languages", right=True),
)

ROWS = (Column(), Column(wraps=True))
"""What is told, and the telling."""

FOOTNOTE = (
    "* the default. Cap height, x-height and mean capital (its advance) as shares of the type "
    "size. R regular, B bold, I italic, BI bold italic. A style that a family lacks is set in the "
    "nearest it has; a letter it lacks is taken from Balsamiq Sans, Comic Relief or Letterfit "
    "Symbols, and reported. Your own font file serves as well: letterfit fonts FILE."
)
SHARES = "Heights and widths are measured, as shares of the type size. " + NO_ADVICE


def fonts_to_text(
    facts: Sequence[FontFacts] | None = None, *, width: int = 80, colour: bool = False
) -> str:
    """Typefaces as terminal text.

    Args:
        facts: What is known of each; None tells of the bundled families, in one table.
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        Lines of at most `width` cells.

    >>> fonts_to_text().splitlines()[0]
    '5 typefaces come with letterfit'
    """
    sheet = Sheet(width=width, colour=colour)
    if facts is None:
        _overview(sheet, bundled_families())
    else:
        for one in facts:
            sheet.line(Cell(one.family, "strong"))
            sheet.table(ROWS, [(Cell(label, "quiet"), told) for label, told in _told(one) if told])
            sheet.line()
        sheet.line(Cell(SHARES, "quiet"))
    return sheet.text()


def _overview(sheet: Sheet, families: Sequence[FontFacts]) -> None:
    """The bundled families side by side."""
    sheet.line(Cell(f"{len(families)} typefaces come with letterfit", "strong"))
    sheet.table(COLUMNS, [_row(facts) for facts in families])
    sheet.line()
    common = set(families[0].languages).intersection(*(facts.languages for facts in families))
    told = [("all of them", _names(sorted(common)))]
    for facts in families:
        further = [tag for tag in facts.languages if tag not in common]
        if further:
            told.append((f"{facts.family} also", _names(further)))
    sheet.line(Cell("LANGUAGES", "strong"))
    sheet.table(ROWS, [(label, names) for label, names in told])
    sheet.line()
    for licence in dict.fromkeys(_first_sentence(facts.licence.text) for facts in families):
        sheet.line(Cell(f"Licence: {licence}", "quiet"))
    sheet.line(Cell(FOOTNOTE, "quiet"))


def _row(facts: FontFacts) -> list[Cell | str]:
    default = " *" if facts.family == DEFAULT_FAMILY else ""
    return [
        Cell(f"{facts.family}{default}", "strong"),
        " ".join(STYLE_NAMES[style] for style in facts.styles),
        f"{facts.cap_height_em:.3f}",
        f"{facts.x_height_em:.3f}",
        f"{facts.capital_width_em:.3f}",
        f"{len(facts.languages)}",
    ]


def _told(facts: FontFacts) -> Iterator[tuple[str, str]]:
    """All that is known of one typeface, in the order in which one asks."""
    yield "styles", ", ".join(facts.styles)
    several = any(face.index for face in facts.contents)
    for n, face in enumerate(facts.contents):
        yield "holds" if not n else "", _held(face, numbered=several)
    yield "cap height", f"{facts.cap_height_em:.3f}, x-height {facts.x_height_em:.3f}"
    yield "mean capital", f"{facts.capital_width_em:.3f} wide"
    covered = _names(facts.languages) or "none whole"
    yield "languages", f"{len(facts.languages)}: {covered}" if facts.languages else covered
    yield from (
        ("nearly" if not n else "", f"{near.name} lacks {' '.join(near.missing)}")
        for n, near in enumerate(facts.nearly)
    )
    yield "signs", f"lacks {' '.join(facts.missing_punctuation)}" * bool(facts.missing_punctuation)
    yield "else from", ", ".join(facts.fallback)
    yield "licence", facts.licence.text
    yield "", facts.licence.url * (facts.licence.url not in facts.licence.text)
    yield "copyright", facts.licence.copyright
    yield "embedding", facts.embedding.words
    yield from (
        ("beware" if not n else "", f"{finding.message} {finding.advice}")
        for n, finding in enumerate(facts.findings)
    )


def _held(face: FileFace, *, numbered: bool) -> str:
    """A face of a font file in one paragraph, with its number where a file has several."""
    number = f"face {face.index}: " if numbered else ""
    parts = [f"{number}{face.family} {face.style_name}".rstrip()]
    parts += [f"{a.tag} {a.low:g} to {a.high:g}, default {a.default:g}" for a in face.axes]
    if face.instances:
        parts.append("instances " + ", ".join(instance.name for instance in face.instances))
    return "; ".join(parts)


def _names(tags: Sequence[str]) -> str:
    names = [languages()[tag].name for tag in tags]
    return ", ".join(sorted(names, key=lambda name: normalize("NFD", name)))


def _first_sentence(text: str) -> str:
    return text.partition(". ")[0]
