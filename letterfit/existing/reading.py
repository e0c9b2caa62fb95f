"""A page drawn in SVG to a `DrawnPage`: read safely, told apart by names or by geometry."""

import os
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from letterfit.errors import DrawingError
from letterfit.existing.markup import MOST_BYTES, Node, parse_markup
from letterfit.existing.model import DrawnPage, DrawnPanel, Region
from letterfit.existing.remarks import left_out, of_balloons, of_panels, of_typeface
from letterfit.existing.sheet import DrawnSheet, drawn_sheet
from letterfit.existing.styles import Style, parse_sheet, style_of
from letterfit.existing.telling import Told, tell_balloons
from letterfit.existing.telling_lettering import balloons_among, live_lettering, outlined_lettering
from letterfit.existing.telling_panels import ToldPanel, home_of, tell_panels
from letterfit.existing.walk import Place, Shape, Text, Walk, style_sheets
from letterfit.files import read_ordinary
from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.lettering.settings import Lettering
from letterfit.outline import Floats


def read_drawn_page(
    path: str | os.PathLike[str],
    *,
    trim: tuple[float, float] | None = None,
    lettering: Lettering | None = None,
) -> DrawnPage:
    """The page of an SVG file.

    Args:
        path: The file; packed ones (.svgz) are unpacked.
        trim: Width and height of the page in mm, as `parse_drawn_page`.
        lettering: As `parse_drawn_page`.

    Returns:
        As `parse_drawn_page`.

    Raises:
        DrawingError: As `parse_drawn_page`.
        OSError: When the file cannot be read.

    >>> import tempfile
    >>> from pathlib import Path
    >>> drawing = '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="150mm">'
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder, "gate.svg")
    ...     _ = file.write_text(drawing + '<rect class="panel" width="90" height="60"/></svg>')
    ...     page = read_drawn_page(file)
    >>> page.trim, page.panels[0].name
    ((100.0, 150.0), 'rect, line 1')
    """
    source = os.fspath(path)
    if "\0" in source:
        raise DrawingError("a file name holds no NUL", advice="check the name")
    data = read_ordinary(source, most_bytes=MOST_BYTES + 1)
    return parse_drawn_page(data, source=source, trim=trim, lettering=lettering)


def parse_drawn_page(
    data: bytes,
    *,
    source: str = "",
    trim: tuple[float, float] | None = None,
    lettering: Lettering | None = None,
) -> DrawnPage:
    """The page of an SVG file's bytes.

    Args:
        data: The file, drawn by any vector program.
        source: Its name, for messages.
        trim: Width and height of the page in mm, where the file does not say or says it in px; the
            drawing is scaled to it.
        lettering: Its typeface measures live text; None is the bundled default.

    Returns:
        Panels, balloons, tails and lettering in mm of the page; curves as polygons that are nowhere
        further off than 0.002 mm; findings for all that is not read or could not be told.

    Raises:
        DrawingError: When the bytes are no SVG, declare entities, have no size, or are larger than
            any page. Nothing is ever fetched or run.

    >>> page = parse_drawn_page(b'''<svg xmlns="http://www.w3.org/2000/svg" width="100mm"
    ... height="150mm" viewBox="0 0 100 150">
    ... <rect class="panel" x="5" y="5" width="90" height="60"/>
    ... <ellipse class="balloon" cx="30" cy="20" rx="15" ry="8"/>
    ... <text x="24" y="21" font-size="2.6">HOLD IT!</text></svg>''')
    >>> [(balloon.part, balloon.words) for balloon in page.panels[0].balloons]
    [('balloon', 2)]
    """
    root = parse_markup(data, source=source)
    sheet = drawn_sheet(root, trim=trim, source=source)
    items, remarks = _drawn(root, sheet, source)
    page = _told(items, sheet, lettering or Lettering(), source)
    return replace(page, findings=(*sheet.findings, *remarks, *page.findings))


def _told(
    items: Sequence[Shape | Text], sheet: DrawnSheet, lettering: Lettering, source: str
) -> DrawnPage:
    """What is drawn, told apart; with findings of that alone."""
    live, lacking = live_lettering([one for one in items if isinstance(one, Text)], lettering)
    shapes = [one for one in items if isinstance(one, Shape)]
    layer = balloons_among([one for one in shapes if one.kind == "lettering"], live)
    letters = [shape for shape in layer if shape.kind == "lettering"]
    closed = [one for one in (*shapes, *layer) if one.kind != "lettering"]
    page = Rect(0.0, 0.0, *sheet.trim)
    panels = tell_panels(closed, page, source=source)
    taken = {id(shape) for shape, *_ in panels}
    free = [one for one in closed if id(one) not in taken and one.kind != "panel"]
    outlines = [outline for _, outline, _ in panels] or [_corners(page)]
    lettered = [*live, *outlined_lettering(letters, lettering)]
    told = tell_balloons(free, lettered, outlines, source=source)
    return DrawnPage(
        source=source,
        trim=sheet.trim,
        panels=tuple(_panels(panels, outlines, told)),
        typeface=lettering.typeface.family if live else None,
        findings=(
            *lacking,
            *of_typeface(live, lettering),
            *of_panels(panels),
            *of_balloons(told, panels),
        ),
    )


def _drawn(
    root: Node, sheet: DrawnSheet, source: str
) -> tuple[list[Shape | Text], tuple[Finding, ...]]:
    """All that is drawn, and what is left out."""
    rules = parse_sheet(style_sheets(root))
    walk = Walk(root, sheet=rules, source=source)
    style = style_of(root, Style(), sheet=rules)
    items = list(walk.drawn(root, Place(to_mm=sheet.to_mm, style=style, frame=sheet.frame)))
    if not items:
        raise DrawingError(
            "nothing on the page is a closed shape or a text",
            advice="save the page with its panels and balloons as shapes",
            source=source,
        )
    return items, tuple(left_out(walk.left_out, walk.first_line))


def _corners(page: Rect) -> Floats:
    return np.array(
        [[page.x, page.y], [page.right, page.y], [page.right, page.bottom], [page.x, page.bottom]]
    )


def _panels(
    panels: Sequence[ToldPanel], outlines: Sequence[Floats], told: Told
) -> Iterator[DrawnPanel]:
    """Each panel with what stands in it: by middles for balloons and effects."""
    covers = [*(balloon.region for balloon in told.balloons), *told.tails]
    homes = [home_of(Region((b.body,)).box, outlines) for b in told.balloons]
    spots = [home_of(effect.box, outlines) for effect in told.effects]
    names = Counter(shape.name for shape, *_ in panels)
    for number, outline in enumerate(outlines):
        box = Region((outline,)).box
        shape = panels[number][0] if panels else None
        name = shape.name if shape else "the page"
        yield DrawnPanel(
            name=f"{name}, line {shape.line}" if shape and names[name] > 1 else name,
            line=shape.line if shape else 1,
            outline=outline,
            balloons=tuple(
                b for b, home in zip(told.balloons, homes, strict=True) if home == number
            ),
            covers=tuple(one for one in covers if one.box.common(box) is not None),
            effects=tuple(e for e, spot in zip(told.effects, spots, strict=True) if spot == number),
            rule=panels[number][2] if panels else "geometry",
        )
