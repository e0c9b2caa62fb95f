"""Signatures say what comes in and goes out in types that a user can name."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy.typing as npt

import letterfit
from letterfit import Rect
from letterfit.place.problem import Problem
from tests.api import signatures
from tests.api.docstrings import PUBLIC


def test_no_public_signature_says_any() -> None:
    """Neither an argument nor a result, a field or a property is left to guess."""
    assert [place for name, value in PUBLIC.items() for place in signatures.anys(name, value)] == []


def test_every_type_in_a_public_signature_can_be_imported() -> None:
    """What a field holds is public like the value that has it, but for what stays inside."""
    found = [one for name in PUBLIC for one in signatures.unnamed(name, PUBLIC[name], PUBLIC)]
    assert found == []


def test_what_stays_inside_is_needed_there() -> None:
    """Each exception is spoken of by a public signature, and is not public itself."""
    spoken = {
        getattr(one, "__name__", "")
        for name, value in PUBLIC.items()
        for _, hint in signatures.annotations(name, value)
        for one in signatures.leaves(hint)
    }
    assert set(signatures.INNER) <= spoken
    assert not set(signatures.INNER) & set(letterfit.__all__)


@dataclass(frozen=True)
class Sluice:
    """A public class that says Any, and holds what nobody can import."""

    place: Rect
    problem: Problem
    notes: Mapping[str, list[Any]]

    def filled(self, levels: npt.ArrayLike, *, how: Any = None) -> tuple[Problem, ...]:  # noqa: ANN401
        """Nothing; its signature is what is looked at."""
        raise NotImplementedError(self.place, levels, how)


def test_planted_faults_are_found() -> None:
    """In fields, arguments and results, however deep; what numpy's own aliases hold is its own."""
    anys = signatures.anys("Sluice", Sluice)
    assert {"Sluice.notes", "Sluice.filled(how)"} <= set(anys)
    assert not [place for place in anys if "levels" in place or "place" in place]
    assert "Sluice.problem: Problem" in signatures.unnamed("Sluice", Sluice, PUBLIC)
    assert "Sluice.filled(return): Problem" in signatures.unnamed("Sluice", Sluice, PUBLIC)
