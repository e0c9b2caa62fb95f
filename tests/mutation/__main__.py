"""A mutation check of a lot drawn by seed: python -m tests.mutation FOLDER [--seed 1] [--each 100].

FOLDER takes a copy of the repository, in which files are mutated one at a time, the lines that
each test runs, and the results, one JSON object a line; what is there is not done again.
Operators are those of cosmic-ray, lines those of coverage: `pip install '.[mutation]'`.
"""

import argparse
import ast
import json
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from difflib import unified_diff
from os import environ, utime
from pathlib import Path
from shutil import copytree, ignore_patterns
from signal import SIGXCPU
from time import perf_counter

from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator
from coverage import CoverageData

from tests.mutation.choosing import chosen, covering
from tests.mutation.covered import FOLDER, LINES, SECONDS
from tests.mutation.mutants import (
    KINDS,
    PACKAGES,
    Mutant,
    drawn,
    is_left_out,
    lines_of_statement,
)

TOP = Path(__file__).parents[2]
NO_BYTECODE = "PYTHONDONTWRITEBYTECODE"
OUTCOMES = {0: "survived", -SIGXCPU: "timeout"}
KILLED = ("killed", "timeout")
BESIDES = "tests/existing", "tests/test_bad_input.py", "tests/test_stages.py"
"""Tests of other folders that are about these packages too."""

MOST_WAITED = 600.0
"""Seconds until a mutant that sleeps is ended."""


@dataclass(frozen=True, slots=True)
class Result:
    """What became of a mutant.

    Args:
        outcome: "killed", "timeout" (killed, too), "survived" or "not covered".
        tests: How many were chosen.
        seconds: How long they took.
        killer: The test that failed, or nothing.
        change: The mutated lines, as a diff.
    """

    outcome: str
    tests: int
    seconds: float
    killer: str
    change: str


def all_mutants(tree: Path) -> Iterator[Mutant]:
    """Every mutant there is, file by file."""
    operators = {name: get_operator(name)() for names in KINDS.values() for name in names}
    for path in (path for p in PACKAGES for path in sorted((tree / "letterfit" / p).glob("*.py"))):
        source = path.read_text(encoding="utf-8")
        nodes = list(ast_nodes(get_ast(source)))
        for name, operator in operators.items():
            places = [begin for node in nodes for begin, _ in operator.mutation_positions(node)]
            for occurrence, place in enumerate(places):
                if not is_left_out(source, place):
                    yield Mutant(name, str(path.relative_to(tree)), occurrence, place[0])


def mutated(source: str, mutant: Mutant) -> str | None:
    """The file with its change, or nothing where that is no Python or changes nothing."""
    code = mutate_code(source, get_operator(mutant.operator)(), mutant.occurrence)
    try:
        same = code is None or ast.dump(ast.parse(code)) == ast.dump(ast.parse(source))
    except SyntaxError:
        return None
    return None if same else code


