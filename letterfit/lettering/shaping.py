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
from itertools import accumulate, chain, pairwise
from operator import attrgetter

import numpy as np
import numpy.typing as npt
import uharfbuzz as hb

from letterfit.lettering.crossbar import crossbar_feature
from letterfit.lettering.face import engine
from letterfit.lettering.inert import spaces_are_inert
from letterfit.lettering.runs import Run
from letterfit.lettering.vertical_shaping import Features, Stood, stand
from letterfit.lettering.words import Ints, Stretch
from letterfit.outline import Floats

GlyphValue = tuple[int, tuple[int, int, int, int]]
"""A glyph's number, and x offset, y offset, x advance, y advance in font units, y upwards."""

CURSIVE = frozenset({"Adlm", "Arab", "Mand", "Mong", "Nkoo", "Phag", "Rohg", "Syrc"})
"""Scripts whose letters join: tracking would tear them apart (CSS Text 3, section 8.2)."""

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


@dataclass(frozen=True, slots=True, eq=False)
class RunGlyphs:
    """One run as shaped; its glyphs in the order of the characters they come from.

    Args:
        run: The run.
        infos: What HarfBuzz says of each of the g glyphs.
        positions: Where it puts them.
        clusters: The offset in the text that each glyph begins at, ascending.
        pens: The g + 1 sums of the advances before each glyph, font units; tracking included.
        upem: Font units per em.
        start: Where the run starts, in em.
        tracking: What was added after each letter, in em.
        stood: In vertical text, where the glyphs stand; pens are then in em.
    """

    run: Run
    infos: Sequence[hb.GlyphInfo]
    positions: Sequence[hb.GlyphPosition]
    clusters: list[int]
    pens: Sequence[float]
    upem: int
    start: float
    tracking: float = 0.0
    stood: Stood | None = None

    @property
    def one_to_one(self) -> bool:
        """Whether every character is one glyph."""
        return self.clusters == list(range(self.run.start, self.run.end))

    def pen(self, offset: int) -> float:
        """Where the glyphs of the character at that offset begin, in em."""
        return self.start + self.pens[bisect_left(self.clusters, offset)] / self.upem

    def is_unsafe(self, cut: int) -> bool:
        """Whether HarfBuzz flags a cut inside the run, or it falls inside a glyph."""
        k = bisect_left(self.clusters, cut)
        whole = k < len(self.clusters) and self.clusters[k] == cut
        return not whole or bool(int(self.infos[k].flags) & _UNSAFE)

    def values(self) -> Iterator[GlyphValue]:
        """Each glyph's number and place."""
        for info, position in zip(self.infos, self.positions, strict=True):
            yield info.codepoint, position.position


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """The glyphs of a shaped text as arrays, in the order of its characters.

    Args:
        bounds: Shape (r + 1,): where each run's glyphs begin, and the end.
        glyph_ids: Shape (g,).
        clusters: Shape (g,), ascending: the offset in the text that each glyph begins at.
        pens: Shape (g + 1,), em: the sum of the advances before each glyph.
        offsets: Shape (g, 2), em: x and y (downwards) of each glyph's origin from its pen.
        inks: Shape (g, 4), em: each glyph's ink box from its origin, NaN without ink.
        sizes: Shape (g,): each glyph's em over the text's; None where all are 1.
        turned: Shape (g,): whether a glyph is drawn rotated clockwise; None where none is.
    """

    bounds: tuple[int, ...]
    glyph_ids: Ints
    clusters: Ints
    pens: Floats
    offsets: Floats
    inks: Floats
    sizes: Floats | None = None
    turned: npt.NDArray[np.bool_] | None = None

    @property
    def inked(self) -> npt.NDArray[np.bool_]:
        """Shape (g,): whether a glyph has ink."""
        return ~np.isnan(self.inks[:, 0])

    def glyphs_before(self, offsets: Sequence[int]) -> Ints:
        """How many glyphs begin before each offset of the text."""
        found: Ints = np.searchsorted(self.clusters, offsets)
        return found


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

    def pens(self, offsets: Iterable[int]) -> list[float]:
        """Where the glyphs of the characters at these offsets begin, in em."""
        if len(self.runs) == 1 and self.runs[0].one_to_one:
            (run,) = self.runs
            pens, upem, first = run.pens, run.upem, run.run.start
            return [pens[at - first] / upem for at in offsets]
        return [self._pen(at) for at in offsets]

    def spans(self, stretches: Sequence[Stretch]) -> tuple[list[float], list[float]]:
        """Where the advances of stretches of the text begin and end, in em.

        The tracking after the last letter of a stretch is not counted: nothing follows it.
        """
        starts = self.pens(start for start, _ in stretches)
        ends = self.pens(end for _, end in stretches)
        if self.source.tracking:
            after = [self.runs[self._run_at(end - 1)].tracking for _, end in stretches]
            ends = [end - space for end, space in zip(ends, after, strict=True)]
        return starts, ends

    def unsafe(self, cuts: Iterable[int]) -> frozenset[int]:
        """Those of the cuts at which the text must not be cut: the halves would look different."""
        text = self.source.text
        inert = {k for k, run in enumerate(self.runs) if spaces_are_inert(run.run.face)}
        if len(inert) == len(self.runs) == 1 and not self.runs[0].run.rtl:
            cuts = [cut for cut in cuts if text[cut] != " " and text[cut - 1] != " "]
        return frozenset(cut for cut in cuts if self.is_unsafe(cut))

    def is_unsafe(self, cut: int) -> bool:
        """Whether the text must not be cut there: the halves would look different."""
        glyphs = self.runs[self._run_at(cut)]
        if cut == glyphs.run.start:
            # Runs are shaped apart; only joining letters look across (they do so as context).
            return glyphs.run.rtl and cut > 0 and self.source.text[cut - 1].isalpha()
        return glyphs.is_unsafe(cut)

    @property
    def values(self) -> list[GlyphValue]:
        """Each glyph's number and place, as HarfBuzz gave it."""
        return [value for run in self.runs for value in run.values()]

    @cached_property
    def table(self) -> Table:
        """The glyphs as arrays."""
        if self.source.vertical:
            return self._columns_table()
        sizes = [len(run.infos) for run in self.runs]
        bounds = tuple(accumulate(sizes, initial=0))
        glyphs = [info.codepoint for run in self.runs for info in run.infos]
        glyph_ids = np.array(glyphs, dtype=np.int64)
        flat = chain.from_iterable(p.position for run in self.runs for p in run.positions)
        places = np.fromiter(flat, dtype=np.float64, count=4 * len(glyphs)).reshape(-1, 4)
        places /= np.repeat([run.upem for run in self.runs], sizes)[:, None]
        pens = [np.array(run.pens[:-1]) / run.upem + run.start for run in self.runs]
        inks = [
            engine(run.run.face).inks(glyph_ids[begin:end])
            for run, (begin, end) in zip(self.runs, pairwise(bounds), strict=True)
        ]
        clusters = list(chain.from_iterable(run.clusters for run in self.runs))
        return Table(
            bounds=bounds,
            glyph_ids=glyph_ids,
            clusters=np.array(clusters, dtype=np.int64),
            pens=np.concatenate([*pens, [self.width]]),
            offsets=places[:, :2] * (1.0, -1.0),
            inks=np.concatenate(inks),
        )

    def _columns_table(self) -> Table:
        """The same of vertical text, whose runs say where their glyphs stand."""
        stood = [run.stood for run in self.runs if run.stood]
        sizes = [len(each.infos) for each in stood]
        glyphs = [info.codepoint for each in stood for info in each.infos]
        clusters = list(chain.from_iterable(run.clusters for run in self.runs))
        pens = [np.array(run.pens[:-1]) + run.start for run in self.runs]
        return Table(
            bounds=tuple(accumulate(sizes, initial=0)),
            glyph_ids=np.array(glyphs, dtype=np.int64),
            clusters=np.array(clusters, dtype=np.int64),
            pens=np.concatenate([*pens, [self.width]]),
            offsets=np.concatenate([each.offsets for each in stood]),
            inks=np.concatenate([each.inks for each in stood]),
            sizes=np.concatenate([each.sizes for each in stood]),
            turned=np.repeat([each.turned for each in stood], sizes),
        )

    def _run_at(self, offset: int) -> int:
        """The run that the character at that offset is in; the last one at the text's end."""
        return max(0, bisect_right(self.runs, offset, key=_begins) - 1)

    def _pen(self, offset: int) -> float:
        return self.runs[self._run_at(offset)].pen(offset)


