"""The notebooks run as they stand, say nothing by mistake, and are kept as they should be."""

from itertools import pairwise
from pathlib import Path

import nbformat
import pytest

from tests.notebooks.names import strays
from tests.notebooks.running import FOLDER, PATHS, code, faults, read, run

pytestmark = pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
FEWEST, MOST = 8, 15


def test_every_cell_runs_in_a_kernel(path: Path, tmp_path: Path) -> None:
    """No error, no warning, no connection, no file; most cells show something, some a drawing."""
    ran = run(read(path), tmp_path)
    assert list(faults(ran)) == []
    shown = [cell.source for cell in code(ran) if cell.outputs]
    assert len(shown) >= 4
    assert all("text/plain" in one.data for cell in code(ran) for one in cell.outputs)
    drawn = [one for cell in code(ran) for one in cell.outputs if "text/html" in one.data]
    assert len(drawn) >= 1
    assert list(tmp_path.iterdir()) == []


def test_it_is_kept_without_outputs(path: Path) -> None:
    """Valid by its format's own schema; no output, no count, nothing of one machine in it."""
    notebook = read(path)
    nbformat.validate(notebook)
    assert (notebook.nbformat, notebook.nbformat_minor) == (4, 5)
    assert [cell.id for cell in code(notebook) if cell.outputs or cell.execution_count] == []
    assert all(cell.metadata == {} for cell in notebook.cells)
    assert notebook.metadata.keys() <= {"kernelspec", "language_info"}
    assert notebook.metadata.kernelspec.name == "python3"


def test_it_uses_public_names_alone(path: Path) -> None:
    """`import letterfit as lf`, names of `lf.__all__`, and Python's own library."""
    assert [one for cell in code(read(path)) for one in strays(cell.source)] == []


def test_it_can_be_read_at_a_sitting(path: Path) -> None:
    """A heading first, words before each step, no more cells than fit in a head."""
    cells = read(path).cells
    assert FEWEST <= len(cells) <= MOST
    assert cells[0].source.startswith("# ")
    assert all(cell.cell_type == "markdown" for cell in cells[:1])
    kinds = [cell.cell_type for cell in cells]
    assert all(pair != ("markdown", "markdown") for pair in pairwise(kinds))


def test_the_guide_names_it(path: Path) -> None:
    """notebooks/README.md links to every notebook."""
    assert f"]({path.name})" in (FOLDER / "README.md").read_text(encoding="utf-8")
