"""Two joined balloons as JSON, both in the frame of the outline round them."""

from letterfit.fit.joined import JoinedBalloon
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Point
from letterfit.output import numbers
from letterfit.output.balloon_json import finding_json, line_json, outline_json, writing
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain


def joined_to_json(joined: JoinedBalloon) -> str:
    """Joined balloons as JSON: the origin is the middle of the box round both, mm, y downwards.

    Args:
        joined: The balloons.

    Returns:
        Indented JSON with a line feed at the end. "path" in "outline" is the union's outline as SVG
        path data in mm; "parts" has both balloons in reading order, their lines in the union's
        frame.

    >>> import json
    >>> import letterfit as lf
    >>> told = json.loads(joined_to_json(lf.fit_joined(("Hold on.", "The tide turned."))))
    >>> [part["text"] for part in told["parts"]]
    ['HOLD ON.', 'THE TIDE TURNED.']
    """
    outline = joined.outline
    value: JsonObject = {
        "text": plain(joined.text),
        "words": joined.words,
        "fits": True,
        "size_pt": numbers.points(joined.size_pt),
        "outline": {
            "kind": outline.kind,
            "half_width": numbers.mm(outline.half_width),
            "half_height": numbers.mm(outline.half_height),
            "neck": numbers.mm(outline.neck_mm),
            "path": outline.svg_path(),
        },
        "area_mm2": numbers.mm(joined.area_mm2),
        "clearance_mm": numbers.mm_or_none(joined.clearance_mm),
        "parts": [_part(balloon, centre) for balloon, centre in joined.parts],
        "findings": [finding_json(finding) for finding in joined.findings],
    }
    return dump(value)


def _part(balloon: FittedBalloon, centre: Point) -> JsonObject:
    """One of the balloons at its place."""
    place = {"x": numbers.mm(centre.x), "y": numbers.mm(centre.y)}
    return {
        "text": plain(balloon.text),
        "words": balloon.words,
        "outline": {**outline_json(balloon.outline), **place},
        "area_mm2": numbers.mm(balloon.area_mm2),
        **writing(balloon),
        "lines": [line_json(line, centre) for line in balloon.lines],
    }
