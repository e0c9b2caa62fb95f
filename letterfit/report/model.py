"""The report as values: what was found for a script, page by page and panel by panel."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import islice

from letterfit.cuts.model import Proposal
from letterfit.findings import Finding
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Rect
from letterfit.lettering.settings import Lettering
from letterfit.paper.model import PagePlan
from letterfit.paper.sheet import Paper
from letterfit.place.model import Proof, Reading, Tail, Verdict
from letterfit.report.limits import Limits
from letterfit.report.setting import SameSpeaker, Setting
from letterfit.script.model import Kind, ScriptPage
from letterfit.shown import Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class BalloonReport(Shown):
    r"""One balloon or caption.

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

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA (WHISPER): It's shut.\n")
    >>> balloon = lf.preflight(script).pages[0].panels[0].balloons[0]
    >>> balloon.id, balloon.speaker, balloon.modifiers, balloon.fitted.text
    ('1.1.1', 'WENNA', ('WHISPER',), "IT'S SHUT.")
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
    r"""A sound effect or a sign: lettering that belongs to the picture, measured by its ink.

    Args:
        id: "page.panel.eN".
        line: Its line in the script.
        kind: "sfx" or "sign".
        text: As set.
        size_pt: The type size it is measured at.
        width_mm: Width of its ink.
        height_mm: Height of its ink.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The gate.\nSFX: KLANG\n")
    >>> effect = lf.preflight(script).pages[0].panels[0].effects[0]
    >>> effect.id, effect.text, effect.size_pt, round(effect.width_mm, 1)
    ('1.1.e1', 'KLANG', 14.0, 10.9)
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
    r"""By how much a panel's lettering does not go in.

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

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: " + "The tide turned an hour ago. " * 4
    >>> plans = lf.parse_plans('paper = "40x60mm"\n[all]\ntiers = "1 / 1 @2"')
    >>> report = lf.preflight(lf.parse_script(text + "\n\nPanel 2. Eels.\n"), plans=plans)
    >>> panel = report.pages[0].panels[0]
    >>> panel.verdict, panel.overflow.words > 0, panel.overflow.height_mm > panel.rect.height
    ('impossible', True, True)
    """

    area_mm2: float
    words: int | None
    size_pt: float | None
    height_mm: float | None = None
    width_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureRemedy:
    r"""What would let a panel hold as tall a figure as its page's steady distance asks for.

    Each figure is the least change found by placing the panel anew; None where none was found.

    Args:
        height_mm: The height that is asked for.
        words: Words fewer, taken one at a time from the end of whichever balloon has most left.
        tier_mm: The height of the tier, in whole mm, the panel's width as it is.
        panel_mm: The width of the panel, in whole mm, its height as it is.

    >>> import letterfit as lf
    >>> speech = "The tide turned an hour ago, and nobody has come to ask. " * 4
    >>> text = f"PAGE 1\n\nPanel 1.\nWENNA: {speech}\n\nPanel 2.\n\nPanel 3.\n\nPanel 4.\n"
    >>> plans = lf.parse_plans('paper = "a5"\n[all]\ntiers = "2 / 2"')
    >>> (page,) = lf.preflight(lf.parse_script(text), plans=plans).pages
    >>> remedy = page.panels[0].steadied
    >>> remedy.height_mm > page.panels[0].figure_height_mm, remedy.words > 0
    (True, True)
    """

    height_mm: float
    words: int | None = None
    tier_mm: float | None = None
    panel_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelReport(Shown):
    r"""One panel.

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
        overflow: By how much it does not go in; None when placed.
        proof: Why it is impossible, balloons counted from 0; None for all others, and for a text
            too long for any balloon.
        bleed: The panel as drawn, as far as the bleed; None where it ends at its border.
        insets: The panels set into it, on the page.
        steadied: What would keep the page's steady distance; None where the panel keeps it.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> first, second = lf.preflight(lf.parse_script(text)).pages[0].panels
    >>> first.id, first.verdict, first.words, first.figure_share > 0.5
    ('1.1', 'placed', 1, True)
    >>> second.balloons, second.coverage
    ((), 0.0)
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
    steadied: FigureRemedy | None = None

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


def steady_height(panels: Sequence[PanelReport], *, share: float) -> float:
    """The least figure height that keeps the steady distance of some panels, in mm.

    Args:
        panels: The panels of a page.
        share: Of the middle one of the heights that placed panels hold.
    """
    held = sorted(panel.figure_height_mm for panel in panels if panel.verdict == "placed")
    return share * held[len(held) // 2] if held else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PageReport(Shown):
    r"""One page or spread.

    Args:
        label: "3", or "4-5" for a spread.
        numbers: The page's number; two for a spread.
        line: Its line in the script.
        plan: Where its panels stand.
        panels: Its panels, in script order.
        findings: What was found on it, gravest first within each panel.
        cuts: Proposals where the page as a whole has too many words, if they were asked for.
        typed: The page as the script has it.
        setting: How it was lettered: what another plan of it is tried with.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> (page,) = lf.preflight(lf.parse_script(text)).pages
    >>> page.label, page.words, page.fits, len(page.tier_figure_heights_mm)
    ('1', 1, True, 2)
    """

    label: str
    numbers: tuple[int, ...]
    line: int
    plan: PagePlan
    panels: tuple[PanelReport, ...]
    findings: tuple[Finding, ...] = ()
    cuts: tuple[Proposal, ...] = ()
    typed: ScriptPage | None = None
    setting: Setting | None = None

    @property
    def words(self) -> int:
        """Words on the page."""
        return sum(panel.words for panel in self.panels)

    @property
    def figure_height_mm(self) -> float:
        """The figure height that every panel of the page can hold, in mm."""
        return min((panel.figure_height_mm for panel in self.panels), default=0.0)

    @property
    def steady_height_mm(self) -> float:
        """The least figure height that keeps the page's steady distance.

        A share (`Limits.steady_share`) of the middle one of the heights that its panels hold; of
        two middle ones the taller. 0 for a page of which no panel is placed.
        """
        share = (self.setting.limits if self.setting else Limits()).steady_share
        return steady_height(self.panels, share=share)

    @property
    def lowest_panel(self) -> PanelReport | None:
        """The first panel that holds only `figure_height_mm`; None on a page without panels."""
        return min(self.panels, key=lambda panel: panel.figure_height_mm, default=None)

    @property
    def tier_panels(self) -> tuple[tuple[PanelReport, ...], ...]:
        """Its panels tier by tier: both run in reading order."""
        panels = iter(self.panels)
        return tuple(tuple(islice(panels, len(tier.panels))) for tier in self.plan.tiers)

    @property
    def tier_figure_heights_mm(self) -> tuple[float, ...]:
        """The figure height that every panel of a tier can hold, tier by tier, in mm."""
        return tuple(min(panel.figure_height_mm for panel in own) for own in self.tier_panels)

    @property
    def fits(self) -> bool:
        """Whether every panel is placed."""
        return all(panel.verdict == "placed" for panel in self.panels)


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptReport(Shown):
    r"""The whole report.

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

    >>> import letterfit as lf
    >>> report = lf.preflight(lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n"))
    >>> report.fits, report.paper.name, report.reading, report.lettering.size_pt
    (True, 'us-comic', 'ltr', 7.5)
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
