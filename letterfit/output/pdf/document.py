"""The PDF file itself: pages, boxes, fonts, layers and what the file says of itself.

Everything is written through pikepdf, without a clock: the file's id is taken from its content.
"""

import hashlib
import io
import re
from collections.abc import Mapping, Sequence

import pikepdf

from letterfit.geometry import MM_PER_PT, Rect
from letterfit.output.pdf.alphabet import Alphabet, to_unicode
from letterfit.output.pdf.content import PdfPage, opacity_name
from letterfit.output.pdf.fonts import DocumentFont
from letterfit.output.pdf.structure import structured
from letterfit.output.pdf.text import number
from letterfit.version import VERSION

VERSION_OF_PDF = "1.7"
SYMBOLIC = 4
"""A font with letters of its own (ISO 32000-1, table 123)."""
STEM = 80
"""The width of stems, which is asked for and matters only where a font is replaced."""
POINTS = 4
"""Decimals of a point."""


def written(
    pages: Sequence[PdfPage],
    fonts: Mapping[str, DocumentFont],
    alphabet: Alphabet,
    *,
    title: str,
    language: str,
) -> bytes:
    """The document as bytes.

    Args:
        pages: Its pages.
        fonts: Its fonts, by the face's name.
        alphabet: What their glyphs read.
        title: Its title, fit to print.
        language: That of its labels, a BCP 47 tag.
    """
    pdf = pikepdf.new()
    named = {f"/{font.set_font.resource}": _font(pdf, font, alphabet) for font in fonts.values()}
    layers = _layers(pdf, sorted({layer for page in pages for layer in page.content.layers}))
    for page in pages:
        pdf.pages.append(_page(pdf, page, named, layers))
    structured(pdf, pages, language=language)
    _describe(pdf, pages, title)
    file = io.BytesIO()
    pdf.save(
        file,
        deterministic_id=True,
        min_version=VERSION_OF_PDF,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
        fix_metadata_version=False,
    )
    return file.getvalue()


def _page(
    pdf: pikepdf.Pdf,
    page: PdfPage,
    fonts: Mapping[str, pikepdf.Object],
    layers: Mapping[str, pikepdf.Object],
) -> pikepdf.Page:
    paper = page.paper
    trim = Rect(0.0, 0.0, *paper.trim)
    bleed = trim.inset(-paper.bleed)
    scale = number(1 / MM_PER_PT, 9)
    left, top = number(-bleed.x / MM_PER_PT, POINTS), number(bleed.bottom / MM_PER_PT, POINTS)
    lines = ["q", f"{scale} 0 0 -{scale} {left} {top} cm", *page.content.operators, "Q"]
    resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(dict(fonts)))
    if page.content.opacities:
        resources.ExtGState = pikepdf.Dictionary(
            {
                f"/{opacity_name(pair)}": pikepdf.Dictionary(ca=pair[0] / 100, CA=pair[1] / 100)
                for pair in sorted(page.content.opacities)
            }
        )
    if page.content.layers:
        used = {f"/{name}": layers[name] for name in sorted(page.content.layers)}
        resources.Properties = pikepdf.Dictionary(used)
    return pikepdf.Page(
        pdf.make_indirect(
            pikepdf.Dictionary(
                Type=pikepdf.Name.Page,
                MediaBox=_box(bleed, bleed),
                BleedBox=_box(bleed, bleed),
                TrimBox=_box(trim, bleed),
                ArtBox=_box(paper.live, bleed),
                Resources=resources,
                Contents=pdf.make_stream("\n".join(lines).encode("ascii")),
                Group=pikepdf.Dictionary(S=pikepdf.Name.Transparency, CS=pikepdf.Name.DeviceRGB),
            )
        )
    )


def _box(area: Rect, sheet: Rect) -> pikepdf.Array:
    """A rectangle of the page in points, y upwards from the sheet's lower left corner."""
    low, high = sheet.bottom - area.bottom, sheet.bottom - area.y
    edges = (area.x - sheet.x, low, area.right - sheet.x, high)
    return pikepdf.Array([round(edge / MM_PER_PT, POINTS) for edge in edges])


