"""The tests that a mutant is shown are those that may see it."""

from tests.mutation.choosing import IMPORT, chosen, covering

LINES = {1: [IMPORT], 4: [IMPORT], 5: ["a", "b"], 6: ["b"], 9: []}
SECONDS = {"tests/fit/test_ink.py::far": 9.0, "tests/fit/test_x.py::a": 1.0, "b": 2.0, "c": 5.0}


def test_a_line_is_seen_by_the_tests_that_run_it() -> None:
    """Of a statement over several lines, by those that run any of them."""
    assert covering(LINES, range(6, 7)) == {"b"}
    assert covering(LINES, range(5, 7)) == {"a", "b"}
    assert covering(LINES, range(9, 10)) == set()


def test_a_constant_is_seen_by_all_tests_of_its_file() -> None:
    """What runs at import only may matter to whatever runs the file."""
    assert covering(LINES, range(1, 2)) == {"a", "b"}


def test_mirrored_tests_come_first_and_quick_ones_next() -> None:
    """As many as go into the time, the first whatever it takes."""
    of_ink = list(chosen(SECONDS, path="letterfit/fit/ink.py", seconds=SECONDS, most=12.5))
    assert of_ink == ["tests/fit/test_ink.py::far", "tests/fit/test_x.py::a", "b"]
    assert list(chosen(["c"], path="letterfit/fit/ink.py", seconds=SECONDS, most=1)) == ["c"]
