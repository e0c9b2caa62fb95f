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
from dataclasses import dataclass
from itertools import chain

import numpy as np
import numpy.typing as npt
import uharfbuzz as hb

from letterfit.lettering.face import Engine, Face, engine
from letterfit.lettering.orientation import orientation
from letterfit.lettering.runs import Run
from letterfit.lettering.vertical_metrics import (
    VerticalMetrics,
    has_upright_stroke,
    has_vertical_form,
    vertical_metrics,
)
from letterfit.lettering.vertical_stances import Stance, narrow, stances
from letterfit.outline import Floats

Ints = npt.NDArray[np.int64]

UPRIGHT_FEATURES = {"vchw": True}
"""Punctuation that follows punctuation closes up, where the font can (OpenType, on by default)."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A stretch of a vertical text that stands in one way.

    Args:
        start: Where it begins in the text.
        end: Where it ends.
        run: The run it belongs to.
        stance: How it stands; "stroke" is turned, with its ink on the centre line.
    """

    start: int
    end: int
    run: Run
    stance: Stance


@dataclass(frozen=True, slots=True, eq=False)
class Stood:
    """The glyphs of a stretch, in the order of the text.

    Args:
        glyph_ids: Shape (g,).
        clusters: Shape (g,): where in the text each glyph's characters begin.
        flags: HarfBuzz's flags of each glyph.
        advances: Shape (g,), em: downwards.
        offsets: Shape (g, 2), em: origin from the pen, in the text's own frame.
        inks: Shape (g, 4), em: ink from the origin, in the text's own frame; NaN without ink.
        sizes: Shape (g,): the size of each glyph's em over that of the text.
        turned: Whether glyphs are drawn rotated by 90 degrees clockwise.
    """

    glyph_ids: Ints
    clusters: list[int]
    flags: list[int]
    advances: Floats
    offsets: Floats
    inks: Floats
    sizes: Floats
    turned: bool


def standings(text: str, runs: Sequence[Run]) -> tuple[Standing, ...]:
    """Cut the runs of a text where the way its characters stand changes.

    >>> from letterfit.lettering.typeface import open_typeface
    >>> face = open_typeface("Grandstander").styled("regular")
    >>> run = Run(0, 6, face, "Latn")
    >>> [(s.start, s.end, s.stance) for s in standings("12LOCK", [run])]
    [(0, 6, 'turned')]
    """
    found = []
    cuts = stances(text)
    for run in runs:
        for start, end, stance in cuts:
            first, last = max(start, run.start), min(end, run.end)
            if first < last:
                found += _as_the_face_can(text, Standing(first, last, run, stance))
    return tuple(found)


def _as_the_face_can(text: str, wanted: Standing) -> list[Standing]:
    """The stretch, cut where the face lacks a vertical form or has one for dots and dashes.

    UAX #50, table 2 (from memory): a character of Tr without a vertical form is rotated.
    """
    stances_here = [
        _stance_of(char, wanted.run.face, wanted.stance) for char in text[wanted.start : wanted.end]
    ]
    cuts = [k for k in range(1, len(stances_here)) if stances_here[k] != stances_here[k - 1]]
    return [
        Standing(wanted.start + a, wanted.start + b, wanted.run, stances_here[a])
        for a, b in zip([0, *cuts], [*cuts, len(stances_here)], strict=True)
    ]


def _stance_of(char: str, face: Face, stance: Stance) -> Stance:
    if stance == "upright" and orientation(char) == "Tr" and not has_vertical_form(face, char):
        return "turned"
    if stance == "stroke" and has_upright_stroke(face, char):
        return "upright"
    return stance


def stand(text: str, standing: Standing, *, language: str, context: tuple[int, int]) -> Stood:
    """Shape one stretch.

    Args:
        text: The whole text.
        standing: The stretch.
        language: BCP 47 tag.
        context: The characters (start, end) that stand in the column, seen by the shaping.
    """
    if standing.stance == "upright":
        return _upright(text, standing, language, context)
    if standing.stance == "together":
        return _together(text, standing, language)
    return _turned(text, standing, language, context)


def _upright(text: str, standing: Standing, language: str, context: tuple[int, int]) -> Stood:
    """Glyphs one under the other."""
    run, known = standing.run, engine(standing.run.face)
    buffer = _buffer(text, standing, language, context)
    buffer.direction = "ttb"
    hb.shape(known.font, buffer, UPRIGHT_FEATURES)
    ids, places = _read(buffer, known)
    x_offset, y_offset, _, y_advance = places
    metrics = vertical_metrics(run.face)
    down = -y_advance
    if not metrics.stated:
        rise, step = _filled_in(known, metrics, ids)
        y_offset = y_offset + rise
        down = np.where(down == 0, 0.0, down + step)
    left, top, right, bottom = known.inks(ids).T
    return Stood(
        glyph_ids=ids,
        clusters=[info.cluster + context[0] for info in buffer.glyph_infos],
        flags=[int(info.flags) for info in buffer.glyph_infos],
        advances=down,
        offsets=np.stack([-y_offset, -x_offset - 0.5], axis=-1),
        inks=np.stack([top, -right, bottom, -left], axis=-1),
        sizes=np.ones(len(ids)),
        turned=False,
    )


