"""Figure room across a page: one SVG sheet with a small drawing of every page of a report.

The pages stand in rows at one scale, as a reader takes them: a right-to-left script's run from the
right. Under each stands what it holds and what would mend it; a legend stands at the foot.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from letterfit.geometry import Point
from letterfit.output.svg import style
from letterfit.output.svg.elements import Names, document, tag
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.figures_legend import drawn_legend, legend_of
from letterfit.output.svg.figures_page import SmallPage, drawn_small_page, small_page
from letterfit.output.svg.figures_view import Drawing
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.small_text import TextBlock
from letterfit.report.limits import Limits
from letterfit.report.model import PageReport, ScriptReport

SHEET_MM = 210.0
"""The width of an A4 sheet (ISO 216): no wider."""
MARGIN_MM = 8.0
LEAST_MM = 84.0
"""The least width between the margins: the legend's."""
ACROSS = 4
"""So many pages stand side by side where there are as many."""
GAP_MM = 4.0
ROW_GAP_MM = 6.0
LEAST_PAGE_MM = 34.0
"""The words under a page take at least this width."""
HIGHEST_MM = 240.0
"""A page is drawn no taller."""
ONE_TO = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60)
"""Scales, the largest first: one to so many."""
HEAD_PT = 6.5
HEAD_MM = 5.0


def figures_to_svg(report: ScriptReport | PageReport) -> str:
    r"""How tall a figure every panel holds, as one SVG sheet with a small drawing of every page.

    Args:
        report: A script's report, or a page's.

    Returns:
        A sheet at most 210 mm wide, its words as outlines; no font, no reference to anything
        outside the file. The same report gives the same characters. Limits are common practice and
        advice, and the sheet says on whose word the steady height stands.

    >>> from letterfit import parse_script, preflight
    >>> report = preflight(parse_script("PAGE 1\n\nPanel 1.\nWENNA: Lock's shut!\n"))
    >>> figures_to_svg(report).count('class="page"')
    1
    """
    pages = report.pages if isinstance(report, ScriptReport) else (report,)
    one_to = scale_of(pages)
    drawing = _drawing(report, 1 / one_to)
    smalls = [small_page(page, scale=drawing.scale, least_mm=LEAST_PAGE_MM) for page in pages]
    rows = list(_rows(smalls))
    width = max([LEAST_MM, *(row.width_mm for row in rows)])
    parts, top = [_head(one_to, drawing)], MARGIN_MM + HEAD_MM
    for row in rows:
        parts += _drawn_row(row, top, width=width, drawing=drawing)
        top += max(small.height_mm for small in row.pages) + ROW_GAP_MM
    entries, deep = legend_of(drawing.limits, width_mm=width)
    parts.append(drawn_legend(entries, Point(MARGIN_MM, top), drawing=drawing))
    across, down = width + 2 * MARGIN_MM, top + deep + MARGIN_MM
    sheet = tag("rect", {"width": across, "height": down, "fill": style.PAPER})
    return document(width=across, height=down, heading=_title(report), children=[sheet, *parts])


@dataclass(frozen=True, slots=True)
class Row:
    """Pages side by side.

    Args:
        pages: The pages, in reading order.
    """

    pages: tuple[SmallPage, ...]

    @property
    def width_mm(self) -> float:
        """All of them and the gaps between them."""
        return sum(small.width_mm for small in self.pages) + GAP_MM * (len(self.pages) - 1)


def scale_of(pages: Sequence[PageReport]) -> int:
    """What one mm stands for: the largest scale that sets as many pages side by side as go well.

    Args:
        pages: All pages of the sheet.
    """
    sheets = [page.plan.paper for page in pages]
    widest = max((paper.trim[0] for paper in sheets), default=0.0)
    single = max((paper.trim[0] / paper.pages for paper in sheets), default=0.0)
    tallest = max((paper.trim[1] for paper in sheets), default=0.0)
    across = min(ACROSS, sum(paper.pages for paper in sheets))
    room = SHEET_MM - 2 * MARGIN_MM
    for one_to in ONE_TO:
        side_by_side = across * single / one_to + GAP_MM * (across - 1)
        if max(side_by_side, widest / one_to) <= room and tallest / one_to <= HIGHEST_MM:
            return one_to
    return ONE_TO[-1]


def _drawing(report: ScriptReport | PageReport, scale: float) -> Drawing:
    if isinstance(report, ScriptReport):
        limits, reading = report.limits, report.reading
    elif report.setting is not None:
        limits, reading = report.setting.limits, report.setting.reading
    else:
        limits, reading = Limits(), "ltr"
    return Drawing(
        scale=scale,
        limits=limits,
        reading=reading,
        glyphs=Glyphs(glyph_source(None)),
        names=Names(),
    )


def _title(report: ScriptReport | PageReport) -> str:
    if isinstance(report, PageReport):
        return f"figure room, page {report.label}"
    return " · ".join(filter(None, ["figure room", report.title or report.source]))


def _head(one_to: int, drawing: Drawing) -> str:
    text = TextBlock((f"Figure room, page by page, at 1:{one_to}",), HEAD_PT)
    words = text.drawn(text.box(MARGIN_MM, MARGIN_MM), colour=style.INK, glyphs=drawing.glyphs)
    return tag("g", {"class": "label head"}, words)


def _rows(smalls: Sequence[SmallPage]) -> Iterator[Row]:
    """As many pages in a row as go in."""
    row: tuple[SmallPage, ...] = ()
    for small in smalls:
        if row and Row((*row, small)).width_mm > SHEET_MM - 2 * MARGIN_MM:
            yield Row(row)
            row = ()
        row = (*row, small)
    if row:
        yield Row(row)


def _drawn_row(row: Row, top: float, *, width: float, drawing: Drawing) -> list[str]:
    """A row's pages: from the left, or from the right as a right-to-left reader takes them."""
    parts, at = [], 0.0
    for small in row.pages:
        left = width - at - small.width_mm if drawing.reading == "rtl" else at
        parts.append(drawn_small_page(small, Point(MARGIN_MM + left, top), drawing=drawing))
        at += small.width_mm + GAP_MM
    return parts
