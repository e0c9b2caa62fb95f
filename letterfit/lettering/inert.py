"""Inert spaces: faces in whose tables the space takes no part, so that words stand apart.

Where neither kerning nor substitution can see a space, a line may be cut at it without asking
HarfBuzz about each cut, which costs more than the shaping. It is a fact about the font's GSUB, GPOS
and kern tables; for the bundled families below a test proves it from those tables.
"""

from letterfit.lettering.face import Face

INERT_FAMILIES = frozenset({"Comic Relief", "Grandstander"})


def spaces_are_inert(face: Face) -> bool:
    """Whether a cut at a space is known to be safe everywhere; False where it is not known.

    >>> from letterfit.lettering.typeface import open_typeface
    >>> spaces_are_inert(open_typeface("Grandstander").styled("bold"))
    True
    """
    return face.file.content is None and face.family in INERT_FAMILIES
