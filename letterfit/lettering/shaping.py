"""Shaping: characters to placed glyphs, through HarfBuzz, once for a whole text.

Each run is shaped with the rest of the text as its context, direction, script and language stated.
Lines are then cut out of the result: a cut is exact unless HarfBuzz flags the glyph after it as
unsafe to break before (HarfBuzz manual, HB_GLYPH_FLAG_UNSAFE_TO_BREAK). All lengths are in em, so
one shaping serves every size.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain, pairwise
from operator import attrgetter

import numpy as np
import numpy.typing as npt
import uharfbuzz as hb

from letterfit.lettering.crossbar import CROSSBAR_FEATURE
from letterfit.lettering.face import engine
from letterfit.lettering.runs import Run
from letterfit.outline import Floats

Ints = npt.NDArray[np.int64]

GlyphValue = tuple[int, tuple[int, int, int, int]]
"""A glyph's number, and x offset, y offset, x advance, y advance in font units, y upwards."""


@dataclass(frozen=True, slots=True, eq=False)
class Source:
    """What is to be shaped: a text cut into runs.

    Args:
        text: The characters as set.
        runs: Its runs, in order without gaps.
        language: BCP 47 tag.
        crossbars: Where a pronoun I stands.
        rtl: Whether the text as a whole reads from right to left.
    """

    text: str
    runs: tuple[Run, ...]
    language: str = "en"
    crossbars: tuple[int, ...] = ()
    rtl: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Shaped:
    """A stretch of a text as shaped; its glyphs in the order of the characters they come from.

    Args:
        runs: The runs of the stretch.
        bounds: Shape (r + 1,): where each run's glyphs begin, and the end.
        glyph_ids: Shape (g,).
        clusters: Shape (g,), ascending: the offset in the text that each glyph begins at.
        values: For each glyph its number and its place as HarfBuzz gave it, in font units.
        pens: Shape (g + 1,), em: the sum of the advances before each glyph.
        offsets: Shape (g, 2), em: x and y (downwards) of each glyph's origin from its pen.
        inks: Shape (g, 4), em: each glyph's ink box from its origin, NaN without ink.
        unsafe: Those of the cuts asked about at which the stretch must not be cut.
        rtl: Whether the text as a whole reads from right to left.
    """

    runs: tuple[Run, ...]
    bounds: tuple[int, ...]
    glyph_ids: Ints
    clusters: Ints
    values: list[GlyphValue]
    pens: Floats
    offsets: Floats
    inks: Floats
    unsafe: frozenset[int]
    rtl: bool

    def glyphs_before(self, offsets: Sequence[int]) -> Ints:
        """How many glyphs begin before each offset of the text."""
        found: Ints = np.searchsorted(self.clusters, offsets)
        return found


def shape(source: Source, *, start: int, end: int, cuts: Sequence[int] = ()) -> Shaped:
    """Shape the characters start .. end alone, as if they were the whole text.

    Args:
        source: The text and its runs.
        start: Offset of the first character.
        end: Offset after the last character.
        cuts: Offsets, ascending, where a line may be cut: looks up whether that is safe.

    >>> from letterfit.lettering.emphasis import Span
    >>> from letterfit.lettering.runs import itemise
    >>> from letterfit.lettering.typeface import open_typeface
    >>> cut = itemise([Span("LOCK", "regular")], open_typeface("Grandstander"))
    >>> shape(Source(cut.text, cut.runs), start=0, end=4).pens.round(4).tolist()
    [0.0, 0.4805, 1.1575, 1.726, 2.2665]
    """
    raw = shape_raw(source, start=start, end=end, cuts=cuts)
    glyph_ids = np.array([glyph for glyph, _ in raw.values], dtype=np.int64)
    faces = [engine(run.face) for run in raw.runs]
    units = np.repeat([known.upem for known in faces], np.diff(raw.bounds))
    flat = chain.from_iterable(place for _, place in raw.values)
    places = np.fromiter(flat, dtype=np.float64, count=4 * len(raw.values)).reshape(-1, 4)
    x_offset, y_offset, x_advance, _ = places.T / units
    inks = [
        known.inks(glyph_ids[begin:end])
        for known, (begin, end) in zip(faces, pairwise(raw.bounds), strict=True)
    ]
    return Shaped(
        runs=raw.runs,
        bounds=raw.bounds,
        glyph_ids=glyph_ids,
        clusters=np.array(raw.clusters, dtype=np.int64),
        values=raw.values,
        pens=np.concatenate([[0.0], np.cumsum(x_advance)]),
        offsets=np.stack([x_offset, -y_offset], axis=-1),
        inks=np.concatenate(inks),
        unsafe=raw.unsafe,
        rtl=source.rtl,
    )


