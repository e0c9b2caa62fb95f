"""A sheet of terminal text: lines and tables of a fixed width, the same on every machine.

The only module that knows the terminal library, and imports it late: a library user who wants
JSON does not wait for it. Markup in a script's words is never read as markup, environment
variables decide nothing, and no line ends in spaces.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from io import StringIO
from typing import Literal

from letterfit.output.plain import plain

Tone = Literal["", "strong", "quiet", "fits", "doubt", "fails"]
"""What colour says besides words and marks; nothing is said by colour alone."""

STYLES: dict[Tone, str] = {
    "": "",
    "strong": "bold",
    "quiet": "dim",
    "fits": "cyan",
    "doubt": "yellow",
    "fails": "bold magenta",
}


@dataclass(frozen=True, slots=True)
class Cell:
    """Some words in a tone.

    Args:
        text: The words; line feeds are kept in tables.
        tone: How they are coloured, where there is colour.
    """

    text: str
    tone: Tone = ""


def text_of(row: Sequence[Cell | str]) -> str:
    """The words of some cells, one after the other.

    >>> text_of([Cell("✓", "fits"), " ", "all fit"])
    '✓ all fit'
    """
    return "".join(cell.text if isinstance(cell, Cell) else cell for cell in row)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table.

    Args:
        head: What stands over it.
        right: Whether it is set flush right, as numbers are.
        wraps: Whether long cells run on to the next line.
    """

    head: str = ""
    right: bool = False
    wraps: bool = False


class Sheet:
    """Collects lines and tables; `text()` returns them.

    Args:
        width: Cells in a line, at least 20.
        colour: Whether to colour with escape codes.
    """

    def __init__(self, *, width: int = 80, colour: bool = False) -> None:
        from rich.console import Console  # noqa: PLC0415 - late: see the module's docstring

        self._file = StringIO()
        self._console = Console(
            file=self._file,
            width=max(20, width),
            height=10_000,
            force_terminal=colour,
            force_jupyter=False,
            force_interactive=False,
            color_system="standard" if colour else None,
            no_color=not colour,
            legacy_windows=False,
            highlight=False,
            markup=False,
            emoji=False,
            _environ={},
        )

    def line(self, *cells: Cell | str, indent: int = 0) -> None:
        """One paragraph of cells set one after the other, wrapped, its first line not indented.

        Args:
            cells: The words; no space is added between two cells.
            indent: Cells by which the lines after the first are indented.
        """
        from rich.text import Text  # noqa: PLC0415 - late

        words = Text(overflow="fold")
        for cell in cells:
            text, tone = (cell.text, cell.tone) if isinstance(cell, Cell) else (cell, "")
            words.append(_kept(text), style=STYLES[tone])
        lines = words.wrap(self._console, self._console.width - indent)
        for number, part in enumerate(lines):
            part.pad_left(indent if number else 0)
            self._console.print(part, soft_wrap=True)
        if not lines:
            self._console.print()

    def table(self, columns: Sequence[Column], rows: Sequence[Sequence[Cell | str]]) -> None:
        """A table without lines, indented by two cells.

        Args:
            columns: The columns.
            rows: The rows, a cell for each column.
        """
        from rich.padding import Padding  # noqa: PLC0415 - late
        from rich.table import Table  # noqa: PLC0415 - late
        from rich.text import Text  # noqa: PLC0415 - late

        heads = any(column.head for column in columns)
        table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, show_header=heads)
        for column in columns:
            table.add_column(
                Text(column.head, style=STYLES["quiet"]),
                justify="right" if column.right else "left",
                no_wrap=not column.wraps,
                overflow="fold",
            )
        for row in rows:
            cells = [cell if isinstance(cell, Cell) else Cell(cell) for cell in row]
            table.add_row(*(Text(_kept(c.text), style=STYLES[c.tone]) for c in cells))
        self._console.print(Padding(table, (0, 0, 0, 2)))

    def text(self) -> str:
        """All that was written, no line ending in spaces, a line feed at the end."""
        lines = [_SPACES.sub("", line) for line in self._file.getvalue().split("\n")]
        return "\n".join(lines).rstrip("\n") + "\n"


_SPACES = re.compile(r" +(?=(?:\x1b\[[0-9;]*m)*$)")
"""Spaces at the end of a line; codes that end a colour may follow them."""


def _kept(text: str) -> str:
    """The text safe to print; spaces and line feeds stay, since drawings need them."""
    return plain(text).replace("\r", " ").replace("\t", " ")


def cells(text: str) -> int:
    """How many cells of a terminal a text takes (East Asian wide characters take two).

    >>> cells("GATE"), cells("水門")
    (4, 4)
    """
    from rich.cells import cell_len  # noqa: PLC0415 - late

    return cell_len(text)
