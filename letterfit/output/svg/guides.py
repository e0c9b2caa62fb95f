"""A page's guides: bleed, trim and live area as thin lines, and the strip round a spread's fold."""

from letterfit.geometry import Rect
from letterfit.output.svg import style
from letterfit.output.svg.elements import Names, box, tag, title
from letterfit.paper.sheet import Paper


def guides(paper: Paper, names: Names) -> str:
    """The guides as one group.

    Args:
        paper: The paper, two pages wide for a spread.
        names: What gives out ids.
    """
    trim = Rect(0, 0, *paper.trim)
    drawn = [
        _guide("bleed", trim.inset(-paper.bleed)),
        _guide("trim", trim),
        _guide("live", paper.live, dashes="2 1"),
    ]
    if paper.spine is not None:
        drawn.append(_guide("fold", paper.spine, dashes="0.5 1"))
    return tag("g", {"id": names.new("guides")}, [title("trim, bleed, live area"), *drawn])


def _guide(name: str, area: Rect, *, dashes: str = "none") -> str:
    return tag(
        "rect",
        {
            "class": name,
            **box(area),
            "fill": "none",
            "stroke": style.GUIDE,
            "stroke-width": style.GUIDE_LINE,
            "stroke-dasharray": dashes,
        },
    )
