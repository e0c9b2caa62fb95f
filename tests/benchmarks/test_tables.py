"""The benchmarks' tables and drawing, made of numbers that are known."""

import json
from collections.abc import Sequence
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
import resvg_py

from tests.benchmarks import growth, machine, memory, tables
from tests.benchmarks.power_law import power_law

SMALL = Path(__file__).with_name("small_run.json")
"""Three benchmarks of a run of pytest-benchmark 5.3.1; what no table reads is left out."""

SIZES = (1, 2, 5, 10, 40)


@pytest.mark.parametrize("exponent", [1, 2, 1.5])
def test_exact_powers_are_found(exponent: float) -> None:
    """A cost of 3 times a power of the size gives that power and 3."""
    law = power_law(SIZES, [3 * size**exponent for size in SIZES])
    assert law.exponent == pytest.approx(exponent, abs=1e-12)
    assert law.factor == pytest.approx(3, rel=1e-12)
    assert law.at(7) == pytest.approx(3 * 7**exponent, rel=1e-12)


@pytest.mark.parametrize(
    ("sizes", "costs"), [((2, 2), (1, 1)), ((1, 2), (1,)), ((1, 2), (0, 1)), ((0, 2), (1, 1))]
)
def test_no_power_is_made_up(sizes: Sequence[float], costs: Sequence[float]) -> None:
    """One size, a cost that is missing, and what has no logarithm."""
    with pytest.raises(ValueError, match="two sizes"):
        power_law(sizes, costs)


def test_a_run_becomes_a_table() -> None:
    """Each benchmark a row: time, floor, ratio, and others; none where nothing else does it."""
    head, rule, *rows = tables.costs(json.loads(SMALL.read_text("utf-8")))
    assert head.count("|") == rule.count("|") == 6
    assert [row.count("|") for row in rows] == [6, 6, 6]
    started, parsed, written = rows
    assert started.startswith("| `import letterfit` | 99.8 ms | python, numpy and uharfbuzz ")
    assert "markdown-it-py" in parsed
    assert written.endswith("| none does it |")


def test_a_benchmark_that_was_not_compared_is_left_out() -> None:
    """A row without a floor would say nothing."""
    assert len(list(tables.costs({"benchmarks": [{"extra_info": {}}]}))) == 2


def test_only_what_stands_between_the_marks_is_written(tmp_path: Path) -> None:
    """The rest of the file stays; without marks nothing is written."""
    readme = tmp_path / "README.md"
    readme.write_text("a\n<!-- costs -->\nold\n<!-- end of costs -->\nb\n", encoding="utf-8")
    tables.write("costs", ["new", "lines"], readme)
    text = readme.read_text("utf-8")
    assert text == "a\n<!-- costs -->\nnew\nlines\n<!-- end of costs -->\nb\n"
    with pytest.raises(ValueError, match="growth"):
        tables.write("growth", ["x"], readme)
    assert readme.read_text("utf-8") == text


def test_the_readme_has_both_tables() -> None:
    """With the marks that a run writes between, and the day and the machine of a run."""
    text = tables.README.read_text("utf-8")
    for name in ("costs", "growth"):
        _, _, rest = text.partition(f"<!-- {name} -->\n")
        inside, end, _ = rest.partition(f"<!-- end of {name} -->")
        assert end
        assert "uharfbuzz" in inside
        assert inside.count("\n|") > 4


# --- growth


def _curve(exponent: float, *, last: float = 1.0) -> growth.Curve:
    """A measure whose cost is a power of its size; `last` is what one sweep ends with besides."""
    measure = growth.MEASURES[0]
    exact = tuple(0.002 * size**exponent for size in measure.sizes)
    bent = (*exact[:-1], exact[-1] * last)
    return growth.Curve(measure, (exact, exact, bent))


def test_a_curve_tells_its_exponent_and_how_far_sweeps_go_apart() -> None:
    """The medians give the exponent, the one sweep that ends high the upper end of the range."""
    curve = _curve(1.5, last=2.0)
    assert curve.law.exponent == pytest.approx(1.5)
    assert curve.upper.exponent == pytest.approx(1.5)
    least, most = curve.range
    assert least == pytest.approx(1.5)
    assert most > 1.55
    *_, row = growth.table([curve])
    assert "**1.50**" in row
    assert "| 1.50 to 1." in row


def test_memory_tells_what_a_page_more_takes() -> None:
    """From the last two sizes: 96 pages and 96 MiB make 1,024 KiB a page."""
    pages = growth.MEMORY_PAGES
    found = tuple(memory.MIB * (50 + count) for count in pages)
    *_, row = growth.memory_table({"kept": found})
    assert row.endswith(f"| {50 + pages[-1]} | 1024 KiB |")


def test_work_is_made_anew_for_each_sweep() -> None:
    """Every measure prepares its smallest size, the same twice, and runs it."""
    for measure in growth.MEASURES:
        first = measure.work(measure.sizes[0], 0)
        assert len(first) > 1
        assert first[0]() is not None


def test_the_drawing_is_drawn_whole() -> None:
    """By resvg; each measure has its title, its exponent and a point for every size."""
    curves = [growth.Curve(one, _curve(1.0).sweeps) for one in growth.MEASURES[:1]] * 4
    peaks = {way: tuple(memory.MIB * (60 + n) for n in growth.MEMORY_PAGES) for way in memory.WAYS}
    svg = growth.drawing(curves, peaks, told="A run & its machine.")
    assert bytes(resvg_py.svg_to_bytes(svg_string=svg))
    root = ET.fromstring(svg)  # noqa: S314 - drawn here
    texts = ["".join(text.itertext()) for text in root.iter("{http://www.w3.org/2000/svg}text")]
    assert sum(text.startswith("time as size1.00") for text in texts) == 4
    assert "A run & its machine." in texts
    circles = list(root.iter("{http://www.w3.org/2000/svg}circle"))
    assert len(circles) == 4 * len(curves[0].costs) + 2 * len(growth.MEMORY_PAGES) + 3


# --- the machine


def test_the_run_tells_its_machine(tmp_path: Path) -> None:
    """The processor as the system names it, the day, and what else went on."""
    cpuinfo = tmp_path / "cpuinfo"
    cpuinfo.write_text("processor\t: 0\nmodel name\t: Some Processor\n", encoding="utf-8")
    assert machine.processor(cpuinfo) == "Some Processor"
    assert machine.processor(tmp_path / "nothing") is not None
    run = machine.Watch().run()
    assert len(run.date) == 10
    assert run.cores >= 1


@pytest.mark.parametrize(
    ("elsewhere", "told"),
    [(None, "not known"), (0.02, "0.0 cores busy meanwhile."), (1.7, "**Preliminary**")],
)
def test_a_busy_machine_is_not_hidden(elsewhere: float | None, told: str) -> None:
    """Times on a machine with other work are marked as preliminary."""
    run = machine.Run(
        date="2026-01-01", processor="P", cores=2, versions=("Python 3",), elsewhere=elsewhere
    )
    assert told in run.told
    assert ("Preliminary" in run.told) == (elsewhere == 1.7)


def test_memory_is_that_of_a_process() -> None:
    """This process has more than 10 MiB resident, and less than a terabyte."""
    assert 10 * memory.MIB < memory.peak() < 2**40
