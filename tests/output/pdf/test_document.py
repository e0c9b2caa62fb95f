"""The file: boxes, what it says of itself, and that it is sound, small and always the same."""

import functools
import io

import pikepdf
import pypdfium2 as pdfium
import pytest

from letterfit.geometry import MM_PER_INCH
from letterfit.output.pdf.proof import to_pdf
from letterfit.paper.sheet import Paper
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from letterfit.version import VERSION
from tests.output import reports
from tests.output.pdf import seen

SCRIPT = "Title: SLACK TIDE\n\nPAGE 1\n\nPanel 1. Dawn at Lock Nine.\n\nWENNA: Hold the gate!\n"


@functools.cache
def proof() -> bytes:
    """A page of one panel on US comic paper."""
    return to_pdf(preflight(parse_script(SCRIPT), paper=Paper.named("us-comic")))


def test_each_page_has_its_boxes_at_print_size() -> None:
    """6 5/8 by 10 1/4 in of trim are 477 by 738 pt (1 pt is 1/72 in; ISO 32000-1, 8.3.2.3)."""
    paper = Paper.named("us-comic")
    document = pdfium.PdfDocument(proof())
    assert len(document) == 2
    for page in document:
        left, bottom, right, top = page.get_trimbox()
        assert (right - left, top - bottom) == pytest.approx((477, 738), abs=1e-3)
        around = paper.bleed / MM_PER_INCH * 72
        assert page.get_bleedbox() == pytest.approx(
            (left - around, bottom - around, right + around, top + around), abs=1e-3
        )
        assert page.get_mediabox() == page.get_bleedbox()
        live = [value / MM_PER_INCH * 72 for value in (paper.live.x, paper.live.bottom)]
        low = 738 - live[1]
        assert page.get_artbox()[:2] == pytest.approx((left + live[0], bottom + low), abs=1e-3)
        assert page.get_artbox()[2] - page.get_artbox()[0] == pytest.approx(
            paper.live.width / MM_PER_INCH * 72, abs=1e-3
        )


def test_qpdf_finds_nothing_to_object() -> None:
    """Neither to a plain report nor to one with everything nasty in it; a cut file is found out."""
    for data in (proof(), to_pdf(reports.nasty())):
        assert pikepdf.open(io.BytesIO(data)).check_pdf_syntax() == []
    with pytest.raises(pikepdf.PdfError):
        pikepdf.open(io.BytesIO(proof()[:200]))


def test_the_same_report_gives_the_same_bytes() -> None:
    """No date and no chance: not in the id either."""
    again = to_pdf(preflight(parse_script(SCRIPT), paper=Paper.named("us-comic")))
    assert again == proof()
    other = to_pdf(preflight(parse_script(SCRIPT.replace("gate", "boat"))))
    assert other != proof()
    assert b"CreationDate" not in pikepdf.open(io.BytesIO(proof())).docinfo.unparse()


def test_the_file_says_what_it_is_and_how_it_is_printed() -> None:
    """Title and producer, nothing else; no scaling; pages called as in the script."""
    pdf = pikepdf.open(io.BytesIO(proof()))
    assert dict(pdf.docinfo.items()) == {
        "/Title": "SLACK TIDE",
        "/Producer": f"letterfit {VERSION}",
    }
    assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
    document = pdfium.PdfDocument(to_pdf(reports.nasty()))
    labels = [document.get_page_label(k) for k in range(len(document))]
    assert labels == ["104-105", "106", "Print check"]


def test_a_spread_is_a_page_as_wide_as_two() -> None:
    """Its trim is that of the spread's own paper."""
    left, _, right, _ = pdfium.PdfDocument(to_pdf(reports.nasty()))[0].get_trimbox()
    assert right - left == pytest.approx(reports.SPREAD.trim[0] / MM_PER_INCH * 72, abs=1e-3)


def test_labels_figures_and_guides_can_be_hidden() -> None:
    """Each is a layer; without its labels the page has less ink, and still its lettering."""
    pdf = pikepdf.open(io.BytesIO(proof()))
    names = [str(layer.Name) for layer in pdf.Root.OCProperties.OCGs]
    assert names == ["Figures", "Guides", "Labels"]
    whole = seen.ink(proof(), dpi=100).sum()
    for name in names:
        seen.hide(pdf, name)
        assert seen.ink(seen.saved(pdf), dpi=100).sum() < whole


def test_a_script_without_pages_has_the_last_page_alone() -> None:
    """There is nothing to prove, and that is no error."""
    assert len(pdfium.PdfDocument(to_pdf(reports.report()))) == 1
