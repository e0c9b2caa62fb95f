"""Shaping one run of a vertical text, in the text's own frame: x down the page, y to its left.

HarfBuzz shapes what stands upright from top to bottom, with the font's vertical forms, advances and
origins; what is turned and what shares a cell is shaped as a horizontal line. All of it is then put
where it stands about the column's centre line. Lengths are in em. The frame's baseline lies half an
em under the centre line (to its left on the page), so that a column is as high as an em, as a line
is as high as its capitals.

A font without vertical metrics gets one em for every advance, and its em's square for the cell:
HarfBuzz would take the line height, and centre the ink of each glyph, 、 and 。 too.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain, pairwise, takewhile

import numpy as np
import uharfbuzz as hb

from letterfit.lettering.face import Engine, engine
from letterfit.lettering.orientation import orientation
from letterfit.lettering.runs import Run
from letterfit.lettering.vertical_metrics import (
    VerticalMetrics,
    has_upright_stroke,
    has_vertical_form,
    vertical_metrics,
)
from letterfit.lettering.vertical_stances import Stance, narrow, stances
from letterfit.lettering.words import Ints
from letterfit.outline import Floats

Features = dict[str, bool | list[tuple[int, int, int]]] | None
"""OpenType features as HarfBuzz takes them: on, off, or on for stretches of the shaped text."""

CLOSE_PUNCTUATION = "vchw"
"""Punctuation that follows punctuation closes up, where the font can (OpenType, on by default)."""


@dataclass(frozen=True, slots=True, eq=False)
class Stood:
    """The g glyphs of a run, in the order of the text, as they stand in their column.

    Args:
        infos: What HarfBuzz says of each glyph.
        positions: Where it puts them, in the frame it shaped them in.
        advances: Downwards, em.
        offsets: Shape (g, 2), em: origin from the pen, in the text's own frame.
        inks: Shape (g, 4), em: ink from the origin, in the text's own frame; NaN without ink.
        sizes: Shape (g,): the size of each glyph's em over that of the text.
        turned: Whether they are drawn rotated by 90 degrees clockwise.
    """

    infos: Sequence[hb.GlyphInfo]
    positions: Sequence[hb.GlyphPosition]
    advances: list[float]
    offsets: Floats
    inks: Floats
    sizes: Floats
    turned: bool = False


def standing_runs(text: str, runs: Sequence[Run]) -> tuple[Run, ...]:
    """Cut the runs of a text where the way its characters stand changes.

    UAX #50, table 2 (from memory): a character of Tr without a vertical form is rotated.

    >>> from letterfit.lettering.typeface import open_typeface
    >>> run = Run(0, 10, open_typeface("Grandstander").styled("regular"), "Latn")
    >>> [(r.start, r.end, r.stance) for r in standing_runs("12……LOCK 9", [run])]
    [(0, 2, 'together'), (2, 4, 'stroke'), (4, 10, 'turned')]
    """
    found = []
    cuts = stances(text)
    first = 0
    for run in runs:
        while cuts[first][1] <= run.start:
            first += 1
        for start, end, stance in takewhile(lambda cut: cut[0] < run.end, cuts[first:]):  # noqa: B023 - used at once
            part = replace(run, start=max(start, run.start), end=min(end, run.end), stance=stance)
            found += _as_the_face_can(text, part)
    return tuple(found)


def _as_the_face_can(text: str, run: Run) -> list[Run]:
    """The run, cut where its face lacks a vertical form or has one for dots and dashes."""
    if run.stance not in {"upright", "stroke"}:
        return [run]
    own = [_stance_of(char, run) for char in text[run.start : run.end]]
    cuts = [0, *(k for k in range(1, len(own)) if own[k] != own[k - 1]), len(own)]
    return [
        replace(run, start=run.start + a, end=run.start + b, stance=own[a])
        for a, b in pairwise(cuts)
    ]


def _stance_of(char: str, run: Run) -> Stance | None:
    lies = orientation(char) == "Tr" and not has_vertical_form(run.face, char)
    if run.stance == "upright" and lies:
        return "turned"
    if run.stance == "stroke" and has_upright_stroke(run.face, char):
        return "upright"
    return run.stance


def stand(text: str, run: Run, *, origin: int, language: str, features: Features) -> Stood:
    """Shape one run of a column.

    Args:
        text: The characters of the column.
        run: The run, by offsets in the whole text.
        origin: Where the column begins in the whole text.
        language: BCP 47 tag.
        features: OpenType features asked for.
    """
    if run.stance == "together":
        return _together(text[run.start - origin : run.end - origin], run, origin, language)
    buffer = hb.Buffer()
    buffer.add_str(text, run.start - origin, run.end - run.start)
    buffer.script = run.script
    buffer.language = language
    if run.stance == "upright":
        return _upright(buffer, run, features)
    return _turned(buffer, run, features)


def _upright(buffer: hb.Buffer, run: Run, features: Features) -> Stood:
    """Glyphs one under the other."""
    known, metrics = engine(run.face), vertical_metrics(run.face)
    buffer.direction = "ttb"
    hb.shape(known.font, buffer, {CLOSE_PUNCTUATION: True, **(features or {})})
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    ids, (x_offset, y_offset, _, y_advance) = _read(infos, positions, known)
    down = -y_advance
    if not metrics.stated:
        rise, step = _filled_in(known, metrics, ids)
        y_offset = y_offset + rise
        down = np.where(down == 0, 0.0, down + step)
    left, top, right, bottom = known.inks(ids).T
    return Stood(
        infos=infos,
        positions=positions,
        advances=down.tolist(),
        offsets=np.stack([-y_offset, -x_offset - 0.5], axis=-1),
        inks=np.stack([top, -right, bottom, -left], axis=-1),
        sizes=np.ones(len(ids)),
    )


def _filled_in(known: Engine, metrics: VerticalMetrics, ids: Ints) -> tuple[Floats, Floats]:
    """What to add to HarfBuzz's heights and advances to make them those of an em's square."""
    font = known.font
    heights = [font.get_glyph_v_origin(glyph)[1] for glyph in ids.tolist()]
    advances = [font.get_glyph_v_advance(glyph) for glyph in ids.tolist()]
    rise = np.array(heights) / known.upem - (metrics.middle + 0.5)
    return rise, 1.0 + np.array(advances) / known.upem


def _turned(buffer: hb.Buffer, run: Run, features: Features) -> Stood:
    """A horizontal line rotated: in the text's own frame, an ordinary one."""
    known = engine(run.face)
    buffer.direction = "rtl" if run.rtl else "ltr"
    hb.shape(known.font, buffer, features)
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    if run.rtl:
        infos.reverse()
        positions.reverse()
    ids, (x_offset, y_offset, x_advance, _) = _read(infos, positions, known)
    inks = known.inks(ids)
    middle = np.full(len(ids), vertical_metrics(run.face).middle)
    if run.stance == "stroke":
        own = (inks[:, 1] + inks[:, 3]) / -2 + y_offset
        middle = np.where(np.isnan(own), middle, own)
    return Stood(
        infos=infos,
        positions=positions,
        advances=x_advance.tolist(),
        offsets=np.stack([x_offset, middle - y_offset - 0.5], axis=-1),
        inks=inks,
        sizes=np.ones(len(ids)),
        turned=True,
    )


