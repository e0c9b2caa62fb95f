"""The last page: rulers that measure true, sizes that are what they say."""

import functools
import io

import numpy as np
from fontTools.ttLib import TTFont

from letterfit.geometry import MM_PER_INCH, MM_PER_PT, Rect
from letterfit.lettering.fonts.bundled import BUNDLED, read_bundled
from letterfit.output.pdf.check_page import SPECIMEN
from letterfit.output.pdf.proof import to_pdf
from letterfit.paper.sheet import Paper
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output import reports
from tests.output.pdf import seen

PAPER = Paper(trim=(180.0, 150.0), live=(10, 10, 160, 130), bleed=0.0)
DPI = 300
SCRIPT = "PAGE 1\n\nPanel 1. Dawn.\n\nWENNA: Hold the gate!\n\nSFX: KRRRK\n"


@functools.cache
def proof() -> bytes:
    """A proof of one panel."""
    return to_pdf(preflight(parse_script(SCRIPT), paper=PAPER))


def ticks(area: Rect) -> list[float]:
    """Where ticks cross the middle of a strip, mm from its left edge."""
    strip = seen.ink(proof(), page=1, dpi=DPI, area=area)
    row = strip[len(strip) // 2] > 0.25
    starts = np.flatnonzero(np.diff(row.astype(int)) == 1)
    return [(float(start) + 1) / DPI * MM_PER_INCH for start in starts]


def test_centimetres_are_ten_millimetres_apart_on_paper() -> None:
    """The long ticks alone are cut by a line 3.5 mm under the ruler: 17 of them, to a pixel."""
    found = ticks(Rect(5, 13, 165, 1))
    assert len(found) == 17
    assert np.allclose(np.diff(found), 10, atol=1.5 * MM_PER_INCH / DPI)


def test_inches_are_25_4_millimetres_apart_on_paper() -> None:
    """The international inch, exact since 1959; the left ruler's own line is the first tick."""
    found = ticks(Rect(5, 20, 165, 1))
    assert len(found) == 7
    assert np.allclose(np.diff(found), 25.4, atol=1.5 * MM_PER_INCH / DPI)


def test_the_page_says_what_it_is_for_and_whose_word_counts() -> None:
    """Print at 100 %; the printer's own specification decides; effects are listed."""
    last = seen.texts(proof())[1]
    assert "Print at 100 %" in last
    assert "printer's own specification" in last
    assert "1.1.e1 KRRRK" in last
    for size in ("5 pt", "7.5 pt (used)", "12 pt"):
        assert size in last


def test_a_specimen_is_as_high_as_its_size_says() -> None:
    """12 pt: from the lowest to the highest ink of its letters as fontTools reads the font."""
    area = Rect(45, 10 + 28 - 6, 100, 105)
    rows = (seen.ink(proof(), page=1, dpi=DPI, area=area) > 0.5).any(axis=1)
    edges = np.flatnonzero(np.diff(np.concatenate([[0], rows.astype(int), [0]])))
    heights = (edges[1::2] - edges[::2]) / DPI * MM_PER_INCH
    font = TTFont(io.BytesIO(read_bundled(BUNDLED["Grandstander"].path_of("regular"))))
    shapes = [font["glyf"][font.getBestCmap()[ord(c)]] for c in SPECIMEN.upper() if c != " "]
    ems = (max(s.yMax for s in shapes) - min(s.yMin for s in shapes)) / font["head"].unitsPerEm
    pixel = MM_PER_INCH / DPI
    assert abs(heights.max() - ems * 12 * MM_PER_PT) <= 2 * pixel


def test_a_small_or_a_large_sheet_has_a_last_page_too() -> None:
    """Rulers end with the sheet; what does not fit is left off."""
    for trim in ((20.0, 20.0), (2000.0, 30.0), (30.0, 2000.0)):
        report = preflight(parse_script(SCRIPT), paper=Paper(trim=trim, gutter_mm=1.0))
        assert len(seen.texts(to_pdf(report))) == 2
    assert "Print check" in seen.texts(to_pdf(reports.report()))[0]
