"""What is wrong with a text laid into a balloon: letters lost, lines broken where none may be.

Breaks are those of UAX #14 and clusters those of UAX #29 as ICU makes them, asked directly. Offsets
are ICU's, in UTF-16: texts here have no character beyond the first plane.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator

from icu4py.breakers import CharacterBreaker, LineBreaker

from letterfit import FittedBalloon


def letters(text: str) -> str:
    """The letters, marks and digits of a text, decomposed; what no policy may take away."""
    loose = unicodedata.normalize("NFD", text)
    return "".join(char for char in loose if unicodedata.category(char)[0] in "LMN")


def line_spans(balloon: FittedBalloon) -> list[tuple[int, int]]:
    """Where each line stands in the balloon's text; raises when text and lines differ."""
    spans, at = [], 0
    for line in balloon.lines:
        at += len(re.match(r"\s*", balloon.text[at:])[0])  # type: ignore[index]
        if not balloon.text.startswith(line.text, at):
            raise ValueError(f"line {line.text!r} is not what stands at {at}")
        spans.append((at, at + len(line.text)))
        at += len(line.text)
    if balloon.text[at:].strip():
        raise ValueError(f"{balloon.text[at:]!r} is on no line")
    return spans


def losses(balloon: FittedBalloon, source: str) -> Iterator[str]:
    """What the lines do not have of the text."""
    try:
        line_spans(balloon)
    except ValueError as error:
        yield str(error)
    if letters("".join(line.text for line in balloon.lines)) != letters(source):
        yield "the letters of the lines are not those of the text"


def wrong_breaks(
    balloon: FittedBalloon, language: str, *, also: Iterable[int] = ()
) -> Iterator[str]:
    """Lines that end where Unicode lets none end, nor are `also` allowed to; and cut clusters."""
    text = balloon.text
    allowed = {end for _, end in LineBreaker(text, language).segments()} | set(also)
    clusters = {end for _, end in CharacterBreaker(text, language).segments()}
    begins = [start for start, _ in line_spans(balloon)][1:]
    for at in begins:
        if at not in allowed:
            yield f"no break is allowed before {text[at:][:20]!r}"
        if at not in clusters:
            yield f"a cluster is cut before {text[at:][:20]!r}"
