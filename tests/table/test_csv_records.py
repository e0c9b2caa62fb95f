"""CSV to records: RFC 4180, and what spreadsheets write instead."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import TableError
from letterfit.table.csv_records import DELIMITERS, csv_records
from letterfit.table.records import MOST_ROWS, REQUIRED

HEAD = "id,text,outline,width,height"
CELLS = st.text(
    st.characters(blacklist_categories=("Cs", "Cc"), whitelist_characters="\n\r\t"), max_size=30
)


@given(
    rows=st.lists(st.tuples(*[CELLS] * 5), min_size=1, max_size=4),
    delimiter=st.sampled_from(DELIMITERS),
    ends=st.sampled_from(["\r\n", "\n"]),
)
def test_what_pythons_own_writer_writes_is_read(
    rows: list[tuple[str, ...]], delimiter: str, ends: str
) -> None:
    """Any cells, each delimiter, both line ends: every cell comes back (csv, standard library)."""
    file = io.StringIO(newline="")
    # With LF alone, Python 3.11's writer leaves a lone CR without the quotes it needs.
    if ends == "\r\n":
        writer = csv.writer(file, delimiter=delimiter, lineterminator=ends)
    else:
        writer = csv.writer(file, delimiter=delimiter, lineterminator=ends, quoting=csv.QUOTE_ALL)
    writer.writerows([REQUIRED, *rows])
    kept = [row for row in rows if any(cell.strip() for cell in row)]
    records = csv_records(file.getvalue(), source="")
    assert [record.cells for record in records] == [
        {name: cell for name, cell in zip(REQUIRED, row, strict=True) if cell.strip()}
        for row in kept
    ]


def test_the_forms_of_rfc_4180() -> None:
    """Section 2, rules 5 to 7: quoted cells, line breaks and commas in them, doubled quotes."""
    text = f'{HEAD}\r\n"1","He said ""no"", and\r\nleft.","ellipse","20","10"\r\n'
    (record,) = csv_records(text, source="")
    assert record.cells["text"] == 'He said "no", and\r\nleft.'
    assert record.cells["id"] == "1"


def test_a_row_stands_where_it_begins() -> None:
    """Line ends inside cells and blank lines are counted, so that an editor finds the row."""
    text = f'{HEAD}\n1,"a\nb\nc",ellipse,20,10\n\n,,,,\n2,d,ellipse,20,10\n'
    assert [record.place for record in csv_records(text, source="")] == ["line 2", "line 7"]


def test_columns_may_stand_in_any_order_and_case_with_others_between() -> None:
    """What a translator keeps beside the texts is not read."""
    text = "Height,Notes,TEXT , width,Outline,Id\n10,mine,Ahoy!,20,ellipse,a\n"
    (record,) = csv_records(text, source="")
    assert {name: record.cells[name] for name in REQUIRED} == {
        "id": "a",
        "text": "Ahoy!",
        "outline": "ellipse",
        "width": "20",
        "height": "10",
    }


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("id,text\n1,Ahoy!\n", "no column is called outline, width, height"),
        (f"{HEAD},Text\n", "two columns are called 'text'"),
        (f'{HEAD}\n1,"Ahoy!,ellipse,20,10\n', "t.csv:2: this is no CSV"),
        (f'{HEAD}\n1,"Ahoy!"now,ellipse,20,10\n', "t.csv:2: this is no CSV"),
        (",,,\n,,\n", "no column is called id"),
        (f"{HEAD}\n" + "1\n" * (MOST_ROWS + 1), "over 10,000 rows"),
    ],
)
def test_a_file_that_is_no_table_is_told_in_one_line(text: str, said: str) -> None:
    """Missing and doubled columns, open quotes, too many rows."""
    with pytest.raises(TableError) as caught:
        csv_records(text, source="t.csv")
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_cell_under_no_name_is_a_fault() -> None:
    """A comma too many shifts cells: the row is refused, not guessed at; empty ones do no harm."""
    rows = csv_records(f"{HEAD}\n1,Hm, no,ellipse,20,10\n2,Ahoy!,ellipse,20,10,,\n", source="")
    assert [bool(record.faults) for record in rows] == [True, False]


def test_the_limit_of_the_csv_module_is_left_as_it_was() -> None:
    """A cell over it is read all the same, and refused later by the name of its row."""
    limit = csv.field_size_limit()
    (record,) = csv_records(f"{HEAD}\n1,{'a' * (limit + 1)},ellipse,20,10\n", source="")
    assert len(str(record.cells["text"])) == limit + 1
    assert csv.field_size_limit() == limit
