"""SVG seen by another program: resvg renders it, and what it drew is compared pixel by pixel."""

import io
from collections.abc import Callable
from xml.etree import ElementTree as ET

import numpy as np
import numpy.typing as npt
import resvg_py
from PIL import Image

from letterfit.geometry import MM_PER_INCH
from letterfit.output.svg.elements import NAMESPACE

DPI = 600
PIXEL_MM = MM_PER_INCH / DPI
"""0.0423 mm."""

Element = ET.Element
Ink = npt.NDArray[np.float64]

ET.register_namespace("", NAMESPACE)


def parse(svg: str) -> ET.Element:
    """The document, by a strict XML parser."""
    return ET.fromstring(svg.encode("utf-8"))  # noqa: S314 - our own output


def render(root: ET.Element, *, dpi: int = DPI) -> Ink:
    """How much of each pixel is covered, 0 to 1, rows from the top."""
    text = ET.tostring(root, encoding="unicode")
    png = bytes(resvg_py.svg_to_bytes(svg_string=text, dpi=dpi, skip_system_fonts=True))
    with Image.open(io.BytesIO(png)) as image:
        alpha = np.asarray(image.convert("RGBA"))[:, :, 3]
    return alpha.astype(np.float64) / 255


def classes(element: ET.Element) -> list[str]:
    """The classes of an element."""
    return element.get("class", "").split()


def named(root: ET.Element, name: str) -> list[ET.Element]:
    """All elements of a class, in document order."""
    return [element for element in root.iter() if name in classes(element)]


def alone(svg: str, keep: Callable[[ET.Element], bool]) -> ET.Element:
    """The document with nothing drawn but what is kept (groups are kept for their transforms)."""
    root = parse(svg)
    prune(root, keep)
    return root


def prune(element: ET.Element, keep: Callable[[ET.Element], bool]) -> None:
    """Take out all that is not kept and holds nothing that is."""
    for child in list(element):
        if keep(child):
            continue
        prune(child, keep)
        if not len(child):
            element.remove(child)


def sheet_area(svg: str) -> float:
    """The area of the sheet in mm2, as its view box says."""
    _, _, width, height = map(float, parse(svg).get("viewBox", "").split())
    return width * height


def letters(svg: str) -> Ink:
    """The balloons' lettering alone."""
    return render(alone(svg, lambda element: "lettering" in classes(element)))


def bodies(svg: str, *, scale: float = 1.0) -> Ink:
    """The balloons' outlines alone, filled to the outline itself without their line.

    Args:
        svg: The document.
        scale: Grows each outline about the middle of its box; under 1, a planted fault.
    """
    root = alone(svg, lambda element: "outline" in classes(element))
    for path in named(root, "outline"):
        path.set("stroke", "none")
        path.set("fill", "#000")
        path.attrib.pop("fill-opacity", None)
        if scale != 1.0:
            x, y = _middle(path.get("d", ""))
            path.set("transform", f"translate({x} {y}) scale({scale}) translate({-x} {-y})")
    return render(root)


def _middle(data: str) -> tuple[float, float]:
    """The middle of the points of absolute path data (M, L, C, Z)."""
    numbers = [float(n) for n in data.translate(str.maketrans("MLCZ", "    ")).split()]
    xs, ys = numbers[::2], numbers[1::2]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
