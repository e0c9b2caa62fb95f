"""What the glyphs of embedded fonts read, so that text can be searched and copied.

Most glyphs stand for one character each, which is written once for the font (ToUnicode, ISO
32000-1, 9.10.3). Where that does not spell a line, ligatures and joined letters for instance, the
line says itself what it reads (ActualText, 14.9.4).
"""

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from unicodedata import bidirectional

from letterfit.lettering import Face
from letterfit.lettering.fonts.face import engine, is_always_covered
from letterfit.output.pdf.runs import Run, Spot

BLOCK = 100
"""Entries of one block of a CMap (Adobe Technical Note 5014, section 3)."""


class Alphabet:
    """What each glyph of each face reads.

    Args:
        faces: Finds a face by its name.
        runs: All lines that will be set.
    """

    def __init__(self, faces: Callable[[str], Face], runs: Iterable[Run]) -> None:
        self._faces = faces
        self._mapped = cache(lambda name: _mapped(faces(name)))
        self._learned: dict[tuple[str, int], str] = {}
        for run in runs:
            for char, spot in aligned(run):
                key = (spot.face, spot.glyph_id)
                mapped = self._mapped(spot.face)
                if spot.glyph_id not in mapped or self.nominal(spot.face, char) == spot.glyph_id:
                    self._learned.setdefault(key, char)

    def nominal(self, face: str, char: str) -> int | None:
        """The glyph that a face has for a character on its own; None where it has none."""
        glyph = engine(self._faces(face)).font.get_nominal_glyph(ord(char))
        return int(glyph) if glyph else None

    def reads(self, face: str, glyph_id: int) -> str:
        """The characters a glyph stands for; empty where nobody knows."""
        known = self._learned.get((face, glyph_id))
        return known if known is not None else self._mapped(face).get(glyph_id, "")

    def spaced(self, run: Run) -> list[tuple[bool, Spot]]:
        """The glyphs of a line, each with whether its font's space is to stand before it."""
        spots = list(run.spots)
        chars = aligned(run)
        if not chars:
            return [(False, spot) for spot in spots]
        spaces = _spaces_before(run.text)
        return [
            (space and self.nominal(spots[max(k - 1, 0)].face, " ") is not None, spot)
            for k, (space, spot) in enumerate(zip(spaces, spots, strict=True))
        ]

    def spells(self, run: Run) -> bool:
        """Whether the glyphs of a line, as set, read what it says to every reader.

        Readers guess differently at columns, and at what reads from right to left.
        """
        if run.vertical or not run.whole or any(map(_reads_leftwards, run.text)):
            return False
        read = "".join(
            " " * space + self.reads(spot.face, spot.glyph_id) for space, spot in self.spaced(run)
        )
        return read == run.text


def aligned(run: Run) -> list[tuple[str, Spot]]:
    """The characters of a line beside their glyphs; empty where they are not one to one."""
    chars = [char for char in run.text if not is_blank(char)]
    whole = run.whole and len(chars) == len(run.spots)
    return list(zip(chars, run.spots, strict=True)) if whole else []


def is_blank(char: str) -> bool:
    """Whether a character is set without ink: spaces and invisible characters."""
    return char.isspace() or is_always_covered(char)


def _reads_leftwards(char: str) -> bool:
    return bidirectional(char) in {"R", "AL"}


def _spaces_before(text: str) -> Iterator[bool]:
    """Of each inked character whether a space stands before it."""
    space = False
    for char in text:
        if is_blank(char):
            space = space or char.isspace()
        else:
            yield space
            space = False


def _mapped(face: Face) -> dict[int, str]:
    """The lowest character that each glyph of a face is mapped from."""
    font = engine(face).font
    found: dict[int, str] = {}
    for char in sorted(engine(face).chars):
        glyph = font.get_nominal_glyph(ord(char))
        if glyph:
            found.setdefault(int(glyph), char)
    return found


def to_unicode(readings: Iterable[tuple[int, str]]) -> bytes:
    """A CMap from codes of two bytes to UTF-16 (ISO 32000-1, 9.10.3).

    Args:
        readings: Each code and what it reads; empty readings are left out.

    >>> b"<0003> <0041>" in to_unicode([(3, "A")])
    True
    """
    rows = [f"<{code:04X}> <{_utf16(text)}>" for code, text in readings if text]
    blocks = []
    for start in range(0, len(rows), BLOCK):
        part = rows[start : start + BLOCK]
        blocks += [f"{len(part)} beginbfchar", *part, "endbfchar"]
    lines = [
        "/CIDInit /ProcSet findresource begin",
        "12 dict begin",
        "begincmap",
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
        "/CMapName /Adobe-Identity-UCS def",
        "/CMapType 2 def",
        "1 begincodespacerange",
        "<0000> <FFFF>",
        "endcodespacerange",
        *blocks,
        "endcmap",
        "CMapName currentdict /CMap defineresource pop",
        "end",
        "end",
    ]
    return "\n".join(lines).encode("ascii")


def _utf16(text: str) -> str:
    return text.encode("utf-16-be", "replace").hex().upper()


def actual_text(text: str) -> str:
    """What a stretch of content reads, as the start of a marked-content sequence.

    >>> actual_text("A")
    '/Span <</ActualText <FEFF0041>>> BDC'
    """
    return f"/Span <</ActualText <FEFF{_utf16(text)}>>> BDC"
