"""A fitted table as JSON: the one size if asked for, then every row as a balloon is told."""

from letterfit.output import numbers
from letterfit.output.balloon_json import finding_json, fitted_json
from letterfit.output.json_text import JsonObject, dump
from letterfit.output.plain import plain
from letterfit.table.model import CommonSize, FittedRow, FittedTable


def table_to_json(table: FittedTable) -> str:
    """A fitted table as JSON.

    Args:
        table: The table.

    Returns:
        Indented JSON with a line feed at the end. A row has what `balloon_to_json` tells of a
        balloon, its id, where it stood in the file, and "largest_size_pt": the largest size, up to
        the one asked for, at which it fits; null under the least legible one (common practice;
        advice).

    >>> import json
    >>> import letterfit as lf
    >>> row = lf.TextRow(id="1.1", text="Ahoy!", outline=lf.Ellipse(half_width=12, half_height=6))
    >>> json.loads(table_to_json(lf.fit_table([row])))["rows"][0]["fits"]
    True
    """
    return dump(
        {
            "fits": table.fits,
            "asked_pt": numbers.points(table.asked_pt),
            "size_pt": numbers.points(table.size_pt),
            "least_size_pt": numbers.points(table.least_size_pt),
            "common_size": None if table.common is None else _common(table.common),
            "rows": [_row(row, table) for row in table.rows],
        }
    )


def _common(common: CommonSize) -> JsonObject:
    return {
        "size_pt": numbers.points_down_or_none(common.size_pt),
        "bound_by": [plain(name) for name in common.bound_by],
        "without_pt": numbers.points_down_or_none(common.without_pt),
        "left_out": [plain(name) for name in common.left_out],
    }


def _row(row: FittedRow, table: FittedTable) -> JsonObject:
    return {
        "id": plain(row.row.id),
        "place": plain(row.row.place),
        "largest_size_pt": numbers.points_down_or_none(row.largest_size_pt),
        **fitted_json(row.fitted, least_size_pt=table.least_size_pt),
        "findings": [finding_json(finding) for finding in row.fitted.findings],
    }
