"""Coverage-guided fuzzing of one door, by the atheris of PyPI: python -m tests.fuzz NAME FOLDER.

FOLDER keeps what was tried and found; what comes after it goes to libFuzzer, such as
-max_total_time=300. Inputs are no longer than the longest seed, unless -max_len says so: short ones
are soon tried. atheris is not among what `.[dev]` installs.
"""

import sys
from pathlib import Path

import atheris

from tests.fuzz.seeds import dictionary, seeds


def main() -> None:
    """Fuzz one door until told to stop."""
    name, folder, *options = sys.argv[1:]
    begun = tuple(seeds(name))
    with atheris.instrument_imports(include=["letterfit"]):
        from tests.fuzz.targets import TARGETS, tried  # noqa: PLC0415 - it imports letterfit

        for seed in begun:  # modules are imported when they are needed, and are to be followed
            tried(TARGETS[name], seed)
    kept = Path(folder)
    kept.mkdir(parents=True, exist_ok=True)
    for number, seed in enumerate(begun):
        (kept / f"seed-{number}").write_bytes(seed)
    asked = [f"-max_len={max(map(len, begun))}", f"-artifact_prefix={kept}.found-"]
    if words := dictionary(begun):
        file = Path(f"{kept}.words")
        file.write_text(words, encoding="ascii")
        asked.append(f"-dict={file}")
    arguments = [sys.argv[0], str(kept), *asked, *options]
    atheris.Setup(arguments, lambda data: tried(TARGETS[name], data))
    atheris.Fuzz()


main()
