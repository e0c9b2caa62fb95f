"""Measured words: what the fit needs to know of a text, in mm, with no font in sight.

A text is cut into *pieces* at every place where a line may break. A candidate *line* is a run of
pieces i .. i + r, set alone: its trailing spaces hang outside. The fit asks three things of all
candidate lines: their advances, the ink boxes of their glyphs, and the price of ending a line at
each break; and of the few lines it chooses, how they are set. Advances are at hand as soon as a
text is measured; ink and glyphs are placed when they are asked for.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from struct import Struct
from typing import NamedTuple, Protocol, overload

import numpy as np
import numpy.typing as npt

from letterfit.findings import Finding
from letterfit.lettering.breaks.pieces import Pieces, Stretch
from letterfit.outline import Floats

Ints = npt.NDArray[np.int64]


class Glyph(NamedTuple):
    """One glyph at its place in a line.

    Args:
        face: The face's name as `Typeface.face(name)` takes it.
        glyph_id: The glyph's number in that face.
        x_mm: Its origin, from the left end of the line's advance.
        y_mm: Its origin below the baseline (y downwards).
        em_mm: The size of its em.
        turned: Whether it is drawn rotated by 90 degrees clockwise about its origin, as Latin in a
            vertical line is.
        at: The character of the line's text that it begins with, from 0; soft hyphens at which no
            line ends are not counted. -1 where nobody knows.

    >>> import letterfit as lf
    >>> line = lf.fit_balloon("Hold on.").lines[0]
    >>> [line.text[glyph.at] for glyph in line.glyphs[:4]], line.glyphs[0].face
    (['H', 'O', 'L', 'D'], 'Grandstander Regular')
    """

    face: str
    glyph_id: int
    x_mm: float
    y_mm: float
    em_mm: float
    turned: bool = False
    at: int = -1

    def moved(self, dx: float) -> "Glyph":
        """The glyph moved to the right by dx mm."""
        return self._replace(x_mm=self.x_mm + dx)

    def scaled(self, factor: float) -> "Glyph":
        """The glyph set at `factor` times its size."""
        x_mm, y_mm, em_mm = self.x_mm * factor, self.y_mm * factor, self.em_mm * factor
        return self._replace(x_mm=x_mm, y_mm=y_mm, em_mm=em_mm)


class LateGlyphs(Sequence[Glyph]):
    """The glyphs of a line, placed when somebody draws them; it equals the tuple of them.

    Args:
        words: The text.
        first: The first piece of the line.
        last: Its last piece.
    """

    def __init__(self, words: "Words", first: int, last: int) -> None:
        self._line = (words, first, last)

    @cached_property
    def _placed(self) -> tuple[Glyph, ...]:
        words, first, last = self._line
        return words.line(first, last).glyphs

    @overload
    def __getitem__(self, at: int) -> Glyph: ...

    @overload
    def __getitem__(self, at: slice) -> Sequence[Glyph]: ...

    def __getitem__(self, at: int | slice) -> Glyph | Sequence[Glyph]:
        return self._placed[at]

    def __len__(self) -> int:
        return len(self._placed)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and self._placed == tuple(other)

    def __hash__(self) -> int:
        return hash(self._placed)

    def __repr__(self) -> str:
        return repr(self._placed)

    def __reduce__(self) -> tuple[type, tuple[tuple[str, ...], bytes]]:
        """To another process they go as bytes, to be glyphs again when somebody draws them."""
        place = {face: k for k, face in enumerate(dict.fromkeys(g.face for g in self._placed))}
        rows = [_ROW.pack(place[g.face], g.glyph_id, g.turned, g.at, *g[2:5]) for g in self._placed]
        return SentGlyphs, (tuple(place), b"".join(rows))


_ROW = Struct("<4i3d")
"""A glyph as bytes: its face's place, its number, whether it is turned, `at`; x, y and em in mm."""


class SentGlyphs(LateGlyphs):
    """The glyphs of a line that came from another process: the names of their faces, and rows."""

    def __init__(self, faces: tuple[str, ...], rows: bytes) -> None:
        self._sent = (faces, rows)

    @cached_property
    def _placed(self) -> tuple[Glyph, ...]:
        faces, rows = self._sent
        return tuple(
            Glyph(faces[face], number, x_mm, y_mm, em_mm, turned=bool(turned), at=at)
            for face, number, turned, at, x_mm, y_mm, em_mm in _ROW.iter_unpack(rows)
        )


