"""One size for all: the least that rows allow, what binds it, what is left out."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from letterfit.outline import Ellipse
from letterfit.table.common import common_size
from letterfit.table.fitting import fit_table
from letterfit.table.model import FittedRow, TextRow

ROW = TextRow(id="a", text="Ahoy!", outline=Ellipse(half_width=10, half_height=5))
FITTED = fit_table([ROW]).rows[0]


def rows(*sizes: float | None) -> list[FittedRow]:
    """Rows a, b, c and so on that allow these sizes."""
    return [
        replace(FITTED, row=replace(ROW, id="abcdefgh"[n]), largest_size_pt=size)
        for n, size in enumerate(sizes)
    ]


def test_the_least_size_binds_and_the_next_is_told() -> None:
    """Without b the others would allow 7."""
    common = common_size(rows(7.5, 6.2, 7.0), asked_pt=7.5)
    assert (common.size_pt, common.bound_by, common.without_pt) == (6.2, ("b",), 7.0)
    assert common.left_out == ()


def test_rows_that_allow_the_same_bind_together() -> None:
    """Mending one of them alone would change nothing."""
    common = common_size(rows(6.2, 7.5, 6.2), asked_pt=7.5)
    assert (common.bound_by, common.without_pt) == (("a", "c"), 7.5)


def test_rows_that_nothing_helps_are_left_out() -> None:
    """They do not drag the others down; with nothing else there is no size."""
    common = common_size(rows(None, 6.5), asked_pt=7.5)
    assert (common.size_pt, common.bound_by, common.left_out) == (6.5, ("b",), ("a",))
    none = common_size(rows(None, None), asked_pt=7.5)
    assert (none.size_pt, none.bound_by, none.without_pt) == (None, (), None)
    assert none.left_out == ("a", "b")


def test_nothing_binds_where_the_size_asked_for_will_do() -> None:
    """No row is named."""
    common = common_size(rows(7.5, 7.5), asked_pt=7.5)
    assert (common.size_pt, common.bound_by, common.without_pt) == (7.5, (), None)


@given(sizes=st.lists(st.none() | st.floats(6, 7.5), min_size=1, max_size=8), data=st.data())
def test_the_order_of_rows_changes_nothing(sizes: list[float | None], data: st.DataObject) -> None:
    """But for the order in which ids are named."""
    made = rows(*sizes)
    other = data.draw(st.permutations(made))
    told = [common_size(one, asked_pt=7.5) for one in (made, other)]
    assert told[0].size_pt == told[1].size_pt
    assert told[0].without_pt == told[1].without_pt
    assert sorted(told[0].bound_by) == sorted(told[1].bound_by)
    assert sorted(told[0].left_out) == sorted(told[1].left_out)
