"""Values that a notebook only tells: the words and tables of the terminal, letter under letter."""

from letterfit.lettering.fonts.facts import FontFacts
from letterfit.output.terminal.fonts import fonts_to_text
from letterfit.output.terminal.measures import comparison_to_text, measures_to_text
from letterfit.output.terminal.table import table_to_text
from letterfit.report.comparing import PageComparison
from letterfit.report.measures import PageMeasures
from letterfit.shown import as_text
from letterfit.table.model import FittedTable


@as_text.register
def measures_text(value: PageMeasures) -> str:
    """One page."""
    return measures_to_text(value).rstrip("\n")


@as_text.register
def comparison_text(value: PageComparison) -> str:
    """Two pages side by side."""
    return comparison_to_text(value).rstrip("\n")


@as_text.register
def table_text(value: FittedTable) -> str:
    """Texts in their outlines, a row each."""
    return table_to_text(value).rstrip("\n")


@as_text.register
def font_text(value: FontFacts) -> str:
    """One typeface."""
    return fonts_to_text([value]).rstrip("\n")
