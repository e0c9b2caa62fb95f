"""The checks of the notebooks can fail: each catches a fault planted for it."""

from pathlib import Path

import pytest

from tests.notebooks.names import strays
from tests.notebooks.running import PATHS, faults, made_of, run

PLANTED = {
    "1 / 0": "ZeroDivisionError",
    "import warnings\nwarnings.warn('old', DeprecationWarning)": "DeprecationWarning",
    "import socket\nsocket.create_connection(('192.0.2.1', 80), timeout=1)": "PermissionError",
    "import socket\nsocket.getaddrinfo('example.invalid', 80)": "PermissionError",
    "import sys\nprint('told', file=sys.stderr)": "stderr",
}
"""Cells at fault, and what is said of each; 192.0.2.1 is nobody's (RFC 5737)."""


def test_there_are_notebooks() -> None:
    """The checks have something to check."""
    assert [path.stem for path in PATHS] == ["one_balloon", "one_page", "plugging_in"]


def test_errors_warnings_and_connections_are_caught(tmp_path: Path) -> None:
    """Each is named with its cell; a cell without fault beside them is not."""
    ran = run(made_of("2 + 2", *PLANTED), tmp_path)
    assert {one.source: one.name for one in faults(ran)} == PLANTED


@pytest.mark.parametrize(
    "source",
    [
        "import letterfit",
        "import numpy as np",
        "from letterfit import fit_balloon",
        "from letterfit.fit import fit_words",
        "import letterfit.fit as lf",
        "import letterfit as lf\nlf.fit",
        "import letterfit as lf\nlf.fit_balloon('Hold.')._repr_html_()",
    ],
)
def test_names_that_are_not_public_are_caught(source: str) -> None:
    """Modules, other packages, submodules and whatever begins with an underscore."""
    assert list(strays(source))


def test_public_names_are_not_caught() -> None:
    """Neither are Python's own library and what shows things."""
    source = "import json\nfrom IPython.display import SVG\nimport letterfit as lf\nlf.fit_balloon"
    assert list(strays(source)) == []
