"""CSV: RFC 4180 by its grammar and by Python's own reader; nothing that a spreadsheet would run."""

import csv
import io
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.output.csv_text import Cell, csv_text, words_cell
from letterfit.output.plain import plain

RECORD = re.compile(r'(?:(?:"(?:[^"]|"")*"|[^",\r\n]*)(?:,|\r\n))+')
"""RFC 4180, section 2: escaped = DQUOTE *(TEXTDATA / COMMA / CR / LF / 2DQUOTE) DQUOTE, or not."""

STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""The list is that of OWASP's page on CSV Injection, from memory."""

NUMBERS = st.floats(-99_999, 99_999).map(lambda value: round(value, 3))
CELLS = st.none() | NUMBERS | st.integers(-10_000, 10_000) | st.text()


def read(text: str) -> list[list[str]]:
    """The rows as Python's csv module reads them."""
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


@given(rows=st.lists(st.lists(CELLS, min_size=3, max_size=3), max_size=5))
def test_what_is_written_is_read_again(rows: list[list[Cell]]) -> None:
    """Words come back but for the guard before a formula, numbers to the last digit."""
    text = csv_text(("a", "b", "c"), rows)
    head, *body = read(text)
    assert head == ["a", "b", "c"]
    assert len(body) == len(rows)
    assert RECORD.fullmatch(text)
    for written, found in zip(rows, body, strict=True):
        for value, cell in zip(written, found, strict=True):
            if value is None:
                assert cell == ""
            elif isinstance(value, str):
                assert cell.removeprefix("'") == plain(value).removeprefix("'")
            else:
                assert float(cell) == value


@given(text=st.text())
def test_no_words_begin_as_a_formula(text: str) -> None:
    """Whatever they are; what is harmless is left as it is."""
    cell = words_cell(text)
    assert not cell.startswith(STARTS)
    assert text.startswith(STARTS) or cell == plain(text)


@pytest.mark.parametrize("start", STARTS)
def test_each_start_of_a_formula_is_guarded(start: str) -> None:
    """Words only: a number that is negative stays a number."""
    assert words_cell(f"{start}1").startswith("'")
    assert read(csv_text(("a", "b"), [(f"{start}1", -1.5)]))[1] == [f"'{start}1", "-1.5"]


def test_numbers_have_no_exponent_and_no_idle_digits() -> None:
    """As a person types them."""
    _, found = read(csv_text("abcdef", [(0.0, 1.0, 12.5, 1234.567, 100_000, -3.175)]))
    assert found == ["0", "1", "12.5", "1234.567", "100000", "-3.175"]


def test_the_grammar_above_can_fail() -> None:
    """A quote inside a plain cell is none of RFC 4180's."""
    assert not RECORD.fullmatch('a "b\r\n')
