"""Panels in script order are read in the order of the recursive X-Y cut, or the report says not.

The cut here is written apart from letterfit/place/order.py: Nagy and Seth, Hierarchical
representation of optically scanned documents, ICPR 1984. Rows first, then columns, and so on.
"""

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import letterfit as lf
from letterfit.errors import PageError
from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.paper.model import PagePlan, Tier
from letterfit.paper.notation import parse_tiers
from letterfit.paper.shapes import PageShape
from letterfit.paper.sheet import Paper
from letterfit.report.limits import Limits
from letterfit.report.page import PageJob, page_findings
from letterfit.script.model import ScriptPage
from tests.paper.shapes import SHAPES
from tests.report.test_page import panels as reported

CASES = json.loads(
    (Path(__file__).parents[1] / "data" / "order_cases.json").read_text(encoding="utf-8")
)
NEAR = 1e-6
"""Edges that differ by less, in mm, meet."""

Side = tuple[float, float, int]


def xy_cut(rects: Sequence[Rect], *, reading: lf.Reading) -> list[int]:
    """The order of the recursive X-Y cut of rectangles."""
    sign = 1.0 if reading == "ltr" else -1.0
    down = [(r.y, r.y + r.height, k) for k, r in enumerate(rects)]
    across = [
        (min(sign * r.x, sign * (r.x + r.width)), max(sign * r.x, sign * (r.x + r.width)), k)
        for k, r in enumerate(rects)
    ]
    return _cut(down, across)


def _cut(down: Sequence[Side], across: Sequence[Side]) -> list[int]:
    if len(down) == 1:
        return [down[0][2]]
    for sides in (down, across):
        bands = _bands(sides)
        if len(bands) > 1:
            parts = (
                ([s for s in down if s[2] in band], [s for s in across if s[2] in band])
                for band in bands
            )
            return [k for part in parts for k in _cut(*part)]
    # No straight cut: the highest first, of those level with it the first across.
    top = min(start for start, _, _ in down)
    level = {k for start, _, k in down if start <= top + NEAR}
    first = min((s for s in across if s[2] in level), key=lambda s: s[0] + s[1])[2]
    rest = [s for s in down if s[2] != first], [s for s in across if s[2] != first]
    # What was taken opens no cut among the others: they go on from the top.
    return [first, *_from_the_top(*rest)]


def _from_the_top(down: Sequence[Side], across: Sequence[Side]) -> list[int]:
    middles = {k: start + end for start, end, k in across}
    order: list[int] = []
    left = list(down)
    while left:
        top = min(start for start, _, _ in left)
        level = [s for s in left if s[0] <= top + NEAR]
        taken = min(level, key=lambda s: middles[s[2]])
        left.remove(taken)
        order.append(taken[2])
    return order


def _bands(sides: Sequence[Side]) -> list[set[int]]:
    """The sides parted wherever a coordinate lies inside none of them."""
    cuts = sorted(
        {
            start
            for start, _, _ in sides
            if all(end <= start + NEAR or begin >= start - NEAR for begin, end, _ in sides)
        }
    )
    bands: dict[int, set[int]] = {}
    for start, _, k in sides:
        bands.setdefault(sum(cut <= start + NEAR for cut in cuts), set()).add(k)
    return [bands[number] for number in sorted(bands)]


def boxes(corners: Sequence[Sequence[float]]) -> list[Rect]:
    """Rectangles from left, top, right, bottom."""
    return [Rect(x0, y0, x1 - x0, y1 - y0) for x0, y0, x1, y1 in corners]


def told(rects: Sequence[Rect], *, reading: lf.Reading) -> list[Finding]:
    """What the report says of the order of a page whose panels stand so, in script order."""
    plan = PagePlan(paper=Paper.named("us-comic"), tiers=(Tier(tuple(rects)),))
    job = PageJob(label="1", page=ScriptPage(numbers=(1,), line=1), plan=plan)
    held = zip(reported([40.0] * len(rects)), rects, strict=True)
    panels = tuple(replace(panel, rect=rect) for panel, rect in held)
    findings = page_findings(job, panels, limits=Limits(), reading=reading)
    return [finding for finding in findings if finding.code == "panel-order"]