@dataclass(frozen=True, slots=True, eq=False)
class SetLine:
    """A line, or a piece of one, as set.

    Args:
        text: The characters as set.
        width_mm: The advance in mm.
        ink: Ink boxes of its glyphs, shape (g, 4): left, top, right, bottom in mm from the left end
            of the advance and the baseline, y downwards; glyphs without ink have no row.
        glyphs: The glyphs to draw, those with ink, x from the left end of the advance.
    """

    text: str
    width_mm: float
    ink: Floats
    glyphs: tuple[Glyph, ...] = ()

    def corners(self) -> Floats:
        """The corners of the ink boxes, shape (4 g, 2): x from the left end of the advance."""
        left, top, right, bottom = self.ink.reshape(-1, 4).T
        xs = np.concatenate([left, right, right, left])
        return np.stack([xs, np.concatenate([top, top, bottom, bottom])], axis=-1)

    def bounds(self) -> tuple[float, float, float, float]:
        """The box round all ink: left, top, right, bottom in mm; all 0 where there is no ink."""
        if not len(self.ink):
            return (0.0, 0.0, 0.0, 0.0)
        left, top = self.ink[:, :2].min(axis=0).tolist()
        right, bottom = self.ink[:, 2:].max(axis=0).tolist()
        return (left, top, right, bottom)

    def scaled(self, factor: float) -> "SetLine":
        """The line set at `factor` times its size."""
        glyphs = tuple(glyph.scaled(factor) for glyph in self.glyphs)
        return SetLine(self.text, self.width_mm * factor, self.ink * factor, glyphs)


@dataclass(frozen=True, slots=True, eq=False)
class ResetLine:
    """A line set anew: how wide it is and where its ink stands; its glyphs when it is asked for.

    Args:
        width_mm: The advance in mm.
        ink: As `SetLine.ink`.
        setter: Sets it.
        stretch: Where it stands in the setter's text.
    """

    width_mm: float
    ink: Floats
    setter: "Setter"
    stretch: Stretch

    def set(self) -> SetLine:
        """The line as set."""
        (line,) = self.setter.set_lines([self.stretch])
        return replace(line, width_mm=self.width_mm)

    def scaled(self, factor: float) -> "ResetLine":
        """The line set at `factor` times its size."""
        setter = self.setter.scaled(factor)
        return ResetLine(self.width_mm * factor, self.ink * factor, setter, self.stretch)