def shape(source: Source, *, start: int = 0, end: int | None = None) -> Shaped:
    """Shape the characters start .. end alone, as if they were the whole text.

    Args:
        source: The text and its runs.
        start: Offset of the first character.
        end: Offset after the last character; None is the text's end.

    >>> from letterfit.lettering.emphasis import Span
    >>> from letterfit.lettering.runs import itemise
    >>> from letterfit.lettering.typeface import open_typeface
    >>> cut = itemise([Span("LOCK", "regular")], open_typeface("Grandstander"))
    >>> [round(pen, 4) for pen in shape(Source(cut.text, cut.runs)).pens(range(5))]
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
    stood = None
    if run.stance is not None:
        stood = stand(text, run, origin=origin, language=source.language, features=features)
        infos, positions, upem = stood.infos, stood.positions, 1
        advances: Iterable[float] = stood.advances
    else:
        infos, positions = _in_text_order(text, run, origin, source.language, features)
        upem, advances = known.upem, [position.x_advance for position in positions]
    clusters = [info.cluster for info in infos]
    if origin:
        clusters = [cluster + origin for cluster in clusters]
    tracking = 0.0 if run.script in CURSIVE else source.tracking
    if tracking:
        advances = _tracked(advances, clusters, space=tracking * upem)
    pens = list(accumulate(advances, initial=0))
    return RunGlyphs(run, infos, positions, clusters, pens, upem, at, tracking, stood)


def _in_text_order(
    text: str, run: Run, origin: int, language: str, features: Features
) -> tuple[list[hb.GlyphInfo], list[hb.GlyphPosition]]:
    """Shape a run of a horizontal line; its glyphs in the order of the text."""
    buffer = hb.Buffer()
    buffer.add_str(text, run.start - origin, run.end - run.start)
    buffer.direction = "rtl" if run.rtl else "ltr"
    buffer.script = run.script
    buffer.language = language
    hb.shape(engine(run.face).font, buffer, features)
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    if run.rtl:
        infos.reverse()
        positions.reverse()
    return infos, positions


def _tracked(
    advances: Iterable[float], clusters: Sequence[int], *, space: float
) -> Iterator[float]:
    """The advances with a space added after the last glyph of every cluster that has a width."""
    begun = False
    for advance, here, following in zip(advances, clusters, [*clusters[1:], None], strict=True):
        begun = begun or advance != 0
        ends = here != following
        yield advance + space if ends and begun else advance
        begun = begun and not ends


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


_UNSAFE = int(hb.GlyphFlags.UNSAFE_TO_BREAK)
