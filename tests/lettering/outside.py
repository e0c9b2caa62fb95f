"""Fonts, texts and shaping seen from outside: nothing here runs the library's own code.

Fonts are opened by HarfBuzz and by fontTools plainly; scripts come from fontTools' copy of UAX #24;
a line is shaped on its own, run by run, and set from left to right or from right to left.
"""

import io
import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import groupby
from pathlib import Path
from typing import Any, NamedTuple

import uharfbuzz as hb
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from fontTools.unicodedata import script as unicode_script

from letterfit.lettering.words import Glyph

ROOT = Path(__file__).parent.parent.parent

OWN_FACES = {
    "Arab": "Marhey/Marhey-400Regular.ttf",
    "Armn": "NotoSansArmenian/NotoSansArmenian-400Regular.ttf",
    "Beng": "NotoSansBengali/NotoSansBengali-400Regular.ttf",
    "Cher": "NotoSansCherokee/NotoSansCherokee-400Regular.ttf",
    "Cyrl": "BalsamiqSans/BalsamiqSans-Regular.ttf",
    "Deva": "Kalam/Kalam-Regular.ttf",
    "Ethi": "NotoSansEthiopic/NotoSansEthiopic-400Regular.ttf",
    "Geor": "NotoSansGeorgian/NotoSansGeorgian-400Regular.ttf",
    "Grek": "ComicRelief/ComicRelief-Regular.ttf",
    "Guru": "NotoSansGurmukhi/NotoSansGurmukhi-400Regular.ttf",
    "Hang": "Jua/Jua-400Regular.ttf",
    "Hans": "ZCOOLKuaiLe/ZCOOLKuaiLe-400Regular.ttf",
    "Hant": "YuseiMagic/YuseiMagic-400Regular.ttf",
    "Hebr": "PlaypenSansHebrew/PlaypenSansHebrew-400Regular.ttf",
    "Jpan": "YuseiMagic/YuseiMagic-400Regular.ttf",
    "Khmr": "NotoSansKhmer/NotoSansKhmer-400Regular.ttf",
    "Laoo": "NotoSansLao/NotoSansLao-400Regular.ttf",
    "Latn": "BalsamiqSans/BalsamiqSans-Regular.ttf",
    "Mymr": "NotoSansMyanmar/NotoSansMyanmar-400Regular.ttf",
    "Taml": "NotoSansTamil/NotoSansTamil-400Regular.ttf",
    "Telu": "NotoSansTelugu/NotoSansTelugu-400Regular.ttf",
    "Thai": "Mali/Mali-400Regular.ttf",
    "Tibt": "NotoSerifTibetan/NotoSerifTibetan-400Regular.ttf",
    "vie": "Grandstander/Grandstander-Regular.ttf",
    "yor": "Mali/Mali-400Regular.ttf",
}
"""A font that has every character of the texts of a script, or of one text."""

NUMBER = frozenset("0123456789٠١٢٣٤٥٦٧٨٩۰۱۲۳۴۵۶۷۸۹")


@dataclass(frozen=True, slots=True)
class Translation:
    """Article 1 of the Declaration in one language, of `tests/data/texts/udhr.json`."""

    code: str
    language: str
    name: str
    script: str
    direction: str
    text: str

    @property
    def font(self) -> str:
        """A font that has all its characters."""
        return OWN_FACES.get(self.code) or OWN_FACES[self.script]


@cache
def translations() -> tuple[Translation, ...]:
    """All translations, in the order of the file."""
    path = ROOT / "tests" / "data" / "texts" / "udhr.json"
    document = json.loads(path.read_text(encoding="utf-8"))
    return tuple(Translation(**text) for text in document["texts"])


@cache
def font_bytes(path: str) -> bytes:
    """A bundled font or a test font by its path in its folder of fonts."""
    bundled = ROOT / "fonts_open" / path
    return (bundled if bundled.exists() else ROOT / "tests" / "data" / "fonts" / path).read_bytes()


def fallback_fonts() -> list[bytes]:
    """The test fonts that have a script of their own."""
    folder = ROOT / "tests" / "data" / "fonts"
    paths = dict.fromkeys(OWN_FACES.values())
    return [font_bytes(path) for path in paths if (folder / path).exists()]


class Placed(NamedTuple):
    """A glyph with its origin in em, from the left end of its line's advance, y upwards."""

    glyph: int
    x: float
    y: float


