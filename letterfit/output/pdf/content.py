"""A page of the proof, drawn as SVG, as a content stream: one drawing, two formats.

Only the few elements that the proof is made of are known; any other is an error of ours.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from xml.etree import ElementTree as ET

from letterfit.output.pdf.paths import ellipse_operators, path_operators
from letterfit.output.pdf.tagging import MARKS, Part, Role, part_of
from letterfit.output.svg.elements import NAMESPACE
from letterfit.paper.sheet import Paper

Styles = Mapping[str, str]
References = Callable[[int], tuple[list[str], list[str]]]
"""The operators before and after the drawn glyphs of a line, by its number."""

CAPS = {"butt": 0, "round": 1, "square": 2}
JOINS = {"miter": 0, "round": 1, "bevel": 2}
USUAL: Styles = {
    "fill": "#000000",
    "stroke": "none",
    "stroke-width": "1",
    "stroke-dasharray": "none",
    "stroke-linecap": "butt",
    "stroke-linejoin": "miter",
    "stroke-miterlimit": "4",
    "fill-opacity": "1",
}
"""What holds where nothing is said, and is handed down (SVG 2, appendix on properties)."""

LAYERS = {"guides": "Guides", "figure": "Figures", "label": "Labels"}
"""Groups by id or class that can be hidden in a viewer."""

_REFERENCE = re.compile(r"@(\d+)")
_SCALE = re.compile(r"scale\(([0-9.e-]+)\)")


@dataclass(slots=True)
class Content:
    """What a page draws, and what that needs.

    Args:
        operators: The content stream, line by line.
        opacities: Pairs of opacities, of fills and of strokes, in percent.
        layers: The layers it draws on.
        whole: What it says, part by part.
        lines: How many lines of text it has.
    """

    operators: list[str] = field(default_factory=list)
    opacities: set[tuple[int, int]] = field(default_factory=set)
    layers: set[str] = field(default_factory=set)
    whole: Part = field(default_factory=lambda: Part("Sect"))
    lines: int = 0


@dataclass(frozen=True, slots=True)
class PdfPage:
    """A page to be written.

    Args:
        label: What it is called among the pages: "2-3".
        name: What it is called in a list of them: "Page 2-3".
        paper: Its paper.
        content: What it draws, in mm from the top left corner of the trim, y downwards.
        language: That of its lettering, a BCP 47 tag.
    """

    label: str
    name: str
    paper: Paper
    content: Content
    language: str


def content_of(svg: str, references: References) -> Content:
    """The content stream of a page of the proof, in mm, y downwards.

    Args:
        svg: The page, lines of lettering as references (`Runs`).
        references: What sets a line.
    """
    content = Content()
    drawing = _Drawing(content, references)
    root = ET.fromstring(svg.encode("utf-8"))  # noqa: S314 - our own drawing
    content.operators += drawing.children(root, USUAL)
    content.whole.heading_first()
    return content


class _Drawing:
    """Turns elements into operators."""

    def __init__(self, content: Content, references: References) -> None:
        self._content, self._references = content, references
        self._clips: dict[str, ET.Element] = {}
        self._part = content.whole
        self._labels = False
        self._silent = False

    def children(self, element: ET.Element, styles: Styles) -> Iterator[str]:
        for child in element:
            yield from self._drawn(child, styles)

    def _drawn(self, element: ET.Element, styles: Styles) -> Iterator[str]:
        name = element.tag.removeprefix(f"{{{NAMESPACE}}}")
        if name == "title":
            return
        if name == "clipPath":
            self._clips[f"url(#{element.get('id')})"] = element[0]
            return
        styles = {**styles, **{k: v for k, v in element.attrib.items() if k in USUAL}}
        silent = self._silent or not _says(element)
        begins, ends = (["/Artifact BMC"], ["EMC"]) if silent and not self._silent else ([], [])
        layer = self._layer(element)
        before = self._part, self._labels, self._silent
        self._silent = silent
        self._labels = self._labels or layer == LAYERS["label"]
        inside = [
            *self._clip(element),
            *self._opacity(element, styles),
            *(self._group(element, styles) if name == "g" else self._shape(element, name, styles)),
        ]
        self._part, self._labels, self._silent = before
        yield from begins
        yield from (["/OC /" + layer + " BDC"] if layer else [])
        yield from ["q", *inside, "Q"]
        yield from (["EMC"] if layer else [])
        yield from ends

    def _layer(self, element: ET.Element) -> str:
        called = [element.get("id", ""), *element.get("class", "").split()]
        layer = next((LAYERS[name] for name in called if name in LAYERS), "")
        if layer:
            self._content.layers.add(layer)
        return layer

    def _clip(self, element: ET.Element) -> list[str]:
        area = self._clips.get(element.get("clip-path", ""))
        return [] if area is None else [*_rectangle(area), "W n"]

    def _opacity(self, element: ET.Element, styles: Styles) -> list[str]:
        whole = float(element.get("opacity", "1"))
        if element.tag.endswith("}g"):
            pair = (round(100 * whole), round(100 * whole))
        else:
            pair = (round(100 * whole * float(styles["fill-opacity"])), round(100 * whole))
        if pair == (100, 100):
            return []
        self._content.opacities.add(pair)
        return [f"/{opacity_name(pair)} gs"]

    def _group(self, element: ET.Element, styles: Styles) -> Iterator[str]:
        if scale := _SCALE.fullmatch(element.get("transform", "")):
            yield f"{scale[1]} 0 0 {scale[1]} 0 0 cm"
        heading: Role = "H1" if self._part is self._content.whole else "H2"
        part = part_of(element, label=heading if self._labels else "P")
        if part is not None and not self._silent:
            self._part.parts.append(part)
            self._part = part
        yield from self.children(element, styles)
        self._part.heading_first()

    def _shape(self, element: ET.Element, name: str, styles: Styles) -> Iterator[str]:
        data = element.get("d", "")
        yield from _paint(styles)
        before: list[str] = []
        after: list[str] = []
        if line := _REFERENCE.match(data):
            before, after = self._marked(*self._references(int(line[1])))
            data = data[line.end() :]
        yield from before
        drawn = list(path_operators(data)) if name == "path" else SHAPES[name](element)
        if drawn:
            yield from drawn
            yield _painting(styles)
        yield from after

    def _marked(self, before: list[str], after: list[str]) -> tuple[list[str], list[str]]:
        """The operators of a line, as one of the part that it belongs to."""
        if self._silent:
            return before, after
        number = self._content.lines
        self._content.lines += 1
        self._part.lines.append(number)
        return [f"/{self._part.role} <</MCID {number}>> BDC", *before], [*after, "EMC"]


def _says(element: ET.Element) -> bool:
    """Whether an element holds a line that is text to be read."""
    if element.get("class") == MARKS:
        return False
    return element.get("d", "").startswith("@") or any(map(_says, element))


def _rectangle(element: ET.Element) -> list[str]:
    return [" ".join(element.get(key, "0") for key in ("x", "y", "width", "height")) + " re"]


def _ellipse(element: ET.Element) -> list[str]:
    centre = (float(element.get("cx", "0")), float(element.get("cy", "0")))
    both = element.get("r", "0")
    radii = (float(element.get("rx", both)), float(element.get("ry", both)))
    return ellipse_operators(centre, radii)


SHAPES: Mapping[str, Callable[[ET.Element], list[str]]] = {
    "rect": _rectangle,
    "circle": _ellipse,
    "ellipse": _ellipse,
}


def _paint(styles: Styles) -> Iterator[str]:
    """Colours, and how a line is drawn."""
    if styles["fill"] != "none":
        yield f"{_rgb(styles['fill'])} rg"
    if styles["stroke"] != "none":
        dashes = styles["stroke-dasharray"]
        yield f"{_rgb(styles['stroke'])} RG"
        yield f"{styles['stroke-width']} w"
        yield f"{CAPS[styles['stroke-linecap']]} J {JOINS[styles['stroke-linejoin']]} j"
        yield f"{styles['stroke-miterlimit']} M"
        yield f"[{'' if dashes == 'none' else dashes}] 0 d"


def _painting(styles: Styles) -> str:
    fills, strokes = styles["fill"] != "none", styles["stroke"] != "none"
    if fills:
        return "B" if strokes else "f"
    return "S" if strokes else "n"


def _rgb(colour: str) -> str:
    digits = colour.removeprefix("#")
    return " ".join(f"{int(digits[k : k + 2], 16) / 255:.4g}" for k in (0, 2, 4))


def opacity_name(pair: tuple[int, int]) -> str:
    """The name of a pair of opacities among a page's resources."""
    return f"A{pair[0]}x{pair[1]}"
