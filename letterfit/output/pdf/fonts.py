"""The fonts of a document: each face that its lines use, cut down."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from letterfit.lettering.fonts.face import Face
from letterfit.output.pdf.alphabet import Alphabet
from letterfit.output.pdf.runs import Run
from letterfit.output.pdf.subset import Subset, subset
from letterfit.output.pdf.text import SetFont


@dataclass(frozen=True, slots=True)
class DocumentFont:
    """A face in a document.

    Args:
        face: The face.
        program: Its font program.
        set_font: What setting text asks of it.
    """

    face: Face
    program: Subset
    set_font: SetFont


def embedded(
    runs: Iterable[Run], alphabet: Alphabet, faces: Callable[[str], Face]
) -> dict[str, DocumentFont]:
    """The fonts of all lines, by the face's name."""
    fonts: dict[str, DocumentFont] = {}
    for number, (name, glyphs) in enumerate(sorted(_used(runs, alphabet).items()), start=1):
        program = subset(faces(name), sorted(glyphs))
        space = alphabet.nominal(name, " ")
        set_font = SetFont(f"F{number}", program.codes, program.widths, space)
        fonts[name] = DocumentFont(faces(name), program, set_font)
    return fonts


def _used(runs: Iterable[Run], alphabet: Alphabet) -> Mapping[str, set[int]]:
    """The glyphs that lines take from each face, spaces included."""
    used: defaultdict[str, set[int]] = defaultdict(set)
    for run in runs:
        for spot in run.spots:
            used[spot.face].add(spot.glyph_id)
    for name, glyphs in used.items():
        space = alphabet.nominal(name, " ")
        if space is not None:
            glyphs.add(space)
    return used
