"""A choice within a font file: which face of a collection, and where on a variable font's axes."""

import math
import os
from collections.abc import Mapping
from dataclasses import dataclass
from numbers import Real

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import bare_name
from letterfit.lettering.fonts.contents import Axis, FileFace, Instance

FontPlace = str | os.PathLike[str] | bytes
"""A path, or the bytes of a font file."""


@dataclass(frozen=True, slots=True, init=False)
class FontChoice:
    """One face of a font file; stands wherever a font file can.

    Args:
        source: The path, or the bytes of a font file.
        index: The number of a face in a collection, from 0; None takes the styles of the first
            family there.
        instance: A named instance of a variable font, case, spaces and hyphens forgiven; empty for
            none.
        axes: Values on the axes of a variable font by tag, such as {"wght": 600}, numbers on
            the axis's own scale; they go before those of the named instance. What is not chosen is
            left at the font's default, the weight at regular (400) or nearest to it.

    Raises:
        FontError: When the source is neither, the index no whole number, or a value no number.

    >>> FontChoice("nib.ttf", axes={"wght": 600}).axes
    (('wght', 600.0),)
    """

    source: FontPlace
    index: int | None
    instance: str
    axes: tuple[tuple[str, float], ...]

    def __init__(
        self,
        source: FontPlace,
        *,
        index: int | None = None,
        instance: str = "",
        axes: Mapping[str, float] | None = None,
    ) -> None:
        if not isinstance(source, str | bytes | os.PathLike):
            raise FontError(
                f"a font cannot be chosen from {type(source).__name__}",
                advice="give a path or bytes",
            )
        if index is not None and (isinstance(index, bool) or not isinstance(index, int)):
            raise FontError(f"{index!r} is no number of a face", advice="count the faces from 0")
        values = {
            "source": source,
            "index": index,
            "instance": instance,
            "axes": tuple(sorted((tag, _number(tag, at)) for tag, at in (axes or {}).items())),
        }
        for name, value in values.items():
            object.__setattr__(self, name, value)

    @property
    def chooses_weight(self) -> bool:
        """Whether the choice says how heavy the face is."""
        return bool(self.instance) or any(tag == "wght" for tag, _ in self.axes)


def chosen_faces(
    choice: FontChoice, faces: tuple[FileFace, ...], *, source: str
) -> tuple[FileFace, ...]:
    """The faces of a file that a choice means.

    Raises:
        FontError: When there is no face of that number.
    """
    if choice.index is None:
        return tuple(face for face in faces if face.family == faces[0].family)
    for face in faces:
        if face.index == choice.index:
            return (face,)
    listed = ", ".join(f"{face.index} {face.family} {face.style_name}".strip() for face in faces)
    raise FontError(
        f"the font has no face {choice.index}", advice=f"choose from {listed[:200]}", source=source
    )


def axis_values(choice: FontChoice, face: FileFace, *, source: str) -> dict[str, float]:
    """The values that a choice sets on the axes of a face, by tag.

    Raises:
        FontError: When the font has no such instance or axis, or a value is off the axis.
    """
    values = dict(_instance(choice.instance, face, source=source).axes) if choice.instance else {}
    for tag, value in choice.axes:
        axis = _axis(tag, face, source=source)
        if not axis.low <= value <= axis.high:
            raise FontError(
                f"{tag} goes from {axis.low:g} to {axis.high:g}, not to {value:g}",
                advice="choose a value in between",
                source=source,
            )
        values[tag] = value
    return values


def _instance(name: str, face: FileFace, *, source: str) -> Instance:
    wanted = bare_name(name)
    for instance in face.instances:
        if bare_name(instance.name) == wanted:
            return instance
    known = ", ".join(instance.name for instance in face.instances)
    raise FontError(
        f"the font has no named instance {name[:60]!r}",
        advice=f"choose from {known[:300]}" if known else "it has none",
        source=source,
    )


def _axis(tag: str, face: FileFace, *, source: str) -> Axis:
    for axis in face.axes:
        if axis.tag == tag:
            return axis
    known = ", ".join(f"{axis.tag} {axis.low:g} to {axis.high:g}" for axis in face.axes)
    raise FontError(
        f"the font has no axis {tag[:20]!r}",
        advice=f"it has {known[:300]}" if known else "it is not a variable font",
        source=source,
    )


def _number(tag: str, value: float) -> float:
    if not isinstance(value, Real) or isinstance(value, bool) or not math.isfinite(value):
        raise FontError(f"{tag} cannot be {value!r}", advice="give a number")
    return float(value)
