"""Which mutants there are, and a lot of them drawn by a seed.

A mutant is named by one of cosmic-ray's operators, a file and an occurrence. Left out are those in
annotations, signatures and decorators (types hold that classes are frozen), `zip(strict=...)`, a
mere guard, and operators of another kind (`+` to `>>`): a TypeError kills those, which would only
make the score look better.
"""

import ast
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from itertools import groupby, islice, zip_longest
from pathlib import Path

PACKAGES = ("fit", "place", "report")
"""Folders of the library that are mutated."""

BINARY = "core/ReplaceBinaryOperator_"
COMPARISON = "core/ReplaceComparisonOperator_"
UNARY = "core/ReplaceUnaryOperator_"

KINDS: dict[str, tuple[str, ...]] = {
    "numbers": ("core/NumberReplacer",),
    "arithmetic": (
        *(
            BINARY + pair
            for pair in (
                *("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "FloorDiv_Mul", "Mod_FloorDiv"),
                *("Pow_Mul", "BitOr_BitAnd", "BitAnd_BitOr", "BitXor_BitAnd"),
                *("LShift_RShift", "RShift_LShift"),
            )
        ),
        UNARY + "USub_UAdd",
        UNARY + "Delete_Invert",
    ),
    "comparisons": tuple(
        COMPARISON + pair
        for pair in (
            *("Lt_LtE", "LtE_Lt", "Gt_GtE", "GtE_Gt", "Lt_GtE", "LtE_Gt", "Gt_LtE", "GtE_Lt"),
            *("Eq_NotEq", "NotEq_Eq", "Is_IsNot", "IsNot_Is"),
        )
    ),
    "conditions": (
        *("core/AddNot", "core/ReplaceAndWithOr", "core/ReplaceOrWithAnd"),
        *("core/ReplaceTrueWithFalse", "core/ReplaceFalseWithTrue"),
        UNARY + "Delete_Not",
    ),
    "flow": (
        *("core/ReplaceBreakWithContinue", "core/ReplaceContinueWithBreak"),
        *("core/ZeroIterationForLoop", "core/ExceptionReplacer"),
    ),
}
"""Operators by what they change; a lot takes as many of each kind."""

Place = tuple[int, int]
"""Line, from 1, and column, from 0."""


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change of one file, found again by cosmic-ray's count of occurrences.

    Args:
        operator: cosmic-ray's name of the operator.
        path: The file, from the top of the repository.
        occurrence: Which one in the file.
        line: Where it begins.
    """

    operator: str
    path: str
    occurrence: int
    line: int

    @property
    def package(self) -> str:
        """The folder it is in."""
        return Path(self.path).parent.name

    @property
    def kind(self) -> str:
        """What it changes, a key of `KINDS`."""
        return next(kind for kind, names in KINDS.items() if self.operator in names)

    def lot(self, seed: int) -> str:
        """What it is drawn by, the same while the file has as many occurrences before it."""
        name = f"{seed} {self.path} {self.operator} {self.occurrence}"
        return sha256(name.encode()).hexdigest()


@cache
def left_out(source: str) -> tuple[tuple[Place, Place], ...]:
    """Where a file is not mutated: annotations, decorators, `strict=`."""
    nodes: list[ast.expr | None] = []
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.ClassDef():
                nodes += node.decorator_list
            case ast.FunctionDef():
                nodes += [*node.decorator_list, node.returns]
            case ast.arg() | ast.AnnAssign():
                nodes.append(node.annotation)
            case ast.keyword(arg="strict"):
                nodes.append(node.value)
    return tuple(
        ((n.lineno, n.col_offset), (n.end_lineno or n.lineno, n.end_col_offset or 0))
        for n in nodes
        if n is not None
    )


def is_left_out(source: str, place: Place) -> bool:
    """Whether a place in a file is not mutated."""
    line, column = place
    if source.splitlines()[line - 1][column:].startswith("*,"):  # by keyword from here on
        return True
    return any(first <= place < last for first, last in left_out(source))


def drawn(
    mutants: Iterable[Mutant], *, seed: int, each: int, is_real: Callable[[Mutant], bool]
) -> Iterator[Mutant]:
    """A lot of mutants: by package so many, as many of each kind, the same for a seed.

    Those of all strata come in turn, so a run that is stopped has taken as many of each.

    Args:
        mutants: All there are.
        seed: Another seed draws another lot.
        each: How many of a package, shared out among the kinds.
        is_real: Whether a mutant is one; the next of its stratum takes its place.
    """

    def stratum(mutant: Mutant) -> tuple[int, str]:
        return PACKAGES.index(mutant.package), mutant.kind

    lots = [
        islice(filter(is_real, sorted(some, key=lambda m: m.lot(seed))), each // len(KINDS))
        for _, some in groupby(sorted(mutants, key=stratum), stratum)
    ]
    return (mutant for turn in zip_longest(*lots) for mutant in turn if mutant is not None)


def lines_of_statement(source: str, line: int) -> range:
    """The lines that run when a mutated line does.

    Those of a plain statement; of the head of a compound one; of a whole function where the line is
    in its head, whose defaults are read when the module is.
    """
    inner = [
        node
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.stmt) and node.lineno <= line <= (node.end_lineno or 0)
    ][-1]
    last = inner.end_lineno or inner.lineno
    body = getattr(inner, "body", None)
    if body and not isinstance(inner, ast.FunctionDef):
        last = max(inner.lineno, body[0].lineno - 1)
    return range(inner.lineno, last + 1)