@dataclass(frozen=True, slots=True, eq=False)
class Raw:
    """What HarfBuzz gave for a stretch, run after run, in the order of the text; see `Shaped`."""

    runs: tuple[Run, ...]
    bounds: tuple[int, ...]
    values: list[GlyphValue]
    clusters: list[int]
    unsafe: frozenset[int]


def shape_raw(source: Source, *, start: int, end: int, cuts: Sequence[int] = ()) -> Raw:
    """Shape as `shape` does, and leave the glyphs as HarfBuzz gives them."""
    runs = tuple(_clipped(source.runs, start, end))
    values: list[GlyphValue] = []
    clusters: list[int] = []
    bounds = [0]
    unsafe: set[int] = set()
    for run in runs:
        infos, positions = _run_glyphs(source, run, start, end)
        begins = [info.cluster + start for info in infos]
        unsafe |= _unsafe_cuts(source, run, infos, begins, cuts)
        values += [(i.codepoint, p.position) for i, p in zip(infos, positions, strict=True)]
        clusters += begins
        bounds.append(len(clusters))
    return Raw(runs, tuple(bounds), values, clusters, frozenset(unsafe))


def _clipped(runs: Sequence[Run], start: int, end: int) -> Iterator[Run]:
    first = bisect_right(runs, start, key=attrgetter("start")) - 1
    last = bisect_left(runs, end, key=attrgetter("start"))
    for run in runs[first:last]:
        if start <= run.start and run.end <= end:
            yield run
        else:
            yield replace(run, start=max(run.start, start), end=min(run.end, end))


def _run_glyphs(
    source: Source, run: Run, start: int, end: int
) -> tuple[list[hb.GlyphInfo], list[hb.GlyphPosition]]:
    """Shape one run with the characters start .. end as its context; glyphs in text order."""
    known = engine(run.face)
    text = source.text[start:end]
    for char, drawn_as in known.spelling.items():
        text = text.replace(char, drawn_as)
    buffer = hb.Buffer()
    buffer.add_str(text, run.start - start, run.end - run.start)
    buffer.direction = "rtl" if run.rtl else "ltr"
    buffer.script = run.script
    buffer.language = source.language
    hb.shape(known.font, buffer, _features(source, run, start))
    order = slice(None, None, -1) if run.rtl else slice(None)
    return buffer.glyph_infos[order], buffer.glyph_positions[order]


def _features(source: Source, run: Run, start: int) -> dict[str, list[tuple[int, int, int]]]:
    """The alternate I for the pronouns of a run, at offsets from the stretch's start."""
    feature = CROSSBAR_FEATURE.get(run.face.family)
    own = [at - start for at in source.crossbars if run.start <= at < run.end] if feature else []
    return {feature: [(at, at + 1, 1) for at in own]} if feature and own else {}


def _unsafe_cuts(
    source: Source,
    run: Run,
    infos: Sequence[hb.GlyphInfo],
    clusters: Sequence[int],
    cuts: Sequence[int],
) -> set[int]:
    """The cuts in a run that HarfBuzz flags, or that fall inside a glyph."""
    found = set()
    for cut in cuts[bisect_left(cuts, run.start) : bisect_left(cuts, run.end)]:
        if cut == run.start:
            # Runs are shaped apart; only joining letters look across (they do so as context).
            safe = not (run.rtl and cut and source.text[cut - 1].isalpha())
        else:
            k = bisect_left(clusters, cut)
            whole = k < len(clusters) and clusters[k] == cut
            safe = whole and not int(infos[k].flags) & _UNSAFE
        if not safe:
            found.add(cut)
    return found


_UNSAFE = int(hb.GlyphFlags.UNSAFE_TO_BREAK)
