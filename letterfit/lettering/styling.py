"""Styling: a text of the script as it is set: cleaned, emphasised, by the trade's habits, in case.

The steps in order, each in its own module: clean, read the emphasis marks, settle dashes, ellipses
and quotes, hyphenate, put in capitals, find the I's with crossbars.
"""

from typing import NamedTuple

from letterfit.lettering.breaks.hyphens import hyphenated
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.fonts.bundled import Style
from letterfit.lettering.fonts.face import engine
from letterfit.lettering.fonts.typeface import Typeface
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.casing import GEORGIAN, upper
from letterfit.lettering.style.cleaning import clean
from letterfit.lettering.style.crossbar import pronouns
from letterfit.lettering.style.emphasis import Span, emphasis_spans
from letterfit.lettering.style.punctuation import punctuate


class Styled(NamedTuple):
    """A text as set, cut where its style changes.

    Args:
        text: The whole text: the spans joined.
        spans: Its spans in order, none empty; neighbours differ in style.
        crossbars: Offsets in the text of the I's that are lettered with crossbars.
    """

    text: str
    spans: tuple[Span, ...]
    crossbars: tuple[int, ...] = ()


def styled(text: str, lettering: Lettering, *, language: str, keep_lines: bool = False) -> Styled:
    r"""The text as it is set.

    Args:
        text: As it stands in the script, with its emphasis marks.
        lettering: Its case and habits.
        language: BCP 47 tag.
        keep_lines: Whether line ends in the text are forced breaks ("\n"); else they are spaces.

    Raises:
        OutlineError: When the text is too long for any balloon.

    >>> done = styled("I *said* no -- McCoy!", Lettering(), language="en")
    >>> done.text, [span.style for span in done.spans], done.crossbars
    ('I SAID NO -- McCOY!', ['regular', 'bold italic', 'regular'], (0,))
    """
    habits = lettering.habits
    spans = emphasis_spans(clean(text, keep_lines=keep_lines), emphasis=habits.emphasis)
    spans = punctuate(spans, habits, language)
    if lettering.breaks.hyphenate or lettering.breaks.hyphenate_english:
        spans = _hyphenated(spans, lettering.breaks, language)
    if lettering.case == "upper":
        spans = tuple([_capitals(span, lettering, language) for span in spans])
    whole = spans[0].text if len(spans) == 1 else "".join(span.text for span in spans)
    return Styled(whole, spans, pronouns(whole, language, crossbar_in=habits.crossbar_in))


def _hyphenated(spans: tuple[Span, ...], rules: BreakRules, language: str) -> tuple[Span, ...]:
    parts = hyphenated([span.text for span in spans], language=language, rules=rules)
    return tuple(Span(part, span.style) for part, span in zip(parts, spans, strict=True))


def _capitals(span: Span, lettering: Lettering, language: str) -> Span:
    text, style = span
    georgian = not text.isascii() and _has_georgian_capitals(text, lettering.typeface, style)
    return Span(upper(text, language, keep=lettering.habits.keep_case, georgian=georgian), style)


def _has_georgian_capitals(text: str, typeface: Typeface, style: Style) -> bool:
    """Whether the face that sets the Georgian letters of a text has all their capitals."""
    letters = set("".join(GEORGIAN.findall(text)))
    if not letters:
        return False
    capitals = {letter.upper() for letter in letters}
    known = (engine(face).chars for face in typeface.chain(style))
    return capitals <= next((chars for chars in known if letters <= chars), frozenset())
