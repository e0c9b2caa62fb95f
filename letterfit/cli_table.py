"""The command line's tables: `letterfit fit --table`, many texts into given outlines."""

import functools
import math
import sys
from collections.abc import Callable, Collection
from typing import TypeVar

import click
from click.core import ParameterSource

import letterfit as lf
from letterfit.cli_files import write_csv
from letterfit.cli_kept import keep, kept
from letterfit.cli_outputs import Output, Writing, chosen_outputs
from letterfit.cli_screen import progress_bar, screen_colour, screen_width
from letterfit.table.model import LEAST_SIZE_PT
from letterfit.table.reading import MOST_BYTES

Command = TypeVar("Command", bound=Callable[..., object])

TAKES_ONE_TEXT = ("text", "outline", "width", "height", "breaks", "joined", "then", "svg_file")
"""Parameters of `fit` that are for a single text."""

NEEDS_TABLE = ("common_size", "csv_file")


def _keep_size(context: click.Context, option: click.Parameter, value: float) -> None:
    if not math.isfinite(value):
        raise click.BadParameter(f"{value} is no size.")
    keep(context, option, value)


_OPTIONS = (
    click.option(
        "--table",
        "table",
        metavar="FILE",
        expose_value=False,
        callback=keep,
        help="Many texts, each in its own outline: CSV or JSON with id, text, outline, width and "
        "height, and if wanted exponent, radius, language; - reads standard input.",
    ),
    click.option(
        "--common-size",
        "common_size",
        is_flag=True,
        expose_value=False,
        callback=keep,
        help="One type size for the whole table, the largest up to --size that they allow.",
    ),
    click.option(
        "--least-size",
        "least_size",
        type=click.FloatRange(0, min_open=True),
        default=LEAST_SIZE_PT,
        show_default=True,
        metavar="PT",
        expose_value=False,
        callback=_keep_size,
        help="The least legible size, pt (advice): no smaller one is offered.",
    ),
    click.option(
        "--csv",
        "csv_file",
        metavar="F",
        expose_value=False,
        callback=keep,
        help="Write the fitted table as CSV to a file; - for stdout.",
    ),
)


class Fitting(Writing):
    """A command with the options of tables; a text is no file, a table is one."""

    def read(self, ctx: click.Context) -> tuple[str, ...]:  # noqa: ARG002 - asked of all commands
        """The table."""
        table = kept()["table"]
        return () if table is None else (table,)

    def written(self, ctx: click.Context) -> tuple[Output, ...]:
        """The table's CSV among it, which is no parameter of the command's function."""
        return chosen_outputs({**ctx.params, "csv_file": kept()["csv_file"]})


def table_options(command: Command) -> Command:
    """Add the options of tables; the command calls `chosen_table()` and `chosen_least_size()`."""
    return functools.reduce(lambda done, option: option(done), reversed(_OPTIONS), command)


def chosen_least_size() -> float:
    """The least legible size that the running command was asked to keep to."""
    least: float = kept()["least_size"]
    return least


def one_text(text: str | None) -> str | None:
    """The single text that the running command was given; None when it was given a table.

    Raises:
        UsageError: When it was given both or neither, or an option that goes with the other.
    """
    context = click.get_current_context()
    table = kept()["table"]
    if table is None:
        if text is None:
            raise click.UsageError("Give a TEXT, or --table FILE.")
        _refuse(context, NEEDS_TABLE, "{} goes with --table.")
        return text
    _refuse(context, TAKES_ONE_TEXT, "{} does not go with --table.")
    return None


def _refuse(context: click.Context, names: Collection[str], message: str) -> None:
    for option in context.command.params:
        given = context.get_parameter_source(option.name or "")
        if option.name in names and given is not ParameterSource.DEFAULT:
            shown = option.opts[0] if isinstance(option, click.Option) else "TEXT"
            raise click.UsageError(message.format(shown))


def tell_table(
    lettering: lf.Lettering,
    *,
    language: str,
    json_file: str | None,
    write: Callable[[str, str], None],
    show: Callable[[str], None],
) -> bool:
    """Fit the table that the running command was given, then write and show it as asked.

    Args:
        lettering: How its texts are lettered.
        language: The language of rows that name none.
        json_file: Where JSON goes; "-" is standard output, where no text goes then.
        write: Writes a text under a file's name.
        show: Prints a text.

    Returns:
        Whether every row fits.

    Raises:
        LetterfitError: When the table or the lettering cannot be used.
        UsageError: When two formats are to go to standard output.
    """
    chosen = kept()
    csv_file: str | None = chosen["csv_file"]
    if json_file == csv_file == "-":
        raise click.UsageError("Only one of --json and --csv can go to standard output.")
    name = "standard input" if chosen["table"] == "-" else chosen["table"]
    rows = _rows(chosen["table"])
    try:
        with progress_bar(len(rows), what="Fitting texts") as progress:
            table = lf.fit_table(
                rows,
                lettering,
                common=chosen["common_size"],
                least_size_pt=chosen["least_size"],
                language=language,
                progress=progress,
            )
    except lf.TableError as error:
        raise lf.TableError(error.what, advice=error.advice, source=name) from error
    if json_file is not None:
        write(json_file, lf.table_to_json(table))
    if csv_file is not None:
        write_csv(csv_file, lf.table_to_csv(table))
    if "-" not in (json_file, csv_file):
        show(lf.table_to_text(table, width=screen_width(), colour=screen_colour()))
    return table.fits


def _rows(name: str) -> tuple[lf.TextRow, ...]:
    if name != "-":
        return lf.read_table(name)
    if sys.stdin is None:
        raise click.UsageError("Standard input is closed.")
    return lf.parse_table(sys.stdin.buffer.read(MOST_BYTES + 1), source="standard input")
