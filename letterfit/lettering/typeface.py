"""A typeface: the faces of a family by style, and the faces that stand in for what it lacks."""

import os
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import cast

import uharfbuzz as hb

from letterfit.errors import FontError
from letterfit.lettering.bundled import (
    BUNDLED,
    FALLBACK_FAMILIES,
    STYLES,
    SYMBOLS,
    BundledFamily,
    Style,
    find_bundled,
)
from letterfit.lettering.face import Face, engine
from letterfit.lettering.fontfile import FontFile, font_file, read_font

NEAREST: dict[Style, tuple[Style, ...]] = {
    "regular": ("regular", "bold", "italic", "bold italic"),
    "bold": ("bold", "bold italic", "regular", "italic"),
    "italic": ("italic", "bold italic", "regular", "bold"),
    "bold italic": ("bold italic", "bold", "italic", "regular"),
}
"""The style to take when one is missing. Emphasis keeps its weight before its slant: weight is
what stands out at a few points of size (common practice, no source)."""

BOLD_WEIGHT = 600
"""Semi-bold and heavier counts as bold (OpenType, OS/2 usWeightClass)."""

BOLD_NAMES = frozenset({"bold", "semibold", "demibold", "demi", "extrabold", "black", "heavy"})
ITALIC_NAMES = frozenset({"italic", "oblique", "slanted", "inclined"})

FontSource = str | os.PathLike[str] | bytes
"""A bundled family's name, a path, or the bytes of a font file."""

TypefaceSource = FontSource | Mapping[Style, FontSource] | Sequence[FontSource]
"""A font, or several styles of one family."""


@dataclass(frozen=True, slots=True)
class Typeface:
    """A family of faces with its fallback chain.

    Args:
        family: The family's name.
        faces: Its faces, one for each style it has; at least one.
        fallback: The families that a missing character is taken from, in order.

    >>> open_typeface("bangers").styles
    ('regular',)
    """

    family: str
    faces: tuple[Face, ...]
    fallback: tuple["Typeface", ...] = ()

    @property
    def styles(self) -> tuple[Style, ...]:
        """The styles the family has itself."""
        return tuple(face.style for face in self.faces)

    def has(self, style: Style) -> bool:
        """Whether the family has that style itself."""
        return style in self.styles

    def styled(self, style: Style) -> Face:
        """The face of that style, or of the nearest style that the family has."""
        mine = {face.style: face for face in self.faces}
        return next(mine[near] for near in NEAREST[style] if near in mine)

    def chain(self, style: Style) -> Iterator[Face]:
        """The faces to look for a character in, in order; nothing is opened."""
        yield self.styled(style)
        for family in self.fallback:
            yield family.styled(style)

    def face(self, name: str) -> Face:
        """The face of that name, among its own and those of its fallback families.

        Raises:
            FontError: When there is none.
        """
        for family in (self, *self.fallback):
            for face in family.faces:
                if face.name == name:
                    return face
        raise FontError(f"{self.family} has no face called {name!r}")


def open_typeface(source: TypefaceSource, *, fallback: Sequence[TypefaceSource] = ()) -> Typeface:
    """Open a typeface.

    Args:
        source: The name of a bundled family (case and spaces forgiven); or a path; or the bytes of
            a font file; or several of these that are styles of one family, as a sequence, or as a
            mapping from style ("regular", "bold", "italic", "bold italic"). The style of a font
            is read from the font itself. A bundled family's name goes before a file's.
        fallback: Where characters it lacks are taken from, in order; after these come the bundled
            families Letterfit Symbols, Balsamiq Sans, Comic Relief and Grandstander.

    Returns:
        A value that can be pickled. Files are read here; bundled ones only when they are needed.

    Raises:
        FontError: When there is no such typeface, or a file is not a font that can be measured.

    >>> open_typeface("comic neue").face("Comic Neue Bold Italic").style
    'bold italic'
    """
    first = _family(source)
    others = [_family(other) for other in fallback]
    others += [_bundled(BUNDLED[name]) for name in FALLBACK_FAMILIES]
    chain: list[Typeface] = []
    taken = {face.name for face in first.faces}
    for other in others:
        if other.faces == first.faces or any(other.faces == known.faces for known in chain):
            continue
        distinct = _renamed(other, taken)
        taken |= {face.name for face in distinct.faces}
        chain.append(distinct)
    return replace(first, fallback=tuple(chain))


def _renamed(family: Typeface, taken: set[str]) -> Typeface:
    """The family with names of faces that are not yet taken, so that a name means one face."""
    faces = []
    for face in family.faces:
        name, count = face.name, 2
        while name in taken:
            name, count = f"{face.name} ({count})", count + 1
        faces.append(face if name == face.name else replace(face, name=name))
    return replace(family, faces=tuple(faces))


