"""Measured words: what the fit needs to know of a text, in mm, with no font in sight.

A text is cut into *pieces* at every place where a line may break. A candidate *line* is a run of
pieces i .. i + r, set alone: its trailing spaces hang outside. The fit asks three things of all
candidate lines: their advances, the ink boxes of their glyphs, and the price of ending a line at
each break; and of the few lines it chooses, how they are set.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from letterfit.findings import Finding
from letterfit.outline import Floats


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
    """

    face: str
    glyph_id: int
    x_mm: float
    y_mm: float
    em_mm: float
    turned: bool = False

    def moved(self, dx: float) -> "Glyph":
        """The glyph moved to the right by dx mm."""
        return self._replace(x_mm=self.x_mm + dx)

    def scaled(self, factor: float) -> "Glyph":
        """The glyph set at `factor` times its size."""
        x_mm, y_mm, em_mm = self.x_mm * factor, self.y_mm * factor, self.em_mm * factor
        return self._replace(x_mm=x_mm, y_mm=y_mm, em_mm=em_mm)


@dataclass(frozen=True, slots=True, eq=False)
class SetLine:
    """A line, or a piece of one, as set.

    Args:
        text: The characters as set.
        width_mm: The advance in mm.
        ink: Ink boxes of its glyphs, shape (g, 4): left, top, right, bottom in mm from the left end
            of the advance and the baseline, y downwards; glyphs without ink have no row.
        glyphs: The glyphs to draw, x from the left end of the advance.
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


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Words:
    """A measured text: pieces between allowed line breaks.

    Args:
        pieces: The pieces as set in the unbroken text, trailing spaces left out; n of them.
        starts: Shape (n,), mm: where each piece starts in the unbroken text.
        joiners: What stands between piece p and the next on one line (" " or ""); n of them, the
            last one unused.
        penalties: Shape (n,): the price, a ratio >= 0, of ending a line after piece p; 0 is a
            break that costs nothing. The last is 0.
        forced: Shape (n,): whether a line must end after piece p. The last is True.
        word_counts: Shape (n,): how many words start in each piece (0 for the rest of a word that
            is cut at a hyphen, say).
        reshaped: Lines whose setting is not the slice of the unbroken text (the font's shaping
            says the cut is unsafe), by (first piece, last piece): set anew, exact.
        leading_mm: Baseline to baseline.
        cap_height_mm: Height of the ink of H.
        size_pt: The type size.
        findings: What the reader should know of this text: missing glyphs, long words.
        rtl: Whether the pieces of a line stand from right to left; starts grow all the same.
        vertical: Whether lines are columns that run down the page and follow each other from right
            to left. All lengths are then in a frame turned by 90 degrees: x is the page's y, y is
            minus the page's x, and `cap_height_mm` is the width of a column, its em.

    Raises nothing: a text without visible characters has no pieces.
    """

    pieces: tuple[SetLine, ...]
    starts: Floats
    joiners: tuple[str, ...]
    penalties: Floats
    forced: npt.NDArray[np.bool_]
    word_counts: npt.NDArray[np.int64]
    leading_mm: float
    cap_height_mm: float
    size_pt: float
    reshaped: Mapping[tuple[int, int], SetLine] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    rtl: bool = False
    vertical: bool = False

    def __len__(self) -> int:
        return len(self.pieces)

    @property
    def count(self) -> int:
        """How many words the text has."""
        return int(self.word_counts.sum())

    @property
    def text(self) -> str:
        """The text as set, on one line."""
        return self.slice_text(0, len(self.pieces) - 1)

    def slice_text(self, first: int, last: int) -> str:
        """The characters of the line of pieces first .. last."""
        parts = [self.pieces[p].text + self.joiners[p] for p in range(first, last)]
        return "".join(parts) + (self.pieces[last].text if self.pieces else "")

    def line(self, first: int, last: int) -> SetLine:
        """The line of pieces first .. last (both counted in) as set alone."""
        if (first, last) in self.reshaped:
            return self.reshaped[first, last]
        run = self.pieces[first : last + 1]
        shifts = self._shifts(first, last)
        ink = [
            piece.ink + np.array([dx, 0.0, dx, 0.0]) for dx, piece in zip(shifts, run, strict=True)
        ]
        glyphs = [g.moved(dx) for dx, piece in zip(shifts, run, strict=True) for g in piece.glyphs]
        width, text = self.width(first, last), self.slice_text(first, last)
        return SetLine(text, width, np.concatenate(ink), tuple(glyphs))

    def width(self, first: int, last: int) -> float:
        """The advance in mm of the line of pieces first .. last, without setting it."""
        if (first, last) in self.reshaped:
            return self.reshaped[first, last].width_mm
        return float(self.starts[last] - self.starts[first]) + self.pieces[last].width_mm

    def advances(self, reach: int) -> Floats:
        """Advances of all candidate lines.

        Args:
            reach: The most pieces a line may hold.

        Returns:
            Shape (n, reach), mm: entry [i, r] is the line of pieces i .. i + r; infinite where
            there is no such line, or a forced break falls inside it.
        """
        first, last, real = self._lines(reach)
        ends = self._ends()
        result = np.full(first.shape, math.inf)
        result[real] = (ends[last] - self.starts[first])[real]
        for i, j in self._reshaped_within(reach, real):
            result[i, j - i] = self.reshaped[i, j].width_mm
        return result

    def scaled(self, factor: float) -> "Words":
        """The same text set at `factor` times its size: shaping is linear in the size."""
        return replace(
            self,
            pieces=tuple(piece.scaled(factor) for piece in self.pieces),
            starts=self.starts * factor,
            reshaped={key: line.scaled(factor) for key, line in self.reshaped.items()},
            leading_mm=self.leading_mm * factor,
            cap_height_mm=self.cap_height_mm * factor,
            size_pt=self.size_pt * factor,
        )

    def _ends(self) -> Floats:
        """Where each piece ends in the unbroken text, in mm."""
        widths = np.array([piece.width_mm for piece in self.pieces], dtype=np.float64)
        ends: Floats = self.starts + widths
        return ends

    def _shifts(self, first: int, last: int) -> list[float]:
        """Where the pieces of a line begin, in mm from its left end."""
        span = slice(first, last + 1)
        ends = self._ends()[span]
        shifts: list[float] = (
            ends[-1] - ends if self.rtl else self.starts[span] - self.starts[first]
        ).tolist()
        return shifts

    def _lines(
        self, reach: int
    ) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64], npt.NDArray[np.bool_]]:
        """First piece, last piece (kept in range) and existence of every candidate line."""
        count = len(self.pieces)
        first = np.broadcast_to(np.arange(count)[:, None], (count, reach))
        last = first + np.arange(reach)
        # A line may not run over a forced break: at most up to the next forced end.
        ends = np.flatnonzero(self.forced)
        limit = ends[np.searchsorted(ends, np.arange(count))][:, None]
        return first, np.minimum(last, count - 1), last <= limit

    def _reshaped_within(self, reach: int, real: npt.NDArray[np.bool_]) -> list[tuple[int, int]]:
        return [(i, j) for i, j in self.reshaped if j - i < reach and real[i, j - i]]
