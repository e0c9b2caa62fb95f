"""What a reader selects and finds: the script's words, in the script's order."""

import functools
import io
from pathlib import Path

import pikepdf
import pytest

from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.output.pdf.alphabet import to_unicode
from letterfit.output.pdf.check_page import check_page
from letterfit.output.pdf.permits import Permits
from letterfit.output.pdf.proof import to_pdf
from letterfit.output.pdf.runs import Runs
from letterfit.output.svg.faces import face_source, glyph_source
from letterfit.paper.sheet import Paper
from letterfit.report.model import ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output import reports
from tests.output.pdf import seen

DATA = Path(__file__).parents[2] / "data"
ROUND = DATA / "fonts" / "MPLUSRounded1c" / "MPLUSRounded1c-500Medium.ttf"
HEBREW = "PlaypenSansHebrew/PlaypenSansHebrew-400Regular.ttf"
ARABIC = "Marhey/Marhey-700Bold.ttf"
BENGALI = DATA / "fonts" / "NotoSansBengali"
SCRIPT = f"""
PAGE 1

Panel 1. The lock.
WENNA: The tide turned an hour ago.
PILOT: Ahoy, the lock!
Panel 2. The barge.
WENNA: Lock's *shut*.
Panel 3. The gate.
CAPTION: Lock Nine. The last gate before the sea.

PAGE 2

Panel 1. The sill.
WENNA: {"When that sill goes it goes all at once, " * 30}
Panel 2. The board.
PILOT: It says high water at noon.
WENNA: I wrote it myself.
Panel 3. The barge, gone.
PILOT: Fend her off!
"""
HEAD = "PAGE 1\n\nPanel 1. The lock at dawn.\n\n"


@functools.cache
def two_pages() -> ScriptReport:
    """Two pages of three panels; the first panel of the second overflows."""
    paper = Paper(trim=(100.0, 150.0))
    return preflight(parse_script(SCRIPT), paper=paper)


@functools.cache
def read() -> list[str]:
    """Its pages as pdfium reads them."""
    return seen.texts(to_pdf(two_pages()))


def test_every_balloon_reads_as_it_was_set_in_script_order() -> None:
    """As pdfium reads it, page by page; the texts run backwards do not stand there so."""
    for wanted, text in zip(seen.balloon_texts(two_pages()), read(), strict=False):
        assert len(wanted) == 4
        assert seen.stand_in_order(wanted, text)
        assert not seen.stand_in_order(wanted[::-1], text)


def test_labels_and_the_foot_can_be_found_too() -> None:
    """A search for a panel's number leads to it."""
    first, second, _ = read()
    assert "1.3 · " in first
    assert "figure" in first
    assert "2.1 · DOES NOT FIT" in second
    assert "Page 2 · " in second


@pytest.mark.parametrize(
    ("text", "folder"),
    [
        ("office *fine* affluent “quotes” naïve é ♥ ♪ — the end...", None),
        ("সমস্ত মানুষ স্বাধীনভাবে সমান মর্যাদা।", BENGALI),
    ],
)
def test_ligatures_and_joined_letters_read_as_typed(text: str, folder: Path | None) -> None:
    """One glyph for several letters, several faces in a line, letters that change places."""
    typeface = open_typeface("Grandstander" if folder is None else next(folder.glob("*.ttf")))
    lettering = Lettering(typeface=typeface, case="as-typed")
    report = preflight(parse_script(f"{HEAD}WENNA: {text}\n"), lettering=lettering)
    (wanted,) = seen.balloon_texts(report)
    assert seen.stand_in_order(wanted, seen.texts(to_pdf(report))[0])


@pytest.mark.parametrize(
    ("text", "file"),
    [
        ("השער סגור כבר שעה, ואף אחד לא בא לשאול למה.", HEBREW),
        ("הגאות (סוף סוף) פנתה!", HEBREW),
        ("البوابة مغلقة منذ ساعة، ولم يأت أحد ليسأل لماذا.", ARABIC),
    ],
)
def test_what_reads_from_right_to_left_reads_as_typed(text: str, file: str) -> None:
    """As pdfium turns it round, which it does with what browsers print: brackets too."""
    typeface = open_typeface(DATA / "fonts" / file)
    lettering = Lettering(typeface=typeface, case="as-typed")
    report = preflight(parse_script(f"{HEAD}WENNA: {text}\n"), lettering=lettering)
    ((wanted,),) = seen.balloon_texts(report)
    assert wanted == text
    read = seen.texts(to_pdf(report))[0]
    assert text in read
    assert text[::-1] not in read


