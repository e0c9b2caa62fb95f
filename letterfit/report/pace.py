"""Pace: how much there is to read, balloon by balloon, panel by panel, tier by tier, page by page.

Everything is counted from a report; nothing is lettered or placed again. Balloons are balloons and
captions; sound effects and signs belong to the picture and are not counted.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby, islice
from typing import Literal

from letterfit.paper.model import Tier
from letterfit.report.model import BalloonReport, PageReport, PanelReport, ScriptReport
from letterfit.script.delivery import is_off_panel
from letterfit.shown import Shown

Voice = Literal["speaker", "captions", "unnamed"]
"""Whose words: a named speaker's, on or off the panel; all captions'; balloons' without a name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typical:
    """The middle one of some numbers, and the largest.

    Args:
        median: The middle one, in the unit of the numbers; of an even count the mean of the middle
            two.
        most: The largest, in the same unit.

    >>> Typical.of([3, 17, 4, 8])
    Typical(median=6.0, most=17)
    """

    median: float
    most: float

    @classmethod
    def of(cls, values: Iterable[float]) -> "Typical | None":
        """The middle one and the largest of some values, 0 or more each; None of none.

        >>> Typical.of([4, 1, 9, 2])
        Typical(median=3.0, most=9)
        """
        counted = tuple(values)
        if not counted:
            return None
        ranked, half = sorted(counted), len(counted) // 2
        middle = ranked[half] if len(ranked) % 2 else (ranked[half - 1] + ranked[half]) / 2
        return cls(median=middle, most=ranked[-1])


