"""Plain faces: fonts so simple that a text can be cut at its spaces without asking HarfBuzz.

Two facts about a font's tables save half the time of measuring. Where neither kerning nor
substitution can see a space, a line may be cut at every space. Where no substitution makes two
glyphs out of one, and the text has letters that Unicode composes of nothing, as many glyphs as
characters means a glyph for every character. A test proves both for the families below.
"""

from letterfit.lettering.face import Face

PLAIN_FAMILIES = frozenset({"Comic Relief", "Grandstander"})


def is_plain(face: Face) -> bool:
    """Whether both are known of a face; False where they are not known.

    >>> from letterfit.lettering.typeface import open_typeface
    >>> is_plain(open_typeface("Grandstander").styled("bold"))
    True
    """
    return face.file.content is None and face.family in PLAIN_FAMILIES
