"""Paper: the trimmed page, its bleed and its live area.

Everything that affects the size of a sheet lives here. A margin, a bleed or a gutter that is not
stated is common practice, no source: defer to the printer's own specification.
"""

import math
import re
from dataclasses import dataclass
from difflib import get_close_matches

from letterfit.errors import PageError
from letterfit.geometry import MM_PER_INCH, MM_PER_PT, Rect

BLEED_MM = 3.0
"""How far pictures run past the trim. Common practice, no source: 3 mm, or 1/8 in."""

GUTTER_MM = 3.0
"""Width between panels. Common practice, no source: 2 to 5 mm."""

MARGIN_SHARE = 0.06
"""Margin between trim and live area over the page's shorter side. Common practice, no source."""

SHORTEST_MM, LONGEST_MM = 20.0, 5000.0
"""A side outside this range is a slip of unit, not a page."""

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH, '"': MM_PER_INCH, "pt": MM_PER_PT}

_SIZE = re.compile(
    r"(?P<w>\d{1,9}(?:[.,]\d{1,9})?) *(?P<u>mm|cm|in|pt|\")? *[x×*] *"
    r"(?P<h>\d{1,9}(?:[.,]\d{1,9})?) *(?P<v>mm|cm|in|pt|\")?",
)


@dataclass(frozen=True, slots=True, kw_only=True, init=False)
class Paper:
    """A page to print on. The origin is the top left corner of the trimmed page.

    Args:
        name: The name it is reported by; "170 x 260 mm" when not given.
        trim: Width and height of the trimmed page in mm, 20 mm to 5 m a side.
        live: The area that is safe from the knife and the spine; lettering stays inside. A
            rectangle, or its left, top, width and height in mm. Not given, the trim less
            0.06 of the shorter side all round (common practice, no source).
        bleed: How far pictures run past the trim, in mm.
        gutter_mm: Width between panels, across and down.
        pages: 1, or 2 for a spread.

    Raises:
        PageError: When a number is not finite or out of its range, or the live area does not lie
            inside the trim.

    >>> Paper(trim=(170, 260)).name
    '170 x 260 mm'
    >>> Paper(trim=(200, 300)).live
    Rect(x=12.0, y=12.0, width=176.0, height=276.0)
    """

    name: str
    trim: tuple[float, float]
    live: Rect
    bleed: float
    gutter_mm: float
    pages: int

    def __init__(  # noqa: PLR0913 - keyword-only values of one record
        self,
        *,
        trim: tuple[float, float],
        live: Rect | tuple[float, float, float, float] | None = None,
        bleed: float = BLEED_MM,
        name: str = "",
        gutter_mm: float = GUTTER_MM,
        pages: int = 1,
    ) -> None:
        width, height = _checked_trim(trim, pages)
        margin = MARGIN_SHARE * min(width / pages, height)
        page = Rect(0.0, 0.0, width, height)
        if not isinstance(live, Rect):
            live = page.inset(margin) if live is None else Rect(*live)
        if not page.holds(live):
            raise PageError(
                f"a live area from ({live.x:g}, {live.y:g}) to ({live.right:g}, {live.bottom:g}) "
                f"mm leaves the trimmed page of {width:g} x {height:g} mm",
                advice="give a live area inside the trim",
            )
        _check_length("bleed", bleed, most=min(width, height))
        _check_length("gutter", gutter_mm, most=min(live.width, live.height) / 2)
        values = (name or f"{width:g} x {height:g} mm", (width, height), live, bleed, gutter_mm)
        for key, value in zip(self.__slots__, (*values, pages), strict=True):
            object.__setattr__(self, key, value)

    @classmethod
    def named(cls, name: str) -> "Paper":
        """The paper of a given name, or of a size typed as "170x260mm" or "6.625x10.25in".

        Capitals, spaces and underscores do not matter. A size without a unit is in mm.

        Raises:
            PageError: When there is none; the message lists the names.

        >>> Paper.named("US Comic").trim
        (168.275, 260.35)
        >>> Paper.named("6.625 x 10.25 in").trim
        (168.275, 260.35)
        """
        typed = " ".join(name.split()).lower()
        if size := _SIZE.fullmatch(typed):
            return cls(trim=_trim_of(size))
        key = re.sub(r"[ _-]+", "-", typed)
        if key not in PAPERS:
            raise _unknown(name, key)
        return PAPERS[key]

    @property
    def spine(self) -> Rect | None:
        """The strip round the fold of a spread that lettering keeps off; None for a single page.

        It is as wide as the two inner margins, those being as wide as the outer ones: what is
        lettered there sinks into the binding (common practice, no source).

        >>> Paper.named("us-letter").spine is None
        True
        """
        if self.pages == 1:
            return None
        width, height = self.trim
        margin = min(self.live.x, width - self.live.right)
        half = min(max(margin, 1.0), self.live.width / 4)
        return Rect(width / 2 - half, 0.0, 2 * half, height)

    def spread(self) -> "Paper":
        """Two of these pages side by side: panels may cross the fold, lettering keeps off it.

        The live area runs from the left page's left live edge to the right page's right one; the
        inner margins are the `spine`. A spread is its own spread.

        >>> both = Paper.named("a5").spread()
        >>> both.trim, both.name
        ((296.0, 210.0), 'a5 spread')
        """
        if self.pages == 2:
            return self
        width, height = self.trim
        live = Rect(self.live.x, self.live.y, self.live.width + width, self.live.height)
        return Paper(
            name=f"{self.name} spread",
            trim=(2 * width, height),
            live=live,
            bleed=self.bleed,
            gutter_mm=self.gutter_mm,
            pages=2,
        )


