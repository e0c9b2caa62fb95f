"""Balloons as groups: the outline with the tail grafted on, then the lettering.

A run of joined balloons has one outline. What hangs over the panel's top border is cut off there:
outlines only, never ink.
"""

from collections.abc import Sequence

from letterfit.geometry import Point
from letterfit.output.report_json import centre_of
from letterfit.output.svg import style
from letterfit.output.svg.balloon_shape import bubbles, contour
from letterfit.output.svg.bridge import bridge
from letterfit.output.svg.elements import Attributes, Names, length, tag, title
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.joined_run import run_contour
from letterfit.output.svg.outline_line import outline_line
from letterfit.place.model import Tail
from letterfit.report.model import BalloonReport
from letterfit.script.delivery import is_shout


def runs(balloons: Sequence[BalloonReport]) -> list[list[BalloonReport]]:
    """A panel's balloons, those that are joined together.

    >>> runs([])
    []
    """
    found: list[list[BalloonReport]] = []
    for balloon in balloons:
        if balloon.joined and found:
            found[-1].append(balloon)
        else:
            found.append([balloon])
    return found


def placed_run(
    run: Sequence[BalloonReport], *, glyphs: Glyphs, names: Names, clip: str | None = None
) -> str:
    """Joined balloons at their places on the page: one outline, the lettering of each.

    Args:
        run: The balloons; one alone is drawn as `placed_balloon`.
        glyphs: What draws the lettering.
        names: What gives out ids.
        clip: Id of the panel's area, which cuts what hangs over its top border.
    """
    if len(run) == 1:
        return placed_balloon(run[0], glyphs=glyphs, names=names, clip=clip)
    placed = [(balloon, centre) for balloon in run if (centre := centre_of(balloon)) is not None]
    parts = [(balloon.fitted.outline, centre, _own_tail(balloon)) for balloon, centre in placed]
    line = _line(run[0]) | _cut(run, clip)
    drawn = [
        title(f"{run[0].id} to {run[-1].id}: joined, one speaker"),
        tag("path", {"class": "outline", "d": run_contour(parts), **line}),
    ]
    for balloon, centre in placed:
        inside = [
            title(_heading(balloon)),
            _axis(balloon, names),
            _lettering(balloon, centre, glyphs=glyphs, names=names),
        ]
        name = names.new(f"balloon-{balloon.id}")
        drawn.append(tag("g", {"id": name, "class": f"balloon {balloon.kind}"}, inside))
    return tag("g", {"id": names.new(f"joined-{run[0].id}"), "class": "balloons joined"}, drawn)


def placed_balloon(
    balloon: BalloonReport, *, glyphs: Glyphs, names: Names, clip: str | None = None
) -> str:
    """A balloon at its place on the page: outline, tail or bubbles, lettering.

    Args:
        balloon: The balloon; not placed, nothing is drawn.
        glyphs: What draws the lettering.
        names: What gives out ids.
        clip: Id of the panel's area, which cuts what hangs over its top border.
    """
    centre = centre_of(balloon)
    if centre is None:
        return ""
    own = _own_tail(balloon)
    thinks = balloon.kind == "thought"
    shape = contour(balloon.fitted.outline, centre, None if thinks else own)
    line = _line(balloon)
    drops = bubbles(own) if thinks and own else ()
    circles = [tag("circle", {"cx": p.x, "cy": p.y, "r": r, **line}) for p, r in drops]
    parts = [
        title(_heading(balloon)),
        tag("g", _tail_names(balloon, names), circles) if circles else "",
        tag("path", {"class": "outline", "d": shape, **line, **_cut([balloon], clip)}),
        "" if circles else _axis(balloon, names),
        _lettering(balloon, centre, glyphs=glyphs, names=names),
    ]
    name = names.new(f"balloon-{balloon.id}")
    return tag("g", {"id": name, "class": f"balloon {balloon.kind}"}, parts)


