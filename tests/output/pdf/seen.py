"""A PDF seen by other programs: pdfium reads and renders it, qpdf checks it and takes it apart."""

import io
import math
import re
from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
import pikepdf
import pypdfium2 as pdfium

from letterfit.geometry import MM_PER_INCH, Rect
from letterfit.report.model import ScriptReport

DPI = 600
PIXEL_MM = MM_PER_INCH / DPI
"""0.0423 mm."""

Ink = npt.NDArray[np.float64]

PAINTING = {"f", "B", "S"}
"""The operators with which our paths are painted."""


def texts(data: bytes) -> list[str]:
    """The text of each page as pdfium reads it, every stretch of white space as one space."""
    document = pdfium.PdfDocument(data)
    return [
        re.sub(r"\s+", " ", document[k].get_textpage().get_text_range())
        for k in range(len(document))
    ]


def balloon_texts(report: ScriptReport) -> Iterator[list[str]]:
    """The texts of each page's balloons in script order."""
    for page in report.pages:
        yield [balloon.fitted.text for panel in page.panels for balloon in panel.balloons]


def stand_in_order(wanted: list[str], text: str) -> bool:
    """Whether texts stand in another one after the other."""
    at = 0
    for one in wanted:
        found = text.find(one, at)
        if found < 0:
            return False
        at = found + len(one)
    return True


def ink(data: bytes, *, page: int = 0, dpi: int = DPI, area: Rect | None = None) -> Ink:
    """How dark each pixel is, 0 to 1, rows from the top.

    Args:
        data: The document.
        page: Which page, from 0.
        dpi: Pixels per inch.
        area: The part to look at, mm from the sheet's top left corner; None is all of it.
    """
    scale = math.nextafter(dpi / 72, 0)  # sides are rounded up: no pixel more for a rounding
    drawn = pdfium.PdfDocument(data)[page].render(scale=scale, grayscale=True).to_numpy()
    grey: Ink = 1 - drawn.reshape(drawn.shape[:2]).astype(np.float64) / 255
    if area is None:
        return grey
    left, top, width, height = (
        round(mm / MM_PER_INCH * dpi) for mm in (area.x, area.y, area.width, area.height)
    )
    part: Ink = grey[top : top + height, left : left + width]
    return part


def lettering_alone(data: bytes) -> bytes:
    """The document with no path painted and no label shown."""
    pdf = pikepdf.open(io.BytesIO(data))
    for page in pdf.pages:
        kept = [
            pikepdf.ContentStreamInstruction([], pikepdf.Operator("n"))
            if str(part.operator) in PAINTING
            else part
            for part in pikepdf.parse_content_stream(page)
        ]
        page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(kept))
    hide(pdf, "Labels")
    return saved(pdf)


def hide(pdf: pikepdf.Pdf, layer: str) -> None:
    """Hide a layer as a viewer would."""
    layers = pdf.Root.OCProperties
    layers.D.OFF = pikepdf.Array([one for one in layers.OCGs if str(one.Name) == layer])


def saved(pdf: pikepdf.Pdf) -> bytes:
    """The bytes of a document that was changed."""
    file = io.BytesIO()
    pdf.save(file)
    return file.getvalue()


def fonts(data: bytes) -> dict[str, str]:
    """The kinds of the fonts of all pages by name, without the letters of the subset."""
    pdf = pikepdf.open(io.BytesIO(data))
    found = {}
    for page in pdf.pages:
        for font in page.Resources.get("/Font", pikepdf.Dictionary()).values():
            inner = font.DescendantFonts[0]
            found[str(inner.BaseFont).partition("+")[2]] = str(inner.Subtype)
    return found