class Setter(Protocol):
    """Sets stretches of a text whose glyphs it holds, when they are asked for."""

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """The stretches as set, each from its own left end."""
        ...

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """The ink boxes of stretches, each from its own left end, shape (g, 4), in mm.

        Returns:
            The boxes of all stretches, and how many boxes each has.
        """
        ...

    def scaled(self, factor: float) -> "Setter":
        """The same at `factor` times the size."""
        ...


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Words:
    """A measured text: pieces between allowed line breaks.

    Args:
        cut: The text cut into n pieces where a line may end, and the price of each end.
        starts: Shape (n,), mm: where each piece starts in the unbroken text.
        ends: Shape (n,), mm: where its advance ends there.
        setter: Sets a stretch of the text when it is asked for.
        leading_mm: Baseline to baseline.
        cap_height_mm: Height of the ink of H.
        size_pt: The type size.
        reshaped: Lines whose setting is not the slice of the unbroken text (the font's shaping
            says the cut is unsafe, or words of both directions change places), by (first piece,
            last piece): set anew, exact.
        findings: What the reader should know of this text: missing glyphs, long words.
        rtl: Whether the pieces of a line stand from right to left; starts grow all the same.
        vertical: Whether lines are columns that run down the page and follow each other from right
            to left. All lengths are then in a frame turned by 90 degrees: x is the page's y, y is
            minus the page's x, and `cap_height_mm` is the width of a column, its em.
        flush: Whether lines begin together, at the left, at the right where they read so, or at the
            top of columns; else they are centred.

    Raises nothing: a text without visible characters has no pieces.
    """

    cut: Pieces
    starts: Floats
    ends: Floats
    setter: Setter
    leading_mm: float
    cap_height_mm: float
    size_pt: float
    reshaped: Mapping[tuple[int, int], SetLine | ResetLine] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    rtl: bool = False
    vertical: bool = False
    flush: bool = False

    def __len__(self) -> int:
        return len(self.cut)

    @property
    def text(self) -> str:
        """The characters as set, on one line; empty where nothing of them can be seen."""
        return self.cut.text if len(self) else ""

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """Where each piece stands in the text, trailing spaces left out."""
        return self.cut.stretches

    @property
    def penalties(self) -> Floats:
        """Shape (n,): the price, a ratio >= 0, of ending a line after each piece; the last is 0.

        0 is a break that costs nothing.
        """
        return self.cut.penalties

    @property
    def forced(self) -> npt.NDArray[np.bool_]:
        """Shape (n,): whether a line must end after each piece; the last is True."""
        return self.cut.forced

    @property
    def word_counts(self) -> Ints:
        """Shape (n,): how many words start in each piece; 0 for the rest of a word cut in two."""
        return self.cut.word_counts

    @property
    def count(self) -> int:
        """How many words the text has."""
        return int(self.word_counts.sum())

    @property
    def pieces(self) -> tuple[SetLine, ...]:
        """The pieces as set in the unbroken text."""
        return tuple(self.setter.set_lines(self.stretches))

    @property
    def joiners(self) -> tuple[str, ...]:
        """What stands between each piece and the next on one line, " " or ""; the last is ""."""
        return self.cut.joiners

    def piece_text(self, index: int) -> str:
        """The characters of one piece."""
        return self.slice_text(index, index)

    def slice_text(self, first: int, last: int) -> str:
        """The characters of the line of pieces first .. last."""
        return self.cut.text[self.stretches[first][0] : self.stretches[last][1]]

    def ink_boxes(self) -> tuple[Floats, Ints]:
        """The ink boxes of all pieces, each piece's from its own left end, shape (g, 4), in mm.

        Returns:
            The boxes, and shape (n + 1,): the first box of every piece, and g.
        """
        boxes, sizes = self.setter.ink(self.stretches)
        return boxes, np.concatenate([[0], np.cumsum(sizes)])

    def line(self, first: int, last: int) -> SetLine:
        """The line of pieces first .. last (both counted in) as set alone."""
        anew = self.reshaped.get((first, last))
        if anew is not None:
            return anew if isinstance(anew, SetLine) else anew.set()
        stretch = (self.stretches[first][0], self.stretches[last][1])
        (line,) = self.setter.set_lines([stretch])
        return replace(line, width_mm=self.width(first, last))  # the same to the last digit

    def line_text(self, first: int, last: int) -> str:
        """The characters of the line of pieces first .. last as set alone."""
        if (first, last) in self.reshaped:
            return self.line(first, last).text
        return self.slice_text(first, last)

    def glyphs(self, first: int, last: int) -> Sequence[Glyph]:
        """The glyphs of the line of pieces first .. last, placed when they are asked for."""
        return LateGlyphs(self, first, last)

    def width(self, first: int, last: int) -> float:
        """The advance in mm of the line of pieces first .. last, without setting it."""
        if (first, last) in self.reshaped:
            return self.reshaped[first, last].width_mm
        return float(self.ends[last] - self.starts[first])

    def advances(self, reach: int) -> Floats:
        """Advances of all candidate lines.

        Args:
            reach: The most pieces a line may hold.

        Returns:
            Shape (n, reach), mm: entry [i, r] is the line of pieces i .. i + r; infinite where
            there is no such line, or a forced break falls inside it.
        """
        first, last, real = self._lines(reach)
        result = np.full(first.shape, math.inf)
        result[real] = (self.ends[last] - self.starts[first])[real]
        for i, j in self._reshaped_within(reach, real):
            result[i, j - i] = self.reshaped[i, j].width_mm
        return result

    def scaled(self, factor: float) -> "Words":
        """The same text set at `factor` times its size: shaping is linear in the size."""
        return replace(
            self,
            starts=self.starts * factor,
            ends=self.ends * factor,
            setter=self.setter.scaled(factor),
            reshaped={key: line.scaled(factor) for key, line in self.reshaped.items()},
            leading_mm=self.leading_mm * factor,
            cap_height_mm=self.cap_height_mm * factor,
            size_pt=self.size_pt * factor,
        )

    def first(self, count: int) -> "Words":
        """The first `count` pieces alone: nothing is shaped again."""
        return replace(
            self,
            cut=self.cut.first(count),
            starts=self.starts[:count],
            ends=self.ends[:count],
            reshaped={key: line for key, line in self.reshaped.items() if key[1] < count},
        )

    def _lines(self, reach: int) -> tuple[Ints, Ints, npt.NDArray[np.bool_]]:
        """First piece, last piece (kept in range) and existence of every candidate line."""
        count = len(self)
        first = np.broadcast_to(np.arange(count)[:, None], (count, reach))
        last = first + np.arange(reach)
        # A line may not run over a forced break: at most up to the next forced end.
        ends = np.flatnonzero(self.forced)
        limit = ends[np.searchsorted(ends, np.arange(count))][:, None]
        return first, np.minimum(last, count - 1), last <= limit

    def _reshaped_within(self, reach: int, real: npt.NDArray[np.bool_]) -> list[tuple[int, int]]:
        return [(i, j) for i, j in self.reshaped if j - i < reach and real[i, j - i]]
