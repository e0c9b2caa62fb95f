"""All costs beside their floors: `python -m tests.benchmarks [--write]`.

Runs every `bench_*.py` by pytest-benchmark and prints the table; `--write` puts it into README.md,
with the machine, the date and what else kept the machine busy, and measures growth too
(`python -m tests.benchmarks.growth`), which draws `growth.svg`. Needs `pip install '.[bench]'`.
"""

import json
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from tests.benchmarks import growth, tables
from tests.benchmarks.floors import TOP
from tests.benchmarks.machine import Watch

FILES = tuple(f"bench_{name}.py" for name in ("process", "text", "fit", "place", "script"))
"""In the order of the table."""

OPTIONS = (
    "-q",
    "-o",
    "addopts=--import-mode=importlib -p no:cacheprovider",
    "-o",
    "python_files=bench_*.py",
)


def measured() -> dict[str, Any]:
    """What pytest-benchmark writes of one run.

    Raises:
        CalledProcessError: When a benchmark fails.
    """
    here = Path(__file__).parent
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "benchmarks.json")
        command = [sys.executable, "-m", "pytest", *OPTIONS, f"--benchmark-json={file}"]
        subprocess.run(  # noqa: S603 - our own tests
            [*command, *(str(here / name) for name in FILES)],
            cwd=TOP,
            check=True,
            stdout=sys.stderr,
        )
        found: dict[str, Any] = json.loads(file.read_text("utf-8"))
    return found


def report() -> Iterator[str]:
    """The table of one run, after the run's own line."""
    watch = Watch()
    lines = tuple(tables.costs(measured()))
    yield watch.run().told
    yield ""
    yield from lines


if __name__ == "__main__":
    lines = tuple(report())
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    if "--write" in sys.argv:
        tables.write("costs", lines)
        growth.main(write=True)
