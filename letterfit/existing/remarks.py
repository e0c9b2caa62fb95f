"""What a reader should know of how a page was read: what was left out, what was not told."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice

from letterfit.existing.model import DrawnLettering, Region
from letterfit.existing.telling import Told
from letterfit.existing.telling_panels import ToldPanel, home_of
from letterfit.existing.walk import LEFT_OUT
from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.lettering.settings import Lettering

MOST_OVERLAPS = 20
"""Panels that overlap are named so often."""

OVERLAP_MM = 1.0
"""Panels that overlap by more both ways do so on purpose, or by mistake."""


def left_out(counts: Mapping[str, int], lines: Mapping[str, int]) -> Iterator[Finding]:
    """What is not read, a note for each kind: how often, and the first line."""
    for what, count in counts.items():
        more = f" and {count - 1:,} more" if count > 1 else ""
        why = LEFT_OUT.get(what, "left out")
        yield Finding(
            code="drawing-not-read",
            severity="note",
            message=f"{what} at line {lines[what]}{more}: {why}.",
            line=lines[what],
        )


def of_typeface(live: Sequence[DrawnLettering], lettering: Lettering) -> Iterator[Finding]:
    """That live text is measured with another font than the page's own."""
    if live:
        yield Finding(
            code="other-typeface",
            severity="note",
            message=f"Live text is measured in {lettering.typeface.family}: the page's own font is "
            "not at hand.",
            advice="Give its font file as the typeface, or turn the lettering into outlines.",
            line=live[0].line,
        )


def of_panels(panels: Sequence[ToldPanel]) -> Iterator[Finding]:
    """That there are no panels, or that some overlap; insets lie in others on purpose."""
    if not panels:
        yield Finding(
            code="no-panels",
            severity="warning",
            message="No closed shape is a panel: the whole page is taken as one.",
            advice="Draw the panels as closed shapes, and name them or their layer 'panels'.",
        )
    yield from islice(_overlaps(panels), MOST_OVERLAPS)


def _overlaps(panels: Sequence[ToldPanel]) -> Iterator[Finding]:
    """A warning for every two panels that overlap."""
    boxes = [Region((outline,)).box for _, outline, _ in panels]
    for number, box in enumerate(boxes):
        for other in range(number):
            shared = box.common(boxes[other])
            inset = any(a.holds(b, tolerance=OVERLAP_MM / 2) for a, b in _both(box, boxes[other]))
            if shared and not inset and min(shared.width, shared.height) > OVERLAP_MM:
                yield Finding(
                    code="panels-overlap",
                    severity="warning",
                    message=f"{panels[other][0].name} and {panels[number][0].name} overlap by "
                    f"{shared.width:.1f} x {shared.height:.1f} mm.",
                    advice="What both cover counts for both.",
                    line=panels[number][0].line,
                )


def _both(one: Rect, other: Rect) -> tuple[tuple[Rect, Rect], tuple[Rect, Rect]]:
    return (one, other), (other, one)


def of_balloons(told: Told, panels: Sequence[ToldPanel]) -> Iterator[Finding]:
    """Shapes that were told to be nothing, and balloons in no panel."""
    if told.untold:
        yield Finding(
            code="untold-shapes",
            severity="note",
            message=f"{told.untold:,} closed shapes hold no lettering and have no name: taken as "
            "artwork.",
            advice="Name balloons, captions and tails, or their layers, where they are some.",
        )
    outlines = [outline for _, outline, _ in panels]
    for balloon in told.balloons:
        if outlines and home_of(balloon.region.box, outlines) is None:
            yield Finding(
                code="balloon-outside",
                severity="warning",
                message=f"{balloon.name} stands in no panel.",
                advice="It is not counted.",
                line=balloon.line,
            )
