"""The size of a drawn page, and the transform from its user units to mm.

A size in mm, cm, in, pt or pc is what it says. A size in px, or none, is 96 px to the inch (CSS
Values 4, section 6.2) unless the trimmed page is stated.
"""

from dataclasses import dataclass

from letterfit.errors import DrawingError
from letterfit.existing.lengths import MM_PER_PX, length, unit_of
from letterfit.existing.markup import Node
from letterfit.existing.transforms import Transform
from letterfit.existing.viewports import Frame, fitted, view_box
from letterfit.findings import Finding
from letterfit.paper.sheet import LONGEST_MM, SHORTEST_MM

MOST_STRETCH = 0.01
"""How far the page's proportions may be off those of the stated trim, as a share."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnSheet:
    """A page's size and its place.

    Args:
        trim: Width and height, mm.
        to_mm: From the user units inside the root element to mm of the page.
        frame: What percentages inside it are of, in user units.
        findings: What its size was taken from, where that is worth knowing.
    """

    trim: tuple[float, float]
    to_mm: Transform
    frame: Frame
    findings: tuple[Finding, ...] = ()


def drawn_sheet(
    root: Node, *, trim: tuple[float, float] | None = None, source: str = ""
) -> DrawnSheet:
    """The size of a page.

    Args:
        root: The svg element.
        trim: The trimmed page in mm, where it is known better; the drawing is scaled to it.
        source: The file's name, for messages.

    Raises:
        DrawingError: When there is no size, none that a page has, or one of other proportions than
            the trim.

    >>> sheet = drawn_sheet(Node("svg", {"width": "100mm", "viewBox": "0 0 50 75"}, 1))
    >>> [round(side, 6) for side in sheet.trim], sheet.to_mm.point(50, 75)[0]
    ([100.0, 150.0], 100.0)
    """
    own = root.attributes
    box = view_box(own.get("viewBox"))
    wide, high = _sides(root, box, source)
    port = Frame(0.0, 0.0, wide, high)
    inner = Transform() if box is None else fitted(box, port, own.get("preserveAspectRatio", ""))
    mm = (wide * MM_PER_PX, high * MM_PER_PX)
    findings: tuple[Finding, ...] = ()
    if trim is not None:
        _check_size(trim, source)
        _check_proportions(mm, trim, source)
    elif any(unit_of(own.get(side)) in ("?", "", "px", "%") for side in ("width", "height")):
        findings = (_guessed(mm),)
    shown = trim or mm
    _check_size(shown, source)
    scale = Transform(a=shown[0] / wide, d=shown[1] / high)
    return DrawnSheet(trim=shown, to_mm=scale.after(inner), frame=box or port, findings=findings)


def _sides(root: Node, box: Frame | None, source: str) -> tuple[float, float]:
    """Width and height in px; one that is missing follows from the view box."""
    own = root.attributes
    wide, high = (
        None if unit_of(own.get(side)) == "%" else length(own.get(side))
        for side in ("width", "height")
    )
    wide, high = (side if side is not None and side > 0 else None for side in (wide, high))
    if box is not None:
        if wide is None:
            wide = box.width if high is None else high * box.width / box.height
        if high is None:
            high = wide * box.height / box.width
    if wide is None or high is None:
        raise DrawingError(
            "the page has no size",
            advice="give its svg element a width, a height and a viewBox",
            source=source,
            line=root.line,
        )
    return wide, high


def _guessed(mm: tuple[float, float]) -> Finding:
    return Finding(
        code="page-size-assumed",
        severity="note",
        message=f"The page states no size in mm: taken as 96 px to the inch, {mm[0]:.1f} x "
        f"{mm[1]:.1f} mm.",
        advice="State the trimmed page's size if it prints otherwise.",
        line=1,
    )


def _check_proportions(mm: tuple[float, float], trim: tuple[float, float], source: str) -> None:
    drawn, stated = mm[0] / mm[1], trim[0] / trim[1]
    if abs(drawn / stated - 1) > MOST_STRETCH:
        raise DrawingError(
            f"the page is drawn {drawn:.3f} as wide as high, a trim of {trim[0]:g} x {trim[1]:g} "
            f"mm is {stated:.3f}",
            advice="state the size of what is drawn, its bleed with it",
            source=source,
        )


def _check_size(mm: tuple[float, float], source: str) -> None:
    if not all(SHORTEST_MM <= side <= LONGEST_MM for side in mm):
        raise DrawingError(
            f"a page of {mm[0]:.4g} x {mm[1]:.4g} mm cannot be printed",
            advice="state the trimmed page's size, such as 170x260mm",
            source=source,
        )
