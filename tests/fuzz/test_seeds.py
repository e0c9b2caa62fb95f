"""What fuzzers begin from goes through every door; what they found is kept here when they find."""

import pytest

import letterfit as lf
from tests.fuzz.seeds import seeds
from tests.fuzz.targets import TARGETS, tried


@pytest.mark.parametrize("door", sorted(TARGETS))
def test_good_input_goes_through_its_door(door: str) -> None:
    """A fuzzer that began from what is refused would never come past the door."""
    for seed in seeds(door):
        TARGETS[door](seed)


def test_a_complaint_of_many_lines_and_a_crash_are_found() -> None:
    """What a fuzzer is to find is found; an ordinary refusal is not."""

    def refuse(data: bytes) -> None:
        raise lf.LetterfitError(data.decode())

    def crash(_: bytes) -> None:
        raise KeyError

    tried(refuse, b"no page was found")
    with pytest.raises(AssertionError):
        tried(refuse, b"\x1b[2J")
    with pytest.raises(KeyError):
        tried(crash, b"")