class Bench:
    """A copy of the repository with what is known of its tests.

    Args:
        folder: Where it is, or is made.
        most_seconds: Processor time of the tests shown to a mutant, if it were none.
    """

    def __init__(self, folder: Path, *, most_seconds: float) -> None:
        self.folder, self.tree, self.most_seconds = folder, folder / "tree", most_seconds
        if not self.tree.exists():
            copytree(TOP, self.tree, ignore=ignore_patterns(".*", "__pycache__"))
        if not (folder / SECONDS).exists():
            rooms = [f"{top}/{p}" for p in PACKAGES for top in ("tests", "letterfit")]
            said = self.pytest(*rooms, *BESIDES, plugin="covered")
            if not said.endswith("\n0"):
                raise SystemExit(said)
        self.seconds: Mapping[str, float] = json.loads((folder / SECONDS).read_text())
        self.lines = CoverageData(str(folder / LINES))
        self.lines.read()

    def pytest(self, *arguments: str, plugin: str, timeout: float | None = None) -> str:
        """What pytest prints in the copy, exit code last; a bounded run leaves nothing there."""
        command = [sys.executable, "-m", "pytest", "-q", "-p", f"tests.mutation.{plugin}"]
        known = {"PYTHONPATH": str(self.tree), FOLDER: str(self.folder)}
        known[NO_BYTECODE] = "1" if timeout is not None else ""
        done = subprocess.run(  # noqa: S603 - our own tests
            [*command, *arguments],
            cwd=self.tree,
            env={**environ, **known},
            capture_output=True,
            text=True,
            timeout=timeout,
            check=False,
        )
        return f"{done.stdout}\n{done.returncode}"

    def tests(self, mutant: Mutant, source: str) -> list[str]:
        """The tests to show to a mutant, in order."""
        lines = self.lines.contexts_by_lineno(str(self.tree / mutant.path))
        run = covering(lines, lines_of_statement(source, mutant.line))
        return list(chosen(run, path=mutant.path, seconds=self.seconds, most=self.most_seconds))

    def is_real(self, mutant: Mutant) -> bool:
        """Whether a mutant is Python, and other Python than what is there."""
        return mutated((self.tree / mutant.path).read_text(encoding="utf-8"), mutant) is not None

    def tried(self, path: Path, code: str, tests: list[str]) -> tuple[str, str]:
        """The outcome and the test that killed, with the file changed while the tests run."""
        kept, times = path.read_bytes(), path.stat()
        path.write_text(code, encoding="utf-8")
        try:
            said = self.pytest("-x", "--tb=no", "-rfE", *tests, plugin="brief", timeout=MOST_WAITED)
        except subprocess.TimeoutExpired:
            return "timeout", ""
        finally:  # with its time too, so that what was compiled before is good again
            path.write_bytes(kept)
            utime(path, ns=(times.st_atime_ns, times.st_mtime_ns))
        lines = said.splitlines()
        killer = next((line for line in lines if line.startswith(("FAILED", "ERROR"))), "")
        return OUTCOMES.get(int(lines[-1]), "killed"), killer

    def result(self, mutant: Mutant) -> Result:
        """What becomes of a mutant."""
        path = self.tree / mutant.path
        source = path.read_text(encoding="utf-8")
        code = mutated(source, mutant) or source
        change = unified_diff(source.splitlines(), code.splitlines(), lineterm="", n=0)
        tests, began = self.tests(mutant, source), perf_counter()
        outcome, killer = self.tried(path, code, tests) if tests else ("not covered", "")
        seconds = round(perf_counter() - began, 1)
        return Result(outcome, len(tests), seconds, killer, "\n".join(list(change)[3:]))


def table(results: Mapping[Mutant, Result]) -> Iterator[str]:
    """Killed of sampled, by package and kind."""
    killed = Counter((m.package, m.kind) for m, r in results.items() if r.outcome in KILLED)
    tried = Counter((m.package, m.kind) for m in results)
    yield f"| package | {' | '.join(KINDS)} | all |"
    yield "|---" * (len(KINDS) + 2) + "|"
    for package in PACKAGES:
        cells = [(killed[package, kind], tried[package, kind]) for kind in KINDS]
        cells.append((sum(k for k, _ in cells), sum(n for _, n in cells)))
        yield f"| {package} | {' | '.join(f'{k} of {n}' for k, n in cells)} |"


def kept(path: Path) -> dict[Mutant, Result]:
    """The results there are."""
    rows = map(json.loads, path.read_text(encoding="utf-8").splitlines() if path.exists() else ())
    return {Mutant(**row["mutant"]): Result(**row["result"]) for row in rows}


def say(line: str) -> None:
    """Print a line now."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def main() -> None:
    """Try the lot, tell of each mutant, and at the end the score and who survived."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n", maxsplit=1)[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--each", type=int, default=100, help="mutants of a package")
    parser.add_argument("--seconds", type=float, default=8.0, help="of tests for a mutant")
    parser.add_argument("--again", action="store_true", help="try those again that survived")
    given = parser.parse_args()
    folder = given.folder.resolve()
    bench, path = Bench(folder, most_seconds=given.seconds), folder / "results.jsonl"
    lot = drawn(all_mutants(bench.tree), seed=given.seed, each=given.each, is_real=bench.is_real)
    known, results = kept(path), dict[Mutant, Result]()
    if given.again:
        known = {mutant: result for mutant, result in known.items() if result.outcome in KILLED}
    for mutant in lot:
        results[mutant] = result = known.get(mutant) or bench.result(mutant)
        if mutant in known:
            continue
        say(f"{result.outcome}, {result.seconds} s: {mutant.path}:{mutant.line}")
        with path.open("a", encoding="utf-8") as file:
            file.write(json.dumps({"mutant": asdict(mutant), "result": asdict(result)}) + "\n")
    for row in table(results):
        say(row)
    for mutant, result in results.items():
        if result.outcome not in KILLED:
            say(f"\n{result.outcome}: {mutant.path}:{mutant.line}\n{result.change}")


main()
