"""A drawn page as values: its panels, its balloons and tails, its lettering, in mm of the page."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from letterfit.existing.rings import largest
from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.outline import Floats

Rule = Literal["name", "geometry"]
"""Whether a thing was told by its name, or by its size and by what it stands in."""

Part = Literal["balloon", "caption", "tail"]


@dataclass(frozen=True, slots=True, eq=False)
class Region:
    """An area bounded by polygons.

    Args:
        rings: The corners of each polygon, shape (n, 2), mm, the first not said again.
        even_odd: Whether the even-odd rule tells its inside; else the nonzero rule (SVG 2, 13.4.2).

    >>> import numpy as np
    >>> Region((np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 2.0]]),)).box
    Rect(x=0.0, y=0.0, width=4.0, height=2.0)
    """

    rings: tuple[Floats, ...]
    even_odd: bool = False

    @property
    def box(self) -> Rect:
        """The least rectangle round it."""
        points = np.concatenate(self.rings)
        (left, top), (right, bottom) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
        return Rect(left, top, max(right - left, 1e-9), max(bottom - top, 1e-9))

    @property
    def outer(self) -> Floats:
        """Its largest ring."""
        return largest(self.rings)


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DrawnLine:
    """A line of lettering, or a piece of lettering drawn as an outline.

    Args:
        text: What it says; None where it is drawn as outlines and nobody says.
        ink: The corners of its ink boxes, shape (g, 4, 2), mm.

    >>> import letterfit as lf
    >>> page = lf.parse_drawn_page(b'''<svg xmlns="http://www.w3.org/2000/svg" width="100mm"
    ... height="150mm" viewBox="0 0 100 150">
    ... <rect class="panel" x="5" y="5" width="90" height="60"/>
    ... <ellipse class="balloon" cx="30" cy="20" rx="15" ry="8"/>
    ... <text x="24" y="21" font-size="2.6">HOLD IT!</text></svg>''')
    >>> (line,) = page.panels[0].balloons[0].lettering[0].lines
    >>> line.text, line.ink.shape[1:]
    ('HOLD IT!', (4, 2))
    """

    text: str | None
    ink: Floats


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DrawnLettering:
    """Lettering that belongs together.

    Args:
        name: Its id or label, or what it is and its line in the file.
        line: Its line in the file.
        lines: Its lines.
        words: How many words it has; None where it is drawn as outlines and nobody says.
        size_pt: The type size on the page, pt; None for outlines.
        rule: What told that it is lettering.

    >>> import letterfit as lf
    >>> page = lf.parse_drawn_page(b'''<svg xmlns="http://www.w3.org/2000/svg" width="100mm"
    ... height="150mm" viewBox="0 0 100 150">
    ... <rect class="panel" x="5" y="5" width="90" height="60"/>
    ... <ellipse class="balloon" cx="30" cy="20" rx="15" ry="8"/>
    ... <text x="24" y="21" font-size="2.6">HOLD IT!</text></svg>''')
    >>> (lettering,) = page.panels[0].balloons[0].lettering
    >>> lettering.text, lettering.words, round(lettering.size_pt, 1)
    ('HOLD IT!', 2, 7.4)
    """

    name: str
    line: int
    lines: tuple[DrawnLine, ...]
    words: int | None
    size_pt: float | None
    rule: Rule

    @property
    def ink(self) -> Floats:
        """The corners of all its ink boxes, shape (g, 4, 2), mm."""
        return np.concatenate([line.ink for line in self.lines])

    @property
    def box(self) -> Rect:
        """The box round its ink."""
        return Region(tuple(self.ink)).box

    @property
    def text(self) -> str | None:
        """What it says, its lines parted by spaces; None where nobody says."""
        said = [line.text for line in self.lines if line.text is not None]
        return " ".join(said) if len(said) == len(self.lines) else None


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DrawnBalloon:
    """A balloon or a caption with what is lettered in it.

    Args:
        name: Its id or label, or what it is and its line in the file.
        line: Its line in the file.
        part: "balloon" or "caption".
        region: All that it covers, a tail in the same outline with it.
        body: The corners of its outline without its tail, closed across the tail's mouth, shape
            (n, 2), mm.
        lettering: What stands in it.
        rule: What told that it is a balloon.

    >>> import letterfit as lf
    >>> page = lf.parse_drawn_page(b'''<svg xmlns="http://www.w3.org/2000/svg" width="100mm"
    ... height="150mm" viewBox="0 0 100 150">
    ... <rect class="panel" x="5" y="5" width="90" height="60"/>
    ... <ellipse class="balloon" cx="30" cy="20" rx="15" ry="8"/>
    ... <text x="24" y="21" font-size="2.6">HOLD IT!</text></svg>''')
    >>> (balloon,) = page.panels[0].balloons
    >>> balloon.part, balloon.words, balloon.line
    ('balloon', 2, 4)
    """

    name: str
    line: int
    part: Part
    region: Region
    body: Floats
    lettering: tuple[DrawnLettering, ...]
    rule: Rule

    @property
    def words(self) -> int | None:
        """Words in it; None where some of its lettering does not say."""
        counts = [one.words for one in self.lettering]
        return None if None in counts else sum(count or 0 for count in counts)


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DrawnPanel:
    """A panel with what stands in it.

    Args:
        name: Its id or label, or what it is and its line in the file.
        line: Its line in the file.
        outline: The corners of its outline inside the page, shape (n, 2), mm.
        balloons: Its balloons and captions, by where their middles lie; in no order.
        covers: All regions of balloons, captions and tails of the page that reach into it.
        effects: Lettering in no balloon: sound effects and signs.
        rule: What told that it is a panel.

    >>> import letterfit as lf
    >>> page = lf.parse_drawn_page(b'''<svg xmlns="http://www.w3.org/2000/svg" width="100mm"
    ... height="150mm" viewBox="0 0 100 150">
    ... <rect class="panel" x="5" y="5" width="90" height="60"/>
    ... <ellipse class="balloon" cx="30" cy="20" rx="15" ry="8"/>
    ... <text x="24" y="21" font-size="2.6">HOLD IT!</text></svg>''')
    >>> (panel,) = page.panels
    >>> panel.rect, len(panel.balloons)
    (Rect(x=5.0, y=5.0, width=90.0, height=60.0), 1)
    """

    name: str
    line: int
    outline: Floats
    balloons: tuple[DrawnBalloon, ...]
    covers: tuple[Region, ...]
    effects: tuple[DrawnLettering, ...]
    rule: Rule

    @property
    def rect(self) -> Rect:
        """The box round its outline."""
        return Region((self.outline,)).box


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DrawnPage:
    """A page that exists as a drawing.

    Args:
        source: The file's name, or empty.
        trim: Width and height of the page, mm.
        panels: Its panels, from top to bottom as they stand in the file.
        typeface: The family that live text was measured with; None where there is none.
        findings: What could not be told or is not measured.

    >>> import letterfit as lf
    >>> page = lf.parse_drawn_page(b'''<svg xmlns="http://www.w3.org/2000/svg" width="100mm"
    ... height="150mm" viewBox="0 0 100 150">
    ... <rect class="panel" x="5" y="5" width="90" height="60"/></svg>''')
    >>> page.trim, len(page.panels)
    ((100.0, 150.0), 1)
    """

    source: str
    trim: tuple[float, float]
    panels: tuple[DrawnPanel, ...]
    typeface: str | None = None
    findings: tuple[Finding, ...] = ()
