"""Which tests a mutant is shown: those that run its line, mirrored ones first, then quick ones."""

from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

Lines = Mapping[int, Collection[str]]
"""The tests that run each line of a file, by their ids; "import" stands for none of them."""

IMPORT = "import"
"""The context of what runs while tests are gathered."""


def covering(lines: Lines, wanted: range) -> set[str]:
    """The tests that run any of the lines; all of the file's where they run at import only.

    A constant of a module is read when the module is, so no test runs its line: any test that runs
    something of the file may depend on it.
    """
    found = {test for line in wanted for test in lines.get(line, ())}
    if found == {IMPORT}:
        found = {test for tests in lines.values() for test in tests}
    return found - {IMPORT}


def is_mirrored(test: str, path: str) -> bool:
    """Whether a test is in the file, or is a doctest, of the module it is about."""
    module = Path(path)
    mirror = f"tests/{module.parent.name}/test_{module.name}"
    return test.partition("::")[0] in (mirror, path)


def chosen(
    tests: Collection[str], *, path: str, seconds: Mapping[str, float], most: float
) -> Iterator[str]:
    """Tests to run, in order, until they take so many seconds; one at least.

    Args:
        tests: Those that run the line.
        path: The mutated file.
        seconds: How long each takes.
        most: How long they may take together.
    """
    spent = 0.0
    for test in sorted(tests, key=lambda test: (not is_mirrored(test, path), seconds[test], test)):
        if spent and spent + seconds[test] > most:
            continue
        spent += seconds[test]
        yield test
