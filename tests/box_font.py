"""A font built in memory whose every advance and ink box is known, so layouts come out by hand.

Every character is one box of ink. At 1000 units per em:

| characters            | advance | ink: left, bottom, right, top |
|-----------------------|---------|-------------------------------|
| A-Z and digits        | 600     | 50, 0, 550, 700               |
| I and 1               | 300     | 50, 0, 250, 700               |
| a-z                   | 500     | 50, 0, 450, 500               |
| space, no-break space | 300     | none                          |
| , ; and Q             | (as is) | goes down to -100             |
| other ASCII, — … ’    | 300     | 50, 0, 250, 700               |

At 10 pt one em is 10 * 25.4 / 72 mm = 3.527777... mm.
"""

import functools
import io
from collections.abc import Mapping

from fontTools.feaLib.builder import addOpenTypeFeaturesFromString
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.basePen import BasePen
from fontTools.pens.ttGlyphPen import TTGlyphPen

UPEM = 1000
CAP = 700
X_HEIGHT = 500
DEPTH = -100
MARGIN = 50
"""From the ends of the advance to the ink."""

CAPITAL, SMALL, NARROW = 600, 500, 300
CHARACTERS = "".join(map(chr, range(0x20, 0x7F))) + "\u00a0\u2014\u2026\u2019"

WIDE = 200
"""What the contextual font adds to a letter that follows a space."""

CONTEXTUAL = """
languagesystem DFLT dflt;
languagesystem latn dflt;
@plain = [{plain}];
@wide = [{wide}];
feature calt {{
  sub space @plain' by @wide;
}} calt;
"""
"""The first letter of every word but the first is wide: no line may be cut out of the whole."""


def advance(char: str) -> int:
    """The advance of a character, in units of 1/1000 em.

    >>> advance("A"), advance("I"), advance("b"), advance(" ")
    (600, 300, 500, 300)
    """
    if char in "I1":
        return NARROW
    if char.isascii() and (char.isupper() or char.isdigit()):
        return CAPITAL
    return SMALL if char.isascii() and char.islower() else NARROW


def ink(char: str) -> tuple[int, int, int, int] | None:
    """The ink box of a character (left, bottom, right, top; y upwards), or None for a space.

    >>> ink("A"), ink(","), ink(" ")
    ((50, 0, 550, 700), (50, -100, 250, 700), None)
    """
    if not char.strip():
        return None
    top = X_HEIGHT if char.isascii() and char.islower() else CAP
    bottom = DEPTH if char in ",;Q" else 0
    return (MARGIN, bottom, advance(char) - MARGIN, top)


def width_em(text: str) -> float:
    """The width in em of a text without kerning: the sum of its advances.

    >>> width_em("A BIT")
    2.4
    """
    return sum(map(advance, text)) / UPEM


@functools.cache
def box_font(
    *,
    characters: str = CHARACTERS,
    blanks: str = "",
    kerning: tuple[tuple[str, str, int], ...] = (),
    contextual: bool = False,
    family: str = "Box",
    style: str = "Regular",
) -> bytes:
    """The bytes of the font.

    Args:
        characters: What it covers.
        blanks: Characters besides that have an advance but no ink, though they are no spaces.
        kerning: Pairs of characters and what is added between them, in units (GPOS).
        contextual: Whether a letter after a space is `WIDE` units wider (GSUB `calt`).
        family: Its family name.
        style: "Regular", "Bold", "Italic" or "Bold Italic"; stated in name, OS/2 and head.
    """
    names = {char: f"u{ord(char):04X}" if char != " " else "space" for char in characters + blanks}
    plain = [names[char] for char in characters if ink(char)]
    metrics = {name: advance(char) for char, name in names.items()}
    boxes = {name: None if char in blanks else ink(char) for char, name in names.items()}
    if contextual:
        metrics |= {f"{name}.wide": metrics[name] + WIDE for name in plain}
        boxes |= {f"{name}.wide": boxes[name] for name in plain}
    builder = _builder(metrics, boxes, names)
    _name(builder, family, style)
    features = _kern(kerning, names)
    if contextual:
        wide = " ".join(f"{name}.wide" for name in plain)
        features += CONTEXTUAL.format(plain=" ".join(plain), wide=wide)
    if features:
        addOpenTypeFeaturesFromString(builder.font, features)
    stream = io.BytesIO()
    builder.font.save(stream)
    return stream.getvalue()


def broken_font() -> bytes:
    """The box font with its second half cut off: its tables point past the end."""
    whole = box_font()
    return whole[: len(whole) // 2]


def _builder(
    metrics: Mapping[str, int],
    boxes: Mapping[str, tuple[int, int, int, int] | None],
    names: Mapping[str, str],
) -> FontBuilder:
    """The tables that hold shapes, advances and characters."""
    order = [".notdef", *metrics]
    shapes = {".notdef": (MARGIN, 0, CAPITAL - MARGIN, CAP), **boxes}
    builder = FontBuilder(UPEM, isTTF=True)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({ord(char): name for char, name in names.items()})
    builder.setupGlyf({name: _box(shapes[name]) for name in order})
    lefts = {name: MARGIN if shapes[name] else 0 for name in order}
    widths = {".notdef": CAPITAL, **metrics}
    builder.setupHorizontalMetrics({name: (widths[name], lefts[name]) for name in order})
    builder.setupHorizontalHeader(ascent=900, descent=-300)
    return builder


def draw_box(pen: BasePen, box: tuple[int, int, int, int] | None) -> None:
    """Draw one rectangle, left, bottom, right, top in font units, or nothing."""
    if box:
        left, bottom, right, top = box
        pen.moveTo((left, bottom))
        for corner in ((left, top), (right, top), (right, bottom)):
            pen.lineTo(corner)
        pen.closePath()


def _box(box: tuple[int, int, int, int] | None) -> object:
    """A glyph of one rectangle, or of nothing."""
    pen = TTGlyphPen(None)
    draw_box(pen, box)
    return pen.glyph()


def _name(builder: FontBuilder, family: str, style: str) -> None:
    """State family and style in every table that holds them (OpenType spec, OS/2 fsSelection)."""
    bold, italic = "Bold" in style, "Italic" in style
    builder.setupNameTable({"familyName": family, "styleName": style})
    selection = (bold << 5) | (italic << 0) | ((not bold and not italic) << 6)
    builder.setupOS2(
        sTypoAscender=900, usWeightClass=700 if bold else 400, fsSelection=selection, sCapHeight=CAP
    )
    builder.setupPost()
    builder.font["head"].macStyle = bold | (italic << 1)
    # The builder stamps the clock: the same call must give the same bytes.
    builder.font["head"].created = builder.font["head"].modified = 0
    builder.font.recalcTimestamp = False


def _kern(pairs: tuple[tuple[str, str, int], ...], names: Mapping[str, str]) -> str:
    """Pair positioning in the feature file language."""
    if not pairs:
        return ""
    rules = [f"  pos {names[left]} {names[right]} {units};" for left, right, units in pairs]
    return "\n".join(["feature kern {", *rules, "} kern;", ""])
