"""Shaping: characters to glyphs, through HarfBuzz, once for a whole text.

Each run is shaped with the rest of the text as its context, direction, script and language stated.
Lines are then cut out of the result: a cut is exact unless HarfBuzz flags the glyph after it as
unsafe to break before (HarfBuzz manual, HB_GLYPH_FLAG_UNSAFE_TO_BREAK). All lengths are in em, so
one shaping serves every size.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate
from operator import attrgetter

import numpy as np
import uharfbuzz as hb

from letterfit.lettering.breaks.pieces import Stretch
from letterfit.lettering.fonts.face import Features, engine
from letterfit.lettering.fonts.plainness import is_plain
from letterfit.lettering.shaping.glyph_table import Table, column_table, line_table
from letterfit.lettering.shaping.run_glyphs import GlyphValue, RunGlyphs, in_order
from letterfit.lettering.shaping.runs import Run
from letterfit.lettering.style.crossbar import crossbar_feature
from letterfit.lettering.vertical.shaping import stand
from letterfit.outline import Floats

NO_LIGATURES = {"liga": False, "clig": False}
"""Letters that are spaced apart do not melt into one (CSS Text 3, section 8.2)."""


@dataclass(frozen=True, slots=True, eq=False)
class Source:
    """What is to be shaped: a text cut into runs.

    Args:
        text: The characters as set.
        runs: Its runs, in order without gaps.
        language: BCP 47 tag.
        rtl: Whether the text as a whole reads from right to left.
        vertical: Whether it is set in columns; its runs then say how they stand.
        tracking: What is added between two letters, in em.
        family: The typeface's own family.
        crossbar: Where its I with crossbars comes from, see `Habits`.
        crossbars: Where such an I stands.
        slots: The text with the letters whose glyphs are its plain and its barred I, for the
            typeface's own family; None where that is the text itself.
    """

    text: str
    runs: tuple[Run, ...]
    language: str = "en"
    rtl: bool = False
    vertical: bool = False
    tracking: float = 0.0
    family: str = ""
    crossbar: str = "auto"
    crossbars: tuple[int, ...] = ()
    slots: str | None = None

    def drawn(self, run: Run) -> str:
        """The whole text in the letters that a run is shaped from."""
        own = self.slots is not None and run.face.family == self.family
        return self.slots or "" if own else self.text

    def ending_soft(self, at: int) -> "Source":
        """The text with the soft hyphen at that offset seen."""
        shown = [f"{text[:at]}-{text[at + 1 :]}" for text in (self.text, self.slots or self.text)]
        return replace(self, text=shown[0], slots=shown[1] if self.slots else None)


@dataclass(frozen=True, eq=False)
class Shaped:
    """A stretch of a text as shaped.

    Args:
        source: The text.
        runs: Its runs as shaped, in order.
        width: The sum of all advances, em.
    """

    source: Source
    runs: tuple[RunGlyphs, ...]
    width: float

    def __reduce__(self) -> tuple[Callable[..., "Shaped"], tuple[Source, int, int]]:
        """HarfBuzz's glyphs cannot be sent to another process: it shapes the text again."""
        return _shaped_again, (self.source, self.runs[0].run.start, self.runs[-1].run.end)

    def pens(self, offsets: Iterable[int]) -> Floats:
        """Where the glyphs of the characters at these offsets begin, in em."""
        if len(self.runs) == 1:
            (run,) = self.runs
            clusters, pens = run.clusters, run.pens
            found: Floats = np.array([pens[bisect_left(clusters, at)] for at in offsets])
            return found / run.upem
        return np.array([self.runs[self._run_at(at)].pen(at) for at in offsets])

    def spans(self, starts: Sequence[int], ends: Sequence[int]) -> tuple[Floats, Floats]:
        """Where the advances of stretches of the text begin and end, in em.

        The tracking after the last letter of a stretch is not counted: nothing follows it.

        Args:
            starts: Where the stretches begin in the text.
            ends: Where they end.
        """
        begun, ended = self.pens(starts), self.pens(ends)
        if self.source.tracking:
            ended -= [self.runs[self._run_at(end - 1)].tracking for end in ends]
        return begun, ended

    def unsafe_gaps(self, ends: Sequence[int], starts: Sequence[int]) -> frozenset[int]:
        """The edges of gaps at which the text must not be cut: the halves would look different.

        Args:
            ends: Where what stands before each gap ends.
            starts: Where what stands after it begins.
        """
        gaps = list(zip(ends, starts, strict=True))
        if all(is_plain(run.run.face) and not run.run.rtl for run in self.runs):
            text = self.source.text
            gaps = [gap for gap in gaps if text[gap[0]] != " " or gap[1] != gap[0] + 1]
        return frozenset(cut for gap in gaps for cut in gap if self.is_unsafe(cut))

    def is_unsafe(self, cut: int) -> bool:
        """Whether the text must not be cut there: the halves would look different."""
        glyphs = self.runs[self._run_at(cut)]
        if cut == glyphs.run.start:
            # Runs are shaped apart; only joining letters look across (they do so as context).
            return glyphs.run.rtl and cut > 0 and self.source.text[cut - 1].isalpha()
        return glyphs.is_unsafe(cut)

    @cached_property
    def values(self) -> list[GlyphValue]:
        """Each glyph's number and place, as HarfBuzz gave it."""
        return [value for run in self.runs for value in run.values()]

    @cached_property
    def table(self) -> Table:
        """The glyphs as arrays."""
        make = column_table if self.source.vertical else line_table
        return make(self.runs, self.width)

    def _run_at(self, offset: int) -> int:
        """The run that the character at that offset is in; the last one at the text's end."""
        return max(0, bisect_right(self.runs, offset, key=_begins) - 1)


