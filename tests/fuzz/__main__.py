"""Coverage-guided fuzzing of one door, by the atheris of PyPI: python -m tests.fuzz NAME FOLDER.

FOLDER keeps what was tried and found; what comes after it goes to libFuzzer, such as
-max_total_time=300. atheris is not among what `.[dev]` installs.
"""

import sys
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["letterfit"]):
    from tests.fuzz.targets import TARGETS, tried

from tests.fuzz.seeds import seeds


def main() -> None:
    """Fuzz one door until told to stop."""
    name, folder, *options = sys.argv[1:]
    kept = Path(folder)
    kept.mkdir(parents=True, exist_ok=True)
    for number, seed in enumerate(seeds(name)):
        (kept / f"seed-{number}").write_bytes(seed)
    arguments = [sys.argv[0], str(kept), f"-artifact_prefix={kept}.found-", *options]
    atheris.Setup(arguments, lambda data: tried(TARGETS[name], data))
    atheris.Fuzz()


main()