def paper_names() -> tuple[str, ...]:
    """The names that `Paper.named` knows.

    >>> "b5-jis" in paper_names()
    True
    """
    return tuple(PAPERS)


def _checked_trim(trim: tuple[float, float], pages: int) -> tuple[float, float]:
    if pages not in (1, 2):
        raise PageError(f"a sheet of {pages} pages is no sheet", advice="give 1, or 2 for a spread")
    if len(trim) != 2:
        raise PageError(f"a trim of {len(trim)} numbers", advice="give a width and a height in mm")
    width, height = map(float, trim)
    for side in (width / pages, height):
        if not math.isfinite(side) or not SHORTEST_MM <= side <= LONGEST_MM:
            raise PageError(
                f"a page of {trim[0]:g} x {trim[1]:g} mm cannot be printed",
                advice=f"give sides from {SHORTEST_MM:g} to {LONGEST_MM:g} mm, or say the unit: "
                "6.625x10.25in",
            )
    return width, height


def _check_length(what: str, value: float, *, most: float) -> None:
    if not math.isfinite(value) or not 0 <= value < most:
        raise PageError(
            f"a {what} of {value:g} mm does not go with this page",
            advice=f"give a length from 0 to under {most:g} mm",
        )


def _trim_of(size: re.Match[str]) -> tuple[float, float]:
    # One unit stands for both sides: 170x260mm.
    unit = size["v"] or size["u"] or "mm"
    wide = MM_PER_UNIT[size["u"] or unit] * float(size["w"].replace(",", "."))
    return round(wide, 6), round(MM_PER_UNIT[unit] * float(size["h"].replace(",", ".")), 6)


def _unknown(name: str, key: str) -> PageError:
    near = get_close_matches(key[:40], PAPERS, n=1)
    guess = f"did you mean {near[0]}? " if near else ""
    return PageError(
        f"no paper is called {name[:40]!r}",
        advice=f"{guess}choose one of {', '.join(PAPERS)}, or give a size such as 170x260mm",
    )


def _inches(width: float, height: float) -> tuple[float, float]:
    return round(width * MM_PER_INCH, 6), round(height * MM_PER_INCH, 6)


def _us_comic() -> Paper:
    """6.625 x 10.25 in, live 6 x 9 in in its middle, bleed 1/8 in. Common practice, no source."""
    (width, height), (live_w, live_h) = _inches(6.625, 10.25), _inches(6, 9)
    live = Rect((width - live_w) / 2, (height - live_h) / 2, live_w, live_h)
    return Paper(name="us-comic", trim=(width, height), live=live, bleed=MM_PER_INCH / 8)


PAPERS: dict[str, Paper] = {
    paper.name: paper
    for paper in (
        _us_comic(),
        # Letter: ANSI/ASME Y14.1, size A. Digest: half a letter sheet.
        Paper(name="us-letter", trim=_inches(8.5, 11), bleed=MM_PER_INCH / 8),
        Paper(name="us-digest", trim=_inches(5.5, 8.5), bleed=MM_PER_INCH / 8),
        # Albums run from 220 to 240 by 290 to 320 mm: common practice, no source.
        Paper(name="album", trim=(240, 320)),
        # ISO 216.
        Paper(name="a3", trim=(297, 420)),
        Paper(name="a4", trim=(210, 297)),
        Paper(name="a5", trim=(148, 210)),
        Paper(name="a6", trim=(105, 148)),
        Paper(name="b4-iso", trim=(250, 353)),
        Paper(name="b5-iso", trim=(176, 250)),
        Paper(name="b6-iso", trim=(125, 176)),
        # JIS P 0138: its B series is larger than ISO's.
        Paper(name="b4-jis", trim=(257, 364)),
        Paper(name="b5-jis", trim=(182, 257)),
        Paper(name="b6-jis", trim=(128, 182)),
    )
}
"""Papers by name."""
