"""The print proof: every page of a report at print size, and a page to check the print by.

Pages are drawn as for SVG, once, with their lines kept; then the fonts are cut down to what the
lines use; then drawing and lines become content streams.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from letterfit.output.pdf.alphabet import Alphabet
from letterfit.output.pdf.check_page import check_page, check_paper
from letterfit.output.pdf.content import PdfPage, References, content_of
from letterfit.output.pdf.extra import check_extra
from letterfit.output.pdf.fonts import DocumentFont, embedded
from letterfit.output.pdf.permits import Permits
from letterfit.output.pdf.runs import Run, Runs
from letterfit.output.pdf.text import text_operators
from letterfit.output.plain import one_line
from letterfit.output.svg.faces import face_source, glyph_source
from letterfit.output.svg.page import drawn_page
from letterfit.paper.sheet import Paper
from letterfit.report.model import ScriptReport

CHECK = "Print check"

LANGUAGE = "en"
"""That of labels and of the last page."""


def to_pdf(report: ScriptReport) -> bytes:
    r"""A report's pages as one PDF at print size, and a last page to check the print by.

    Args:
        report: The report.

    Returns:
        PDF 1.7. Each page has its trim, bleed and live area as TrimBox, BleedBox and ArtBox (ISO
        32000-1, 14.11.2). Lettering is text in embedded fonts, in the order of the script, glyphs
        where they were measured; fonts that may not be embedded are drawn, which the last page
        says. The file is tagged: pages, panels and balloons in reading order, each balloon with
        what it reads and in which language. It is a proof: what a printer wants delivered, the
        printer's own specification says.
        The same report gives the same bytes with the same version of pikepdf.

    Raises:
        LetterfitError: When the extra `letterfit[pdf]` is not installed.
        FontError: When a face is not found.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> to_pdf(lf.preflight(script))[:8]
    b'%PDF-1.7'
    """
    check_extra()
    from letterfit.output.pdf.document import written  # noqa: PLC0415 - an extra

    permits = Permits(face_source(report.lettering))
    drawings = list(_drawings(report, permits))
    runs = [run for drawing in drawings for run in drawing.runs]
    alphabet = Alphabet(permits.faces, runs)
    fonts = embedded(runs, alphabet, permits.faces)
    pages = [_set(drawing, fonts, alphabet) for drawing in drawings]
    title = one_line(report.title or report.source or "Lettering proof")
    return written(pages, fonts, alphabet, title=title, language=LANGUAGE)


@dataclass(frozen=True, slots=True)
class _Drawing:
    """A page drawn as SVG, and its lines."""

    label: str
    name: str
    paper: Paper
    svg: str
    runs: list[Run]
    language: str


def _drawings(report: ScriptReport, permits: Permits) -> Iterator[_Drawing]:
    source = glyph_source(report.lettering)
    for page in report.pages:
        runs = Runs(source, permits)
        svg = drawn_page(page, glyphs=runs)
        language = page.setting.language if page.setting else LANGUAGE
        yield _Drawing(page.label, f"Page {page.label}", page.plan.paper, svg, runs.kept, language)
    runs = Runs(source, permits)
    svg = check_page(report, glyphs=runs, refused=permits.refused)
    yield _Drawing(CHECK, CHECK, check_paper(report.paper), svg, runs.kept, LANGUAGE)


def _set(drawing: _Drawing, fonts: dict[str, DocumentFont], alphabet: Alphabet) -> PdfPage:
    set_fonts = {name: font.set_font for name, font in fonts.items()}

    def references(number: int) -> tuple[list[str], list[str]]:
        return text_operators(drawing.runs[number], set_fonts, alphabet)

    asked: References = references
    return PdfPage(
        label=drawing.label,
        name=drawing.name,
        paper=drawing.paper,
        content=content_of(drawing.svg, asked),
        language=drawing.language,
    )
