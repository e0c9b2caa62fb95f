"""What a page measures, planned or existing, in one set of values, so that two can be compared.

Every figure is defined once: cover is the share of a panel's area under balloons, captions and
tails; figure room the tallest 1:3 box that stands on the panel's floor clear of balloons and
captions, not of tails (in a plan it stands in the live area, also where the panel bleeds); order is
certain where two readers, highest first and the X-Y cut, agree. Sound effects and signs are counted
apart, by the boxes of their ink.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.place.model import Reading
from letterfit.shown import Shown

Origin = Literal["planned", "existing"]
ToldBy = Literal["script", "name", "geometry"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LetteringFault:
    """Lettering that leaves its balloon, or comes too near to its outline.

    Args:
        where: The balloon, such as "1.3.2" or "panel 3, balloon 2".
        text: The lettering, or empty where it is drawn as outlines and nobody says.
        outside_mm: How far its ink reaches outside; 0 where it stays inside.
        clearance_mm: How near it comes to the outline from inside; 0 where it leaves it.

    >>> import letterfit as lf
    >>> page = lf.parse_drawn_page(b'''<svg xmlns="http://www.w3.org/2000/svg" width="100mm"
    ... height="150mm" viewBox="0 0 100 150">
    ... <rect class="panel" x="5" y="5" width="90" height="60"/>
    ... <ellipse class="balloon" cx="30" cy="20" rx="5" ry="4"/>
    ... <text x="24" y="21" font-size="2.6">HOLD IT!</text></svg>''')
    >>> (fault,) = lf.measure_page(page).panels[0].faults
    >>> fault.text, fault.outside_mm > 0
    ('HOLD IT!', True)
    """

    where: str
    text: str
    outside_mm: float
    clearance_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BalloonMeasures:
    r"""What a balloon or caption measures.

    Args:
        id: "page.panel.balloon", or "panel.balloon" in reading order for an existing page.
        name: What the drawing calls it; empty for a planned one.
        kind: "caption" for captions; dialogue, thought or balloon for the rest.
        words: Its words; None where they are drawn as outlines and nobody says.
        clearance_mm: The least distance from its ink to its outline; 0 where ink leaves it,
            infinite without ink.
        told_by: What told that it is one: the "script", a "name", or its "geometry".

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> page = lf.measure_page(lf.preflight(script).pages[0])
    >>> (balloon,) = page.panels[0].balloons
    >>> balloon.id, balloon.kind, balloon.words, balloon.told_by
    ('1.1.1', 'dialogue', 1, 'script')
    """

    id: str
    name: str
    kind: str
    words: int | None
    clearance_mm: float
    told_by: ToldBy


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelMeasures:
    r"""What a panel measures.

    Args:
        id: "page.panel" of a planned page; its number in reading order for an existing one.
        name: What the drawing calls it; empty for a planned one.
        rect: The box round it on the page.
        area_mm2: Its own area, less its insets.
        balloons: Its balloons and captions, in reading order.
        effects: How many sound effects and signs stand in it.
        told_by: What told that it is a panel.
        coverage: Share covered, 0 to 1.
        effects_share: Share taken by sound effects and signs, 0 to 1.
        figure_height_mm: Figure room.
        order: "certain", "doubtful", or "" where nothing fits.
        doubt: The two balloons that readers may take the other way round, counted from 1 in
            reading order; None where the order is certain.
        placed: Whether its lettering goes in; on an existing page, whether none leaves its balloon.
        faults: Lettering that leaves its balloon or comes nearer to its outline than the air.
        shape: "rectangle", "convex polygon" or "polygon".

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> page = lf.measure_page(lf.preflight(script).pages[0])
    >>> (panel,) = page.panels
    >>> panel.id, panel.words, panel.order, panel.figure_share > 0.5
    ('1.1', 1, 'certain', True)
    """

    id: str
    name: str
    rect: Rect
    area_mm2: float
    balloons: tuple[BalloonMeasures, ...]
    effects: int
    told_by: ToldBy
    coverage: float
    effects_share: float
    figure_height_mm: float
    order: Literal["certain", "doubtful", ""]
    doubt: tuple[int, int] | None = None
    placed: bool = True
    faults: tuple[LetteringFault, ...] = ()
    shape: Literal["rectangle", "convex polygon", "polygon"] = "rectangle"

    @property
    def words(self) -> int | None:
        """Words in its balloons; None where some are drawn as outlines and nobody says."""
        return all_words([balloon.words for balloon in self.balloons])

    @property
    def figure_share(self) -> float:
        """The figure room over the panel's height, 0 to 1."""
        return self.figure_height_mm / self.rect.height


@dataclass(frozen=True, slots=True, kw_only=True)
class TierMeasures:
    r"""A row of panels.

    Args:
        height_mm: From its highest top to its lowest bottom.
        panels: How many panels it has.
        figure_height_mm: The figure room that each of them has.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> page = lf.measure_page(lf.preflight(script).pages[0])
    >>> (tier,) = page.tiers
    >>> tier.panels, round(tier.height_mm, 1)
    (1, 228.6)
    """

    height_mm: float
    panels: int
    figure_height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PageMeasures(Shown):
    r"""What a page measures.

    Args:
        source: The file it comes from, or empty.
        label: The page's label in its script; empty for a drawing.
        origin: "planned" from a script, or "existing" as a drawing.
        trim: Width and height of the page, mm.
        reading: "ltr" or "rtl".
        air_mm: The least distance from ink to outline that it is held against.
        tiers: Its tiers from top to bottom.
        panels: Its panels in reading order.
        typeface: What live text was measured with; None for a planned page and for outlines.
        findings: What was found on it.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> page = lf.measure_page(lf.preflight(lf.parse_script(text)).pages[0])
    >>> page.origin, page.trim, page.words, page.fits
    ('planned', (168.275, 260.35), 1, True)
    """

    source: str
    label: str
    origin: Origin
    trim: tuple[float, float]
    reading: Reading
    air_mm: float
    tiers: tuple[TierMeasures, ...]
    panels: tuple[PanelMeasures, ...]
    typeface: str | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def words(self) -> int | None:
        """Words on the page; None where some are drawn as outlines and nobody says."""
        return all_words([panel.words for panel in self.panels])

    @property
    def coverage(self) -> float:
        """Share of all panels' area that is covered, 0 to 1; 0 without panels."""
        area = sum(panel.area_mm2 for panel in self.panels)
        covered = sum(panel.coverage * panel.area_mm2 for panel in self.panels)
        return covered / area if area else 0.0

    @property
    def figure_height_mm(self) -> float:
        """The figure room that every panel has; 0 without panels."""
        return min((panel.figure_height_mm for panel in self.panels), default=0.0)

    @property
    def fits(self) -> bool:
        """Whether all lettering goes in, and no finding is an error."""
        sound = all(finding.severity != "error" for finding in self.findings)
        return sound and all(panel.placed for panel in self.panels)


def all_words(counts: Sequence[int | None]) -> int | None:
    """The sum of counts; None where one of them is not known.

    >>> all_words([3, 4]), all_words([3, None])
    (7, None)
    """
    known = [count for count in counts if count is not None]
    return sum(known) if len(known) == len(counts) else None
