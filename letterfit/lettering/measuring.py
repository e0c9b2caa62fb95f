"""Measuring: a text of the script to measured `Words`, in named steps.

1. clean the text, read its emphasis, put it in capitals;
2. cut it into runs of one face, script and direction;
3. find where its lines may break;
4. shape it once, and cut the pieces between breaks out of it;
5. set anew the few lines that are not a slice of it;
6. say what the reader should know.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from letterfit.lettering.breaks import SPACES, Break, line_breaks
from letterfit.lettering.casing import upper
from letterfit.lettering.cleaning import clean
from letterfit.lettering.crossbar import pronouns
from letterfit.lettering.cutting import cut_lines
from letterfit.lettering.emphasis import Span, emphasis_spans
from letterfit.lettering.face import is_always_covered
from letterfit.lettering.remarks import remarks
from letterfit.lettering.reshaping import Cutting, reshaped_lines, widest_line
from letterfit.lettering.runs import Itemised, itemise, reads_right_to_left
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping import Ints, Source, shape
from letterfit.lettering.words import SetLine, Words

HANGING = SPACES + "\u200b"
"""What a line may end in without showing it: spaces, and the break of no width."""


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
        FontError: When a bundled font is missing.

    >>> words = measure("The gate is *shut*.", Lettering(size_pt=10))
    >>> words.text, words.count, [round(float(x), 2) for x in words.starts]
    ('THE GATE IS SHUT.', 4, [0.0, 6.54, 15.2, 19.31])
    """
    spans = _styled(clean(text, keep_lines=keep_lines), lettering, language)
    breaks = line_breaks("".join(span.text for span in spans), language=language)
    cut = itemise(_without_ends(spans), lettering.typeface)
    words = _words(cut, breaks, lettering, language)
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
    words = _words(cut, (), lettering, language)
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


def _is_visible(text: str) -> bool:
    return any(not char.isspace() and not is_always_covered(char) for char in text)


def _words(cut: Itemised, breaks: Sequence[Break], lettering: Lettering, language: str) -> Words:
    """Shape a text cut into runs, and cut it at its breaks."""
    text = cut.text
    stretches, kept = _stretches(text, breaks) if _is_visible(text) else ([], [])
    forced = np.array([b.forced for b in kept] + [True] * bool(stretches), dtype=np.bool_)
    source = Source(text, cut.runs, language, pronouns(text, language))
    pieces: list[SetLine] = []
    starts = np.zeros(0)
    reshaped = {}
    if stretches:
        cuts = sorted({at for stretch in stretches for at in stretch} - {0, len(text)})
        whole = shape(source, start=0, end=len(text), cuts=cuts)
        pieces = cut_lines(whole, stretches, text=text, em_mm=lettering.em_mm)
        starts = whole.pens[whole.glyphs_before([start for start, _ in stretches])]
        cutting = Cutting(
            source,
            whole,
            stretches,
            _runs_on(forced),
            lettering.em_mm,
            widest_line(float(whole.pens[-1]), lettering.leading),
        )
        reshaped = reshaped_lines(cutting)
    return Words(
        pieces=tuple(pieces),
        starts=starts * lettering.em_mm,
        joiners=tuple(text[end:start] for (_, end), (start, _) in pairwise(stretches))
        + ("",) * bool(stretches),
        penalties=np.array([b.price for b in kept] + [0.0] * bool(stretches)),
        forced=forced,
        word_counts=_word_counts(text, stretches),
        leading_mm=lettering.leading_mm,
        cap_height_mm=lettering.cap_height_mm,
        size_pt=lettering.size_pt,
        reshaped=reshaped,
        rtl=reads_right_to_left(cut),
    )


def _stretches(text: str, breaks: Sequence[Break]) -> tuple[list[tuple[int, int]], list[Break]]:
    """Where each piece begins and ends, and the breaks between them: none without characters."""
    stretches: list[tuple[int, int]] = []
    kept: list[Break] = []
    start = 0
    for turn in breaks:
        end = start + len(text[start : turn.at].rstrip(HANGING))
        if end > start:
            stretches.append((start, end))
            kept.append(turn)
            start = turn.at
    end = start + len(text[start:].rstrip(HANGING))
    if end > start:
        stretches.append((start, end))
    else:
        kept = kept[:-1]
    return stretches, kept


def _runs_on(forced: npt.NDArray[np.bool_]) -> list[int]:
    """For each piece the last piece up to which a line from it may run."""
    ends = np.flatnonzero(forced)
    return [int(end) for end in ends[np.searchsorted(ends, np.arange(len(forced)))]]


_WORD = re.compile(r"(?:(?!--|\.\.)[^\s—―…])+")


def _word_counts(text: str, stretches: Sequence[tuple[int, int]]) -> Ints:
    """How many words start in each piece: what stands between spaces, dashes or runs of dots."""
    begins = [match.start() for match in _WORD.finditer(text) if any(map(str.isalnum, match[0]))]
    starts = [start for start, _ in stretches]
    owners = np.searchsorted(starts, begins, side="right") - 1
    counts = np.bincount(owners, minlength=len(stretches)) if stretches else np.zeros(0)
    return counts.astype(np.int64)
