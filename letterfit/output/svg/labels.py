"""Labels of a proof: small text in the default typeface, drawn as outlines like everything else."""

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from letterfit.geometry import Point
from letterfit.lettering.fonts.bundled import DEFAULT_FAMILY
from letterfit.lettering.fonts.typeface import Typeface, open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.output.plain import one_line
from letterfit.output.svg.glyphs import Glyphs, group

LONGEST = 300
"""Characters of a label that are set: a title is what a reader takes in at a glance."""


def label_lettering(size_pt: float) -> Lettering:
    """How labels are lettered: in the default typeface, as typed."""
    return Lettering(typeface=label_typeface(), size_pt=size_pt, case="as-typed")


@cache
def label_typeface() -> Typeface:
    """The default typeface, its faces under names of their own.

    A user's font may bear the same name and have other glyphs.
    """
    whole = open_typeface(DEFAULT_FAMILY)
    first, *others = (_renamed(family) for family in (whole, *whole.fallback))
    return replace(first, fallback=tuple(others))


def _renamed(family: Typeface) -> Typeface:
    faces = tuple(replace(face, name=f"{face.name} of labels") for face in family.faces)
    return replace(family, faces=faces)


def label(  # noqa: PLR0913 - keyword-only
    texts: Sequence[str],
    spot: Point,
    *,
    size_pt: float,
    colour: str,
    glyphs: Glyphs,
    most_mm: float = math.inf,
) -> str:
    """A line of text as typed, as a group of outlines; nothing when it has no ink.

    Args:
        texts: Wordings, the fullest first: the first that is not too wide is set.
        spot: Where its first baseline point stands, mm.
        size_pt: Its size.
        colour: Its colour.
        glyphs: What draws it.
        most_mm: Its greatest width.
    """
    lettering = label_lettering(size_pt)
    for text in texts:
        words = measure(one_line(text)[:LONGEST], lettering)
        line = words.line(0, len(words) - 1) if len(words) else None
        if line is not None and line.width_mm <= most_mm:
            return group([glyphs.set_line(line, spot)], colour=colour, name="words")
    return ""
