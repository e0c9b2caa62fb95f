"""The fonts of a document: each face that its lines use, cut down, and what cannot be embedded."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from letterfit.lettering import Face
from letterfit.lettering.fonts.face import engine
from letterfit.output.pdf.alphabet import Alphabet
from letterfit.output.pdf.permits import Permits
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
    runs: Iterable[Run], alphabet: Alphabet, permits: Permits
) -> dict[str, DocumentFont] | None:
    """The fonts of all lines, by the face's name; None when one was refused just now."""
    used = _used(runs, alphabet)
    fonts: dict[str, DocumentFont] = {}
    for number, (name, glyphs) in enumerate(sorted(used.items()), start=1):
        face = permits.faces(name)
        program = subset(face, sorted(glyphs))
        if program is None:
            permits.refuse(name)
            return None
        known = engine(face)
        widths = {
            glyph: round(known.font.get_glyph_h_advance(glyph) * 1000 / known.upem, 2)
            for glyph in sorted(glyphs)
        }
        space = alphabet.nominal(name, " ")
        fonts[name] = DocumentFont(
            face,
            program,
            SetFont(f"F{number}", program.codes, widths, space if space in glyphs else None),
        )
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
