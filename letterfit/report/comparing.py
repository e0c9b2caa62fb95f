"""Two pages side by side: what each measures, panel by panel in reading order."""

from dataclasses import dataclass
from itertools import zip_longest

from letterfit.existing.model import DrawnPage
from letterfit.place.model import Reading
from letterfit.report.measured_drawing import measure_drawing
from letterfit.report.measured_plan import measure_plan
from letterfit.report.measures import PageMeasures, PanelMeasures, TierMeasures
from letterfit.report.model import PageReport
from letterfit.shown import Shown


def measure_page(  # noqa: PLR0913 - keyword-only
    page: PageReport | DrawnPage,
    *,
    source: str = "",
    reading: Reading = "ltr",
    air_mm: float = 1.2,
    figure_aspect: float = 1 / 3,
    coverage_limit: float = 1 / 3,
) -> PageMeasures:
    r"""What a page measures, planned or existing, in the same figures.

    Args:
        page: A page of a report, or a drawn one.
        source: The script's file; a drawn page knows its own.
        reading: How it reads, "ltr" or "rtl".
        air_mm: The least distance from ink to outline; of a report, what it was made with.
        figure_aspect: Width over height of the figure box, a ratio, for a drawn page.
        coverage_limit: Greatest share of a panel under lettering, for a drawn page.

    Returns:
        Its panels and tiers in reading order, lengths in mm, shares 0 to 1. A planned page has the
        figures of its report; a drawn one is measured by the same definitions.

    Raises:
        PageError: When a number is not over 0.
        DrawingError: When a drawn page's outlines have too many sides.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> page = measure_page(lf.preflight(script).pages[0], source="gate.txt")
    >>> page.source, page.words, len(page.panels)
    ('gate.txt', 1, 1)
    """
    if isinstance(page, PageReport):
        return measure_plan(page, source=source, reading=reading, air_mm=air_mm)
    return measure_drawing(
        page,
        reading=reading,
        air_mm=air_mm,
        figure_aspect=figure_aspect,
        coverage_limit=coverage_limit,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PageComparison(Shown):
    r"""Two pages and what of them belongs together.

    Args:
        first: The one page.
        second: The other.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> page = lf.measure_page(lf.preflight(lf.parse_script(text)).pages[0])
    >>> both = lf.compare_pages(page, page)
    >>> both.fits, len(both.tiers), [first.words for first, _ in both.panels]
    (True, 2, [1, 0])
    """

    first: PageMeasures
    second: PageMeasures

    @property
    def panels(self) -> tuple[tuple[PanelMeasures | None, PanelMeasures | None], ...]:
        """Panels by their places in reading order; None where a page has no such panel."""
        return tuple(zip_longest(self.first.panels, self.second.panels))

    @property
    def tiers(self) -> tuple[tuple[TierMeasures | None, TierMeasures | None], ...]:
        """Tiers from top to bottom; None where a page has no such tier."""
        return tuple(zip_longest(self.first.tiers, self.second.tiers))

    @property
    def fits(self) -> bool:
        """Whether both pages fit."""
        return self.first.fits and self.second.fits


def compare_pages(first: PageMeasures, second: PageMeasures) -> PageComparison:
    r"""Two pages side by side.

    Args:
        first: What the one measures.
        second: What the other measures.

    Returns:
        Both, their tiers and panels matched by their order; whether they are the same panels of the
        story is for the reader to say.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> small, large = (
    ...     lf.measure_page(lf.preflight(script, paper=lf.Paper.named(name)).pages[0])
    ...     for name in ("a5", "a4")
    ... )
    >>> [first.words == second.words for first, second in compare_pages(small, large).panels]
    [True]
    """
    return PageComparison(first=first, second=second)
