"""Shaping one run of a vertical text.

HarfBuzz shapes what stands upright from top to bottom, with the font's vertical forms, advances and
origins; what is turned and what shares a cell is shaped as a horizontal line
(`letterfit.lettering.vertical.placing` puts all of it about the column's centre line).

A font without vertical metrics gets one em for every advance, and its em's square for the cell:
HarfBuzz would take the line height, and centre the ink of each glyph, 、 and 。 too.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise, takewhile
from typing import NamedTuple

import uharfbuzz as hb

from letterfit.lettering.fonts.face import Features, engine
from letterfit.lettering.shaping.runs import Run
from letterfit.lettering.vertical.metrics import (
    has_upright_stroke,
    has_vertical_form,
    vertical_metrics,
)
from letterfit.lettering.vertical.orientation import orientation
from letterfit.lettering.vertical.stances import Stance, narrow, stances

CLOSE_PUNCTUATION = "vchw"
"""Punctuation that follows punctuation closes up, where the font can (OpenType, on by default)."""


class Stood(NamedTuple):
    """The glyphs of one run of a column, in the order of the text.

    Args:
        infos: What HarfBuzz says of each glyph.
        positions: Where it puts them, in the frame it shaped them in.
        advances: Downwards, em.
        rises: What is to be added to HarfBuzz's heights, em, where the font states no vertical
            metrics.
    """

    infos: Sequence[hb.GlyphInfo]
    positions: Sequence[hb.GlyphPosition]
    advances: list[float]
    rises: list[float] | None = None


def standing_runs(text: str, runs: Sequence[Run]) -> tuple[Run, ...]:
    """Cut the runs of a text where the way its characters stand changes.

    UAX #50, table 2 (from memory): a character of Tr without a vertical form is rotated.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
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
    font, upem = known.font, known.upem
    buffer.direction = "ttb"
    known.shape(buffer, {CLOSE_PUNCTUATION: True, **(features or {})})
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    if metrics.stated:
        return Stood(infos, positions, [-place.y_advance / upem for place in positions])
    top = metrics.middle + 0.5
    glyphs = [info.codepoint for info in infos]
    rises = [font.get_glyph_v_origin(glyph)[1] / upem - top for glyph in glyphs]
    # HarfBuzz's own advance is the line height; marks have none, and keep that.
    advances = [
        1.0 + (font.get_glyph_v_advance(glyph) - place.y_advance) / upem if place.y_advance else 0.0
        for glyph, place in zip(glyphs, positions, strict=True)
    ]
    return Stood(infos, positions, advances, rises)


def _turned(buffer: hb.Buffer, run: Run, features: Features) -> Stood:
    """A horizontal line rotated: in the text's own frame, an ordinary one."""
    known = engine(run.face)
    buffer.direction = "rtl" if run.rtl else "ltr"
    known.shape(buffer, features)
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    if run.rtl:
        infos.reverse()
        positions.reverse()
    return Stood(infos, positions, [place.x_advance / known.upem for place in positions])


def _together(own: str, run: Run, origin: int, language: str) -> Stood:
    """Glyphs side by side in a cell of one em, its advance after the last of them."""
    known = engine(run.face)
    plain = narrow(own)
    before = run.start - origin
    buffer = hb.Buffer()
    shown = plain if known.chars.issuperset(plain) else own
    buffer.add_str(" " * before + shown, before, len(shown))
    buffer.direction = "ltr"
    buffer.script = "Latn"
    buffer.language = language
    known.shape(buffer)
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    return Stood(infos, positions, [*[0.0] * (len(infos) - 1), 1.0])
