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
from letterfit.lettering.breaks import line_breaks
from letterfit.lettering.casing import upper
from letterfit.lettering.cleaning import clean
from letterfit.lettering.crossbar import pronouns
from letterfit.lettering.cutting import cut_lines
from letterfit.lettering.emphasis import Span, emphasis_spans
from letterfit.lettering.pieces import Pieces, cut_pieces
from letterfit.lettering.remarks import remarks
from letterfit.lettering.reshaping import Cutting, reshaped_lines, widest_line
from letterfit.lettering.runs import Itemised, itemise, reads_right_to_left
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping import Source, shape
from letterfit.lettering.words import SetLine, Words


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
    spans = _styled(clean(text, keep_lines=keep_lines), lettering, language)
    breaks = line_breaks("".join(span.text for span in spans), language=language)
    cut = itemise(_without_ends(spans), lettering.typeface)
    words = _words(cut, cut_pieces(cut.text, breaks), lettering, language)
    return replace(words, findings=remarks(text, cut, lettering.typeface, where=where, line=line))


def measure_ink(text: str, lettering: Lettering, *, language: str = "en") -> SetLine:
    """A text on one line, such as a sound effect; fit it by `bounds()`, the box of its ink.

    Args:
        text: As it stands in the script, with its emphasis marks.
        lettering: How it is set.
        language: BCP 47 tag.

    >>> [round(edge, 2) for edge in measure_ink("krrrk", Lettering(size_pt=20)).bounds()]
    [0.37, -4.67, 18.5, 0.11]
    """
    cut = itemise(_styled(clean(text, keep_lines=False), lettering, language), lettering.typeface)
    words = _words(cut, cut_pieces(cut.text, ()), lettering, language)
    return words.pieces[0] if len(words) else SetLine("", 0.0, np.zeros((0, 4)))


def _styled(text: str, lettering: Lettering, language: str) -> tuple[Span, ...]:
    """The text's spans of one style, in the case asked for."""
    spans = emphasis_spans(text)
    if lettering.case == "as-typed":
        return spans
    return tuple(Span(upper(span.text, language), span.style) for span in spans)


def _without_ends(spans: Sequence[Span]) -> list[Span]:
    """The spans with forced line ends as spaces: they are no characters to be set."""
    return [Span(span.text.replace("\n", " "), span.style) for span in spans]


def _words(cut: Itemised, pieces: Pieces, lettering: Lettering, language: str) -> Words:
    """Shape a text cut into runs, cut its pieces out, set anew what is no slice of it."""
    em_mm = lettering.em_mm
    lines: list[SetLine] = []
    starts = np.zeros(0)
    reshaped = {}
    rtl = reads_right_to_left(cut)
    if pieces.stretches:
        source = Source(cut.text, cut.runs, language, pronouns(cut.text, language), rtl)
        cuts = sorted({at for stretch in pieces.stretches for at in stretch})
        whole = shape(source, start=0, end=len(cut.text), cuts=cuts[1:-1])
        if whole.pens[-1] < 0:
            raise FontError(
                f"{lettering.typeface.family} sets words backwards: its kerning takes away more "
                "than its letters are wide",
                advice="give another file of this font",
            )
        lines = cut_lines(whole, pieces.stretches, text=cut.text, em_mm=em_mm)
        starts = whole.pens[whole.glyphs_before([start for start, _ in pieces.stretches])] * em_mm
        widest = widest_line(float(whole.pens[-1]), lettering.leading)
        reshaped = reshaped_lines(
            Cutting(source=source, whole=whole, pieces=pieces, em_mm=em_mm, widest=widest)
        )
    return Words(
        pieces=tuple(lines),
        starts=starts,
        joiners=pieces.joiners,
        penalties=pieces.penalties,
        forced=pieces.forced,
        word_counts=pieces.word_counts,
        leading_mm=lettering.leading_mm,
        cap_height_mm=lettering.cap_height_mm,
        size_pt=lettering.size_pt,
        reshaped=reshaped,
        rtl=rtl,
    )
