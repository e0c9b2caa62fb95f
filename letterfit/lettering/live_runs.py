"""A set line as live text: its characters by face, so that a reader sets the same glyphs again.

Three things stand in the glyphs and not in the characters: the face (emphasis, what the typeface
lacks), the I with crossbars, and a hyphen that the font has only as "-".
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.latin_text import latin_buffer
from letterfit.lettering.words import Glyph

OTHER_I = {"I": "i", "i": "I"}
"""The other slot of a font that has capitals in both."""


@dataclass(frozen=True, slots=True)
class LiveRun:
    """Characters of one face.

    Args:
        text: The characters that the face draws so.
        face: The face.
        feature: The OpenType feature that is on for them, or None.
    """

    text: str
    face: Face
    feature: str | None = None


def live_runs(
    text: str,
    glyphs: Sequence[Glyph],
    *,
    face_of: Callable[[str], Face],
    crossbar_of: Callable[[Face], str | None],
) -> tuple[LiveRun, ...]:
    """The runs of a line, in the order of its characters.

    Args:
        text: The line's characters.
        glyphs: Its glyphs; those without ink are missing.
        face_of: The face of a name.
        crossbar_of: The feature that draws a face's I with crossbars.

    Returns:
        Runs that hold all characters; none where no glyph says which character it draws.

    >>> from letterfit.lettering.measuring import measure
    >>> from letterfit.lettering.settings import Lettering
    >>> lettering = Lettering()
    >>> words = measure("Shut **it** now", lettering)
    >>> line = words.line(0, 2)
    >>> runs = live_runs(line.text, line.glyphs, face_of=lettering.typeface.face,
    ...                  crossbar_of=lambda face: None)
    >>> [(run.text, run.face.style) for run in runs]
    [('SHUT ', 'regular'), ('IT', 'bold italic'), (' NOW', 'regular')]
    """
    if not glyphs or any(not 0 <= glyph.at < len(text) for glyph in glyphs):
        return ()
    drawn: dict[int, list[int]] = {}
    named: dict[int, Face] = {}
    for glyph in glyphs:
        drawn.setdefault(glyph.at, []).append(glyph.glyph_id)
        named[glyph.at] = face_of(glyph.face)
    faces = _every_face(text, named)
    letters = [
        _letter(char, face, drawn.get(at, ()), crossbar_of)
        for at, (char, face) in enumerate(zip(text, faces, strict=True))
    ]
    kinds = [(face, feature) for face, (_, feature) in zip(faces, letters, strict=True)]
    return tuple(_runs(kinds, [char for char, _ in letters]))


def _runs(kinds: Sequence[tuple[Face, str | None]], letters: Sequence[str]) -> Iterator[LiveRun]:
    for (face, feature), group in groupby(range(len(kinds)), kinds.__getitem__):
        yield LiveRun("".join(letters[at] for at in group), face, feature)


def _every_face(text: str, named: Mapping[int, Face]) -> list[Face]:
    """The face of every character: one without ink goes with those beside it.

    A space between two faces goes with the one that most of the line is set in: emphasis ends with
    its word. What is no space, such as the second letter of a ligature, goes with what is before.
    """
    most = Counter(named.values()).most_common(1)[0][0]
    before: list[Face | None] = []
    for at in range(len(text)):
        before.append(named.get(at, before[-1] if before else None))
    found: list[Face] = []
    after: Face | None = None
    for at in range(len(text) - 1, -1, -1):
        own, left = named.get(at), before[at]
        after = own or after
        is_gap = text[at].isspace() and left is not None and after is not None and left != after
        if own is None and is_gap:
            found.append(most if most in (left, after) else left or most)
        else:
            found.append(own or left or after or most)
    return found[::-1]


def _letter(
    char: str, face: Face, drawn: Sequence[int], crossbar_of: Callable[[Face], str | None]
) -> tuple[str, str | None]:
    """The character to write for a glyph, and the feature that it asks for."""
    known = engine(face)
    if char not in known.chars or char in known.spelling:
        char = known.spelling.get(char, char)
    if char in OTHER_I and len(drawn) == 1 and drawn[0] != _nominal(face, char):
        if drawn[0] == _nominal(face, OTHER_I[char]):
            return OTHER_I[char], None
        feature = crossbar_of(face)
        if feature is not None and drawn[0] == _featured(face, char, feature):
            return char, feature
    return char, None


@lru_cache(maxsize=256)
def _nominal(face: Face, char: str) -> int | None:
    number: int | None = engine(face).font.get_nominal_glyph(ord(char))
    return number


@lru_cache(maxsize=256)
def _featured(face: Face, char: str, feature: str) -> int | None:
    """The glyph of a character by itself with a feature on."""
    buffer = latin_buffer(char)
    engine(face).shape(buffer, {feature: True})
    return int(buffer.glyph_infos[0].codepoint) if buffer.glyph_infos else None
