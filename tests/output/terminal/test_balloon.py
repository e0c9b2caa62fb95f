"""One balloon in text: the stack inside its outline, then what it measures."""

import math
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from letterfit.fit.model import Overflow
from letterfit.outline import CaptionBox, Ellipse, RoundedRect
from letterfit.output.terminal.balloon import balloon_to_text
from tests.output import reports


def test_the_stack_is_drawn_in_its_outline() -> None:
    """Each line stands between the outline's sides, the middle ones further apart."""
    round_ = Ellipse(half_width=16, half_height=9)
    rows = balloon_to_text(reports.fitted("HOLD THE GATE NOW OLD THING", round_)).splitlines()
    assert [row.strip(" ()") for row in rows[1:4]] == ["HOLD THE", "GATE NOW", "OLD THING"]
    widths = [row.rindex(")") - row.index("(") for row in rows[1:4]]
    assert widths[1] >= widths[0]
    assert widths[1] >= widths[2]
    assert rows[0].lstrip().startswith(".-")
    assert rows[4].lstrip().startswith("'-")


def test_every_row_has_the_same_middle() -> None:
    """The drawing is symmetric to half a cell."""
    text = "WE HAVE UNTIL THE TIDE TURNS, NOT A MINUTE MORE"
    rows = balloon_to_text(reports.fitted(text, Ellipse(half_width=23, half_height=11)))
    drawn = rows.split("\n\n", maxsplit=1)[0].splitlines()
    middles = {(len(row) + len(row) - len(row.lstrip())) / 2 for row in drawn}
    assert len(middles) == 1


def test_the_measures_are_given_in_mm() -> None:
    """Size, area and the distance from the letters to the outline."""
    text = balloon_to_text(reports.fitted("HOLD.", CaptionBox(half_width=18, half_height=4)))
    assert "✓ Fits: 1 word in 1 line at 7.5 pt." in text
    assert "caption box 36.0 x 8.0 mm, 288 mm²; letters keep 1.23 mm from it" in text


def test_a_text_that_does_not_fit_says_what_would_do() -> None:
    """Words left over, the size that fits, the outline that would hold it."""
    needed = Ellipse(half_width=20, half_height=9)
    over = Overflow(words=2, size_pt=6.4, outline=needed)
    text = balloon_to_text(reports.fitted("HOLD IT NOW.", overflow=over))
    assert "✗ Does not fit: 2 of 3 words left over at 7.5 pt." in text
    folded = " ".join(text.split())
    assert (
        "It fits at 6.4 pt; the smallest of its kind that holds it: ellipse 40.0 x 18.0" in folded
    )


def test_a_size_that_nobody_can_read_is_not_offered() -> None:
    """Under the least legible size the outline alone is a remedy; the limit is told as advice."""
    over = Overflow(words=2, size_pt=5.99, outline=Ellipse(half_width=20, half_height=9))
    fitted = reports.fitted("HOLD IT NOW.", overflow=over)
    folded = " ".join(balloon_to_text(fitted).split())
    assert "at 5.99 pt" not in folded
    assert "It fits at no legible size: the least is 6 pt (common practice; advice)" in folded
    assert "ellipse 40.0 x 18.0" in folded
    assert "It fits at 5.99 pt" in " ".join(balloon_to_text(fitted, least_size_pt=5.5).split())


def test_a_text_that_fits_at_no_size_says_so() -> None:
    """Without a size that fits, only the outline that would do is offered."""
    over = Overflow(
        words=1, size_pt=None, outline=RoundedRect(half_width=9, half_height=5, radius=2)
    )
    text = balloon_to_text(reports.fitted("HOLD.", overflow=over))
    assert "it fits at no legible size" in text.lower()
    assert "rounded box 18.0 x 10.0 mm" in text


@given(
    text=st.text(st.characters(exclude_categories=()), min_size=1, max_size=200),
    width=st.integers(20, 120),
)
def test_any_text_stays_within_the_width(text: str, width: int) -> None:
    """A word of any length, any script, any control: no line is too long, no escape gets out."""
    printed = balloon_to_text(reports.fitted(text), width=width)
    assert max(map(cell_len, printed.splitlines())) <= width
    assert "\x1b" not in printed


def test_a_text_without_ink_has_no_distance() -> None:
    """An infinite clearance is not printed."""
    bare = replace(reports.fitted("HOLD."), clearance_mm=math.inf)
    assert "keep" not in balloon_to_text(bare)