@dataclass(frozen=True, slots=True, kw_only=True)
class TierPace:
    r"""One tier of a page.

    Args:
        panels: How many panels it has.
        words: Words in them.
        balloons: Balloons and captions in them.
        silent_panels: Panels without either.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> lf.pace_of(lf.preflight(lf.parse_script(text))).pages[0].tiers[0]
    TierPace(panels=1, words=1, balloons=1, silent_panels=0)
    """

    panels: int
    words: int
    balloons: int
    silent_panels: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PagePace:
    r"""One page or spread: a step of the issue's curve.

    Args:
        label: "3", or "4-5" for a spread.
        sheets: 1, or 2 for a spread.
        panels: Panels on it.
        words: Words on it.
        balloons: Balloons and captions on it.
        silent_panels: Panels without either.
        mean_coverage: Share of all its panels' area that is under lettering, 0 to 1 (over 1 where
            panels overflow): the mean of the panels' coverage, each by its area. 0 without panels.
        words_per_balloon: Of its balloons and captions; None where there are none.
        words_per_panel: Of all its panels, silent ones too; None where there are none.
        words_per_tier: Of its tiers.
        balloons_per_panel: Of all its panels, silent ones too.
        panels_per_tier: Of its tiers.
        tiers: Its tiers, from top to bottom.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> (page,) = lf.pace_of(lf.preflight(lf.parse_script(text))).pages
    >>> page.panels, page.words, page.words_per_panel.median, page.silent_panels
    (2, 1, 0.5, 1)
    """

    label: str
    sheets: int
    panels: int
    words: int
    balloons: int
    silent_panels: int
    mean_coverage: float
    words_per_balloon: Typical | None
    words_per_panel: Typical | None
    words_per_tier: Typical | None
    balloons_per_panel: Typical | None
    panels_per_tier: Typical | None
    tiers: tuple[TierPace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SilentRun:
    r"""Panels without balloons and captions that follow each other, over pages too.

    Args:
        first: The first one's id, such as "1.4".
        last: The last one's.
        panels: How many.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. Tide.\n\nPanel 3. Eels.\n"
    >>> lf.pace_of(lf.preflight(lf.parse_script(text))).longest_silence
    SilentRun(first='1.2', last='1.3', panels=2)
    """

    first: str
    last: str
    panels: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeakerShare:
    r"""What part of the lettering one voice has.

    Args:
        voice: "speaker"; "captions" for all captions together; "unnamed" for balloons whose
            speaker no one named.
        speaker: The speaker's name; None for the other voices.
        balloons: Balloons, or captions.
        off_panel: How many of them are spoken from off the panel.
        words: Words in them.
        area_mm2: Area of their outlines, tails left out.
        words_share: Its part of all words, 0 to 1.
        area_share: Its part of all outlines' area, 0 to 1.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut for the night.\nBARGE PILOT: Ahoy!\n"
    >>> for share in lf.pace_of(lf.preflight(lf.parse_script(text))).voices:
    ...     print(share.voice, share.speaker, share.words, share.words_share)
    speaker WENNA 4 0.8
    speaker BARGE PILOT 1 0.2
    """

    voice: Voice
    speaker: str | None
    balloons: int
    off_panel: int
    words: int
    area_mm2: float
    words_share: float
    area_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace(Shown):
    r"""The pace of a whole script.

    Args:
        pages: The curve: its pages, in script order.
        panels: Panels of all pages.
        words: Words of all pages.
        balloons: Balloons and captions of all pages.
        silent_panels: Panels without either.
        longest_silence: The longest run of such panels, the first of them; None where there is
            none.
        words_per_balloon: Of all balloons and captions; None where there are none.
        words_per_panel: Of all panels, silent ones too; None where there are none.
        words_per_tier: Of all tiers.
        words_per_page: Of all pages; a spread counts as two pages of half its words.
        balloons_per_panel: Of all panels, silent ones too.
        panels_per_tier: Of all tiers.
        voices: Each voice's share, most words first; equals in order of their first words.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> pace = lf.pace_of(lf.preflight(lf.parse_script(text)))
    >>> pace.panels, pace.words, pace.silent_panels, pace.longest_silence.first
    (2, 1, 1, '1.2')
    """

    pages: tuple[PagePace, ...]
    panels: int
    words: int
    balloons: int
    silent_panels: int
    longest_silence: SilentRun | None
    words_per_balloon: Typical | None
    words_per_panel: Typical | None
    words_per_tier: Typical | None
    words_per_page: Typical | None
    balloons_per_panel: Typical | None
    panels_per_tier: Typical | None
    voices: tuple[SpeakerShare, ...]


def pace_of(report: ScriptReport) -> Pace:
    r"""The pace of a script, counted from its report.

    Args:
        report: The report; panels that are not placed count like all others.

    Returns:
        Words, panels and balloons add up over pages, tiers and voices.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n\nPanel 2. The tide.\n"
    >>> pace = lf.pace_of(lf.preflight(lf.parse_script(text)))
    >>> pace.words, pace.silent_panels, pace.voices[0].speaker
    (1, 1, 'WENNA')
    """
    pages = tuple(page_pace(page) for page in report.pages)
    panels = tuple(panel for page in report.pages for panel in page.panels)
    tiers = tuple(tier for page in pages for tier in page.tiers)
    sheets = [page.words / page.sheets for page in pages for _ in range(page.sheets)]
    return Pace(
        pages=pages,
        panels=len(panels),
        words=sum(page.words for page in pages),
        balloons=sum(page.balloons for page in pages),
        silent_panels=sum(page.silent_panels for page in pages),
        longest_silence=longest_silence(panels),
        words_per_balloon=Typical.of(_words(panels)),
        words_per_panel=Typical.of(panel.words for panel in panels),
        words_per_tier=Typical.of(tier.words for tier in tiers),
        words_per_page=Typical.of(sheets),
        balloons_per_panel=Typical.of(len(panel.balloons) for panel in panels),
        panels_per_tier=Typical.of(tier.panels for tier in tiers),
        voices=shares([balloon for panel in panels for balloon in panel.balloons]),
    )


def page_pace(page: PageReport) -> PagePace:
    """The pace of one page or spread."""
    panels = page.panels
    tiers = tier_paces(panels, page.plan.tiers)
    area = sum(panel.rect.area_mm2 for panel in panels)
    covered = sum(panel.coverage * panel.rect.area_mm2 for panel in panels)
    return PagePace(
        label=page.label,
        sheets=page.plan.paper.pages,
        panels=len(panels),
        words=page.words,
        balloons=sum(len(panel.balloons) for panel in panels),
        silent_panels=sum(map(is_silent, panels)),
        mean_coverage=covered / area if panels else 0.0,
        words_per_balloon=Typical.of(_words(panels)),
        words_per_panel=Typical.of(panel.words for panel in panels),
        words_per_tier=Typical.of(tier.words for tier in tiers),
        balloons_per_panel=Typical.of(len(panel.balloons) for panel in panels),
        panels_per_tier=Typical.of(tier.panels for tier in tiers),
        tiers=tiers,
    )


def tier_paces(panels: Sequence[PanelReport], tiers: Sequence[Tier]) -> tuple[TierPace, ...]:
    """The pace of a page's tiers: panels and tiers both run in reading order."""
    left = iter(panels)
    shared = [tuple(islice(left, len(tier.panels))) for tier in tiers]
    return tuple(
        TierPace(
            panels=len(own),
            words=sum(panel.words for panel in own),
            balloons=sum(len(panel.balloons) for panel in own),
            silent_panels=sum(map(is_silent, own)),
        )
        for own in shared
        if own
    )


def is_silent(panel: PanelReport) -> bool:
    """Whether a panel has neither balloon nor caption; a sound effect breaks no silence."""
    return not panel.balloons


def longest_silence(panels: Sequence[PanelReport]) -> SilentRun | None:
    """The longest run of silent panels, the first of equals; None where no panel is silent."""
    runs = [tuple(run) for silent, run in groupby(panels, key=is_silent) if silent]
    if not runs:
        return None
    longest = max(runs, key=len)
    return SilentRun(first=longest[0].id, last=longest[-1].id, panels=len(longest))


def shares(balloons: Sequence[BalloonReport]) -> tuple[SpeakerShare, ...]:
    """What part of some lettering each voice has, most words first."""
    words = sum(balloon.fitted.words for balloon in balloons)
    area = sum(balloon.fitted.area_mm2 for balloon in balloons)
    voices: dict[tuple[Voice, str | None], list[BalloonReport]] = {}
    for balloon in balloons:
        voices.setdefault(_voice(balloon), []).append(balloon)
    found = [
        SpeakerShare(
            voice=voice,
            speaker=speaker,
            balloons=len(own),
            off_panel=sum(is_off_panel(balloon.modifiers) for balloon in own),
            words=(spoken := sum(balloon.fitted.words for balloon in own)),
            area_mm2=(taken := sum(balloon.fitted.area_mm2 for balloon in own)),
            words_share=spoken / words if words else 0.0,
            area_share=taken / area if area else 0.0,
        )
        for (voice, speaker), own in voices.items()
    ]
    return tuple(sorted(found, key=lambda share: -share.words))


def _voice(balloon: BalloonReport) -> tuple[Voice, str | None]:
    if balloon.kind == "caption":
        return "captions", None
    return ("unnamed", None) if balloon.speaker is None else ("speaker", balloon.speaker)


def _words(panels: Iterable[PanelReport]) -> list[int]:
    return [balloon.fitted.words for panel in panels for balloon in panel.balloons]
