"""The last page of a proof: rulers and type sizes to check a print by, and what to know of it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from letterfit.counting import counted
from letterfit.geometry import MM_PER_INCH, MM_PER_PT, Point, Rect
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.output.pdf.tagging import HEADING, MARKS
from letterfit.output.plain import one_line
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes, document, length, tag
from letterfit.output.svg.glyphs import Glyphs, group
from letterfit.output.svg.labels import LONGEST, label_lettering
from letterfit.paper.sheet import Paper
from letterfit.report.model import ScriptReport

HEAD_PT, NOTE_PT, MARK_PT = 10.0, 6.5, 5.0
LINE_MM = 3.4
"""Baseline to baseline of notes."""

LEAST_MM = (105.0, 148.0)
"""A sheet that has room for all there is to say: A6 (ISO 216)."""

LONGEST_MM, TALLEST_MM = 200, 200
"""Of a ruler, which ends with its page."""

TICKS_MM = {10: 4.0, 5: 2.8, 1: 1.6}
"""How long a tick is, by the millimetres that it counts; the first that divides holds."""
INCH_TICKS = {16: 4.0, 8: 3.2, 4: 2.4, 2: 1.6, 1: 1.0}
"""The same by sixteenths of an inch."""

SIZES_PT = (5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 9.0, 10.0, 12.0)
SPECIMEN = "The tide turned an hour ago. Hold the gate!"
SPECIMEN_MM = 20.0
"""From the name of a size to its specimen."""
COLUMN_MM = 14.0
"""What stands left of the notes: the upright ruler."""

ADVICE = (
    "Print at 100 %, not fitted to the sheet: then these rulers are true. What a proof shows is "
    "advice; trim, bleed, live area and least type size are for the printer's own specification "
    "to decide."
)
DRAWN = "{name} {why}: its letters are drawn as curves, not set as text."


def check_paper(paper: Paper) -> Paper:
    """The sheet of the last page: the report's paper, or one of A6 where that is smaller.

    >>> check_paper(Paper(trim=(50, 200))).trim
    (105.0, 200.0)
    """
    (width, height), (least_width, least_height) = paper.trim, LEAST_MM
    if width >= least_width and height >= least_height:
        return paper
    trim = (max(width, least_width), max(height, least_height))
    return Paper(trim=trim, bleed=min(paper.bleed, *trim))


def check_page(report: ScriptReport, *, glyphs: Glyphs, refused: Mapping[str, str]) -> str:
    """The page as SVG in mm, on `check_paper`.

    Args:
        report: The report.
        glyphs: What draws its words.
        refused: Faces whose letters are drawn, and why.
    """
    paper = check_paper(report.paper)
    width, height = paper.trim
    page = _Page(report, glyphs, paper.live)
    parts = [
        tag("rect", {"width": width, "height": height, "fill": style.PAPER}),
        *page.rulers(),
        *page.column(refused),
    ]
    return document(width=width, height=height, heading="print check", children=parts)


@dataclass(frozen=True, slots=True)
class _Page:
    """Rulers and words within the live area."""

    report: ScriptReport
    glyphs: Glyphs
    live: Rect

    def rulers(self) -> Iterator[str]:
        """Millimetres and inches along the top, millimetres down the left."""
        corner = Point(self.live.x, self.live.y)
        across = int(min(self.live.width, LONGEST_MM))
        down = int(min(self.live.height - COLUMN_MM, TALLEST_MM))
        mm = [(k, _tick(k, TICKS_MM)) for k in range(across + 1)]
        yield _ticks(corner, [(float(k), size) for k, size in mm])
        inches = int(across / MM_PER_INCH * 16)
        below = Point(corner.x, corner.y + COLUMN_MM)
        sixteenths = [(k * MM_PER_INCH / 16, -_tick(k, INCH_TICKS)) for k in range(inches + 1)]
        yield _ticks(below, sixteenths)
        for k in range(10, across + 1, 10):
            yield self._mark("10 mm" if k == 10 else str(k), corner.x + k, corner.y + 6.0)
        for k in range(1, inches // 16 + 1):
            name = "1 in" if k == 1 else str(k)
            yield self._mark(name, corner.x + k * MM_PER_INCH, below.y - 4.8)
        if down > 0:
            upright = [(float(k), _tick(k, TICKS_MM)) for k in range(down + 1)]
            yield _ticks(below, upright, down=True)
            for k in range(10, down + 1, 10):
                yield self._mark(str(k), corner.x + 6.2, below.y + k + 0.6)

    def column(self, refused: Mapping[str, str]) -> Iterator[str]:
        """Heading, advice, specimen and notes, down to the end of the page."""
        left, y = self.live.x + COLUMN_MM, self.live.y + 2 * COLUMN_MM - 6.0
        name = self.report.title or self.report.source or "this script"
        heads = [f"Print check of {one_line(name)}", "Print check"]
        yield self._words(heads, left, y, size_pt=HEAD_PT, kind=HEADING)
        drawn = [DRAWN.format(name=one_line(name), why=why) for name, why in refused.items()]
        for text in [ADVICE, *drawn]:
            for line in self._wrapped(text):
                y += LINE_MM
                yield self._words([line], left, y)
        y += LINE_MM
        for size in sorted({*SIZES_PT, self.report.lettering.size_pt}):
            y += max(LINE_MM, 1.6 * size * MM_PER_PT)
            yield self._specimen(size, y)
        y += LINE_MM
        lines = list(self._effects())
        room = max(int((self.live.bottom - y) / LINE_MM), 1)
        if len(lines) > room:
            lines = [*lines[: room - 1], f"and {counted(len(lines) - room + 1, 'more line')}"]
        for line in lines:
            y += LINE_MM
            yield self._words([line], left, y)

    def _effects(self) -> Iterator[str]:
        """Sound effects and signs: they belong to the picture and are only told of."""
        effects = [e for p in self.report.pages for panel in p.panels for e in panel.effects]
        if effects:
            yield "Lettering that belongs to the picture, not drawn here:"
        for effect in effects:
            size = f"{effect.width_mm:.0f} x {effect.height_mm:.0f} mm at {effect.size_pt:g} pt"
            yield from self._wrapped(f"{effect.id}  {one_line(effect.text)[:LONGEST]}  {size}")

    def _specimen(self, size: float, y: float) -> str:
        """A size in points, and a line in the report's own lettering of that size."""
        if y > self.live.bottom:
            return ""
        own = self.report.lettering
        lettering = Lettering(typeface=own.typeface, size_pt=size, case=own.case)
        words = measure(SPECIMEN, lettering)
        left = self.live.x + COLUMN_MM
        room = self.live.right - left - SPECIMEN_MM
        fitting = [k for k in range(len(words)) if words.width(0, k) <= room]
        if not fitting:
            return ""
        line = words.line(0, fitting[-1])
        drawn = self.glyphs.set_line(line, Point(left + SPECIMEN_MM, y))
        mark = " (used)" if size == own.size_pt else ""
        name = self._words([f"{size:g} pt{mark}"], left, y)
        return name + group([drawn], colour=style.INK, name="words")

    def _wrapped(self, text: str) -> Iterator[str]:
        """A text in lines as wide as the column."""
        words = measure(text, self._lettering(NOTE_PT))
        room = self.live.right - self.live.x - COLUMN_MM
        first = 0
        while first < len(words):
            last = first
            while last + 1 < len(words) and words.width(first, last + 1) <= room:
                last += 1
            yield words.line_text(first, last)
            first = last + 1

    def _words(
        self,
        texts: list[str],
        x: float,
        y: float,
        *,
        size_pt: float = NOTE_PT,
        kind: str = "words",
    ) -> str:
        """The first of some wordings that is not too wide; nothing when all are."""
        for text in texts:
            words = measure(text[:LONGEST], self._lettering(size_pt))
            line = words.line(0, len(words) - 1) if len(words) else None
            if line is not None and line.width_mm <= self.live.right - x:
                drawn = self.glyphs.set_line(line, Point(x, y))
                return group([drawn], colour=style.INK, name=kind)
        return ""

    def _lettering(self, size_pt: float) -> Lettering:
        """That of labels; what its faces lack is taken from the report's typeface."""
        plain, own = label_lettering(size_pt).typeface, self.report.lettering.typeface
        chain = (*plain.fallback, replace(own, fallback=()), *own.fallback)
        return Lettering(typeface=replace(plain, fallback=chain), size_pt=size_pt, case="as-typed")

    def _mark(self, text: str, x: float, y: float) -> str:
        """A figure of a ruler, its middle at x."""
        words = measure(text, label_lettering(MARK_PT))
        line = words.line(0, len(words) - 1)
        drawn = self.glyphs.set_line(line, Point(x - line.width_mm / 2, y))
        return group([drawn], colour=style.INK, name=MARKS)


def _tick(number: int, sizes: Mapping[int, float]) -> float:
    return next(size for step, size in sizes.items() if number % step == 0)


def _ticks(start: Point, ticks: list[tuple[float, float]], *, down: bool = False) -> str:
    """A line from a point, and ticks beside it: how far along each is, and how long."""
    reach = ticks[-1][0]
    end = Point(start.x, start.y + reach) if down else Point(start.x + reach, start.y)
    data = [f"M{length(start.x)} {length(start.y)}L{length(end.x)} {length(end.y)}"]
    for along, size in ticks:
        x, y = (start.x, start.y + along) if down else (start.x + along, start.y)
        to = (x + size, y) if down else (x, y + size)
        data.append(f"M{length(x)} {length(y)}L{length(to[0])} {length(to[1])}")
    line: Attributes = {"fill": "none", "stroke": style.INK, "stroke-width": style.GUIDE_LINE}
    return tag("path", {"d": "".join(data), **line})
