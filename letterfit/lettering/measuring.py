"""Measuring: a text of the script to measured `Words`, in named steps.

1. clean the text, read its emphasis, put it in capitals;
2. cut it into runs of one face, script and direction;
3. find where its lines may break;
4. shape it once, and cut the pieces between breaks out of it;
5. set anew the few lines that are not a slice of it;
6. say what the reader should know.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from letterfit.errors import FontError
from letterfit.findings import Finding
from letterfit.lettering.breaks.pieces import Pieces, cut_pieces, text_pieces
from letterfit.lettering.plain_text import cap_height_em, letter_book, short_way
from letterfit.lettering.remarks import is_unremarkable, remarks
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping.cutting import TextSetter
from letterfit.lettering.shaping.pair_setter import PairSetter
from letterfit.lettering.shaping.reshaping import Cutting, reshaped_lines, widest_line
from letterfit.lettering.shaping.runs import Itemised, itemise
from letterfit.lettering.shaping.shaping import Shaped, Source, shape
from letterfit.lettering.style.crossbar import slot_letters
from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.styling import Styled, styled
from letterfit.lettering.vertical.breaks import column_language, column_pieces
from letterfit.lettering.vertical.shaping import standing_runs
from letterfit.lettering.words import SetLine, Setter, Words
from letterfit.outline import Floats


def measure(  # noqa: PLR0913 - one text, one lettering; the rest says where it came from
    text: str,
    lettering: Lettering,
    *,
    language: str = "en",
    where: str = "",
    line: int | None = None,
    keep_lines: bool = False,
) -> Words:
    """Measure a text for fitting.

    Args:
        text: As it stands in the script, with its emphasis marks.
        lettering: How it is set.
        language: BCP 47 tag: decides capitals, breaks and shaping.
        where: "page.panel.balloon", for the findings.
        line: Line of the script, for the findings.
        keep_lines: Whether line ends in the text are forced breaks; else they are spaces.

    Returns:
        Its pieces between allowed breaks, exact. No pieces for a text without visible characters.

    Raises:
        FontError: When a bundled font is missing, or a font sets words backwards.

    >>> words = measure("The gate is *shut*.", Lettering(size_pt=10))
    >>> words.text, words.count, [round(float(x), 2) for x in words.starts]
    ('THE GATE IS SHUT.', 4, [0.0, 6.54, 15.2, 19.31])
    """
    short = short_way(lettering, language)
    plain = short.words(text) if short else None
    if plain is not None:
        return plain
    vertical = lettering.writing == "vertical"
    if vertical:
        language = column_language(language)
    style = styled(text, lettering, language=language, keep_lines=keep_lines)
    pieces = _pieces(style.text, lettering, language)
    known = _from_book(text, style, pieces, lettering, language)
    if known is not None:
        return known
    cut = itemise(_without_ends(style.spans), lettering.typeface, language=language)
    shaped = shape(_source(cut, style, lettering, language, vertical=vertical))
    found = remarks(text, cut, lettering.typeface, where=where, line=line)
    return _words(shaped, pieces, lettering, found)


def _pieces(text: str, lettering: Lettering, language: str) -> Pieces:
    """The text cut where its lines may end."""
    if lettering.writing == "vertical":
        return column_pieces(text, language=language, rules=lettering.breaks)
    return text_pieces(text, language=language, rules=lettering.breaks)


def measure_ink(text: str, lettering: Lettering, *, language: str = "en") -> SetLine:
    """A text on one line, such as a sound effect; fit it by `bounds()`, the box of its ink.

    It is set horizontally, whatever the direction of writing: it belongs to the picture.

    Args:
        text: As it stands in the script, with its emphasis marks.
        lettering: How it is set.
        language: BCP 47 tag.

    >>> [round(edge, 2) for edge in measure_ink("krrrk", Lettering(size_pt=20)).bounds()]
    [0.37, -4.67, 18.5, 0.11]
    """
    style = styled(text, lettering, language=language)
    pieces = cut_pieces(style.text, ())
    cut = itemise(style.spans, lettering.typeface, language=language)
    words = _words(shape(_source(cut, style, lettering, language)), pieces, lettering, ())
    return words.line(0, 0) if len(words) else SetLine("", 0.0, np.zeros((0, 4)))


def _without_ends(spans: Sequence[Span]) -> Sequence[Span]:
    """The spans with forced line ends as spaces: they are no characters to be set."""
    if not any("\n" in span.text for span in spans):
        return spans
    return [Span(span.text.replace("\n", " "), span.style) for span in spans]


def _source(
    cut: Itemised, style: Styled, lettering: Lettering, language: str, *, vertical: bool = False
) -> Source:
    """What is to be shaped, and how."""
    crossbar = lettering.habits.crossbar
    return Source(
        text=cut.text,
        runs=standing_runs(cut.text, cut.runs) if vertical else cut.runs,
        language=language,
        rtl=cut.rtl,
        vertical=vertical,
        tracking=lettering.tracking,
        family=lettering.typeface.family,
        crossbar=crossbar,
        crossbars=style.crossbars,
        slots=slot_letters(cut.text, style.crossbars, crossbar=crossbar),
    )


def _from_book(
    typed: str, style: Styled, pieces: Pieces, lettering: Lettering, language: str
) -> Words | None:
    """The words of a plain text in a plain face; None where there may be more to it."""
    span = style.spans[0] if len(style.spans) == 1 else None
    if span is None or span.style != "regular" or not is_unremarkable(typed, pieces):
        return None
    book = letter_book(lettering, language)
    pens = book.pens(pieces.text, style.crossbars) if book and len(pieces) else None
    if book is None or pens is None:
        return None
    starts, ends = pens.spans(np.array(pieces.starts), np.array(pieces.ends))
    mm = lettering.em_mm / book.engine.upem
    setter = PairSetter(pieces.text, pens, lettering.em_mm)
    return _measured(pieces, lettering, starts=starts * mm, ends=ends * mm, setter=setter)


def _words(
    shaped: Shaped, pieces: Pieces, lettering: Lettering, findings: tuple[Finding, ...]
) -> Words:
    """Cut the pieces out of a shaped text, set anew what is no slice of it."""
    if shaped.width < 0:
        raise FontError(
            f"{lettering.typeface.family} sets words backwards: its kerning takes away more "
            "than its letters are wide",
            advice="give another file of this font",
        )
    em_mm, leading = lettering.em_mm, lettering.leading
    starts, ends = shaped.spans(pieces.starts, pieces.ends)
    cutting = Cutting(
        whole=shaped,
        unsafe=shaped.unsafe_gaps(pieces.ends[:-1], pieces.starts[1:]),
        pieces=pieces,
        em_mm=em_mm,
        widest=widest_line(shaped.width, leading),
    )
    return replace(
        _measured(
            pieces,
            lettering,
            starts=starts * em_mm,
            ends=ends * em_mm,
            setter=TextSetter(shaped, em_mm),
        ),
        reshaped=reshaped_lines(cutting),
        findings=findings,
        rtl=shaped.source.rtl,
    )


def _measured(
    pieces: Pieces, lettering: Lettering, *, starts: Floats, ends: Floats, setter: Setter
) -> Words:
    """A text whose lines are all slices of it.

    Args:
        pieces: Its pieces.
        lettering: How it is set.
        starts: Shape (n,), mm: where each piece starts.
        ends: Shape (n,), mm: where it ends.
        setter: Sets its lines.
    """
    em_mm, vertical = lettering.em_mm, lettering.writing == "vertical"
    cap_height = cap_height_em(lettering.typeface.styled("regular"))
    return Words(
        cut=pieces,
        starts=starts,
        ends=ends,
        setter=setter,
        leading_mm=lettering.leading * em_mm,
        cap_height_mm=em_mm if vertical else em_mm * cap_height,
        size_pt=lettering.size_pt,
        vertical=vertical,
        flush=lettering.align == "start",
    )
