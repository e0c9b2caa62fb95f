"""The doors of letterfit as functions of raw bytes: each takes them or refuses them in one line.

What else a door promises is asserted here, too, so that a fuzzer sees it broken: what is written
reads back as the same value.
"""

import struct
from collections.abc import Callable, Mapping

import letterfit as lf
from letterfit.lettering.fonts.face import glyph_path
from letterfit.lettering.fonts.facts import font_facts
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.report.house_rules import parse_limits
from tests.fuzz.seeds import packed, sound_fonts

Target = Callable[[bytes], None]

MOST_LETTERED = 120
"""Bytes of a script that is lettered and placed, which takes a hundred times what reading does."""

EDIT = struct.Struct(">HBB")
"""A change of a font: a place, what is done there, and a value."""


def script(data: bytes) -> None:
    """A script of any kind, written as JSON."""
    lf.script_to_json(lf.parse_script_bytes(data, source="given"))


def script_shown(data: bytes) -> None:
    """A script as a terminal shows it, which takes five times what reading does."""
    lf.script_to_text(lf.parse_script_bytes(data, source="given"))


def document(data: bytes) -> None:
    """The main part of a .docx, in an archive that is sound."""
    script(packed(data))


def plans(data: bytes) -> None:
    """Plans in TOML or JSON; written in either they read back as the same."""
    read = lf.parse_plans(data.decode("utf-8", "replace"), source="given")
    for write in (lf.plans_to_json, lf.plans_to_toml):
        written = write(read)
        assert write(lf.parse_plans(written)) == written


def house_rules(data: bytes) -> None:
    """House rules in TOML."""
    parse_limits(data.decode("utf-8", "replace"), source="given")


def drawing(data: bytes) -> None:
    """A page drawn in SVG, with its measures as JSON."""
    lf.measures_to_json(lf.measure_page(lf.parse_drawn_page(data, source="given")))


def table(data: bytes) -> None:
    """A table of texts, CSV or JSON."""
    lf.parse_table(data, source="given")


def font(data: bytes) -> None:
    """A font file: its facts, a line set in it, and its outlines."""
    opened = open_typeface(data)
    font_facts(opened)
    measure("Ahoy *THE* office, ffl Á!", lf.Lettering(typeface=opened))
    for face in opened.faces:
        glyph_path(face, 5)


def edited_font(data: bytes) -> None:
    """A sound font, told by the first byte, of which the rest changes some places."""
    fonts = sound_fonts()
    content = bytearray(fonts[data[0] % len(fonts)] if data else fonts[0])
    edits = data[1:]
    for place, done, value in EDIT.iter_unpack(edits[: len(edits) // EDIT.size * EDIT.size]):
        _edit(content, at=place % len(content), done=done % 4, value=value)
    font(bytes(content))


def _edit(content: bytearray, *, at: int, done: int, value: int) -> None:
    """Set a byte, turn a bit, set two bytes, or write a stretch of the file's end over others."""
    if done == 0:
        content[at] = value
    elif done == 1:
        content[at] ^= 1 << value % 8
    elif done == 2:
        content[at : at + 2] = bytes([value, value])
    else:
        length = 1 + value % 32
        content[at : at + length] = content[-length:]


def lettered(data: bytes) -> None:
    """A short script all the way: lettered, placed, checked, as JSON."""
    lf.to_json(lf.preflight(lf.parse_script_bytes(data[:MOST_LETTERED]), check=True))


TARGETS: Mapping[str, Target] = {
    "document": document,
    "drawing": drawing,
    "edited_font": edited_font,
    "font": font,
    "house_rules": house_rules,
    "lettered": lettered,
    "plans": plans,
    "script": script,
    "script_shown": script_shown,
    "table": table,
}


def tried(target: Target, data: bytes) -> None:
    """Give bytes to a door; to be refused is an answer, if it is one line that can be shown.

    Raises:
        AssertionError: When the complaint is more than a line or would move a terminal's cursor.
        Exception: Whatever a door lets through: each is a fault.
    """
    try:
        target(data)
    except lf.LetterfitError as error:
        said = str(error)
        assert said.isprintable(), said
