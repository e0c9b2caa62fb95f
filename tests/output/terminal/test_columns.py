"""Vertical text in a terminal: columns from right to left in squares of two cells."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from letterfit.fit.model import FittedBalloon, Line
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.output.terminal.balloon import balloon_to_text
from letterfit.output.terminal.columns import columns_grid
from tests.output import reports

EM = 2.6
PITCH = 3.2


def columns(*texts: str) -> tuple[Line, ...]:
    """Columns of characters of one em, centred on the outline."""
    count = len(texts)
    return tuple(
        Line(text, ((count - 1) / 2 - k) * PITCH, -len(text) * EM / 2, len(text) * EM, (), True)
        for k, text in enumerate(texts)
    )


def balloon(*texts: str, outline: Outline | None = None) -> FittedBalloon:
    """A vertical balloon of these columns."""
    round_ = outline or Ellipse(half_width=8, half_height=14)
    flat = reports.fitted("".join(texts), round_)
    return replace(flat, lines=columns(*texts), vertical=True)


def test_columns_run_from_right_to_left() -> None:
    """The first column is the rightmost; each is centred on the others."""
    grid = columns_grid(columns("潮が", "引くまで", "待て"))
    assert grid is not None
    assert grid.rows == ("   引   ", "待 く 潮", "て ま が", "   で   ")


def test_brackets_and_dashes_are_drawn_turned() -> None:
    """Unicode's vertical forms: Vertical Forms and CJK Compatibility Forms."""
    grid = columns_grid(columns("「ゲート。」"))
    assert grid is not None
    assert grid.rows == ("﹁", "ゲ", "︱", "ト", "︒", "﹂")


def test_numbers_in_one_cell_share_a_square() -> None:
    """Two digits stand side by side, as they are lettered."""
    line = Line("12番", 0.0, -EM, 2 * EM, (), True)
    grid = columns_grid((line,))
    assert grid is not None
    assert grid.rows == ("12", "番")


def test_the_outline_stands_round_the_columns() -> None:
    """Every row of columns lies between the outline's sides, which follow an ellipse."""
    text = balloon_to_text(balloon("潮が引くまで", "水門は開かない", "ぞ。"))
    rows = text.splitlines()
    drawn = rows[: rows.index("")]
    assert drawn[0].lstrip().startswith(".-")
    assert drawn[-1].lstrip().startswith("'-")
    assert all(row.lstrip()[0] == "(" and row[-1] == ")" for row in drawn[1:-1])
    widths = [cell_len(row) - 2 * (cell_len(row) - cell_len(row.lstrip())) for row in drawn[1:-1]]
    assert max(widths) > min(widths)
    assert "ellipse 16.0 x 28.0 mm" in text
    assert "1 word in 3 columns at 7.5 pt" in text


def test_a_caption_has_straight_sides() -> None:
    """A vertical caption's box has one width."""
    text = balloon_to_text(balloon("夜明け", outline=CaptionBox(half_width=3, half_height=6)))
    rows = text.splitlines()
    drawn = rows[: rows.index("")]
    assert len({row.index("|") for row in drawn[1:-1]}) == 1


@given(
    texts=st.lists(
        st.text(st.sampled_from("潮「」ー。a12!?\u0301\u200b "), min_size=1), min_size=1
    ),
    width=st.integers(20, 120),
)
def test_any_columns_stay_within_the_width(texts: list[str], width: int) -> None:
    """Many columns, long ones, empty ones: no line is too long, and none is lost silently."""
    printed = balloon_to_text(balloon(*texts), width=width)
    assert max(map(cell_len, printed.splitlines())) <= width
