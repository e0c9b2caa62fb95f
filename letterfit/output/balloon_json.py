"""One balloon as JSON, in its own frame, and the parts that the report's JSON shares with it."""

from collections.abc import Sequence

from letterfit.drawn.model import Drawn
from letterfit.findings import Finding
from letterfit.fit.model import FittedBalloon, Line, Overflow
from letterfit.geometry import Point
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.habits import Habits
from letterfit.outline import Outline
from letterfit.output import numbers
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain
from letterfit.report.limits import Limits

LEAST_SIZE_PT = Limits().least_size_pt
"""The least legible size where nobody says another: common practice, advice."""

SHAPE_NUMBERS = ("half_width", "half_height", "exponent", "radius")
"""What fixes an outline of a kind; an outline has the first two and at most one of the others."""


def balloon_to_json(
    fitted: FittedBalloon,
    *,
    lettering: Lettering | None = None,
    front: Sequence[FittedBalloon] = (),
    least_size_pt: float = LEAST_SIZE_PT,
) -> str:
    """A fitted balloon as JSON: its origin is the outline's centre, lengths in mm, y downwards.

    Args:
        fitted: The balloon.
        lettering: How it was lettered, to be named; None leaves it out as null.
        front: The other shapes the text can take, if they were asked for.
        least_size_pt: The least legible type size (common practice; advice): where all words fit
            only at a smaller one, the size in "overflow" is null.

    Returns:
        Indented JSON with a line feed at the end.

    >>> import json
    >>> import letterfit as lf
    >>> told = json.loads(balloon_to_json(lf.fit_balloon("Hold on.")))
    >>> told["fits"], [line["text"] for line in told["lines"]]
    (True, ['HOLD ON.'])
    """
    value = fitted_json(fitted, least_size_pt=least_size_pt)
    value["lettering"] = None if lettering is None else lettering_json(lettering)
    value["front"] = [fitted_json(other, least_size_pt=least_size_pt) for other in front]
    value["findings"] = [finding_json(finding) for finding in fitted.findings]
    return dump(value)


def fitted_json(fitted: FittedBalloon, *, least_size_pt: float) -> JsonObject:
    """A fitted text without its lettering and findings."""
    return {
        "text": plain(fitted.text),
        "words": fitted.words,
        "fits": fitted.fits,
        "size_pt": numbers.points(fitted.size_pt),
        "outline": outline_json(fitted.outline),
        "area_mm2": numbers.mm(fitted.area_mm2),
        "clearance_mm": numbers.mm_or_none(fitted.clearance_mm),
        **writing(fitted),
        "lines": [line_json(line) for line in fitted.lines],
        "overflow": overflow_json(fitted.overflow, least_size_pt=least_size_pt),
    }


def finding_json(finding: Finding) -> JsonObject:
    """A finding, whole."""
    return {
        "code": plain(finding.code),
        "severity": finding.severity,
        "where": plain(finding.where),
        "line": finding.line,
        "message": plain(finding.message),
        "advice": plain(finding.advice),
    }


def writing(fitted: FittedBalloon) -> JsonObject:
    """That its lines are columns from right to left; nothing where they are rows."""
    return {"writing": "vertical"} if fitted.vertical else {}


def outline_json(outline: Outline) -> JsonObject:
    """An outline's kind and the numbers that fix it, without a place; of a drawn one its line too.

    >>> from letterfit.outline import Ellipse
    >>> outline_json(Ellipse(half_width=20, half_height=8))
    {'kind': 'ellipse', 'half_width': 20.0, 'half_height': 8.0}
    """
    numbers_of_it = {
        name: numbers.mm(getattr(outline, name)) for name in SHAPE_NUMBERS if hasattr(outline, name)
    }
    told: JsonObject = {"kind": outline.kind, **numbers_of_it}
    if isinstance(outline, Drawn):
        told |= {"core": outline_json(outline.core), "path": outline.svg_path()}
    return told


def line_json(line: Line, centre: Point | None = None) -> JsonObject:
    """A line of a stack, moved to the outline's centre on the page where one is given.

    A column is told as its fields are called in `Line`: x is its centre line, baseline the upper
    end of its advance, width its advance downwards.
    """
    x, y = (0.0, 0.0) if centre is None else (centre.x, centre.y)
    return {
        "text": plain(line.text),
        "x": numbers.mm(x + line.x_mm),
        "baseline": numbers.mm(y + line.baseline_mm),
        "width": numbers.mm(line.width_mm),
    }


def overflow_json(
    overflow: Overflow | None, *, least_size_pt: float | None = None
) -> JsonObject | None:
    """By how much a text does not fit its outline; None when it fits.

    Args:
        overflow: The overflow.
        least_size_pt: No smaller size is offered, and the size itself is told; None tells any
            size, for the report, which names its limits once.
    """
    if overflow is None:
        return None
    size = numbers.points_down_or_none(overflow.size_pt)
    if least_size_pt is not None and size is not None and size < least_size_pt:
        size = None
    least = {} if least_size_pt is None else {"least_size_pt": numbers.points(least_size_pt)}
    return {
        "words": overflow.words,
        "size_pt": size,
        **least,
        "outline": outline_json(overflow.outline),
    }


def lettering_json(lettering: Lettering) -> JsonObject:
    """The lettering's family, measures and habits."""
    return {
        "family": plain(family_name(lettering)),
        "size_pt": numbers.points(lettering.size_pt),
        "leading": numbers.share(lettering.leading),
        "air_mm": numbers.mm(lettering.air_mm),
        "tracking": numbers.share(lettering.tracking),
        "case": lettering.case,
        "align": lettering.align,
        "habits": _habits(lettering.habits),
    }


def _habits(habits: Habits) -> JsonObject:
    return {
        "emphasis": habits.emphasis,
        "crossbar": habits.crossbar,
        "crossbar_in": habits.crossbar_in,
        "dashes": habits.dashes,
        "ellipses": habits.ellipses,
        "quotes": habits.quotes,
        "keep_case": [plain(word) for word in habits.keep_case],
    }


def family_name(lettering: Lettering) -> str:
    """The name of the lettering's family."""
    return lettering.typeface.family
