"""What a face says of vertical text: its em's middle, its vertical advances, its vertical forms."""

import struct
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import uharfbuzz as hb

from letterfit.lettering.fonts.face import OPEN_FACES, Face, engine

KANA = "あいのア国一가"
"""A face that has one of these is made for the em as a square, so its em's middle is stated."""

TYPO_METRICS = slice(68, 72)
"""sTypoAscender and sTypoDescender in OS/2 (OpenType 1.9.1, OS/2 table)."""


@dataclass(frozen=True, slots=True)
class VerticalMetrics:
    """What a face says of vertical text.

    Args:
        middle: Height of the middle of its em over the baseline, in em. Rotated text has it on the
            column's centre line; an upright glyph's cell reaches half an em to either side of it.
        stated: Whether it states vertical advances and origins (table `vmtx`).
    """

    middle: float
    stated: bool


@lru_cache(maxsize=OPEN_FACES)
def vertical_metrics(face: Face) -> VerticalMetrics:
    """The vertical metrics of a face.

    In a face for ideographs the em's square reaches from sTypoDescender to sTypoAscender (OpenType
    1.9.1, OS/2: "for CJK fonts", from memory); where those are no em apart, its middle is theirs.
    In a face without, the middle is that of the capitals.
    """
    known = engine(face)
    data = known.font.face
    table = data.reference_table("OS/2").data
    if known.chars.isdisjoint(KANA) or len(table) < TYPO_METRICS.stop:
        middle = face.cap_height_em / 2
    else:
        middle = sum(struct.unpack(">hh", table[TYPO_METRICS])) / 2 / known.upem
    return VerticalMetrics(middle, "vmtx" in data.table_tags)


@lru_cache(maxsize=4096)
def has_vertical_form(face: Face, char: str) -> bool:
    """Whether a face draws a character otherwise in vertical text (OpenType: vert, vrt2)."""
    flat: int = engine(face).font.get_nominal_glyph(ord(char)) or 0
    return _upright_glyph(face, char) != flat


@lru_cache(maxsize=4096)
def has_upright_stroke(face: Face, char: str) -> bool:
    """Whether a face's vertical form of a dash or of dots does run down the column.

    Some fonts replace the horizontal dots by just such dots.
    """
    left, top, right, bottom = engine(face).inks(np.array([_upright_glyph(face, char)]))[0].tolist()
    return has_vertical_form(face, char) and bottom - top > right - left


def _upright_glyph(face: Face, char: str) -> int:
    """The glyph of one character in a vertical line; 0 when it takes none or several."""
    buffer = hb.Buffer()
    buffer.add_str(char)
    buffer.direction = "ttb"
    buffer.script = "Kana"
    buffer.language = "ja"
    engine(face).shape(buffer)
    infos = buffer.glyph_infos
    return int(infos[0].codepoint) if len(infos) == 1 else 0
