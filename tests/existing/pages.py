"""One page as several vector programs would write it: the same panels, balloons and words.

Three panels (the lowest one slanting), a round balloon with two lines, a balloon with its tail in
the same outline, a caption, and a sound effect; 170 x 260 mm. Written by hand for letterfit.
"""

from collections.abc import Callable

NS = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
MM_PER_IN = 25.4
TAIL = "C106 30 140 30 140 40 C140 47 131 49 127 49 L118 66 L121 49 C112 49 106 47 106 40 Z"
SLANTING = (10, 127, 160, 127, 160, 240, 10, 248)

Scaled = Callable[..., str]


def scaled(per_mm: float) -> Scaled:
    """What writes numbers given in mm in another unit."""

    def write(*values: float) -> str:
        return " ".join(f"{value * per_mm:.7g}" for value in values)

    return write


def rect(n: Scaled, box: tuple[float, float, float, float], more: str = "") -> str:
    """A rectangle."""
    names = ("x", "y", "width", "height")
    sides = " ".join(f'{name}="{n(value)}"' for name, value in zip(names, box, strict=True))
    return f"<rect {sides} {more}/>"


def tail_path(n: Scaled) -> str:
    """The path data of the balloon with a tail."""
    words = f"M106 40 {TAIL}".replace("C", "C ").replace("L", "L ").replace("M", "M ").split()
    return " ".join(word if word.isalpha() else n(float(word)) for word in words)


def panels(n: Scaled, more: str = "") -> str:
    """The three panels."""
    upper = rect(n, (10, 12, 72, 110), more) + rect(n, (86, 12, 74, 110), more)
    return upper + f'<polygon points="{n(*SLANTING)}" {more}/>'


def balloons(n: Scaled, more: str = "") -> str:
    """The balloons and the caption."""
    oval = f'<ellipse cx="{n(35)}" cy="{n(30)}" rx="{n(18)}" ry="{n(9)}" {more}/>'
    return oval + f'<path d="{tail_path(n)}" {more}/>' + rect(n, (15, 132, 60, 9), more)


def words(n: Scaled, unit: str = "") -> str:
    """The lettering as live text: of 2.8 mm, and a sound effect of 9 mm."""
    size = f'font-size="{n(2.8)}{unit}"'
    return (
        f'<text {size} text-anchor="middle" x="{n(35)}" y="{n(29)}">'
        f'<tspan x="{n(35)}" y="{n(29)}">THE TIDE TURNED</tspan>'
        f'<tspan x="{n(35)}" dy="{n(3.1)}">AN HOUR AGO.</tspan></text>'
        f'<text {size} text-anchor="middle" x="{n(123)}" y="{n(41)}">OPEN THAT GATE!</text>'
        f'<text {size} x="{n(18)}" y="{n(137.5)}">LOCK NINE, SLACK TIDE.</text>'
        f'<text font-size="{n(9)}{unit}" x="{n(120)}" y="{n(200)}">KRRRK</text>'
    )


def sheet(n: Scaled, unit: str) -> str:
    """The attributes of the page's size, its user unit the unit."""
    return f'{NS} width="{n(170)}{unit}" height="{n(260)}{unit}" viewBox="0 0 {n(170, 260)}"'


MM, PX, PT = scaled(1), scaled(96 / MM_PER_IN), scaled(72 / MM_PER_IN)


def in_mm() -> str:
    """Layers with labels of another namespace, styles in style attributes, user units of 1 mm."""
    ink = 'xmlns:ink="http://example.org/layers"'
    black, white = "fill:none;stroke:#000;stroke-width:0.5", "fill:#fff;stroke:#000"
    return (
        f"<svg {sheet(MM, 'mm')} {ink}>"
        f'<g ink:label="Panels" style="{black}">{panels(MM)}</g>'
        f'<g ink:label="Balloons" style="{white}">{balloons(MM)}</g>'
        f'<g ink:label="Lettering">{words(MM)}</g></svg>'
    )


def in_px() -> str:
    """User units of 1/96 in and no size; ids with codes for spaces; attributes for styles."""
    return (
        f'<svg {NS} viewBox="0 0 {PX(170, 260)}">'
        f'<g id="Panels_x0020_1" fill="none" stroke="black">{panels(PX)}</g>'
        f'<g id="Balloons_x0020_1" fill="white">{balloons(PX)}</g>{words(PX)}</svg>'
    )


def in_pt() -> str:
    """User units of a point, a public document type, classes in a style sheet, nothing named."""
    kind = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://example.org/svg11.dtd">'
    sheets = "<style>.st0{fill:none;stroke:#000} .st1, .st2 {fill:#FFFFFF;stroke:#000}</style>"
    white = 'class="st2"'
    ground = rect(PT, (0, 0, 170, 260), 'class="st1"')
    return (
        f'<?xml version="1.0" encoding="iso-8859-1"?>{kind}<svg {sheet(PT, "pt")}>{sheets}{ground}'
        + panels(PT, 'class="st0"')
        + f"<g>{balloons(PT, white)}</g>"
        + f"<switch><foreignObject/><g>{words(PT, 'px')}</g></switch></svg>"
    )


def by_matrices() -> str:
    """Groups in groups whose transforms cancel out, and an inch as the user unit of the page."""
    inner = f'<g class="panel" fill="none" stroke="red">{panels(MM)}</g>'
    inner += f'<g class="balloon">{balloons(MM)}</g>{words(MM)}'
    size = f'width="{170 / MM_PER_IN}in" height="{260 / MM_PER_IN}in"'
    return (
        f'<svg {NS} {size} viewBox="0 0 340 520">'
        f'<g transform="matrix(2 0 0 2 0 0)">{_cancelled(inner)}</g></svg>'
    )


def _cancelled(inner: str) -> str:
    there = "skewX(20) scale(-3 0.5) matrix(1 2 -1 1 4 5)"
    back = "matrix(0.33333333333 -0.66666666667 0.33333333333 0.33333333333 -3 1)"
    return (
        f'<g transform="{there}"><g transform="{back} scale(-0.33333333333333 2) skewX(-20)">'
        f"{inner}</g></g>"
    )


def by_symbols() -> str:
    """Shapes defined once and used, a nested viewport, a caption hidden twice over."""
    defined = (
        '<defs><ellipse id="oval" rx="18" ry="9"/>'
        f'<symbol id="frames" viewBox="0 0 170 260">{panels(MM)}</symbol></defs>'
    )
    hidden = '<g style="display:none"><rect width="90" height="90"/></g>'
    hidden += '<rect class="balloon" width="90" height="90" visibility="hidden"/>'
    inside = (
        '<g class="balloons"><use xlink:href="#oval" transform="translate(35 30)"/>'
        f'<path d="{tail_path(MM)}"/>{rect(MM, (15, 132, 60, 9))}</g>{words(MM)}'
    )
    return (
        f"<svg {sheet(MM, 'mm')}>{defined}{hidden}"
        '<g class="panels" fill="none" stroke="black">'
        '<use href="#frames" width="170" height="260"/></g>'
        f'<svg x="10" y="20" width="85" height="130" viewBox="20 40 170 260">'
        f'<g transform="scale(2)">{inside}</g></svg></svg>'
    )


PAGES: dict[str, Callable[[], str]] = {
    "mm": in_mm,
    "px": in_px,
    "pt": in_pt,
    "matrices": by_matrices,
    "symbols": by_symbols,
}
"""The page by the way it is written."""
