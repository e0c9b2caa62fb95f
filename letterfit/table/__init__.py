"""Tables: many texts, each in its own given outline, fitted in one go; if asked, at one size."""

from letterfit.table.fitting import fit_table
from letterfit.table.model import CommonSize, FittedRow, FittedTable, TextRow
from letterfit.table.reading import parse_table, read_table

__all__ = [
    "CommonSize",
    "FittedRow",
    "FittedTable",
    "TextRow",
    "fit_table",
    "parse_table",
    "read_table",
]
