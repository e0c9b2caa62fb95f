"""Small text: its ink lies in the room it says it takes; its lines end where they are full."""

from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from letterfit.geometry import Insets, Point
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.figures_labels import AIR_MM
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.small_text import TextBlock, cut_off, width_mm, wrapped
from tests.output.svg import sheets

GLYPHS = Glyphs(glyph_source(None))


@given(text=st.text("abgjpqyAQ0123456789 mf…·()%", min_size=1, max_size=40))
def test_ink_lies_in_the_room_that_is_claimed(text: str) -> None:
    """By fontTools' reading of the outlines; a j hangs into the air that words keep beside them."""
    block = wrapped(text, size_pt=4.6, most_mm=20)
    if not block.lines:
        return
    room = block.box(10, 10)
    drawn = "".join(block.drawn(room, colour="#000000", glyphs=GLYPHS))
    ink = sheets.ink(ET.fromstring(f"<g>{drawn}</g>"))  # noqa: S314 - our own output
    if ink is not None:
        assert room.inset(Insets(left=-AIR_MM, right=-AIR_MM)).holds(ink, tolerance=2e-3)


@given(text=st.text("ab cdé\n\t", max_size=80), most=st.floats(0, 30))
def test_no_line_is_too_wide(text: str, most: float) -> None:
    """However narrow: what has no room is cut off."""
    block = wrapped(text, size_pt=5, most_mm=most)
    assert all(width_mm(line, size_pt=5) <= most for line in block.lines)


def test_no_word_is_lost_where_each_has_room() -> None:
    """Wrapping only chooses where lines end."""
    text = "2.1 holds 32 mm, not 49: make the tier 77 mm high"
    lines = wrapped(text, size_pt=5, most_mm=25).lines
    assert len(lines) > 1
    assert " ".join(lines).replace("\N{NO-BREAK SPACE}", " ") == text


def test_a_number_is_not_parted_from_its_unit() -> None:
    """At no width does a line begin with mm."""
    text = "make the tier 77 mm high or cut 3 words or 6 pt"
    for most in range(8, 60):
        lines = wrapped(text, size_pt=5, most_mm=most).lines
        assert not any(line.startswith(("mm", "words", "pt")) for line in lines)


def test_a_word_that_is_too_wide_is_cut_off_with_an_ellipsis() -> None:
    """As much of it as there is room for; nothing in no room."""
    cut = cut_off("lockkeeper", size_pt=5, most_mm=6)
    assert cut.endswith("…")
    assert "lockkeeper".startswith(cut[:-1])
    assert cut_off("lockkeeper", size_pt=5, most_mm=0.1) == ""
    assert cut_off("lock", size_pt=5, most_mm=60) == "lock"


def test_lines_may_be_centred() -> None:
    """The shorter line has as much air on either side."""
    block = TextBlock(("76 mm", "full"), 5)
    drawn = block.drawn(block.box(0, 0), colour="#000000", glyphs=GLYPHS, centred=True)
    first, second = (
        sheets.ink(ET.fromstring(f"<g>{line}</g>"))  # noqa: S314 - our own output
        for line in drawn
    )
    assert first is not None
    assert second is not None
    assert abs(first.centre.x - second.centre.x) < 0.15
    assert Point(0, 0).distance(Point(0, second.y)) > first.bottom - 0.6