class PlainFont:
    """A font as HarfBuzz and fontTools open it."""

    def __init__(self, content: bytes) -> None:
        self.hb = hb.Font(hb.Face(content))
        self.upem = int(self.hb.face.upem)
        self.tables = TTFont(io.BytesIO(content))
        self.chars = frozenset(map(chr, self.tables.getBestCmap()))
        self._boxes: dict[int, tuple[float, float, float, float] | None] = {}

    @cached_property
    def _glyphs(self) -> Any:  # noqa: ANN401 - fontTools has no types
        return self.tables.getGlyphSet()

    def box(self, glyph: int) -> tuple[float, float, float, float] | None:
        """A glyph's ink in em: left, bottom, right, top, y upwards; None without ink."""
        if glyph not in self._boxes:
            pen = BoundsPen(self._glyphs)
            self._glyphs[self.tables.getGlyphName(glyph)].draw(pen)
            box = tuple(edge / self.upem for edge in pen.bounds) if pen.bounds else None
            self._boxes[glyph] = box if box is None or box[0] < box[2] else None
        return self._boxes[glyph]


@cache
def plain_font(path: str) -> PlainFont:
    """The font at a path, opened once."""
    return PlainFont(font_bytes(path))


class Stretch(NamedTuple):
    """A part of a line in one font, script and direction."""

    start: int
    end: int
    font: PlainFont
    script: str
    rtl: bool


def scripts(text: str) -> list[str]:
    """The script of every character (UAX #24); of common ones, that of the letter before them."""
    known = [unicode_script(char) for char in text]
    current = next((name for name in known if name not in {"Zyyy", "Zinh", "Zzzz"}), "Latn")
    found = []
    for name in known:
        current = current if name in {"Zyyy", "Zinh", "Zzzz"} else name
        found.append(current)
    return found


def stretches(text: str, fonts: Sequence[PlainFont], *, rtl: bool) -> Iterator[Stretch]:
    """The parts of a text of one base direction without letters of the other one.

    Numbers in right-to-left text read from left to right (UAX #9, W and I rules).
    """
    names = scripts(text)
    kinds = [
        (id(font), name, rtl and char not in NUMBER)
        for char, font, name in zip(text, fonts, names, strict=True)
    ]
    for (_, name, leftward), group in groupby(range(len(text)), lambda k: kinds[k]):
        places = list(group)
        yield Stretch(places[0], places[-1] + 1, fonts[places[0]], name, leftward)


class LineSet(NamedTuple):
    """A line shaped on its own: its advance in em, and its glyphs with ink from left to right."""

    width: float
    glyphs: list[Placed]


def shape_line(
    text: str,
    parts: Sequence[Stretch],
    *,
    language: str,
    rtl: bool = False,
    crossbars: Sequence[int] = (),
) -> LineSet:
    """Shape a line, its parts apart but each in sight of the others.

    Args:
        text: The line.
        parts: Its parts, in the order of the text.
        language: BCP 47 tag.
        rtl: Whether its parts stand from right to left.
        crossbars: Where the alternate set ss01 is on.
    """
    pen, glyphs = 0.0, []
    for part in reversed(parts) if rtl else parts:
        buffer = hb.Buffer()
        buffer.add_str(text, part.start, part.end - part.start)
        buffer.direction = "rtl" if part.rtl else "ltr"
        buffer.script, buffer.language = part.script, language
        own = [(at, at + 1, 1) for at in crossbars if part.start <= at < part.end]
        hb.shape(part.font.hb, buffer, {"ss01": own} if own else {})
        upem = part.font.upem
        for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
            x, y = pen + place.x_offset / upem, place.y_offset / upem
            if part.font.box(info.codepoint):
                glyphs.append(Placed(info.codepoint, x, y))
            pen += place.x_advance / upem
    return LineSet(pen, glyphs)


def same_glyphs(
    alone: LineSet, drawn: Iterable[Glyph], *, em_mm: float = 1.0, close: float = 1e-9
) -> bool:
    """Whether a line is drawn with the glyphs of the line shaped alone, at their places."""
    wanted = sorted((g.glyph, g.x * em_mm, g.y * em_mm) for g in alone.glyphs)
    found = sorted((g.glyph_id, g.x_mm, -g.y_mm) for g in drawn)
    return len(wanted) == len(found) and all(
        a[0] == b[0] and max(abs(a[1] - b[1]), abs(a[2] - b[2])) < close
        for a, b in zip(wanted, found, strict=True)
    )
