"""What a proof says to whoever has it read aloud: pdfium's reading of the structure, and ours."""

import ctypes
import functools
import io
from collections.abc import Callable, Iterator
from typing import Any

import pikepdf
import pypdfium2 as pdfium
import pytest
from pypdfium2 import raw

from letterfit.output.pdf.proof import to_pdf
from letterfit.report.model import ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output import reports
from tests.output.pdf import seen

SCRIPT = """
PLANCHE 1

Case 1. La porte.
WENNA: La marée a tourné voilà une heure.
PILOTE: Ohé!
Case 2. La péniche.
SFX: BOUM

PLANCHE 2

Case 1. La rive.
WENNA: Trop tard.
"""

Told = tuple[str, str, str]
"""Of an element its type, what it reads and its language; empty where it does not say."""


@functools.cache
def report() -> ScriptReport:
    """Two pages in French."""
    return preflight(parse_script(SCRIPT))


@functools.cache
def proof() -> bytes:
    """Its proof."""
    return to_pdf(report())


def read(data: bytes, page: int) -> list[Told]:
    """The elements of a page as pdfium finds them, each before what it holds."""
    document = pdfium.PdfDocument(data)
    own = document[page]
    tree = raw.FPDF_StructTree_GetForPage(own)
    count = raw.FPDF_StructTree_CountChildren(tree)
    found = [
        told for k in range(count) for told in _walk(raw.FPDF_StructTree_GetChildAtIndex(tree, k))
    ]
    raw.FPDF_StructTree_Close(tree)
    return found


def _walk(element: Any) -> Iterator[Told]:  # noqa: ANN401 - pdfium's own pointers
    yield (
        _string(raw.FPDF_StructElement_GetType, element),
        _string(raw.FPDF_StructElement_GetActualText, element),
        _string(raw.FPDF_StructElement_GetLang, element),
    )
    for k in range(raw.FPDF_StructElement_CountChildren(element)):
        child = raw.FPDF_StructElement_GetChildAtIndex(element, k)
        if child:
            yield from _walk(child)


def _string(get: Callable[..., int], element: Any) -> str:  # noqa: ANN401 - as above
    size = get(element, None, 0)
    buffer = ctypes.create_string_buffer(size)
    get(element, buffer, size)
    return buffer.raw.decode("utf-16-le").rstrip("\0")


def test_headings_panels_and_balloons_are_told_in_reading_order() -> None:
    """A page has a heading and panels, a panel a heading and its balloons, in their language."""
    told = read(proof(), 0)
    assert [kind for kind, _, _ in told if kind != "Document"] == [
        *("Sect", "H1"),
        *("Sect", "H2", "P", "P"),
        *("Sect", "H2"),
    ]
    texts = [(text, language) for kind, text, language in told if kind == "P"]
    assert texts == [("LA MARÉE A TOURNÉ VOILÀ UNE HEURE.", "fr"), ("OHÉ!", "fr")]


def test_the_document_says_that_it_is_tagged_and_in_which_language() -> None:
    """That of its labels; pages are gone through in the order of their structure."""
    pdf = pikepdf.open(io.BytesIO(proof()))
    assert bool(pdf.Root.MarkInfo.Marked)
    assert str(pdf.Root.Lang) == "en"
    assert [str(page.Tabs) for page in pdf.pages] == ["/S"] * 3
    with pdf.open_outline() as outline:
        assert [item.title for item in outline.root] == ["Page 1", "Page 2", "Print check"]


def loose(page: pikepdf.Page) -> tuple[list[str], list[int]]:
    """Operators that paint outside both parts and artifacts; and the numbers of marked lines."""
    open_: list[bool] = []
    unmarked, numbers = [], []
    for part in pikepdf.parse_content_stream(page):
        name = str(part.operator)
        if name in ("BDC", "BMC"):
            given = part.operands[1] if name == "BDC" else pikepdf.Dictionary()
            number = given.get("/MCID") if isinstance(given, pikepdf.Dictionary) else None
            if number is not None:
                assert not any(open_), "a line stands in another one or in an artifact"
                numbers.append(int(number))
            open_.append(number is not None or part.operands[0] == "/Artifact")
        elif name == "EMC":
            open_.pop()
        elif name in {*seen.PAINTING, "TJ"} and not any(open_):
            unmarked.append(name)
    assert open_ == []
    return unmarked, numbers


@pytest.mark.parametrize("name", ["proof", "nasty"])
def test_all_that_is_painted_is_a_part_or_an_artifact(name: str) -> None:
    """And every line belongs to one element, which the tree of parents knows (14.7.4.4)."""
    data = proof() if name == "proof" else to_pdf(reports.nasty())
    pdf = pikepdf.open(io.BytesIO(data))
    owners = pdf.Root.StructTreeRoot.ParentTree.Nums
    for at, page in enumerate(pdf.pages):
        unmarked, numbers = loose(page)
        assert unmarked == []
        assert numbers == list(range(len(numbers)))
        assert int(page.StructParents) == int(owners[2 * at]) == at
        own = owners[2 * at + 1]
        assert len(own) == len(numbers)
        for number, element in enumerate(own):
            assert number in [int(kid) for kid in element.K]
            assert element.Pg.objgen == page.obj.objgen


def test_what_is_not_marked_would_be_found() -> None:
    """Negative control: a stroke and a text added to a page."""
    pdf = pikepdf.open(io.BytesIO(proof()))
    pdf.pages[0].contents_add(b"0 0 m 9 9 l S", prepend=False)
    assert loose(pdf.pages[0])[0] == ["S"]


def test_figures_of_a_ruler_are_not_read() -> None:
    """The last page says its heading, its advice and its sizes; no figure by itself."""
    pdf = pikepdf.open(io.BytesIO(proof()))
    whole = pdf.Root.StructTreeRoot.K[0].K[-1]
    kinds = [str(element.S) for element in whole.K]
    assert kinds[0] == "/H1"
    assert set(kinds[1:]) == {"/P"}
    lines = sum(len(element.K) for element in whole.K)
    shown = [p for p in pikepdf.parse_content_stream(pdf.pages[-1]) if str(p.operator) == "BT"]
    assert len(shown) > lines + 20
