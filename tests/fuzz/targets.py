"""The doors of letterfit as functions of raw bytes: each takes them or refuses them in one line.

What else a door promises is asserted here, too, so that a fuzzer sees it broken: what is written
reads back as the same value.
"""

import io
import zipfile
from collections.abc import Callable, Mapping

import letterfit as lf
from letterfit.lettering.fonts.face import glyph_path
from letterfit.lettering.fonts.facts import font_facts
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.report.house_rules import parse_limits

Target = Callable[[bytes], None]

MOST_LETTERED = 300
"""Bytes of a script that is lettered and placed, which takes a thousand times what reading does."""

_WORDS = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
_KIND = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument"
RELATIONS = (
    f'<Relationships xmlns="{_LINKS}"><Relationship Id="a" Type="{_KIND}" Target="d.xml"/>'
    "</Relationships>"
).encode()


def script(data: bytes) -> None:
    """A script of any kind, written as JSON and as text."""
    parsed = lf.parse_script_bytes(data, source="given")
    lf.script_to_json(parsed)
    lf.script_to_text(parsed)


def document(data: bytes) -> None:
    """The main part of a .docx, in an archive that is sound."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("_rels/.rels", RELATIONS)
        archive.writestr("d.xml", data)
    script(file.getvalue())


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


def lettered(data: bytes) -> None:
    """A short script all the way: lettered, placed, checked, as JSON."""
    lf.to_json(lf.preflight(lf.parse_script_bytes(data[:MOST_LETTERED]), check=True))


TARGETS: Mapping[str, Target] = {
    "document": document,
    "drawing": drawing,
    "font": font,
    "house_rules": house_rules,
    "lettered": lettered,
    "plans": plans,
    "script": script,
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
