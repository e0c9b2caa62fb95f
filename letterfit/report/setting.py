"""What is the same for every panel of a script: lettering, limits, reading, gaps."""

from dataclasses import dataclass, field, replace
from typing import Literal, get_args

from letterfit.errors import FontError, OutlineError, PageError
from letterfit.lettering.settings import ALIGNS, Align, Lettering
from letterfit.lettering.style.habits import one_of
from letterfit.place.model import Reading
from letterfit.report.limits import Limits
from letterfit.report.manner import Outlines
from letterfit.script.delivery import is_whisper
from letterfit.script.model import Dialogue

SameSpeaker = Literal["linked", "joined"]
"""What becomes of speeches of one speaker that follow each other in a panel."""

SAME_SPEAKER: tuple[SameSpeaker, ...] = get_args(SameSpeaker)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """How a script is lettered and what it is held against.

    Args:
        lettering: How balloons and captions are lettered.
        effects: How sound effects and signs are lettered, for their measure only.
        outlines: The families of outlines, one for each manner of speaking.
        limits: What the report warns about.
        reading: "ltr" or "rtl".
        language: The language of the script, a BCP 47 code.
        gap_mm: Least gap between two balloons.
        margin_mm: Least distance from a balloon to the panel's border.
        source: The script's file name, for messages; may be empty.
        aside_pt: By how many points captions and whispers are smaller than dialogue, as far as the
            least legible size allows (common practice, no source).
        caption_align: How the lines of captions stand: "centre", or "start" for flush left (flush
            right where they read so); None for as all others.
        check: Whether the independent checker goes over every layout.
        cuts: Whether cuts are proposed where there is too much.
        same_speaker: Whether speeches of one speaker that follow each other are "linked", each in
            a balloon of its own, or "joined": overlapping, with one outline and one tail.
        butted: Whether balloons in curved outlines may hang over their panel's top border, which
            cuts them flat, the ink still clear of it by the air.
        names: The speakers of the script, whose names cuts leave alone.

    Raises:
        PageError: When there is no such reading direction, or no such way with one speaker.
        OutlineError: When balloons are to be joined and there is no air to join them in.
        FontError: When captions and whispers cannot be smaller by so much.
    """

    lettering: Lettering
    effects: Lettering
    outlines: Outlines = field(default_factory=Outlines)
    limits: Limits = field(default_factory=Limits)
    reading: Reading = "ltr"
    language: str = "en"
    gap_mm: float = 1.5
    margin_mm: float = 1.5
    source: str = ""
    aside_pt: float = 0.5
    caption_align: Align | None = None
    check: bool = False
    cuts: bool = False
    same_speaker: SameSpeaker = "linked"
    butted: bool = False
    names: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.reading not in ("ltr", "rtl"):
            raise PageError(
                f"no reading direction is called {self.reading!r}", advice="give ltr or rtl"
            )
        if self.same_speaker not in SAME_SPEAKER:
            raise PageError(
                f"balloons of one speaker cannot be {self.same_speaker!r}",
                advice=f"give {' or '.join(SAME_SPEAKER)}",
            )
        if self.same_speaker == "joined" and not self.lettering.air_mm:
            raise OutlineError(
                "air of 0 mm leaves no room to join balloons", advice="give air over 0 mm"
            )
        if not 0 <= self.aside_pt < self.lettering.size_pt:
            raise FontError(
                f"captions and whispers cannot be {self.aside_pt} pt smaller than dialogue",
                advice=f"give a number of 0 or more, under {self.lettering.size_pt:g}",
            )
        if self.caption_align is not None:
            one_of("an alignment of captions", self.caption_align, ALIGNS)

    def lettering_of(self, element: Dialogue) -> Lettering:
        """How one element is lettered: captions and whispers a little smaller than the rest.

        >>> setting = Setting(lettering=Lettering(size_pt=7.5), effects=Lettering(size_pt=14))
        >>> whisper = Dialogue(kind="dialogue", text="Hold.", line=1, modifiers=("WHISPER",))
        >>> setting.lettering_of(whisper).size_pt
        7.0
        """
        if element.kind != "caption" and not is_whisper(element.modifiers):
            return self.lettering
        size = self.lettering.size_pt
        smaller = max(size - self.aside_pt, min(size, self.limits.least_size_pt))
        align = self.lettering.align
        if element.kind == "caption" and self.caption_align is not None:
            align = self.caption_align
        return replace(self.lettering, size_pt=smaller, align=align)
