"""Which lettering belongs together: each text element, and outlines of letters by their group.

A layer of lettering may hold the balloons too. There a shape round the middle of some live text is
its balloon, and a smaller one across that balloon's outline is a tail; all others are letters.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from letterfit.existing.model import DrawnLettering, DrawnLine
from letterfit.existing.rings import crosses, is_inside, largest, signed_area
from letterfit.existing.text_ink import measured_line
from letterfit.existing.walk import Shape, Text
from letterfit.findings import Finding
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import Floats

MOST_LINES = 5000
"""Lines of live text that are measured on one page."""

Blocks = list[DrawnLettering]


def live_lettering(
    texts: Sequence[Text], lettering: Lettering
) -> tuple[Blocks, tuple[Finding, ...]]:
    """The page's live text, measured.

    Args:
        texts: The text elements.
        lettering: Its typeface and habits.

    Returns:
        The texts that have ink, and what the typeface lacks.
    """
    blocks: Blocks = []
    findings: list[Finding] = []
    left = MOST_LINES
    for text in texts:
        lines = [measured_line(one, text.to_mm, lettering) for one in text.chunks[:left]]
        left -= len(lines)
        inked = [line for line in lines if line is not None]
        if not inked:
            continue
        named: DrawnLettering = DrawnLettering(
            name=text.name,
            line=text.line,
            lines=tuple(one.line for one in inked),
            words=sum(one.words for one in inked),
            size_pt=max(one.size_pt for one in inked),
            rule="name" if text.kind == "lettering" else "geometry",
        )
        blocks.append(named)
        findings += [_lacking(one, text) for line in inked for one in line.findings]
    if left <= 0:
        findings.append(
            Finding(
                code="drawing-not-read",
                severity="warning",
                message=f"Of the live text the first {MOST_LINES:,} lines are measured.",
                advice="Take texts that are not lettered out of the page.",
            )
        )
    return blocks, tuple(findings)


def _lacking(finding: Finding, text: Text) -> Finding:
    return Finding(
        code="missing-glyph",
        severity="note",
        message=f"{text.name}: {finding.message}",
        advice="Measure with a typeface that has it.",
        line=text.line,
    )


def outlined_lettering(shapes: Sequence[Shape], lettering: Lettering) -> Blocks:
    """Lettering drawn as outlines: its groups, each piece with the boxes of its contours.

    Args:
        shapes: The shapes that are called lettering.
        lettering: Counts the words of what a group says it reads.
    """
    groups: dict[int, list[Shape]] = {}
    for shape in shapes:
        groups.setdefault(shape.group, []).append(shape)
    return [_block(own, lettering) for own in groups.values()]


def balloons_among(shapes: Sequence[Shape], live: Sequence[DrawnLettering]) -> list[Shape]:
    """The shapes of lettering's layers, balloons and their tails called so.

    Args:
        shapes: The shapes that stand in groups called lettering.
        live: The page's live text.

    Returns:
        All shapes in their order; what lies round live text, or across the outline of such a shape,
        is a balloon now.
    """
    if not live:
        return list(shapes)
    boxes = [block.box for block in live]
    middles = np.array([[box.centre.x, box.centre.y] for box in boxes])
    areas = np.array([box.area_mm2 for box in boxes])
    outer = [largest(shape.rings) for shape in shapes]
    sizes = [abs(signed_area(ring)) for ring in outer]
    holds = [
        not shape.own and bool((is_inside(middles, [ring]) & (size >= areas)).any())
        for shape, ring, size in zip(shapes, outer, sizes, strict=True)
    ]
    round_text = [k for k, held in enumerate(holds) if held]
    found = []
    for number, shape in enumerate(shapes):
        hosts = [k for k in round_text if shapes[k].namer == shape.namer and k != number]
        across = not shape.own and any(
            sizes[number] < sizes[k] and crosses(outer[number], [outer[k]]) for k in hosts
        )
        found.append(replace(shape, kind="balloon") if holds[number] or across else shape)
    return found


def pieces_of(block: DrawnLettering) -> Blocks:
    """Each piece of outlined lettering by itself: a layer of letters for a whole page."""
    return [
        DrawnLettering(
            name=block.name,
            line=block.line,
            lines=(line,),
            words=None,
            size_pt=None,
            rule=block.rule,
        )
        for line in block.lines
    ]


def _block(shapes: Sequence[Shape], lettering: Lettering) -> DrawnLettering:
    first = shapes[0]
    lines = tuple(DrawnLine(text=None, ink=_boxes(shape.rings)) for shape in shapes)
    words = None
    if first.said is not None:
        words = measure(first.said[:5000], lettering).count
        lines = (DrawnLine(text=first.said, ink=np.concatenate([line.ink for line in lines])),)
    return DrawnLettering(
        name=first.name, line=first.line, lines=lines, words=words, size_pt=None, rule="name"
    )


def _boxes(rings: Sequence[Floats]) -> Floats:
    """The corners of the box round each contour, shape (g, 4, 2)."""
    low = np.array([ring.min(axis=0) for ring in rings])
    high = np.array([ring.max(axis=0) for ring in rings])
    left, top, right, bottom = *low.T, *high.T
    corners = [left, top, right, top, right, bottom, left, bottom]
    return np.stack(corners, axis=1).reshape(-1, 4, 2)