def _lettering(
    balloon: BalloonReport,
    centre: Point,
    *,
    glyphs: Glyphs,
    names: Names,
    colour: str = style.INK,
) -> str:
    """A balloon's lettering as a group that says what it reads (WAI-ARIA 1.2, aria-label)."""
    called = {
        "id": names.new(f"lettering-{balloon.id}"),
        "aria-label": balloon.fitted.text,
    }
    return glyphs.stack(balloon.fitted.lines, centre, colour=colour, names=called)


def _tail_names(balloon: BalloonReport, names: Names) -> Attributes:
    return {"id": names.new(f"tail-{balloon.id}"), "class": "tail"}


def _axis(balloon: BalloonReport, names: Names) -> str:
    """A tail's axis from its root to its tip, not painted: its body is part of the outline.

    It is there to be found and dragged by programs that redraw the tail.
    """
    tail = _own_tail(balloon)
    if tail is None:
        return ""
    start, end = tail.root
    x, y = length((start.x + end.x) / 2), length((start.y + end.y) / 2)
    tip = f"{length(tail.tip.x)} {length(tail.tip.y)}"
    bend = "L" if tail.bend is None else f"Q{length(tail.bend.x)} {length(tail.bend.y)} "
    unpainted = {"d": f"M{x} {y}{bend}{tip}", "fill": "none", "stroke": "none"}
    return tag("path", _tail_names(balloon, names) | unpainted)


def _own_tail(balloon: BalloonReport) -> Tail | None:
    """Its tail to a mouth or the border; links to other balloons are bridges."""
    return balloon.tail if balloon.tail and balloon.tail.to is None else None


def _cut(run: Sequence[BalloonReport], clip: str | None) -> Attributes:
    """What cuts an outline off at the panel's border, where some of it hangs over."""
    over = clip is not None and any(balloon.overhang_mm for balloon in run)
    return {"clip-path": f"url(#{clip})"} if over else {}


def bridges(balloons: Sequence[BalloonReport], *, names: Names) -> list[str]:
    """The necks between balloons of one speaker, to be drawn over them."""
    drawn = []
    for balloon in balloons:
        tail = balloon.tail
        if tail is None or tail.to is None:
            continue
        other = balloons[tail.to]
        centre = centre_of(other)
        if centre is None:
            continue
        patch, sides = bridge(tail, other.fitted.outline, centre)
        stroke = {**_line(balloon), "fill": "none", "stroke-linecap": "round"}
        parts = [
            title(f"{balloon.id} goes on from {other.id}"),
            tag("path", {"d": patch, "fill": style.PAPER}),
            tag("path", {"d": sides, **stroke}),
        ]
        called = _tail_names(balloon, names) | {"class": "tail bridge"}
        drawn.append(tag("g", called, parts))
    return drawn


def ghost(balloon: BalloonReport, centre: Point, *, glyphs: Glyphs, names: Names) -> str:
    """A balloon that has no place: its smallest outline and its lettering, in grey."""
    line: Attributes = {
        "fill": style.PAPER,
        "fill-opacity": "0.8",
        "stroke": style.GHOST,
        "stroke-width": style.CAPTION_LINE,
    }
    parts = [
        title(f"no place found: {_heading(balloon)}"),
        tag("path", {"class": "outline", "d": contour(balloon.fitted.outline, centre), **line}),
        _lettering(balloon, centre, glyphs=glyphs, names=names, colour=style.GHOST),
    ]
    name = names.new(f"balloon-{balloon.id}")
    return tag("g", {"id": name, "class": f"balloon ghost {balloon.kind}"}, parts)


def _line(balloon: BalloonReport) -> Attributes:
    """How the outline is drawn: dashed for a whisper, heavier for a shout, finer for a caption."""
    line: Attributes = {"fill": style.PAPER, "stroke": style.INK}
    if balloon.kind == "caption":
        return {**line, "stroke-width": style.CAPTION_LINE, "stroke-linejoin": "miter"}
    shouts = is_shout(balloon.modifiers)
    return line | outline_line(balloon.fitted.outline, heavy=shouts)


def _heading(balloon: BalloonReport) -> str:
    who = " ".join(filter(None, [balloon.id, balloon.speaker or balloon.kind]))
    manner = f" ({', '.join(balloon.modifiers)})" if balloon.modifiers else ""
    return f"{who}{manner}: {balloon.fitted.text}"
