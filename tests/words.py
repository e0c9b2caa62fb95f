"""Measured words straight from numbers, with no font: for tests of what the fit does with them."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.lettering.breaks.pieces import Pieces, Stretch
from letterfit.lettering.words import Ints, SetLine, Words
from letterfit.outline import Floats


def box_line(
    text: str, width: float, *, height: float = 2.0, depth: float = 0.0, overhang: float = 0.0
) -> SetLine:
    """A piece whose ink is one box: its advance wide, from `height` over to `depth` under.

    Args:
        text: Its characters.
        width: Its advance in mm.
        height: How far the ink rises above the baseline, mm.
        depth: How far the ink goes below the baseline, mm.
        overhang: How far the ink sticks out of the advance at both ends, mm; may be negative.
    """
    ink = np.array([[-overhang, -height, width + overhang, depth]])
    return SetLine(text, width, ink)


def box_words(
    widths: Sequence[float],
    *,
    space: float = 1.0,
    joiners: Sequence[str] | None = None,
    penalties: Sequence[float] | None = None,
    forced: Sequence[int] = (),
    word_counts: Sequence[int] | None = None,
    heights: Sequence[float] | None = None,
    depths: Sequence[float] | None = None,
    overhang: float = 0.0,
    leading: float = 3.0,
    cap_height: float = 2.0,
    size_pt: float = 10.0,
    reshaped: Mapping[tuple[int, int], SetLine] | None = None,
    rtl: bool = False,
    vertical: bool = False,
) -> Words:
    """Words whose every piece is one box of ink, all lengths in mm.

    Args:
        widths: Advance of each piece; its ink box is as wide and sits on the baseline.
        space: Advance of the space between two pieces.
        joiners: What stands after each piece, " " or ""; "" leaves no space. Default: all " ".
        penalties: Price of ending a line after each piece; default: all 0.
        forced: Numbers of the pieces after which a line must end (the last one always is).
        word_counts: Words that start in each piece; default: 1, or 0 after a joiner "".
        heights: How far each piece's ink rises above the baseline; default: `cap_height`.
        depths: How far each piece's ink goes below the baseline; default: 0.
        overhang: How far the ink sticks out of each piece's advance at both ends.
        leading: Baseline to baseline.
        cap_height: Height of the capitals.
        size_pt: The type size.
        reshaped: Lines set otherwise than the slice, by (first piece, last piece).
        rtl: Whether the pieces of a line stand from right to left.
        vertical: Whether lines are columns; lengths are then in the text's own, turned frame.

    >>> words = box_words([3, 5, 4], space=1)
    >>> words.text, words.line(0, 1).width_mm, words.advances(3)[0].tolist()
    ('AAA BBBBB CCCC', 9.0, [3.0, 9.0, 14.0])
    """
    count = len(widths)
    gaps = list(joiners) if joiners is not None else [" "] * count
    tops = list(heights) if heights is not None else [cap_height] * count
    bottoms = list(depths) if depths is not None else [0.0] * count
    steps = [w + (space if gap else 0.0) for w, gap in zip(widths, gaps, strict=True)]
    pieces = tuple(
        box_line(_name(i, w), float(w), height=top, depth=bottom, overhang=overhang)
        for i, (w, top, bottom) in enumerate(zip(widths, tops, bottoms, strict=True))
    )
    begun = [int(i == 0 or bool(gaps[i - 1])) for i in range(count)]
    ends = np.cumsum([len(piece.text) + len(gap) for piece, gap in zip(pieces, gaps, strict=True)])
    begins = [0, *ends[:-1].tolist()]
    starts = np.concatenate([[0.0], np.cumsum(steps)])[:count]
    return Words(
        cut=Pieces(
            text="".join(p.text + gap for p, gap in zip(pieces, [*gaps[:-1], ""], strict=True)),
            starts=begins,
            ends=[a + len(p.text) for a, p in zip(begins, pieces, strict=True)],
            prices=list(penalties) if penalties is not None else [0.0] * count,
            musts=[i in forced or i == count - 1 for i in range(count)],
            counts=list(begun if word_counts is None else word_counts),
        ),
        starts=starts,
        ends=starts + np.array(widths, dtype=float),
        setter=BoxSetter(pieces, tuple(begins), tuple(starts.tolist()), rtl=rtl),
        leading_mm=leading,
        cap_height_mm=cap_height,
        size_pt=size_pt,
        reshaped=dict(reshaped or {}),
        rtl=rtl,
        vertical=vertical,
    )


@dataclass(frozen=True)
class BoxSetter:
    """Sets lines out of pieces that are at hand.

    Args:
        pieces: The pieces.
        begins: Where each piece begins in the text.
        starts: Where it starts in the unbroken text, mm.
        rtl: Whether the pieces of a line stand from right to left.
    """

    pieces: tuple[SetLine, ...]
    begins: tuple[int, ...]
    starts: tuple[float, ...]
    rtl: bool = False

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """The stretches as set, which begin and end where pieces do."""
        return [self._line(*stretch) for stretch in stretches]

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """Their ink boxes, and how many each has."""
        inks = [line.ink.reshape(-1, 4) for line in self.set_lines(stretches)]
        return np.concatenate(inks), np.array([len(ink) for ink in inks])

    def scaled(self, factor: float) -> "BoxSetter":
        """The same at `factor` times the size."""
        pieces = tuple(piece.scaled(factor) for piece in self.pieces)
        starts = tuple(start * factor for start in self.starts)
        return BoxSetter(pieces, self.begins, starts, rtl=self.rtl)

    def _line(self, start: int, end: int) -> SetLine:
        first, last = self.begins.index(start), bisect_left(self.begins, end) - 1
        run, starts = self.pieces[first : last + 1], self.starts[first : last + 1]
        width = starts[-1] + run[-1].width_mm - starts[0]
        shifts = [
            width - (at - starts[0] + piece.width_mm) if self.rtl else at - starts[0]
            for piece, at in zip(run, starts, strict=True)
        ]
        ink = [p.ink + np.array([dx, 0.0, dx, 0.0]) for p, dx in zip(run, shifts, strict=True)]
        text = "".join(
            piece.text.ljust(begin_next - begin)
            for piece, begin, begin_next in zip(
                run, self.begins[first:], [*self.begins[first + 1 : last + 1], 0], strict=False
            )
        )
        return SetLine(text, width, np.concatenate(ink))


def _name(index: int, width: float) -> str:
    """A word of one letter repeated, about as many letters as it is mm wide."""
    return chr(ord("A") + index % 26) * max(1, round(width))


def line_supports(words: Words, angles: Floats, reach: int) -> Floats:
    """How far the ink of every candidate line reaches, by definition: the farthest corner.

    Each line stands with its advance centred on x = 0 and its baseline on y = 0. Shape (n, reach,
    angles), mm; infinite where there is no such line.
    """
    advances = words.advances(reach)
    result = np.full((*advances.shape, len(angles)), np.inf)
    units = np.stack([np.cos(angles), np.sin(angles)])
    for first, run in zip(*np.nonzero(np.isfinite(advances)), strict=True):
        line = words.line(int(first), int(first + run))
        corners = line.corners() - [line.width_mm / 2, 0.0]
        result[first, run] = (corners @ units).max(axis=0, initial=-np.inf)
    return result