def _family(source: TypefaceSource) -> Typeface:
    """The family alone, without a fallback chain."""
    if isinstance(source, str):
        bundled = find_bundled(source)
        if bundled is not None and bundled.name != SYMBOLS:
            return _bundled(bundled)
    if isinstance(source, str | bytes | os.PathLike):
        return _of_faces(_read_faces(source), source=_named(source))
    if isinstance(source, Mapping):
        return _of_faces(
            [_restyled(_first_face(font), style) for style, font in source.items()],
            source="the mapping of styles",
        )
    if isinstance(source, Sequence):
        return _of_faces(
            [face for font in cast("Sequence[FontSource]", source) for face in _read_faces(font)],
            source="the list of fonts",
        )
    raise FontError(
        f"a typeface cannot be opened from {type(source).__name__}",
        advice="give a family's name, a path, bytes, or several styles of one font",
    )


@cache
def _bundled(family: BundledFamily) -> Typeface:
    faces = tuple(
        Face(f"{family.name} {style.title()}", family.name, style, FontFile(family.path_of(style)))
        for style in family.styles
    )
    return Typeface(family.name, faces)


def _of_faces(faces: Sequence[Face], *, source: str) -> Typeface:
    """The family of these faces: at most one of each style, one name for all."""
    if not faces:
        raise FontError("no font is given", advice="give one font file or more", source=source)
    family = faces[0].family
    by_style: dict[Style, Face] = {}
    for face in faces:
        if face.style in by_style and face.file != by_style[face.style].file:
            raise FontError(
                f"two fonts are both {face.style}",
                advice='say which is which: {"regular": ..., "bold": ...}',
                source=source,
            )
        named = replace(face, family=family, name=f"{family} {face.style.title()}")
        by_style.setdefault(face.style, named)
    return Typeface(family, tuple(by_style[style] for style in STYLES if style in by_style))


def _restyled(face: Face, style: Style) -> Face:
    if style not in STYLES:
        raise FontError(f"no style is called {style!r}", advice=f"choose from {', '.join(STYLES)}")
    return replace(face, style=style)


def _first_face(source: FontSource) -> Face:
    return _read_faces(source)[0]


def _named(source: FontSource) -> str:
    return "the font given as bytes" if isinstance(source, bytes) else os.fspath(source)


def _read_faces(source: FontSource) -> list[Face]:
    """The faces in one font file: one, the family of a collection, or those of a variable font."""
    if isinstance(source, bytes):
        file = font_file(source, source=_named(source))
    elif isinstance(source, str | os.PathLike):
        file = read_font(_existing(source))
    else:
        raise FontError(
            f"a font cannot be opened from {type(source).__name__}", advice="give a path or bytes"
        )
    content = hb.Blob(file.read())
    count = int(hb.Face(content).count)
    faces = [_described(hb.Face(content, index), file, index) for index in range(count)]
    same = [face for face in faces if face.family == faces[0].family]
    for face in same:
        engine(face)  # a font that cannot be measured is refused now, not in the middle of a page
    return [varied for face in same for varied in _with_bold(face)]


def _existing(source: str | os.PathLike[str]) -> Path:
    path = Path(source)
    try:
        found = path.exists()
    except (OSError, ValueError):
        found = False
    if not found:
        families = ", ".join(name for name in BUNDLED if name != SYMBOLS)
        raise FontError(
            f"no typeface or font file is called {str(source)[:80]!r}",
            advice=f"give a path, or one of {families}",
        )
    return path


def _described(face: hb.Face, file: FontFile, index: int) -> Face:
    """Family and style as the font's tables name, OS/2 and head state them."""
    font = hb.Font(face)
    name = hb.OTNameIdPredefined
    family = face.get_name(name.TYPOGRAPHIC_FAMILY) or face.get_name(name.FONT_FAMILY)
    stated = face.get_name(name.TYPOGRAPHIC_SUBFAMILY) or face.get_name(name.FONT_SUBFAMILY)
    words = set(re.findall(r"[a-z]+", (stated or "").lower()))
    bold = bool(words & BOLD_NAMES) or font.get_style_value(hb.StyleTag.WEIGHT) >= BOLD_WEIGHT
    slant = font.get_style_value(hb.StyleTag.SLANT_ANGLE)
    italic = (
        bool(words & ITALIC_NAMES) or slant != 0 or font.get_style_value(hb.StyleTag.ITALIC) > 0
    )
    family = " ".join((family or "Unnamed").split()) or "Unnamed"
    style = _style(bold=bold, italic=italic)
    return Face(f"{family} {style.title()}", family, style, file, index)


def _style(*, bold: bool, italic: bool) -> Style:
    return STYLES[bold + 2 * italic]


def _with_bold(face: Face) -> list[Face]:
    """The face, and its bold where it is a variable font with weights to bold and beyond."""
    axes = {axis.tag: axis for axis in engine(face).font.face.axis_infos}
    weight = axes.get("wght")
    if weight is None or "bold" in face.style or weight.max_value < BOLD_WEIGHT:
        return [face]
    heavy = min(700.0, float(weight.max_value))
    style = _style(bold=True, italic="italic" in face.style)
    bold = replace(face, style=style, variations=(("wght", heavy),))
    return [face, bold]
