"""Runs: a text cut where style, script, direction or face changes, ready to be shaped.

Scripts by UAX #24 in its simple form: characters common to all scripts go with what stands before
them. Directions by the embedding levels of UAX #9. A character that a face lacks takes its whole
cluster to the first face of the fallback chain that has it.
"""

import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import groupby, pairwise
from operator import attrgetter

import uharfbuzz as hb

from letterfit.lettering.bidi.levels import balloon_levels
from letterfit.lettering.breaks.icu import clusters
from letterfit.lettering.fonts.bundled import Style
from letterfit.lettering.fonts.coverage import is_always_covered
from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.typeface import Typeface
from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.vertical.stances import Stance

LATIN_END = "\u0250"
"""Below this, every character is Latin or common to all scripts (Unicode's Scripts.txt)."""


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text with one face, one script and one direction.

    Args:
        start: Where it begins in the text.
        end: Where it ends.
        face: The face that sets it.
        script: ISO 15924 code, such as "Latn".
        level: Its embedding level (UAX #9); an odd one reads from right to left.
        stance: How it stands in a column; None in horizontal text.
    """

    start: int
    end: int
    face: Face
    script: str
    level: int = 0
    stance: Stance | None = None

    @property
    def rtl(self) -> bool:
        """Whether it reads from right to left."""
        return self.level % 2 == 1


@dataclass(frozen=True, slots=True)
class Substitution:
    """Characters that a face lacks, and the face they are set in; None when no face has them."""

    wanted: Face
    used: Face | None
    chars: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Itemised:
    """A text cut into runs.

    Args:
        text: Its characters.
        runs: Its runs, in order without gaps.
        substitutions: What had to be taken from another face.
        styles: The styles asked for.
        rtl: Whether the text as a whole reads from right to left, as most of its letters do.
    """

    text: str
    runs: tuple[Run, ...]
    substitutions: tuple[Substitution, ...] = ()
    styles: tuple[Style, ...] = ()
    rtl: bool = False


def itemise(spans: Sequence[Span], typeface: Typeface, *, language: str = "en") -> Itemised:
    """Cut a text into runs.

    Args:
        spans: The text, cut where its style changes.
        typeface: The faces to set it in.
        language: BCP 47 tag.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> cut = itemise([Span("TIDE: ПРИЛИВ", "regular")], open_typeface("Grandstander"))
    >>> [(cut.text[run.start : run.end], run.face.family) for run in cut.runs]
    [('TIDE: ', 'Grandstander'), ('ПРИЛИВ', 'Balsamiq Sans')]
    """
    text = spans[0].text if len(spans) == 1 else "".join(span.text for span in spans)
    bidi = balloon_levels(text, language=language)
    levels = bidi.levels
    runs: list[Run] = []
    missed: dict[tuple[Face, Face | None], dict[str, None]] = {}
    start = 0
    for span in spans:
        face = typeface.styled(span.style)
        end = start + len(span.text)
        lacking = _lacking(span.text, face)
        is_latin = span.text.isascii() or max(span.text) < LATIN_END
        if is_latin and not lacking and levels.count(0, start, end) == end - start:
            runs.append(Run(start, end, face, "Latn"))
        else:
            faces = _faces(span, typeface, lacking, missed)
            runs += [
                replace(run, start=run.start + start, end=run.end + start)
                for run in _cut(span.text, faces, levels[start:end], previous=text[:start])
            ]
        start = end
    found = tuple(
        Substitution(wanted, used, tuple(chars)) for (wanted, used), chars in missed.items()
    )
    return Itemised(
        text,
        tuple(_joined(runs)),
        found,
        tuple(dict.fromkeys(span.style for span in spans)),
        rtl=bidi.rtl,
    )


def _joined(runs: Sequence[Run]) -> Iterator[Run]:
    """Neighbours that differ in nothing are one run: a style that a family lacks parts none."""
    for _, group in groupby(runs, key=attrgetter("face", "script", "level")):
        same = list(group)
        yield same[0] if len(same) == 1 else replace(same[0], end=same[-1].end)


def _lacking(text: str, face: Face) -> set[str]:
    """The characters of the text that the face does not have and HarfBuzz does not make."""
    known = engine(face)
    missing = set(text) - known.chars
    return {char for char in missing if not is_always_covered(char)} if missing else missing


def _faces(
    span: Span,
    typeface: Typeface,
    lacking: set[str],
    missed: dict[tuple[Face, Face | None], dict[str, None]],
) -> list[Face]:
    """The face of every character of a span; notes in `missed` what is not set as asked."""
    wanted = typeface.styled(span.style)
    faces = [wanted] * len(span.text)
    if not lacking:
        return faces
    for start, end in clusters(span.text):
        cluster = span.text[start:end]
        if lacking.isdisjoint(cluster):
            continue
        used = _face_for(cluster, span.style, typeface)
        faces[start:end] = [used or wanted] * (end - start)
        if used != wanted:
            chars = [char for char in cluster if char in lacking]
            if used is None:
                chars = list(_nowhere(cluster, span.style, typeface)) or chars
            missed.setdefault((wanted, used), {}).update(dict.fromkeys(chars))
    return _with_neighbours(span.text, faces, wanted)


def _nowhere(cluster: str, style: Style, typeface: Typeface) -> Iterator[str]:
    """The characters of a cluster that no face has."""
    return (char for char in cluster if all(_lacking(char, face) for face in typeface.chain(style)))


def _face_for(cluster: str, style: Style, typeface: Typeface) -> Face | None:
    """The first face that has all characters, else the first that can build them, else None.

    HarfBuzz builds "Ọ" from O and a dot where the font has no such letter: better drawn as a
    letter by another face, but better built than not drawn.
    """
    chain = list(typeface.chain(style))
    for face in chain:
        if not _lacking(cluster, face):
            return face
    loose = unicodedata.normalize("NFD", cluster)
    return next((face for face in chain if not _lacking(loose, face)), None)


def _with_neighbours(text: str, faces: list[Face], wanted: Face) -> list[Face]:
    """Let punctuation and spaces go with the foreign words they belong to, where the face has them.

    A mark goes with the letter it touches, a space with the words on both its sides if they agree.
    """
    for is_letter, group in groupby(range(len(text)), lambda k: _is_lettering(text[k])):
        if is_letter:
            continue
        gap = list(group)
        before = faces[gap[0] - 1] if gap[0] else wanted
        after = faces[gap[-1] + 1] if gap[-1] + 1 < len(text) else wanted
        spaced = [k for k in gap if text[k].isspace()] or [gap[-1] + 1]
        for k in gap:
            left, right = k < spaced[0], k > spaced[-1]
            face = before if left or before == after else after if right else wanted
            if faces[k] == wanted and face != wanted and text[k] in engine(face).chars:
                faces[k] = face
    return faces


def _is_lettering(char: str) -> bool:
    return char.isalnum() or unicodedata.category(char)[0] in "MS"


def _cut(text: str, faces: Sequence[Face], levels: bytes, *, previous: str) -> list[Run]:
    """Cut a span where face, script or level changes."""
    kinds = list(zip(faces, _scripts(text, previous), levels, strict=True))
    for k in range(len(text) - 2, 0, -1):
        # An opening mark goes with what it opens: its face says so already.
        if faces[k - 1] != faces[k] == faces[k + 1] and not script_of(text[k]):
            kinds[k] = (*kinds[k + 1][:2], levels[k])
    cuts = [0, *(k for k in range(1, len(text)) if kinds[k] != kinds[k - 1]), len(text)]
    return [Run(start, end, *kinds[start]) for start, end in pairwise(cuts)]


def _scripts(text: str, previous: str) -> Iterator[str]:
    """The script of every character; common ones go with the letter before them."""
    known = [found for found in map(script_of, reversed(previous[-64:])) if found]
    current = known[0] if known else next(filter(None, map(script_of, text)), "Latn")
    for char in text:
        current = script_of(char) or current
        yield current


@lru_cache(maxsize=4096)
def script_of(char: str) -> str | None:
    """A character's script, as ISO 15924 has it; None for what all scripts share.

    >>> script_of("a"), script_of("ש"), script_of(",")
    ('Latn', 'Hebr', None)
    """
    buffer = hb.Buffer()
    buffer.add_str(char)
    buffer.guess_segment_properties()
    return buffer.script or None
