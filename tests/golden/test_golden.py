"""The demo's report is what it was when somebody looked at it, on this processor too."""

import os
import subprocess
import sys

import pytest

from tests.golden.made import FOLDER, differences, made

KEPT = {name: (FOLDER / name).read_text(encoding="utf-8") for name in ("report.json", "page-1.svg")}

FEWER = "X86_V3 X86_V4 AVX2 FMA3 AVX512F"
"""Vector units that numpy is told to do without, by its names of several versions; of those that it
does not know or have it only warns."""

HOW = "if this is meant: python -m tests.golden, look at the difference and at page-1.svg, commit"


@pytest.fixture(scope="module")
def now() -> dict[str, str]:
    """What comes out now."""
    return made()


@pytest.mark.parametrize("name", KEPT)
def test_the_demo_comes_out_as_it_was_looked_at(name: str, now: dict[str, str]) -> None:
    """Every word, place and finding; numbers to the third decimal."""
    assert differences(KEPT[name], now[name]) == [], HOW


def test_what_differs_by_more_than_rounding_is_seen() -> None:
    """A number, a word, a line more; a name with a figure in it is no number."""
    assert differences('"x": 25.863', '"x": 25.860') == ['"x": 25.863 -> "x": 25.860']
    assert differences('"fits": true', '"fits": false')
    assert differences("<g>\n</g>", "<g>\n<g/>\n</g>") == ["2 lines -> 3 lines"]
    assert differences('id="page-1"', 'id="page-2"')
    assert differences('d="M1.5 2L3 4"', 'd="M1.5 2L3 4.5"')


def test_numpy_with_other_vector_units_says_the_same() -> None:
    """As on a processor that has fewer."""
    code = "import sys; from tests.golden.made import made; sys.stdout.write(made()['report.json'])"
    done = subprocess.run(  # noqa: S603 - code written above
        [sys.executable, "-W", "ignore", "-c", code],
        env={**os.environ, "NPY_DISABLE_CPU_FEATURES": FEWER},
        capture_output=True,
        check=True,
        text=True,
        encoding="utf-8",
    )
    assert differences(KEPT["report.json"], done.stdout) == []
