"""Files of texts and outlines: what they are is told from their content."""

import csv
import io
import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import TableError
from letterfit.table.reading import MOST_BYTES, parse_table, read_table

TEXT = "id,text,outline,width,height\n1.1,“Ahoy!” É,ellipse,20,10\n"
NAMES = ("id", "text", "outline", "width", "height", "exponent", "language")

ROWS = st.lists(
    st.fixed_dictionaries(
        {
            "id": st.from_regex(r"[a-z0-9.=-]{1,6}", fullmatch=True),
            "text": st.text(st.characters(exclude_categories=("Cs", "Cc"))).filter(str.strip),
            "outline": st.just("superellipse"),
            "width": st.integers(1, 90) | st.floats(1, 90),
            "height": st.integers(1, 90) | st.floats(1, 90),
            "exponent": st.none() | st.floats(1.5, 8),
            "language": st.none() | st.sampled_from(["fr", "de-CH"]),
        }
    ),
    min_size=1,
    max_size=6,
    unique_by=lambda row: row["id"],
)


def as_csv(rows: list[dict[str, object]]) -> bytes:
    """The rows as Python's csv module writes them."""
    file = io.StringIO(newline="")
    writer = csv.DictWriter(file, NAMES)
    writer.writeheader()
    writer.writerows(rows)
    return file.getvalue().encode("utf-8")


@given(rows=ROWS)
def test_csv_and_json_of_the_same_rows_are_the_same_table(rows: list[dict[str, object]]) -> None:
    """But for the places, which are lines in one and rows in the other."""
    read = parse_table(as_csv(rows)), parse_table(json.dumps(rows).encode())
    told = [[(r.id, r.text, r.outline, r.language) for r in table] for table in read]
    assert told[0] == told[1]
    assert [name for name, *_ in told[0]] == [row["id"] for row in rows]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_the_encodings_that_spreadsheets_write_are_read(encoding: str) -> None:
    """UTF-8 with and without a byte order mark, UTF-16 with one (Unicode 17, section 23.8)."""
    mark = "\ufeff" if encoding.startswith("utf-16-") else ""
    (row,) = parse_table((mark + TEXT).encode(encoding))
    assert (row.id, row.text) == ("1.1", "“Ahoy!” É")


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "t.csv: the table is empty"),
        (b"\xef\xbb\xbf \n", "t.csv: the table is empty"),
        (TEXT.encode("cp1252"), "t.csv:2: the file is not in UTF-8"),
        (TEXT.replace("A", "\0").encode(), "t.csv:2: a NUL character"),
        (b"\xff\xfea", "t.csv:1: the file is not in UTF-8"),
        (b"PK\x03\x04\x14\0\x06\0", "t.csv:1: a NUL character"),
        (b" " * (MOST_BYTES + 1), "t.csv: the file is over 20 MB"),
    ],
)
def test_a_file_that_cannot_be_read_is_told_in_one_line(data: bytes, said: str) -> None:
    """Empty, in another encoding, a spreadsheet's own format, too large."""
    with pytest.raises(TableError) as caught:
        parse_table(data, source="t.csv")
    assert str(caught.value).startswith(said)


@given(data=st.binary(max_size=60) | st.text(max_size=60).map(lambda text: text.encode("utf-8")))
def test_no_bytes_make_it_fail_otherwise(data: bytes) -> None:
    """Rows or a TableError."""
    try:
        rows = parse_table(data)
    except TableError:
        return
    assert rows


def test_a_file_is_read_and_named(tmp_path: Path) -> None:
    """A fault in it is told with its name."""
    path = tmp_path / "texts.csv"
    path.write_text(TEXT, encoding="utf-8")
    assert read_table(path)[0].place == "line 2"
    path.write_text(TEXT.replace("20", "wide"), encoding="utf-8")
    with pytest.raises(TableError, match=r"texts\.csv: 1 row cannot be used: line 2: width"):
        read_table(path)
    with pytest.raises(TableError, match="NUL"):
        read_table("a\0b")
