"""From a tree of elements to what is drawn: closed shapes and texts in mm, with what names them.

Not drawn is what SVG does not draw itself (defs, clipPath, symbol, marker, pattern, mask), what is
hidden, and what is left out on purpose: scripts, foreign objects, images, anything outside the
file. A clip is not followed: a balloon counts inside its panel only, whatever cuts it.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from letterfit.errors import DrawingError
from letterfit.existing.lengths import length
from letterfit.existing.markup import Node
from letterfit.existing.naming import Kind, kind_of, name_of
from letterfit.existing.rings import signed_area
from letterfit.existing.shapes import shape_pen
from letterfit.existing.styles import Sheet, Style, style_of
from letterfit.existing.texts import Chunk, chunks, texts_in
from letterfit.existing.transforms import Transform, parse_transform
from letterfit.existing.viewports import Frame, fitted, view_box
from letterfit.outline import Floats

MOST_VISITED = 150_000
"""Elements drawn, those drawn again by use counted again."""

MOST_DEPTH = 150
"""Groups in groups, those that use brings in with them."""

MOST_SHAPES = 20_000
"""Shapes that are not passed over as strokes of the artwork."""

SMALLEST_MM = 3.0
"""A shape that no name speaks of and that is smaller than this both ways is a stroke of the art."""

CLOSED_MM = 0.1
"""How near the ends of a line without fill are to make it a closed shape."""

SHAPES = frozenset(("rect", "circle", "ellipse", "polygon", "polyline", "path"))
GROUPS = frozenset(("g", "a", "switch"))
LEFT_OUT = {
    "script": "nothing is run",
    "foreignObject": "what is no SVG is not read",
    "image": "what it shows is not read",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where an element stands.

    Args:
        to_mm: From its user units to mm.
        style: What it inherits.
        frame: What percentages are of.
        kind: What the nearest name says, its own or an ancestor's.
        namer: The number of the element that has that name; 0 for none.
        group: The number of the innermost group.
        name: That group's name, to show, where a name says what it is.
        depth: Groups round it.
        using: Ids that use brought in.
    """

    to_mm: Transform
    style: Style
    frame: Frame
    kind: Kind | None = None
    namer: int = 0
    group: int = 0
    name: str = ""
    depth: int = 0
    using: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shape:
    """A shape that is drawn.

    Args:
        rings: Its contours as polygons, mm; of lettering all, of others those that are closed.
        even_odd: Whether the even-odd rule tells its inside.
        filled: Whether its fill is drawn.
        kind: What the nearest name says it is.
        own: Whether the name is its own, not a group's.
        namer: The number of the element that has the name.
        group: The number of the innermost group.
        name: A name to show.
        line: Its line in the file.
        said: What the group says it reads (aria-label), or None.
    """

    rings: tuple[Floats, ...]
    even_odd: bool
    filled: bool
    kind: Kind | None
    own: bool
    namer: int
    group: int
    name: str
    line: int
    said: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A text element.

    Args:
        chunks: Its lines.
        to_mm: From their user units to mm.
        kind: What the nearest name says it is.
        name: A name to show.
        line: Its line in the file.
    """

    chunks: tuple[Chunk, ...]
    to_mm: Transform
    kind: Kind | None
    name: str
    line: int


class Walk:
    """One walk over a drawing: what is drawn, and counts of what is left out.

    Args:
        root: The svg element.
        sheet: The drawing's style sheets.
        source: The file's name, for messages.
    """

    def __init__(self, root: Node, *, sheet: Sheet, source: str = "") -> None:
        self._sheet, self._source = sheet, source
        self._ids = _by_id(root)
        self._visited = self._shapes = 0
        self._said: dict[int, str] = {}
        self.left_out: Counter[str] = Counter()
        self.first_line: dict[str, int] = {}

    def drawn(self, root: Node, place: Place) -> Iterator[Shape | Text]:
        """All that the children of an element draw, back to front."""
        for child in root.elements():
            yield from self._element(child, place)

    def leave_out(self, what: str, line: int) -> None:
        """Count something that is not read, by what it is."""
        self.left_out[what] += 1
        self.first_line.setdefault(what, line)

    def _element(self, node: Node, place: Place) -> Iterator[Shape | Text]:
        self._visited += 1
        if self._visited > MOST_VISITED or place.depth > MOST_DEPTH:
            raise DrawingError(
                f"more than {MOST_VISITED:,} elements are drawn, or over {MOST_DEPTH} deep",
                advice="take the layers of the artwork out",
                source=self._source,
                line=node.line,
            )
        if node.tag in LEFT_OUT:
            self.leave_out(node.tag, node.line)
            return
        if node.tag not in SHAPES | GROUPS | {"use", "svg", "text"}:
            return
        inside = self._placed(node, place)
        if inside is None or not inside.style.shown:
            return
        if node.tag in SHAPES:
            yield from self._shape(node, inside)
        elif node.tag == "text":
            yield from self._text(node, inside)
        elif node.tag == "use":
            yield from self._used(node, inside)
        elif node.tag == "svg":
            yield from self._nested(node, inside, node.attributes)
        else:
            yield from self.drawn(node, inside)

    def _placed(self, node: Node, place: Place) -> Place | None:
        """Where an element's own content stands; None where its transform is broken."""
        own = node.attributes
        to_mm = place.to_mm
        if "transform" in own:
            moved = parse_transform(own["transform"])
            if moved is None:
                self.leave_out("broken transform", node.line)
                return None
            to_mm = to_mm.after(moved)
        if any(name.startswith("on") for name in own):
            self.leave_out("event attribute", node.line)
        if "aria-label" in own:
            self._said[self._visited] = " ".join(own["aria-label"].split())
        style, kind = style_of(node, place.style, sheet=self._sheet), kind_of(own)
        if node.tag in SHAPES and kind is None and style is place.style and to_mm is place.to_mm:
            return place
        named = kind is not None
        return Place(
            to_mm=to_mm,
            style=style,
            frame=place.frame,
            kind=kind if named else place.kind,
            namer=self._visited if named else place.namer,
            group=self._visited if node.tag in GROUPS else place.group,
            name=name_of(own, node.tag, node.line) if named else place.name,
            depth=place.depth + 1,
            using=place.using,
        )

    def _shape(self, node: Node, place: Place) -> Iterator[Shape]:
        style = place.style
        if not style.visible or not (style.filled or style.stroked) or place.kind == "label":
            return
        pen = shape_pen(node.tag, node.attributes, place.frame, em=style.font_size)
        if pen is not None and place.kind is None and place.to_mm.shrinks(pen.size(), SMALLEST_MM):
            return
        chain = None if pen is None else pen.chain()
        curves = None if chain is None else place.to_mm.points(chain.curves)
        if chain is None or curves is None or not np.isfinite(curves).all():
            if node.tag == "path" and node.attributes.get("d", "").strip():
                self.leave_out("path that cannot be read", node.line)
            return
        self._shapes += 1
        if self._shapes > MOST_SHAPES:
            raise DrawingError(
                f"more than {MOST_SHAPES:,} shapes larger than {SMALLEST_MM:g} mm, or of letters",
                advice="take the layers of the artwork out",
                source=self._source,
                line=node.line,
            )
        rings = chain.polygons(curves)
        if place.kind != "lettering":
            whole = zip(rings, chain.closed, strict=True)
            rings = [r for r, closed in whole if _is_closed(r, closed=closed or style.filled)]
        if rings:
            own = place.namer == self._visited
            yield Shape(
                rings=tuple(rings),
                even_odd=style.even_odd,
                filled=style.filled,
                kind=place.kind,
                own=own,
                namer=place.namer,
                group=place.group,
                name=place.name or name_of(node.attributes, node.tag, node.line),
                line=node.line,
                said=self._said.get(place.group),
            )

    def _text(self, node: Node, place: Place) -> Iterator[Text]:
        for path in texts_in(node):
            self.leave_out("textPath", path.line)
        if place.kind == "label":
            return
        lines = chunks(node, place.style, sheet=self._sheet)
        if lines:
            yield Text(
                chunks=tuple(lines),
                to_mm=place.to_mm,
                kind=place.kind,
                name=name_of(node.attributes, node.tag, node.line),
                line=node.line,
            )

    def _used(self, node: Node, place: Place) -> Iterator[Shape | Text]:
        """What use draws: an element of the file, once more, moved."""
        own = node.attributes
        link = own.get("href", "").strip()
        if not link.startswith("#"):
            self.leave_out("use of another file", node.line)
            return
        target = self._ids.get(link[1:])
        if target is None or link in place.using:
            self.leave_out("use of itself" if target else "use of what is not there", node.line)
            return
        x = length(own.get("x"), whole=place.frame.width) or 0.0
        y = length(own.get("y"), whole=place.frame.height) or 0.0
        moved = replace(
            place, to_mm=place.to_mm.after(Transform(e=x, f=y)), using=(*place.using, link)
        )
        if target.tag in ("symbol", "svg"):
            inside = self._placed(target, moved)
            if inside is not None and inside.style.shown:
                sides = {k: v for k, v in own.items() if k in ("width", "height")}
                said = {k: v for k, v in target.attributes.items() if k not in ("x", "y")}
                yield from self._nested(target, inside, {**said, **sides})
        else:
            yield from self._element(target, moved)

    def _nested(self, node: Node, place: Place, own: dict[str, str]) -> Iterator[Shape | Text]:
        """A viewport in a viewport: an svg element, or a symbol that is used."""
        frame = place.frame
        x = length(own.get("x"), whole=frame.width) or 0.0
        y = length(own.get("y"), whole=frame.height) or 0.0
        wide = length(own.get("width", "100%"), whole=frame.width)
        high = length(own.get("height", "100%"), whole=frame.height)
        if wide is None or high is None or wide <= 0 or high <= 0:
            return
        box = view_box(own.get("viewBox"))
        if box is None:
            port, inner = Frame(0.0, 0.0, wide, high), Transform(e=x, f=y)
        else:
            port = box
            keep = own.get("preserveAspectRatio", "")
            inner = fitted(box, Frame(x, y, wide, high), keep)
        yield from self.drawn(node, replace(place, to_mm=place.to_mm.after(inner), frame=port))


def _is_closed(ring: Floats, *, closed: bool) -> bool:
    """Whether a contour bounds an area."""
    if len(ring) < 3:
        return False
    meets = closed or float(np.hypot(*(ring[0] - ring[-1]))) <= CLOSED_MM
    return meets and signed_area(ring) != 0.0


def _by_id(root: Node) -> dict[str, Node]:
    """The first element of each id."""
    found: dict[str, Node] = {}
    left = [root]
    while left:
        node = left.pop()
        if "id" in node.attributes:
            found.setdefault(node.attributes["id"], node)
        left.extend(reversed(node.elements()))
    return found


def style_sheets(root: Node) -> str:
    """The text of all style elements of a drawing."""
    parts, left = [], [root]
    while left:
        node = left.pop()
        if node.tag == "style":
            parts.append(node.text())
        left.extend(reversed(node.elements()))
    return "\n".join(parts)
