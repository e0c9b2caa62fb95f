"""What the glyphs of embedded fonts read, so that text can be searched and copied.

A glyph that stands alone for some characters, a letter or a ligature, reads them wherever it comes,
which is written once for the font (ToUnicode, ISO 32000-1, 9.10.3). Where that does not spell a
cluster of glyphs, the cluster says itself what it reads (ActualText, 14.9.4).
"""

from collections.abc import Callable, Iterable
from functools import cache
from unicodedata import mirrored

from letterfit.lettering.fonts.face import Face, engine
from letterfit.output.pdf.clusters import Cluster, clusters_of, reads_leftwards
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
            for cluster in self._clusters(run):
                self._learn(cluster)

    def nominal(self, face: str, char: str) -> int | None:
        """The glyph that a face has for a character on its own; None where it has none."""
        glyph = engine(self._faces(face)).font.get_nominal_glyph(ord(char))
        return int(glyph) if glyph else None

    def reads(self, face: str, glyph_id: int) -> str:
        """The characters a glyph stands for; empty where nobody knows."""
        known = self._learned.get((face, glyph_id))
        return known if known is not None else self._mapped(face).get(glyph_id, "")

    def clusters(self, run: Run) -> tuple[Cluster, ...]:
        """The clusters of a line from left to right, where each is to say for itself what it reads.

        None where the line says it as a whole: where nobody knows its clusters, in columns, which
        readers guess at, and where glyphs that do not spell their characters come in the order of
        the text.
        """
        found = () if run.vertical else self._clusters(run)
        single = all(len(one.spots) == 1 and self.spells(one) for one in found)
        return found if single or reads_leftwards(run.text) else ()

    def spells(self, cluster: Cluster) -> bool:
        """Whether the glyphs of a cluster read its characters, each for itself.

        A bracket that reads leftwards is drawn as its mirror image, and read so: readers turn it.
        """
        read = "".join(self.reads(one.face, one.glyph_id) for one in cluster.spots)
        return read == cluster.text or (_is_mirrored(read) and _is_mirrored(cluster.text))

    def _clusters(self, run: Run) -> tuple[Cluster, ...]:
        return clusters_of(run, advance=self._advance)

    def _learn(self, cluster: Cluster) -> None:
        """Keep what a glyph reads that stands alone, unless its face says otherwise."""
        if len(cluster.spots) > 1:
            return
        face, glyph_id = cluster.spots[0].face, cluster.spots[0].glyph_id
        own = len(cluster.text) == 1 and self.nominal(face, cluster.text) == glyph_id
        if own or glyph_id not in self._mapped(face):
            self._learned.setdefault((face, glyph_id), cluster.text)

    def _advance(self, spot: Spot) -> float:
        known = engine(self._faces(spot.face))
        return float(known.font.get_glyph_h_advance(spot.glyph_id)) / known.upem * spot.em


def _is_mirrored(text: str) -> bool:
    """Whether a text is one character of a pair of mirror images (UAX #9, rule L4)."""
    return len(text) == 1 and bool(mirrored(text))


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
