"""The report as values: what was found for a script, page by page and panel by panel."""

import math
from dataclasses import dataclass, field, fields
from itertools import islice
from typing import Literal

from letterfit.cuts import Proposal
from letterfit.errors import PageError
from letterfit.findings import Finding
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Rect
from letterfit.lettering.settings import Lettering
from letterfit.paper.model import PagePlan
from letterfit.paper.sheet import Paper
from letterfit.place.model import Proof, Reading, Tail, Verdict
from letterfit.script.model import Kind

SameSpeaker = Literal["linked", "joined"]
"""What becomes of speeches of one speaker that follow each other in a panel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BalloonReport:
    """One balloon or caption.

    Args:
        id: "page.panel.balloon", such as "1.3.2".
        line: Its line in the script.
        kind: Dialogue, thought or caption.
        speaker: Who speaks, if named.
        modifiers: As in the script: OFF, WHISPER.
        fitted: The text set in its outline: the placed one, or the smallest when not placed.
        x_mm: Centre on the page, None when not placed.
        y_mm: Centre on the page, None when not placed.
        tail: Its tail, if it has one.
        joined: Whether it is joined to the balloon before it, of the same speaker: the two have
            one outline and one tail.
        overhang_mm: How far it hangs over the panel's top border, which cuts it flat; 0 inside.
    """

    id: str
    line: int
    kind: Kind
    speaker: str | None
    modifiers: tuple[str, ...]
    fitted: FittedBalloon
    x_mm: float | None = None
    y_mm: float | None = None
    tail: Tail | None = None
    joined: bool = False
    overhang_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class EffectReport:
    """A sound effect or a sign: lettering that belongs to the picture, measured by its ink.

    Args:
        id: "page.panel.eN".
        line: Its line in the script.
        kind: "sfx" or "sign".
        text: As set.
        size_pt: The type size it is measured at.
        width_mm: Width of its ink.
        height_mm: Height of its ink.
    """

    id: str
    line: int
    kind: Kind
    text: str
    size_pt: float
    width_mm: float
    height_mm: float

    @property
    def area_mm2(self) -> float:
        """The area of the ink's box."""
        return self.width_mm * self.height_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelOverflow:
    """By how much a panel's lettering does not go in.

    With more than 16 balloons no remedy is tried: all but the area are None.

    Args:
        area_mm2: How much more area the smallest balloons, with their gaps, need than there is; 0
            when it is the shapes, not the area, that do not go in.
        words: How many words fewer let the panel be placed, taken one at a time from the end of
            whichever balloon has most left; found by setting and placing again; None when even
            one word a balloon does not go in.
        size_pt: The largest type size, in quarters of a point, at which the panel is placed, not
            under the least legible one; None when there is none.
        height_mm: The least height of the panel, in whole mm, at which it is placed at its width;
            None when even a panel as high as the page does not do.
        width_mm: The least width, in whole mm, at which it is placed at its height; None when even
            a panel as wide as the page does not do.
    """

    area_mm2: float
    words: int | None
    size_pt: float | None
    height_mm: float | None = None
    width_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelReport:
    """One panel.

    Args:
        id: "page.panel", such as "1.3".
        line: Its line in the script.
        rect: The panel on the page: where it bleeds, what is left of it on the trimmed page.
        words: Words in its balloons and captions.
        verdict: As `PanelLayout.verdict`; a silent panel is placed.
        reason: Why it is not placed.
        coverage: Share of the panel (less its insets) that balloons and tails cover, 0 to 1; for a
            panel that is not placed, the share the smallest balloons would cover (may be over 1).
        effects_share: Share that sound effects would take, 0 to 1, counted apart.
        figure_height_mm: Height of the tallest figure that stands clear.
        figure_bound_mm: No layout of these balloons leaves a taller figure: proved. 0 where none
            goes in, infinite where nothing is known.
        figures: Boxes of the figures that stand in it, as `PanelLayout.figures`.
        cuts: Proposals where there is too much, if they were asked for.
        reading_certain: Whether every reader takes the balloons in script order.
        balloons: Its balloons and captions.
        effects: Its sound effects and signs.
        overflow: None when placed.
        proof: Why it is impossible, balloons counted from 0; None for all others, and for a text
            too long for any balloon.
        bleed: The panel as drawn, as far as the bleed; None where it ends at its border.
        insets: The panels set into it, on the page.
    """

    id: str
    line: int
    rect: Rect
    words: int
    verdict: Verdict
    reason: str
    coverage: float
    effects_share: float
    figure_height_mm: float
    reading_certain: bool
    balloons: tuple[BalloonReport, ...] = ()
    effects: tuple[EffectReport, ...] = ()
    overflow: PanelOverflow | None = None
    figures: tuple[Rect, ...] = ()
    cuts: tuple[Proposal, ...] = ()
    figure_bound_mm: float = math.inf
    proof: Proof | None = None
    bleed: Rect | None = None
    insets: tuple[Rect, ...] = ()

    @property
    def area_mm2(self) -> float:
        """The area of the panel that no inset takes."""
        return self.rect.area_mm2 - sum(inset.area_mm2 for inset in self.insets)

    @property
    def figure_share(self) -> float:
        """The figure's height over the panel's height, 0 to 1."""
        return self.figure_height_mm / self.rect.height

    @property
    def bound_share(self) -> float:
        """The height that no layout exceeds over the panel's height, 0 or more."""
        return self.figure_bound_mm / self.rect.height


