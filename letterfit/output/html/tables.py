"""Tables with a caption, and a heading for every column and every row."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from letterfit.output.html.markup import classed, element, words


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A column.

    Args:
        text: Its heading.
        number: Whether its cells are numbers, set flush right.
    """

    text: str
    number: bool = False


def table(heads: Sequence[Head], rows: Iterable[Sequence[str]], *, caption: str) -> str:
    """A table; the first cell of a row is its heading.

    Args:
        heads: The columns.
        rows: Cells, already written, one for each column.
        caption: What the table is about.

    Returns:
        The table in a box of its own, which scrolls where a screen is too narrow.
    """
    head = [
        element("th", words(one.text), attributes={"scope": "col", **_class(one)}) for one in heads
    ]
    body = [element("tr", _cells(heads, row)) for row in rows]
    parts = [
        element("caption", words(caption)),
        element("thead", [element("tr", head)]),
        element("tbody", body),
    ]
    return classed("div.scroll", [element("table", parts)])


def _cells(heads: Sequence[Head], row: Sequence[str]) -> list[str]:
    own = [_class(one) for one in heads]
    first, *others = row
    return [
        element("th", first, attributes={"scope": "row", **own[0]}),
        *(element("td", cell, attributes=kind) for kind, cell in zip(own[1:], others, strict=True)),
    ]


def _class(one: Head) -> dict[str, str]:
    return {"class": "number"} if one.number else {}
