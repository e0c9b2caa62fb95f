"""Facts about a typeface that help to choose it: proportions, languages, licence, what is odd."""

from dataclasses import dataclass
from string import ascii_uppercase

from letterfit.findings import Finding
from letterfit.lettering.fonts.alphabets import NearLanguage, covered, nearly_covered
from letterfit.lettering.fonts.bundled import BUNDLED, SYMBOLS, Style
from letterfit.lettering.fonts.claims import font_claims
from letterfit.lettering.fonts.contents import FileFace, file_faces
from letterfit.lettering.fonts.embedding import Embedding, Licence, embedding, licence
from letterfit.lettering.fonts.face import engine
from letterfit.lettering.fonts.typeface import Typeface, open_typeface
from letterfit.shown import Shown

PUNCTUATION = "!?.,:;'\"()-…—–’‘“”„«»¿¡&*"
"""The signs that dialogue is typed with (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FontFacts(Shown):
    """What there is to know of a typeface before choosing it, measured in its regular face.

    Args:
        family: Its name.
        styles: The styles it has.
        contents: What its font files hold, each once: index, axes and named instances.
        cap_height_em: Height of the ink of H.
        x_height_em: Height of the ink of x.
        capital_width_em: Mean advance of A to Z, unkerned.
        characters: How many characters it can set.
        languages: Tags of the languages whose letters it has itself, capitals and small letters,
            without its fallback.
        nearly: Languages of which it lacks only a few letters.
        missing_punctuation: Common marks of punctuation that it lacks.
        fallback: The families that missing characters are taken from, in order.
        licence: What it says of its licence.
        embedding: What it says of being embedded in a file.
        findings: What it says of its own measures that is not so.

    >>> import letterfit as lf
    >>> facts = lf.font_facts(lf.open_typeface("bangers"))
    >>> facts.family, facts.styles, round(facts.cap_height_em, 2), "fr" in facts.languages
    ('Bangers', ('regular',), 0.74, True)
    """

    family: str
    styles: tuple[Style, ...]
    contents: tuple[FileFace, ...]
    cap_height_em: float
    x_height_em: float
    capital_width_em: float
    characters: int
    languages: tuple[str, ...]
    nearly: tuple[NearLanguage, ...]
    missing_punctuation: str
    fallback: tuple[str, ...]
    licence: Licence
    embedding: Embedding
    findings: tuple[Finding, ...]


def font_facts(typeface: Typeface) -> FontFacts:
    """The facts about a typeface.

    Args:
        typeface: The typeface, as `open_typeface` returns it.

    Returns:
        What its regular face, or the one nearest to it, measures and says; heights and widths are
        shares of an em.

    >>> font_facts(open_typeface("Comic Relief")).styles
    ('regular', 'bold')
    """
    face = typeface.styled("regular")
    chars = engine(face).chars
    widths = [face.advance_em(letter) for letter in ascii_uppercase]
    files = dict.fromkeys(face.file for face in typeface.faces)
    return FontFacts(
        family=typeface.family,
        styles=typeface.styles,
        contents=tuple(inside for file in files for inside in file_faces(file)),
        cap_height_em=face.cap_height_em,
        x_height_em=face.x_height_em,
        capital_width_em=sum(widths) / len(widths),
        characters=len(chars),
        languages=covered(chars),
        nearly=nearly_covered(chars),
        missing_punctuation="".join(char for char in PUNCTUATION if char not in chars),
        fallback=tuple(family.family for family in typeface.fallback),
        licence=licence(face),
        embedding=embedding(face),
        findings=font_claims(face),
    )


def bundled_families() -> tuple[FontFacts, ...]:
    """The facts about the families that come with letterfit, the default first.

    >>> [facts.family for facts in bundled_families()]
    ['Grandstander', 'Comic Neue', 'Balsamiq Sans', 'Comic Relief', 'Bangers']
    """
    names = [name for name in BUNDLED if name != SYMBOLS]
    return tuple(font_facts(open_typeface(name)) for name in names)
