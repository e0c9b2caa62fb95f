"""Reading a font file, or a choice within one, into faces."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import BUNDLED, SYMBOLS, Style, find_bundled
from letterfit.lettering.fonts.choice import FontChoice, FontPlace, axis_values, chosen_faces
from letterfit.lettering.fonts.contents import FileFace, file_faces, style_of
from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.fontfile import FontFile, font_file, read_font
from letterfit.lettering.fonts.probing import check_substitution
from letterfit.lettering.fonts.variable import (
    Settings,
    further_settings,
    is_bold,
    is_italic,
    own_settings,
)


@dataclass(frozen=True, slots=True)
class FoundFaces:
    """The faces that a font file gives.

    Args:
        given: Those that were asked for; at least one.
        further: Styles that a variable font has besides; another file's face goes before them.
    """

    given: tuple[Face, ...]
    further: tuple[Face, ...] = ()


def read_faces(source: FontPlace | FontChoice, *, alone: bool = False) -> FoundFaces:
    """The faces in one font file: one, the family of a collection, or those of a variable font.

    Args:
        source: A path, the bytes of a font file, or a choice within one.
        alone: Whether this font is the whole typeface: a weight that was chosen is its regular
            then, and its bold is heavier.

    Raises:
        FontError: When there is no such file, it is no font, or has not what was chosen.
    """
    if not isinstance(source, str | bytes | os.PathLike | FontChoice):
        raise FontError(
            f"a font cannot be opened from {type(source).__name__}", advice="give a path or bytes"
        )
    # A font that cannot be measured is refused here, not in the middle of a page.
    choice = source if isinstance(source, FontChoice) else FontChoice(source)
    name = named(choice)
    file = open_file(choice.source, chosen=source is choice)
    faces = chosen_faces(choice, file_faces(file), source=name)
    given: dict[Style, Face] = {}
    further: list[Face] = []
    for face in faces:
        values = axis_values(choice, face, source=name)
        own, others = _varied(face, file, values, alone=alone and choice.chooses_weight)
        given.setdefault(own.style, own)
        further += others if alone or not choice.chooses_weight else ()
    for opened in given.values():
        check_substitution(engine(opened), source=name)
    return FoundFaces(tuple(given.values()), tuple(further))


def open_file(source: FontPlace, *, chosen: bool = False) -> FontFile:
    """The font file at a path or of these bytes, checked.

    Args:
        source: The path or the bytes.
        chosen: Whether a choice was made within it, which the bundled families do not offer.

    Raises:
        FontError: When there is no such file, or it is no font.
    """
    if isinstance(source, bytes):
        return font_file(source, source=named(source))
    path = Path(source)
    try:
        found = path.exists()
    except (OSError, ValueError):
        found = False
    if found:
        return read_font(path)
    if chosen and isinstance(source, str) and find_bundled(source):
        raise FontError(
            f"{source[:80]} is a bundled family: there is nothing to choose within it",
            advice="give a font file",
        )
    families = ", ".join(name for name in BUNDLED if name != SYMBOLS)
    raise FontError(
        f"no typeface or font file is called {str(source)[:80]!r}",
        advice=f"give a path, or one of {families}",
    )


def named(source: FontPlace | FontChoice) -> str:
    """What a font is called in an error."""
    place = source.source if isinstance(source, FontChoice) else source
    return "the font given as bytes" if isinstance(place, bytes) else os.fspath(place)


def _varied(
    face: FileFace, file: FontFile, values: Mapping[str, float], *, alone: bool
) -> tuple[Face, list[Face]]:
    """The face at these values on its axes, and the further styles of its font."""

    def make(style: Style, settings: Settings = ()) -> Face:
        name = f"{face.family} {style.title()}"
        return Face(name, face.family, style, file, face.index, settings)

    if not face.axes:
        return make(face.style), []
    own = own_settings(face.axes, values)
    italic = is_italic(face, values)
    style = style_of(bold=not alone and is_bold(face, values), italic=italic)
    others = further_settings(face.axes, values, italic=italic)
    return make(style, own), [make(*other) for other in others]
