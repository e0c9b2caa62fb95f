"""The parts of all pages as the document's structure (ISO 32000-1, 14.7)."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import pikepdf

from letterfit.output.pdf.content import PdfPage
from letterfit.output.pdf.tagging import Part


def structured(
    pdf: pikepdf.Pdf,
    pages: Sequence[PdfPage],
    *,
    language: str,
) -> None:
    """Give a document the structure of its pages, which must be in it already.

    Args:
        pdf: The document.
        pages: Its pages.
        language: That of its labels, a BCP 47 tag.
    """
    root = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.StructTreeRoot))
    whole = _element(pdf, Part("Document"), root, {})
    numbers: list[object] = []
    for number, (page, own) in enumerate(zip(pages, pdf.pages, strict=True)):
        builder = _Builder(pdf, own.obj, {} if page.language == language else _lang(page.language))
        part = replace(page.content.whole, title=page.name)
        whole.K.append(builder.added(part, whole))
        owners = [builder.owners[line] for line in sorted(builder.owners)]
        numbers += [number, pdf.make_indirect(pikepdf.Array(owners))]
        own.obj.StructParents = number
        own.obj.Tabs = pikepdf.Name.S
    root.K = pikepdf.Array([whole])
    root.ParentTree = pdf.make_indirect(pikepdf.Dictionary(Nums=pikepdf.Array(numbers)))
    root.ParentTreeNextKey = len(pages)
    pdf.Root.StructTreeRoot = root
    pdf.Root.MarkInfo = pikepdf.Dictionary(Marked=True)
    pdf.Root.Lang = pikepdf.String(language)


class _Builder:
    """Makes the elements of a page.

    Args:
        pdf: The document.
        page: The page.
        spoken: What is said of an element in the script's language.
    """

    def __init__(
        self, pdf: pikepdf.Pdf, page: pikepdf.Object, spoken: Mapping[str, pikepdf.Object]
    ) -> None:
        self._pdf, self._page, self._spoken = pdf, page, spoken
        self.owners: dict[int, pikepdf.Object] = {}

    def added(self, part: Part, parent: pikepdf.Object) -> pikepdf.Object:
        """The element of a part, with all that it holds."""
        element = _element(self._pdf, part, parent, self._spoken if part.spoken else {})
        if part.lines:
            element.Pg = self._page
        for line in part.lines:
            element.K.append(line)
            self.owners[line] = element
        for one in part.parts:
            element.K.append(self.added(one, element))
        return element


def _element(
    pdf: pikepdf.Pdf, part: Part, parent: pikepdf.Object, more: Mapping[str, pikepdf.Object]
) -> pikepdf.Object:
    told = {"/T": part.title, "/ActualText": part.text}
    return pdf.make_indirect(
        pikepdf.Dictionary(
            {
                "/Type": pikepdf.Name.StructElem,
                "/S": pikepdf.Name(f"/{part.role}"),
                "/P": parent,
                "/K": pikepdf.Array(),
                **{key: pikepdf.String(text) for key, text in told.items() if text},
                **more,
            }
        )
    )


def _lang(language: str) -> Mapping[str, pikepdf.Object]:
    return {"/Lang": pikepdf.String(language)}
