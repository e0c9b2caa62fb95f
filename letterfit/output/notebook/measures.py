"""What pages measure, in a notebook: the tables of the terminal, letter under letter."""

from letterfit.output.terminal.measures import comparison_to_text, measures_to_text
from letterfit.report.comparing import PageComparison
from letterfit.report.measures import PageMeasures
from letterfit.shown import as_text


@as_text.register
def measures_text(value: PageMeasures) -> str:
    """One page."""
    return measures_to_text(value).rstrip("\n")


@as_text.register
def comparison_text(value: PageComparison) -> str:
    """Two pages side by side."""
    return comparison_to_text(value).rstrip("\n")