def _filled_in(known: Engine, metrics: VerticalMetrics, ids: Ints) -> tuple[Floats, Floats]:
    """What to add to HarfBuzz's heights and advances to make them those of an em's square."""
    font = known.font
    heights = [font.get_glyph_v_origin(glyph)[1] for glyph in ids.tolist()]
    advances = [font.get_glyph_v_advance(glyph) for glyph in ids.tolist()]
    rise = np.array(heights) / known.upem - (metrics.middle + 0.5)
    return rise, 1.0 + np.array(advances) / known.upem


def _turned(text: str, standing: Standing, language: str, context: tuple[int, int]) -> Stood:
    """A horizontal line rotated: in the text's own frame, an ordinary one."""
    run, known = standing.run, engine(standing.run.face)
    buffer = _buffer(text, standing, language, context)
    buffer.direction = "rtl" if run.rtl else "ltr"
    hb.shape(known.font, buffer)
    ids, (x_offset, y_offset, x_advance, _) = _read(buffer, known)
    infos = buffer.glyph_infos
    order = slice(None, None, -1) if run.rtl else slice(None)
    inks = known.inks(ids)
    if standing.stance == "stroke":
        drop = np.nan_to_num((inks[:, 1] + inks[:, 3]) / -2) + y_offset - 0.5
    else:
        drop = vertical_metrics(run.face).middle - y_offset - 0.5
    return Stood(
        glyph_ids=ids[order],
        clusters=[info.cluster + context[0] for info in infos[order]],
        flags=[int(info.flags) for info in infos[order]],
        advances=x_advance[order],
        offsets=np.stack([x_offset, drop], axis=-1)[order],
        inks=inks[order],
        sizes=np.ones(len(ids)),
        turned=True,
    )


def _together(text: str, standing: Standing, language: str) -> Stood:
    """Glyphs side by side in a cell of one em, their ink in its middle, smaller if need be."""
    run, known = standing.run, engine(standing.run.face)
    own = text[standing.start : standing.end]
    plain = narrow(own)
    buffer = hb.Buffer()
    buffer.add_str(plain if known.chars.issuperset(plain) else own)
    buffer.direction = "ltr"
    buffer.script = "Latn"
    buffer.language = language
    hb.shape(known.font, buffer)
    ids, (x_offset, y_offset, x_advance, _) = _read(buffer, known)
    across = np.concatenate([[0.0], np.cumsum(x_advance)[:-1]]) + x_offset
    left, top, right, bottom = known.inks(ids).T
    inked = ~np.isnan(left)
    begin = float((across + left)[inked].min(initial=0.0 if not inked.any() else np.inf))
    end = float((across + right)[inked].max(initial=0.0 if not inked.any() else -np.inf))
    size = min(1.0, 1.0 / (end - begin)) if end > begin else 1.0
    to_right = (across - (begin + end) / 2) * size
    down = 0.5 + (vertical_metrics(run.face).middle - y_offset) * size
    advances = np.zeros(len(ids))
    advances[-1:] = 1.0
    return Stood(
        glyph_ids=ids,
        clusters=[info.cluster + standing.start for info in buffer.glyph_infos],
        flags=[int(info.flags) for info in buffer.glyph_infos],
        advances=advances,
        offsets=np.stack([down, -to_right - 0.5], axis=-1),
        inks=np.stack([top, -right, bottom, -left], axis=-1) * size,
        sizes=np.full(len(ids), size),
        turned=False,
    )


def _buffer(text: str, standing: Standing, language: str, context: tuple[int, int]) -> hb.Buffer:
    """A stretch with the column's other characters as its context."""
    start, end = context
    seen = text[start:end]
    for char, drawn_as in engine(standing.run.face).spelling.items():
        seen = seen.replace(char, drawn_as)
    buffer = hb.Buffer()
    buffer.add_str(seen, standing.start - start, standing.end - standing.start)
    buffer.script = standing.run.script
    buffer.language = language
    return buffer


def _read(buffer: hb.Buffer, known: Engine) -> tuple[Ints, Floats]:
    """Glyph numbers, and x offset, y offset, x advance, y advance in em, y upwards: (4, g)."""
    ids = np.array([info.codepoint for info in buffer.glyph_infos], dtype=np.int64)
    flat = chain.from_iterable(place.position for place in buffer.glyph_positions)
    places = np.fromiter(flat, dtype=np.float64, count=4 * len(ids)).reshape(-1, 4)
    result: Floats = places.T / known.upem
    return ids, result