def _together(own: str, run: Run, origin: int, language: str) -> Stood:
    """Glyphs side by side in a cell of one em, their ink in its middle, smaller if need be."""
    known = engine(run.face)
    plain = narrow(own)
    before = run.start - origin
    buffer = hb.Buffer()
    shown = plain if known.chars.issuperset(plain) else own
    buffer.add_str(" " * before + shown, before, len(shown))
    buffer.direction = "ltr"
    buffer.script = "Latn"
    buffer.language = language
    hb.shape(known.font, buffer)
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    ids, (x_offset, y_offset, x_advance, _) = _read(infos, positions, known)
    across = np.concatenate([[0.0], np.cumsum(x_advance)[:-1]]) + x_offset
    inks = known.inks(ids)
    left, top, right, bottom = inks.T
    begin, end = _extent(across + left, across + right)
    size = 1.0 / max(1.0, end - begin)
    to_right = (across - (begin + end) / 2) * size
    down = 0.5 + (vertical_metrics(run.face).middle - y_offset) * size
    return Stood(
        infos=infos,
        positions=positions,
        advances=[*[0.0] * (len(ids) - 1), 1.0],
        offsets=np.stack([down, -to_right - 0.5], axis=-1),
        inks=np.stack([top, -right, bottom, -left], axis=-1) * size,
        sizes=np.full(len(ids), size),
    )


def _extent(lefts: Floats, rights: Floats) -> tuple[float, float]:
    """From where to where ink reaches; nothing where there is none."""
    inked = ~np.isnan(lefts)
    return (float(lefts[inked].min()), float(rights[inked].max())) if inked.any() else (0.0, 0.0)


def _read(
    infos: Sequence[hb.GlyphInfo], positions: Sequence[hb.GlyphPosition], known: Engine
) -> tuple[Ints, Floats]:
    """Glyph numbers, and x offset, y offset, x advance, y advance in em, y upwards: (4, g)."""
    ids = np.array([info.codepoint for info in infos], dtype=np.int64)
    flat = chain.from_iterable(place.position for place in positions)
    places = np.fromiter(flat, dtype=np.float64, count=4 * len(ids)).reshape(-1, 4)
    result: Floats = places.T / known.upem
    return ids, result
