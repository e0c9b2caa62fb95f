"""Lots of mutants are drawn evenly, and the same for a seed."""

from collections import Counter

from tests.mutation.mutants import (
    KINDS,
    PACKAGES,
    Mutant,
    drawn,
    is_left_out,
    lines_of_statement,
)

MANY = [
    Mutant(operator=names[0], path=f"letterfit/{package}/ink.py", occurrence=k, line=k + 1)
    for package in PACKAGES
    for names in KINDS.values()
    for k in range(20)
]
SOURCE = '''
@cache(size=3)
def area(*, side: float | None = 2.0) -> int | None:
    """The area."""
    if (
        side < 3
        and side > 1
    ):
        return dict(zip(a, b, strict=True))[
            side + 1
        ]
    return None
'''


def test_a_lot_has_as_many_of_each_package_and_kind() -> None:
    """And the same ones for a seed, others for another."""
    lot, again, other = (
        list(drawn(MANY, seed=seed, each=20, is_real=lambda _: True)) for seed in (1, 1, 2)
    )
    assert Counter((m.package, m.kind) for m in lot) == {
        (package, kind): 4 for package in PACKAGES for kind in KINDS
    }
    assert lot == again
    assert lot != other


def test_what_is_no_mutant_gives_its_place_to_the_next() -> None:
    """Those that are no Python do not make the lot smaller."""
    lot = drawn(MANY, seed=1, each=50, is_real=lambda mutant: mutant.occurrence % 2 == 0)
    found = Counter(mutant.occurrence % 2 for mutant in lot)
    assert found == {0: 150}


def test_types_decorators_and_guards_are_left_out() -> None:
    """What a type or a mere guard holds is not mutated; all else is."""
    lines = SOURCE.splitlines()

    def at(text: str) -> bool:
        line = next(k for k, each in enumerate(lines) if text in each)
        return is_left_out(SOURCE, (line + 1, lines[line].index(text)))

    assert [at(text) for text in ("3)", "*,", "| None =", "| None:", "True")] == [True] * 5
    assert [at(text) for text in ("2.0", "< 3", "and side", "+ 1")] == [False] * 4


def test_a_line_runs_with_its_statement() -> None:
    """A line inside a statement runs when the statement does, a default with its function."""
    assert lines_of_statement(SOURCE, 10) == range(9, 12)
    assert lines_of_statement(SOURCE, 7) == range(5, 9)
    assert lines_of_statement(SOURCE, 3) == range(3, 13)
