"""Families of outlines: the shapes a balloon may take, by the names that callers use."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from letterfit.drawn.burst import Burst
from letterfit.drawn.cloud import Cloud
from letterfit.drawn.plain_lines import Squared, Whisper
from letterfit.drawn.spacing import lobes_round
from letterfit.errors import OutlineError
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse

LETTER_MM = 1.85
"""Height of capitals where nobody says: lettering of 7.5 pt."""

LOBE_LETTERS, POINT_LETTERS = 3.2, 3.1
"""Length of a cloud's lobe and of the base of a burst's point, along the core, over the height of
capitals: so lobes stand a letter high or a little less (common practice, no source)."""

LEAST_LOBES, LEAST_POINTS = 9, 10

NARROWINGS = 12


def _plain(core: Outline, _letter_mm: float) -> Outline:
    return core


@dataclass(frozen=True, slots=True)
class Family:
    """A family of outlines: a core that the fit can grow, and what is drawn round it.

    Every core scales: `make(k a, k b)` is `make(a, b).scaled(k)`. So does every outline, lobe for
    lobe; but round a larger core `drawn` puts more lobes, since they are as large as letters.

    Args:
        make: Builds the core with the given half-width and half-height in mm.
        aspect: The least and greatest width over height, ratios, that letterers use for it
            (common practice, no source).
        drawn: The outline round a core, for letters whose capitals have the given height in mm; the
            core itself where nothing is drawn round it.

    >>> import letterfit as lf
    >>> cloud = lf.FAMILIES["cloud"]
    >>> cloud.aspect, cloud.within(20.0, 10.0).kind
    ((1.0, 2.6), 'cloud')
    """

    make: Callable[[float, float], Outline]
    aspect: tuple[float, float]
    drawn: Callable[[Outline, float], Outline] = _plain

    def within(self, half_width: float, half_height: float) -> Outline:
        """The largest outline of about that aspect that is no wider and no higher.

        Args:
            half_width: Half the width in mm that its drawn line may take.
            half_height: Half its height, mm.

        >>> cloud = FAMILIES["cloud"].within(20.0, 10.0)
        >>> cloud.half_width <= 20 and cloud.half_height <= 10, cloud.half_width > 19
        (True, True)
        """
        core = self.make(half_width, half_height)
        if self.drawn is _plain:
            return core
        outline = self.drawn(core, min(LETTER_MM, min(half_width, half_height) / 3))
        a, b = core.half_width, core.half_height
        for _ in range(NARROWINGS):
            a, b = a * half_width / outline.half_width, b * half_height / outline.half_height
            outline = outline.round_core(self.make(a, b))
        return outline.scaled(
            min(half_width / outline.half_width, half_height / outline.half_height)
        )


ROUNDED_SHARE = 0.6
"""Corner radius of a fitted rounded rectangle over its shorter half-side."""


def _superellipse(half_width: float, half_height: float) -> Outline:
    return Superellipse(half_width=half_width, half_height=half_height)


def _ellipse(half_width: float, half_height: float) -> Outline:
    return Ellipse(half_width=half_width, half_height=half_height)


def _rounded(share: float, half_width: float, half_height: float) -> Outline:
    radius = share * min(half_width, half_height)
    return RoundedRect(half_width=half_width, half_height=half_height, radius=radius)


def _cloud(core: Outline, letter_mm: float) -> Outline:
    return Cloud(core=core, lobes=lobes_round(core, LOBE_LETTERS * letter_mm, least=LEAST_LOBES))


def _burst(core: Outline, letter_mm: float) -> Outline:
    points = lobes_round(core, POINT_LETTERS * letter_mm, least=LEAST_POINTS)
    return Burst(core=core, points=points)


def _whisper(core: Outline, _letter_mm: float) -> Outline:
    return Whisper(core=core)


def _squared(core: Outline, _letter_mm: float) -> Outline:
    return Squared(core=core)


_BALLOON, _BOX = (1.0, 2.6), (1.0, 3.2)

FAMILIES: dict[str, Family] = {
    "ellipse": Family(_ellipse, _BALLOON),
    "superellipse": Family(_superellipse, _BALLOON),
    "rounded": Family(partial(_rounded, ROUNDED_SHARE), _BOX),
    "caption": Family(lambda a, b: CaptionBox(half_width=a, half_height=b), (1.0, 14.0)),
    "squared": Family(partial(_rounded, ROUNDED_SHARE), _BOX, _squared),
    "cloud": Family(_superellipse, _BALLOON, _cloud),
    "burst": Family(_ellipse, _BALLOON, _burst),
    "whisper": Family(_ellipse, _BALLOON, _whisper),
    "whisper-superellipse": Family(_superellipse, _BALLOON, _whisper),
    "whisper-rounded": Family(partial(_rounded, ROUNDED_SHARE), _BOX, _whisper),
}
"""The families by the name that `fit_balloon` takes: "ellipse", "superellipse", "rounded",
"caption", "squared", "cloud", "burst", and "whisper", "whisper-superellipse" and "whisper-rounded",
whose line is dashed."""


def family(name: str) -> Family:
    """The family of outlines called `name`.

    Raises:
        OutlineError: When there is none; the message lists the names.

    >>> family("ellipse").make(2.0, 1.0)
    Ellipse(half_width=2.0, half_height=1.0)
    """
    try:
        return FAMILIES[name]
    except KeyError:
        raise OutlineError(
            f"no outline is called {name!r}", advice=f"choose one of {', '.join(FAMILIES)}"
        ) from None


def whispered(name: str) -> str:
    """The family of the same outlines with a dashed line; of what has none, "whisper".

    >>> whispered("superellipse"), whispered("squared")
    ('whisper-superellipse', 'whisper')
    """
    dashed = f"whisper-{name}"
    return dashed if dashed in FAMILIES else "whisper"


def is_plain(name: str) -> bool:
    """Whether a family's outlines are their own cores.

    >>> is_plain("ellipse"), is_plain("cloud")
    (True, False)
    """
    return family(name).drawn is _plain
