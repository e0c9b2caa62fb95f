"""A typeface: the faces of a family by style, and the faces that stand in for what it lacks."""

import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import cast

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import (
    BUNDLED,
    FALLBACK_FAMILIES,
    STYLES,
    SYMBOLS,
    BundledFamily,
    Style,
    find_bundled,
)
from letterfit.lettering.fonts.choice import FontChoice, FontPlace
from letterfit.lettering.fonts.face import Face
from letterfit.lettering.fonts.fontfile import FontFile
from letterfit.lettering.fonts.reading import FoundFaces, named, read_faces

NEAREST: dict[Style, tuple[Style, ...]] = {
    "regular": ("regular", "bold", "italic", "bold italic"),
    "bold": ("bold", "bold italic", "regular", "italic"),
    "italic": ("italic", "bold italic", "regular", "bold"),
    "bold italic": ("bold italic", "bold", "italic", "regular"),
}
"""The style to take when one is missing. Emphasis keeps its weight before its slant: weight is
what stands out at a few points of size (common practice, no source)."""

FontSource = FontPlace | FontChoice
"""A bundled family's name, a path, the bytes of a font file, or a choice within a font file."""

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
        for near in NEAREST[style]:
            for face in self.faces:
                if face.style == near:
                    return face
        return self.faces[0]

    def chain(self, style: Style) -> Iterator[Face]:
        """The faces to look for a character of a style in, in order; nothing is opened."""
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
            a font file; or a `FontChoice` within one; or several of these that are styles of one
            family, as a sequence, or as a mapping from style ("regular", "bold", "italic", "bold
            italic"). The style of a font is read from the font itself. A bundled family's name
            goes before a file's.
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
    if isinstance(source, str | bytes | os.PathLike | FontChoice):
        return _of_faces([read_faces(source, alone=True)], source=named(source))
    if isinstance(source, Mapping):
        return _of_faces(
            [_styled(font, style) for style, font in source.items()],
            source="the mapping of styles",
        )
    if isinstance(source, Sequence):
        return _of_faces(
            [read_faces(font) for font in cast("Sequence[FontSource]", source)],
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


def _of_faces(files: Sequence[FoundFaces], *, source: str) -> Typeface:
    """The family of these faces: at most one of each style, one name for all."""
    given = [face for found in files for face in found.given]
    if not given:
        raise FontError("no font is given", advice="give one font file or more", source=source)
    family = given[0].family
    by_style: dict[Style, Face] = {}
    for face in given:
        named_so = replace(face, family=family, name=f"{family} {face.style.title()}")
        if by_style.setdefault(face.style, named_so) != named_so:
            raise FontError(
                f"two fonts are both {face.style}",
                advice='give one a style, or say which is which: {"regular": ..., "bold": ...}',
                source=source,
            )
    for face in [face for found in files for face in found.further]:
        named_so = replace(face, family=family, name=f"{family} {face.style.title()}")
        by_style.setdefault(face.style, named_so)
    return Typeface(family, tuple(by_style[style] for style in STYLES if style in by_style))


def _styled(source: FontSource, style: Style) -> FoundFaces:
    """A font under the style it is said to be: its face of that style, or else its first."""
    if style not in STYLES:
        raise FontError(f"no style is called {style!r}", advice=f"choose from {', '.join(STYLES)}")
    found = read_faces(source)
    own = [face for face in (*found.given, *found.further) if face.style == style]
    return FoundFaces((replace((own or found.given)[0], style=style),))
