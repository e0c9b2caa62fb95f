"""What is the same for every panel of a script: lettering, limits, reading, gaps."""

from dataclasses import dataclass, field

from letterfit.errors import PageError
from letterfit.lettering import Lettering
from letterfit.outline import family
from letterfit.place.model import Reading
from letterfit.report.model import Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """How a script is lettered and what it is held against.

    Args:
        lettering: How balloons and captions are lettered.
        effects: How sound effects and signs are lettered, for their measure only.
        outline: The family of balloon outlines; captions are always boxes.
        limits: What the report warns about.
        reading: "ltr" or "rtl".
        language: The language of the script, a BCP 47 code.
        gap_mm: Least gap between two balloons.
        margin_mm: Least distance from a balloon to the panel's border.

    Raises:
        OutlineError: When there is no such family of outlines.
        PageError: When there is no such reading direction.
    """

    lettering: Lettering
    effects: Lettering
    outline: str = "ellipse"
    limits: Limits = field(default_factory=Limits)
    reading: Reading = "ltr"
    language: str = "en"
    gap_mm: float = 1.5
    margin_mm: float = 1.5

    def __post_init__(self) -> None:
        family(self.outline)
        if self.reading not in ("ltr", "rtl"):
            raise PageError(
                f"no reading direction is called {self.reading!r}", advice="give ltr or rtl"
            )
