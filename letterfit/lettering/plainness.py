"""Plain faces: fonts in whose tables the space takes no part, so that words stand apart.

Where neither kerning nor substitution can see a space, a line may be cut at every space without
asking HarfBuzz, and a text is its words side by side. It is a fact about the font's tables: for
the families below a test proves it from them.
"""

from letterfit.lettering.face import Face

PLAIN_FAMILIES = frozenset({"Comic Relief", "Grandstander"})


def is_plain(face: Face) -> bool:
    """Whether it is known of a face; False where it is not known.

    >>> from letterfit.lettering.typeface import open_typeface
    >>> is_plain(open_typeface("Grandstander").styled("bold"))
    True
    """
    return face.family in PLAIN_FAMILIES and face.file.content is None