def shape(source: Source, *, start: int = 0, end: int | None = None) -> Shaped:
    """Shape the characters start .. end alone, as if they were the whole text.

    Args:
        source: The text and its runs.
        start: Offset of the first character.
        end: Offset after the last character; None is the text's end.

    >>> from letterfit.lettering.style.emphasis import Span
    >>> from letterfit.lettering.shaping.runs import itemise
    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> cut = itemise([Span("LOCK", "regular")], open_typeface("Grandstander"))
    >>> shape(Source(cut.text, cut.runs)).pens(range(5)).round(4).tolist()
    [0.0, 0.4805, 1.1575, 1.726, 2.2665]
    """
    stop = len(source.text) if end is None else end
    at = 0.0
    shaped: list[RunGlyphs] = []
    for run in _clipped(source.runs, start, stop):
        glyphs = _run_glyphs(source, run, within=(start, stop), at=at)
        shaped.append(glyphs)
        at += glyphs.pens[-1] / glyphs.upem
    return Shaped(source, tuple(shaped), at)


def _shaped_again(source: Source, start: int, end: int) -> Shaped:
    return shape(source, start=start, end=end)


def _clipped(runs: Sequence[Run], start: int, end: int) -> Iterator[Run]:
    first = bisect_right(runs, start, key=attrgetter("start")) - 1
    last = bisect_left(runs, end, key=attrgetter("start"))
    for run in runs[first:last]:
        if start <= run.start and run.end <= end:
            yield run
        else:
            yield replace(run, start=max(run.start, start), end=min(run.end, end))


def _run_glyphs(source: Source, run: Run, *, within: Stretch, at: float) -> RunGlyphs:
    """Shape one run of a stretch.

    Args:
        source: The whole text.
        run: The run, by offsets in the whole text.
        within: The stretch, which is the run's context.
        at: Where the run starts, in em.
    """
    known = engine(run.face)
    origin, end = within
    text = source.drawn(run)[origin:end]
    if known.spelling and not text.isascii():
        for char, drawn_as in known.spelling.items():
            text = text.replace(char, drawn_as)
    features = _features(source, run, origin)
    buffer = stood = None
    if run.stance is not None:
        stood = stand(text, run, origin=origin, language=source.language, features=features)
        positions, upem, advances = stood.positions, 1, stood.advances
    else:
        buffer = hb.Buffer()
        buffer.add_str(text, run.start - origin, run.end - run.start)
        buffer.direction = "rtl" if run.rtl else "ltr"
        buffer.script = run.script
        buffer.language = source.language
        known.shape(buffer, features)
        positions, upem = in_order(buffer.glyph_positions, run), known.upem
        advances = [position.x_advance for position in positions]
    glyphs = RunGlyphs(
        run=run,
        buffer=buffer,
        origin=origin,
        positions=positions,
        pens=list(accumulate(advances, initial=0)),
        upem=upem,
        start=at,
        stood=stood,
    )
    return glyphs.tracked(source.tracking) if source.tracking else glyphs


def _features(source: Source, run: Run, start: int) -> Features:
    """The alternate I for the barred ones of a run, at offsets from the stretch's start."""
    found: dict[str, bool | list[tuple[int, int, int]]] = {}
    if source.crossbars:
        feature = crossbar_feature(run.face.family, own=source.family, crossbar=source.crossbar)
        own = [at - start for at in source.crossbars if run.start <= at < run.end]
        if feature and own:
            found[feature] = [(at, at + 1, 1) for at in own]
    if source.tracking:
        found |= NO_LIGATURES
    return found or None


def _begins(glyphs: RunGlyphs) -> int:
    return glyphs.run.start