@dataclass(frozen=True, slots=True, kw_only=True)
class PageReport:
    """One page or spread.

    Args:
        label: "3", or "4-5" for a spread.
        numbers: The page's number; two for a spread.
        line: Its line in the script.
        plan: Where its panels stand.
        panels: Its panels, in script order.
        findings: What was found on it, gravest first within each panel.
        cuts: Proposals where the page as a whole has too many words, if they were asked for.
    """

    label: str
    numbers: tuple[int, ...]
    line: int
    plan: PagePlan
    panels: tuple[PanelReport, ...]
    findings: tuple[Finding, ...] = ()
    cuts: tuple[Proposal, ...] = ()

    @property
    def words(self) -> int:
        """Words on the page."""
        return sum(panel.words for panel in self.panels)

    @property
    def figure_height_mm(self) -> float:
        """The figure height that every panel of the page can hold, in mm."""
        return min((panel.figure_height_mm for panel in self.panels), default=0.0)

    @property
    def lowest_panel(self) -> PanelReport | None:
        """The panel that sets that height, the first of them; None on a page without panels."""
        return min(self.panels, key=lambda panel: panel.figure_height_mm, default=None)

    @property
    def tier_figure_heights_mm(self) -> tuple[float, ...]:
        """The figure height that every panel of a tier can hold, tier by tier, in mm."""
        heights = iter([panel.figure_height_mm for panel in self.panels])
        return tuple(min(islice(heights, len(tier.panels))) for tier in self.plan.tiers)

    @property
    def fits(self) -> bool:
        """Whether every panel is placed."""
        return all(panel.verdict == "placed" for panel in self.panels)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What the report warns about. Every default is common practice, no source: advice, not law.

    What is said of a tier or a page holds twice over on a spread.

    Args:
        coverage: Greatest share of a panel under lettering.
        words_per_balloon: Most words in one balloon.
        words_per_panel: Most words in one panel.
        words_per_tier: Most words in one tier: three full panels, half of a full page (common
            practice, no source; the figure is ours, from those of a panel and a page).
        words_per_page: Most words on one page.
        least_size_pt: Smallest type size that is not flagged.
        lines_per_balloon: Most lines in one balloon.
        balloons_per_panel: Most balloons and captions in one panel (common practice, no source).
        panels_per_tier: Most panels in one tier (common practice, no source).
        panels_per_page: Most panels on one page: four tiers of four (common practice, no source).
        figure_aspect: Width over height of the figure box.
        whole_figure: Share of the panel's height that a whole standing figure wants; with less
            room the view has to come closer.
        steady_share: A panel whose figure room is less than this share of the page's middle one
            breaks the steady distance.
        house: Names of the limits that a house's own rules state, as `parse_limits` reads them.

    Raises:
        PageError: When a limit is not a number over 0, or `house` names none.

    >>> Limits(words_per_page=180).words_per_page
    180
    """

    coverage: float = 1 / 3
    words_per_balloon: int = 25
    words_per_panel: int = 35
    words_per_page: int = 210
    least_size_pt: float = 6.0
    lines_per_balloon: int = 8
    figure_aspect: float = 1 / 3
    whole_figure: float = 0.5
    steady_share: float = 0.75
    words_per_tier: int = 105
    balloons_per_panel: int = 4
    panels_per_tier: int = 4
    panels_per_page: int = 16
    house: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for name in self.names():
            value = getattr(self, name)
            if not math.isfinite(value) or value <= 0:
                raise PageError(f"a limit {name} of {value}", advice="give a number over 0")
        for name in self.house:
            if name not in self.names():
                raise PageError(
                    f"no limit is called {name!r}", advice=f"name some of {', '.join(self.names())}"
                )

    @classmethod
    def names(cls) -> tuple[str, ...]:
        """The names of all limits."""
        return tuple(one.name for one in fields(cls) if one.name != "house")

    def basis(self, name: str) -> str:
        """On whose word a limit stands, to be said wherever it is shown.

        >>> limits = Limits(words_per_panel=30, coverage=0.4, house=("words_per_panel",))
        >>> [limits.basis(name) for name in ("words_per_panel", "words_per_page", "coverage")]
        ['house rules', 'common practice', 'as asked for']
        """
        if name in self.house:
            return "house rules"
        defaults = {one.name: one.default for one in fields(self)}
        return "common practice" if getattr(self, name) == defaults[name] else "as asked for"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptReport:
    """The whole report.

    Args:
        title: The script's title, if it has one.
        source: The script's file name, or empty.
        lettering: How it was lettered.
        paper: The single page it was laid on.
        reading: "ltr" or "rtl".
        limits: The limits it was held against.
        pages: The pages.
        findings: Findings that belong to no page: the parser's, the paper's.
        same_speaker: Whether neighbouring speeches of one speaker were to be linked or joined.
        butted: Whether borders were allowed to cut balloons.
    """

    title: str | None
    source: str
    lettering: Lettering
    paper: Paper
    reading: Reading
    limits: Limits
    pages: tuple[PageReport, ...]
    findings: tuple[Finding, ...] = field(default=())
    same_speaker: SameSpeaker = "linked"
    butted: bool = False

    @property
    def fits(self) -> bool:
        """Whether every panel of every page is placed, and no finding is an error.

        A missing letter is one: words that cannot be lettered do not fit.
        """
        sound = all(finding.severity != "error" for finding in self.all_findings)
        return sound and all(page.fits for page in self.pages)

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """The script's own findings, then each page's."""
        return self.findings + tuple(f for page in self.pages for f in page.findings)
