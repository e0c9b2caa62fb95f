"""How an outline's line is drawn: dashed for a whisper, heavier and pointed for a burst."""

from letterfit.outline import Outline
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes


def outline_line(outline: Outline, *, heavy: bool = False) -> Attributes:
    """The width, the joins and the dashes of a balloon's line.

    Args:
        outline: The balloon's outline.
        heavy: Whether it is to be as heavy as a burst's.

    >>> from letterfit.drawn.plain_lines import Whisper
    >>> from letterfit.outline import Ellipse
    >>> "stroke-dasharray" in outline_line(Whisper(core=Ellipse(half_width=9, half_height=5)))
    True
    """
    bursts = outline.kind == "burst"
    line: Attributes = {
        "stroke-width": style.SHOUT_LINE if heavy or bursts else style.BALLOON_LINE,
        "stroke-linejoin": "miter" if bursts else "round",
    }
    if bursts:
        line |= {"stroke-miterlimit": "8"}
    if outline.kind == "whisper":
        line |= {"stroke-dasharray": style.WHISPER_DASHES}
    return line
