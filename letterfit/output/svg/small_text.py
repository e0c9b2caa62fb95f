"""Small text on a sheet: how wide it runs, what room it takes, and where its lines end."""

import re
from dataclasses import dataclass
from functools import lru_cache

from letterfit.geometry import MM_PER_PT, Point, Rect
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.output.plain import one_line
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.labels import LONGEST, label

RISE, DROP = 0.78, 0.27
"""How far ink reaches over and under the baseline, as a share of the type size: of a sheet's own
words, which have no accents."""

LEADING = 1.2
"""From one baseline to the next, as a share of the type size."""

_NUMBER_AND_UNIT = re.compile(r"(?<=\d) (?=(?:mm|pt|words?)\b)")

KNOWN = 4096
"""Widths kept: a sheet says the same things of many panels."""


@dataclass(frozen=True, slots=True)
class TextBlock:
    """Some lines of text, one under the other.

    Args:
        lines: Their words, one line at least.
        size_pt: Their size.
    """

    lines: tuple[str, ...]
    size_pt: float

    @property
    def width_mm(self) -> float:
        """The widest line."""
        return max((width_mm(line, size_pt=self.size_pt) for line in self.lines), default=0.0)

    @property
    def height_mm(self) -> float:
        """From the top of the first line's letters to the bottom of the last one's."""
        return MM_PER_PT * self.size_pt * (RISE + DROP + LEADING * (len(self.lines) - 1))

    def box(self, left: float, top: float) -> Rect:
        """The room it takes with its top left corner at a point."""
        return Rect(left, top, self.width_mm, self.height_mm)

    def drawn(self, room: Rect, *, colour: str, glyphs: Glyphs, centred: bool = False) -> list[str]:
        """Its lines in a room, from the room's top."""
        em = MM_PER_PT * self.size_pt
        parts = []
        for number, line in enumerate(self.lines):
            spare = room.width - width_mm(line, size_pt=self.size_pt)
            spot = Point(
                room.x + (spare / 2 if centred else 0.0),
                room.y + em * (RISE + LEADING * number),
            )
            parts.append(label([line], spot, size_pt=self.size_pt, colour=colour, glyphs=glyphs))
        return parts


@lru_cache(maxsize=KNOWN)
def width_mm(text: str, *, size_pt: float) -> float:
    """How wide a label runs, in mm; 0 without words."""
    words = measure(one_line(text)[:LONGEST], Lettering(size_pt=size_pt, case="as-typed"))
    return words.line(0, len(words) - 1).width_mm if len(words) else 0.0


def wrapped(text: str, *, size_pt: float, most_mm: float) -> TextBlock:
    """A text in lines that are not too wide; a word that is too wide by itself is cut off.

    A number stays with its unit.

    >>> wrapped("one two three", size_pt=5, most_mm=8).lines
    ('one two', 'three')
    """
    lines: list[str] = []
    for word in _NUMBER_AND_UNIT.sub("\N{NO-BREAK SPACE}", one_line(text)[:LONGEST]).split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, size_pt=size_pt) <= most_mm:
            lines[-1] = longer
        else:
            lines.append(cut_off(word, size_pt=size_pt, most_mm=most_mm))
    return TextBlock(tuple(line for line in lines if line), size_pt)


def cut_off(text: str, *, size_pt: float, most_mm: float) -> str:
    """As much of a text's beginning as there is room for; the whole text where it goes in."""
    if width_mm(text, size_pt=size_pt) <= most_mm:
        return text
    fewest, most = 0, len(text)
    while fewest < most:
        middle = (fewest + most + 1) // 2
        fits = width_mm(f"{text[:middle]}…", size_pt=size_pt) <= most_mm
        fewest, most = (middle, most) if fits else (fewest, middle - 1)
    return f"{text[:fewest]}…" if fewest else ""
