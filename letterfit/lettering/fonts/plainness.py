"""Plain faces: fonts whose tables are so simple that much is known of every text set in them.

Where the space takes no part in kerning or substitution, a line may be cut at every space without
asking HarfBuzz. Where a letter's place depends on the letter before it alone, a line is as wide as
its pairs of letters. Both are facts about the fonts' tables: for the families below a test proves
them from there.
"""

from letterfit.lettering.fonts.face import Face

PLAIN_FAMILIES = frozenset({"Comic Relief", "Grandstander"})
"""Families in which spaces take no part in shaping."""

PAIRWISE_FAMILIES = frozenset({"Balsamiq Sans", "Comic Neue", "Comic Relief", "Grandstander"})
"""Families whose Latin letters stand as their pairs do."""


def is_plain(face: Face) -> bool:
    """Whether spaces are known to take no part in shaping; False where it is not known.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> is_plain(open_typeface("Grandstander").styled("bold"))
    True
    """
    return face.family in PLAIN_FAMILIES and face.file.content is None


def is_pairwise(face: Face) -> bool:
    """Whether its Latin letters are known to stand as their pairs do; False where not known.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> is_pairwise(open_typeface("Balsamiq Sans").styled("italic"))
    True
    """
    return face.family in PAIRWISE_FAMILIES and face.file.content is None