def test_a_ligature_can_be_found_by_every_reader() -> None:
    """What "ffi" reads stands in the font's own map, not beside the line alone."""
    lettering = Lettering(typeface=open_typeface("Grandstander"), case="as-typed")
    report = preflight(parse_script(f"{HEAD}WENNA: The office.\n"), lettering=lettering)
    pdf = pikepdf.open(io.BytesIO(to_pdf(report)))
    page = pdf.pages[0]
    assert b"ActualText" not in page.Contents.read_bytes()
    maps = [font.ToUnicode.read_bytes() for font in page.Resources.Font.values()]
    assert any(b"<006600660069>" in one for one in maps)


def test_columns_read_column_by_column() -> None:
    """What lies turned in them as well; a column begins where white space may stand."""
    script = (DATA / "columns" / "shiodome_tategaki.txt").read_text(encoding="utf-8")
    lettering = Lettering(typeface=open_typeface(ROUND), size_pt=8, writing="vertical")
    report = preflight(parse_script(script), lettering=lettering)
    for wanted, read in zip(seen.balloon_texts(report), seen.texts(to_pdf(report)), strict=False):
        bare = [text.replace(" ", "") for text in wanted]
        assert bare
        assert seen.stand_in_order(bare, read.replace(" ", ""))


def test_marks_turned_for_columns_read_as_typed_by_themselves() -> None:
    """The upright forms of 。 and 、 stand in the font's map, for readers that go by glyphs."""
    lettering = Lettering(typeface=open_typeface(ROUND), size_pt=8, writing="vertical")
    report = preflight(
        parse_script("1ページ\n\n1コマ目　門。\nミオ「門、門。」\n"), lettering=lettering
    )
    pdf = pikepdf.open(io.BytesIO(to_pdf(report)))
    maps = [font.ToUnicode.read_bytes() for font in pdf.pages[0].Resources.Font.values()]
    assert any(b"<3002>" in one and b"<3001>" in one for one in maps)


def test_effects_are_listed_in_a_typeface_that_has_their_letters() -> None:
    """The last page of a Japanese script takes kana from the script's own typeface."""
    lettering = Lettering(typeface=open_typeface(ROUND), size_pt=8, writing="vertical")
    typed = "1ページ\n\n1コマ目　夜明けの水門。\nミオ「待て！」\nSFX：ゴゴゴ\n"
    report = preflight(parse_script(typed), lettering=lettering)
    runs = Runs(glyph_source(lettering), Permits(face_source(lettering)))
    check_page(report, glyphs=runs, refused={})
    (told,) = (run for run in runs.kept if "ゴゴゴ" in run.text)
    assert all(spot.glyph_id for spot in told.spots)
    assert len({spot.face for spot in told.spots}) == 2


def test_hostile_text_is_only_text() -> None:
    """Brackets, escapes and half surrogates neither break the file nor vanish unseen."""
    typed = r"Hold) Tj ET (the \( gate] <</JS>> endstream %%EOF"
    report = preflight(parse_script(f"{HEAD}WENNA: {typed}\n"))
    (wanted,) = seen.balloon_texts(report)
    data = to_pdf(report)
    assert seen.stand_in_order(wanted, seen.texts(data)[0])
    assert b"/JS" not in data
    assert len(seen.texts(to_pdf(reports.nasty()))) == 3


def test_a_map_of_codes_has_blocks_of_a_hundred_at_most() -> None:
    """As Adobe Technical Note 5014 asks; what reads nothing is left out."""
    written = to_unicode([(code, chr(0x4E00 + code)) for code in range(250)] + [(999, "")])
    counts = [line for line in written.decode("ascii").split("\n") if "beginbfchar" in line]
    assert counts == ["100 beginbfchar", "100 beginbfchar", "50 beginbfchar"]
    assert b"<00F9> <4EF9>" in written
    assert b"03E7" not in written
