"""What a font file holds: its faces, each with its names, its style, its axes and instances."""

import re
from dataclasses import dataclass

import uharfbuzz as hb

from letterfit.lettering.fonts.bundled import STYLES, Style
from letterfit.lettering.fonts.fontfile import MOST_FACES, FontFile
from letterfit.lettering.fonts.naming import name_of

BOLD_WEIGHT = 600
"""Semi-bold and heavier counts as bold (OpenType, OS/2 usWeightClass)."""

BOLD_NAMES = frozenset({"bold", "semibold", "demibold", "demi", "extrabold", "black", "heavy"})
ITALIC_NAMES = frozenset({"italic", "oblique", "slanted", "inclined"})


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis of a variable font.

    Args:
        tag: Its four letters, such as "wght".
        name: What the font calls it; may be empty.
        low: Its least value, a number on its own scale.
        default: Its default value, on the same scale: a number.
        high: Its greatest value: a number.

    >>> Axis(tag="wght", name="Weight", low=100.0, default=400.0, high=900.0).default
    400.0
    """

    tag: str
    name: str
    low: float
    default: float
    high: float


@dataclass(frozen=True, slots=True)
class Instance:
    """A named place on the axes of a variable font.

    Args:
        name: Its name, such as "SemiBold".
        axes: The value on each axis, a number on its own scale, by tag.

    >>> Instance(name="SemiBold", axes=(("wght", 600.0),)).axes
    (('wght', 600.0),)
    """

    name: str
    axes: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FileFace:
    """A face of a font file, as the file describes it.

    Args:
        index: Its number in the file, from 0.
        family: The family's name; "Unnamed" when the font states none.
        style_name: What the font calls the style, such as "Condensed Bold"; may be empty.
        style: Which of the four styles that is.
        axes: Its axes; none unless it is a variable font.
        instances: Its named instances.

    >>> import letterfit as lf
    >>> (face,) = lf.font_facts(lf.open_typeface("bangers")).contents
    >>> face.index, face.family, face.style_name, face.axes
    (0, 'Bangers', 'Regular', ())
    """

    index: int
    family: str
    style_name: str
    style: Style
    axes: tuple[Axis, ...] = ()
    instances: tuple[Instance, ...] = ()


def file_faces(file: FontFile) -> tuple[FileFace, ...]:
    """The faces of a font file, in its order.

    >>> [face.style_name for face in file_faces(FontFile("Bangers/Bangers-Regular.ttf"))]
    ['Regular']
    """
    content = hb.Blob(file.read())
    count = min(int(hb.Face(content).count), MOST_FACES)
    return tuple(_described(hb.Face(content, index), index) for index in range(count))


def style_of(*, bold: bool, italic: bool) -> Style:
    """One of the four styles.

    >>> style_of(bold=True, italic=True)
    'bold italic'
    """
    return STYLES[bold + 2 * italic]


def _described(face: hb.Face, index: int) -> FileFace:
    """Family and style as the font's tables name, OS/2 and head state them."""
    font = hb.Font(face)
    name = hb.OTNameIdPredefined
    instances = _instances(face)
    family = name_of(face, name.TYPOGRAPHIC_FAMILY) or _without_instance(
        name_of(face, name.FONT_FAMILY) or "Unnamed", instances
    )
    stated = name_of(face, name.TYPOGRAPHIC_SUBFAMILY, name.FONT_SUBFAMILY)
    words = set(re.findall(r"[a-z]+", stated.lower()))
    bold = bool(words & BOLD_NAMES) or font.get_style_value(hb.StyleTag.WEIGHT) >= BOLD_WEIGHT
    slant = font.get_style_value(hb.StyleTag.SLANT_ANGLE)
    italic = (
        bool(words & ITALIC_NAMES) or slant != 0 or font.get_style_value(hb.StyleTag.ITALIC) > 0
    )
    return FileFace(
        index=index,
        family=family,
        style_name=stated,
        style=style_of(bold=bold, italic=italic),
        axes=_axes(face),
        instances=instances,
    )


def _without_instance(family: str, instances: tuple[Instance, ...]) -> str:
    """The family's name without the instance that a variable font's file begins with.

    >>> _without_instance("Nib Thin", (Instance("Thin", ()), Instance("Bold", ())))
    'Nib'
    """
    for instance in instances:
        if family.endswith(f" {instance.name}"):
            return family.removesuffix(f" {instance.name}")
    return family


def _axes(face: hb.Face) -> tuple[Axis, ...]:
    """The axes that can be set; one that an application should hide can be set as well."""
    return tuple(
        Axis(
            info.tag,
            name_of(face, info.name_id),
            float(info.min_value),
            float(info.default_value),
            float(info.max_value),
        )
        for info in face.axis_infos
    )


def _instances(face: hb.Face) -> tuple[Instance, ...]:
    tags = [info.tag for info in face.axis_infos]
    return tuple(
        Instance(name, tuple(zip(tags, map(float, instance.design_coords), strict=True)))
        for instance in face.named_instances
        if (name := name_of(face, instance.subfamily_name_id))
    )