def _layers(pdf: pikepdf.Pdf, names: Sequence[str]) -> Mapping[str, pikepdf.Object]:
    """Layers that a viewer can hide (optional content, ISO 32000-1, 8.11), all of them shown."""
    groups = {
        name: pdf.make_indirect(
            pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=pikepdf.String(name))
        )
        for name in names
    }
    if groups:
        order = pikepdf.Array(list(groups.values()))
        pdf.Root.OCProperties = pikepdf.Dictionary(OCGs=order, D=pikepdf.Dictionary(Order=order))
    return groups


def _font(pdf: pikepdf.Pdf, font: DocumentFont, alphabet: Alphabet) -> pikepdf.Object:
    """A composite font whose codes are its CIDs (ISO 32000-1, 9.7)."""
    name = _font_name(font)
    descendant = pikepdf.Dictionary(
        Type=pikepdf.Name.Font,
        Subtype=pikepdf.Name.CIDFontType0,
        BaseFont=pikepdf.Name(f"/{name}"),
        CIDSystemInfo=pikepdf.Dictionary(
            Registry=pikepdf.String("Adobe"), Ordering=pikepdf.String("Identity"), Supplement=0
        ),
        FontDescriptor=pdf.make_indirect(_descriptor(pdf, font, name)),
        W=_widths(font),
    )
    codes = sorted((code, glyph) for glyph, code in font.program.codes.items())
    readings = [(code, alphabet.reads(font.face.name, glyph)) for code, glyph in codes]
    return pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.Font,
            Subtype=pikepdf.Name.Type0,
            BaseFont=pikepdf.Name(f"/{name}-Identity-H"),
            Encoding=pikepdf.Name("/Identity-H"),
            DescendantFonts=pikepdf.Array([pdf.make_indirect(descendant)]),
            ToUnicode=pdf.make_stream(to_unicode(readings)),
        )
    )


def _descriptor(pdf: pikepdf.Pdf, font: DocumentFont, name: str) -> pikepdf.Dictionary:
    """What is said of a font (9.8); of its height, what its letters here have."""
    file = pdf.make_stream(font.program.data)
    file.Subtype = pikepdf.Name.CIDFontType0C
    _, low, _, high = font.program.box
    return pikepdf.Dictionary(
        Type=pikepdf.Name.FontDescriptor,
        FontName=pikepdf.Name(f"/{name}"),
        Flags=SYMBOLIC,
        FontBBox=pikepdf.Array(list(font.program.box)),
        ItalicAngle=0,
        Ascent=high,
        Descent=min(low, 0),
        CapHeight=round(1000 * font.face.cap_height_em),
        StemV=STEM,
        FontFile3=file,
    )


def _widths(font: DocumentFont) -> pikepdf.Array:
    """The advances by code, from code 0 (9.7.4.3)."""
    widths = [font.program.widths[glyph] for glyph in sorted(font.program.codes)]
    return pikepdf.Array([0, pikepdf.Array(widths)])


def _font_name(font: DocumentFont) -> str:
    """The name of a subset: six letters, taken from its bytes, and the face's name (9.6.4)."""
    digest = hashlib.sha256(font.program.data).digest()
    tag = "".join(chr(ord("A") + byte % 26) for byte in digest[:6])
    plain = re.sub(r"[^A-Za-z0-9]+", "-", font.face.name).strip("-") or "Font"
    return f"{tag}+{plain[:80]}"


def _describe(pdf: pikepdf.Pdf, pages: Sequence[PdfPage], title: str) -> None:
    """Title and producer; pages called as in the script, with bookmarks; to be printed as large."""
    pdf.docinfo = pdf.make_indirect(
        pikepdf.Dictionary(
            Title=pikepdf.String(title), Producer=pikepdf.String(f"letterfit {VERSION}")
        )
    )
    pdf.Root.ViewerPreferences = pikepdf.Dictionary(
        DisplayDocTitle=True, PrintScaling=pikepdf.Name("/None")
    )
    labels = [
        part
        for number, page in enumerate(pages)
        for part in (number, pikepdf.Dictionary(P=pikepdf.String(page.label)))
    ]
    with pdf.open_outline() as outline:
        outline.root += [
            pikepdf.OutlineItem(page.name, number) for number, page in enumerate(pages)
        ]
    pdf.Root.PageLabels = pikepdf.Dictionary(Nums=pikepdf.Array(labels))
