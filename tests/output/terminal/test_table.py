"""A fitted table in text: 80 columns, a verdict for each row, the one size and what binds it."""

from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from letterfit.outline import CaptionBox, Ellipse
from letterfit.output.terminal.table import table_to_text
from letterfit.table.fitting import fit_table
from letterfit.table.model import TextRow

SPEECH = "The tide turned an hour ago, and nobody has come to ask why the gate is shut."
HAIL = TextRow(id="1.1", text="Ahoy!", outline=CaptionBox(half_width=12, half_height=5))
OVER = TextRow(id="1.2", text=SPEECH, outline=Ellipse(half_width=15, half_height=8))
TINY = TextRow(id="1.3", text=SPEECH, outline=Ellipse(half_width=8, half_height=4))


def folded(text: str) -> str:
    """The words alone, one space apart."""
    return " ".join(text.split())


def test_each_row_has_its_verdict() -> None:
    """What fits, what a size or an outline would help, and what no legible size does."""
    text = table_to_text(fit_table([HAIL, OVER, TINY]), width=140)
    assert text.startswith("✗ 2 of 3 texts do not fit at 7.5 pt.\n")
    assert "fits, " in text
    assert "6 words over; fits at 6.74 pt, or in 33.1 x 17.7 mm" in text
    assert "fits at no legible size (least 6 pt), but in 33.7 x 16.9 mm" in text
    assert text.endswith("The least legible size is 6 pt: common practice and advice.\n")
    assert "One size" not in text


def test_a_table_that_fits_says_so_first() -> None:
    """Without advice on sizes."""
    assert table_to_text(fit_table([HAIL])).startswith("✓ The text fits at 7.5 pt.\n")
    text = table_to_text(fit_table([HAIL, TextRow(id="b", text="No.", outline=HAIL.outline)]))
    assert text.startswith("✓ All 2 texts fit at 7.5 pt.\n")
    assert "least" not in text


def test_the_one_size_is_told_with_what_binds_it() -> None:
    """And what it would be without; those left out are named."""
    text = folded(table_to_text(fit_table([HAIL, OVER, TINY], common=True)))
    assert "✗ 1 of 3 texts does not fit at 6.74 pt." in text
    assert "One size for all but those left out: 6.74 pt, not 7.5." in text
    assert "1.2 binds: without, it would be 7.5 pt." in text
    assert "Left out, for want of fewer words or a larger outline: 1.3." in text
    none = folded(table_to_text(fit_table([TINY], common=True)))
    assert "No text fits at any size from 6 pt up." in none
    asked = folded(table_to_text(fit_table([HAIL], common=True)))
    assert "One size for all: 7.5 pt, as asked." in asked


def test_many_ids_are_counted() -> None:
    """A dozen are named."""
    rows = [TextRow(id=f"r{n}", text=SPEECH, outline=TINY.outline) for n in range(15)]
    assert "r10, r11 and 3 more." in folded(table_to_text(fit_table(rows, common=True)))


def test_what_is_lost_is_told_under_the_table() -> None:
    """With the id of its row."""
    lost = TextRow(id="x", text="Ahoy \ue000!", outline=OVER.outline)
    text = table_to_text(fit_table([HAIL, lost]))
    assert text.startswith("✗ 1 text of 2 with letters that no font has.\n")
    assert "x: " in text


@settings(max_examples=40)
@given(
    name=st.text(min_size=1, max_size=200),
    text=st.text(min_size=1, max_size=60).map(lambda text: f"a{text}"),
)
def test_no_line_is_wider_than_the_screen(name: str, text: str) -> None:
    """Whatever the id and the text; no escape gets out."""
    row = TextRow(id=name, text=text, outline=OVER.outline)
    printed = table_to_text(fit_table([row, TINY]))
    assert max(map(cell_len, printed.splitlines())) <= 80
    assert "\x1b" not in printed