def agrees(findings: Sequence[Finding], order: Sequence[int], names: Sequence[str]) -> None:
    """One finding, of the first panel out of turn, where the order is not the script's."""
    wrong = next((k for k, taken in enumerate(order) if k != taken), None)
    assert len(findings) == (wrong is not None)
    if wrong is not None:
        assert findings[0].where == names[wrong]
        assert (
            f"take panel {names[order[wrong]]} before panel {names[wrong]}" in findings[0].message
        )


def silent_page(shape: PageShape | None, *, panels: int, reading: lf.Reading) -> lf.PageReport:
    """A page of panels without words on that shape, or on the default grid."""
    typed = "".join(f"Panel {n}. Water.\n\n" for n in range(1, panels + 1))
    script = lf.parse_script(f"PAGE 1\n\n{typed}")
    plans = lf.Plans(pages=((1, shape),)) if shape else None
    return lf.preflight(script, plans=plans, reading=reading).pages[0]


def of_page(page: lf.PageReport, *, reading: lf.Reading) -> list[int]:
    """The cut's order of a page's panels that are no insets, checked against the report."""
    insets = {planned.index for planned in page.plan.special if planned.host is not None}
    own = [panel for k, panel in enumerate(page.panels) if k not in insets]
    order = xy_cut([panel.rect for panel in own], reading=reading)
    findings = [f for f in page.findings if f.code == "panel-order"]
    agrees(findings, order, [panel.id for panel in own])
    return order


@pytest.mark.parametrize("reading", ["ltr", "rtl"])
@pytest.mark.parametrize("panels", range(1, 18))
def test_default_grids_are_read_as_they_are_written(panels: int, reading: lf.Reading) -> None:
    """Every default grid of 1 to 17 panels is cut in script order, and nothing is said."""
    page = silent_page(None, panels=panels, reading=reading)
    assert of_page(page, reading=reading) == list(range(panels))


@given(SHAPES, st.sampled_from(["ltr", "rtl"]))
@settings(max_examples=80)
def test_nested_plans_are_cut_in_order_or_told(shape: PageShape, reading: lf.Reading) -> None:
    """Stacks, bleeds and insets by lot: out of order and told, or in order and not told."""
    try:
        page = silent_page(shape, panels=shape.panel_count, reading=reading)
    except PageError:
        return  # slivers, or insets over each other: no page
    of_page(page, reading=reading)


@pytest.mark.parametrize("reading", ["ltr", "rtl"])
@pytest.mark.parametrize("plan", ["(1/1):(1/1)", "1 / 2(1/1):(1/1)", "(1/1/1):(1/1/1) / 2"])
def test_stacks_of_one_height_are_told(plan: str, reading: lf.Reading) -> None:
    """The check above sees both kinds: here gutters run across, and the report says so."""
    shape = parse_tiers(plan)
    page = silent_page(shape, panels=shape.panel_count, reading=reading)
    order = of_page(page, reading=reading)
    assert order != sorted(order)


@pytest.mark.parametrize("case", CASES["tiered_random"])
def test_random_tiered_pages_are_cut_in_their_stated_order(case: dict[str, Any]) -> None:
    """In the order the file states nothing is told, either way; in the file's own order it is."""
    page = boxes(case["boxes"])
    for reading in ("ltr", "rtl"):
        assert xy_cut(page, reading=reading) == case[reading]
        assert told([page[k] for k in case[reading]], reading=reading) == []
        names = [f"1.{k}" for k in range(1, len(page) + 1)]
        agrees(told(page, reading=reading), case[reading], names)


@pytest.mark.parametrize("name", CASES["named"])
def test_named_layouts_are_cut_as_stated(name: str) -> None:
    """Stacks beside tall panels, pinwheels: in the cut's order nothing is told, else it is."""
    case = CASES["named"][name]
    page = boxes(case["boxes"])
    order = xy_cut(page, reading="ltr")
    assert order == case["xycut"]
    assert told([page[k] for k in order], reading="ltr") == []
    agrees(told(page, reading="ltr"), order, [f"1.{k}" for k in range(1, len(page) + 1)])
    mirrored = [Rect(-r.right, r.y, r.width, r.height) for r in page]
    assert xy_cut(mirrored, reading="rtl") == order
