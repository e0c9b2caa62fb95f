"""The report's figures as CSV: a row for each panel, the figures those of the JSON."""

import csv
import io
import json
import re

import pytest

from letterfit.output.report_csv import COLUMNS, to_csv
from letterfit.output.report_json import to_json
from letterfit.paper.read_plans import parse_plans
from letterfit.report.model import ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output import reports

ALL = {"small": reports.small(), "nasty": reports.nasty(), "long": reports.long()}


def rows(report: ScriptReport) -> list[dict[str, str]]:
    """The rows as Python's csv module reads them."""
    return list(csv.DictReader(io.StringIO(to_csv(report), newline=""), strict=True))


def number(cell: str) -> float | None:
    """A cell as a spreadsheet takes it."""
    return float(cell) if cell else None


@pytest.mark.parametrize("report", ALL.values(), ids=ALL)
def test_there_is_a_row_for_each_panel_with_the_figures_of_the_json(report: ScriptReport) -> None:
    """To the digit; what a panel has none of is an empty cell."""
    told = rows(report)
    pages = json.loads(to_json(report))["pages"]
    panels = [(page["label"], panel) for page in pages for panel in page["panels"]]
    assert len(told) == len(panels)
    for row, (label, panel) in zip(told, panels, strict=True):
        assert list(row) == list(COLUMNS)
        assert f"{row['page']}.{row['panel']}".replace("–", "-") == panel["id"]
        assert row["page"].replace("–", "-") == label
        assert [number(row[side]) for side in ("x_mm", "y_mm", "width_mm", "height_mm")] == panel[
            "rect"
        ]
        for name in ("line", "words", "coverage_percent", "effects_percent"):
            assert number(row[name]) == panel[name]
        assert number(row["balloons"]) == len(panel["balloons"])
        placed = panel["verdict"] == "placed"
        assert (row["fits"] == "no") is not placed
        assert number(row["figure_height_mm"]) == (panel["figure_height_mm"] if placed else None)
        overflow = panel["overflow"] or {}
        assert number(row["cut_words"]) == overflow.get("words")
        assert number(row["needed_height_mm"]) == overflow.get("height_mm")
        assert number(row["needed_size_pt"]) == overflow.get("size_pt")


@pytest.mark.parametrize("report", ALL.values(), ids=ALL)
def test_a_row_is_a_line_and_no_cell_is_run_or_taken_for_a_date(report: ScriptReport) -> None:
    """Whatever the script holds: no formula, no escape code, no "4-5" that becomes a day."""
    text = to_csv(report)
    assert "\x1b" not in text
    assert text.count("\r\n") == text.count("\n") == len(rows(report)) + 1
    for row in rows(report):
        for cell in row.values():
            assert number_like(cell) or not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
            assert not re.fullmatch(r"\d+[-/.]\d+([-/.]\d+)?", cell) or number_like(cell)


def number_like(cell: str) -> bool:
    """Whether a cell is a number."""
    return re.fullmatch(r"-?\d+(\.\d+)?", cell) is not None


def test_units_stand_in_the_headings() -> None:
    """Every figure that has a unit says it."""
    units = ("_mm", "_percent", "_pt", "_words")
    counted = {"page", "tier", "panel", "line", "fits", "words", "balloons", "framing"}
    assert [c for c in COLUMNS if not c.endswith(units)] == [
        c for c in COLUMNS if c in counted | {"reading_order", "found"}
    ]


def test_tiers_stacks_and_panels_that_bleed_are_told_by_their_place() -> None:
    """Panels of a stack are in their tier; where a panel leaves the page is a negative number."""
    text = "PAGE 1\n" + "".join(f"Panel {n}. The gate.\nWENNA: Hold.\n" for n in range(1, 6))
    plans = parse_plans('[page.1]\ntiers = "2:(1/1) / 1[bottom-right 0.4x0.4]"\n')
    told = rows(preflight(parse_script(text), plans=plans))
    assert [(row["tier"], row["panel"]) for row in told] == [
        ("1", "1"), ("1", "2"), ("1", "3"), ("2", "4"), ("2", "5"),
    ]  # fmt: skip
    assert {row["fits"] for row in told} == {"yes"}


def test_findings_and_the_steady_distance_are_told() -> None:
    """What was found of a panel in words, and what would keep the steady distance."""
    words = "The tide will not wait for any of us, and nobody has come to ask why. " * 3
    silent = "".join(f"Panel {n}. The sea.\n" for n in range(2, 13))
    text = f"PAGE 1\nPanel 1. Gate.\nWENNA: {words}\n{silent}"
    first, second, *_ = rows(preflight(parse_script(text)))
    assert first["fits"] == "against advice"
    assert "words in the panel, over 35" in first["found"]
    assert second["found"] == ""
    assert float(first["steady_height_mm"]) > float(first["figure_height_mm"])
    assert first["steady_cut_words"] or first["steady_tier_mm"] or first["steady_width_mm"]
    assert second["steady_height_mm"] == ""
