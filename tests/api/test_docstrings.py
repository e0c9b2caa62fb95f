"""Every public name tells its user what it takes, what comes of it, and shows it."""

import re
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pytest

import letterfit
from letterfit import PageError, Rect
from tests.api import docstrings, reading


@pytest.mark.parametrize("name", letterfit.__all__)
def test_public_names_are_documented(name: str) -> None:
    """A first sentence, arguments with units, the result, errors, an example, sources."""
    assert docstrings.faults(name, getattr(letterfit, name)) == []


def test_a_docstring_comes_apart() -> None:
    """Sections hold what stands under them, up to the next section or the example."""
    parts = reading.parts(
        """Set a text.

        Args:
            width, height: Sides, mm,
                over 0.

        Returns:
            A balloon.

        Source: a book.

        >>> 1
        1
        """
    )
    assert parts.summary == "Set a text."
    assert parts.args == {"width": "Sides, mm, over 0.", "height": "Sides, mm, over 0."}
    assert parts.returns == "A balloon."
    assert parts.source == "a book."


GOOD = """The rectangle of a gate.

    Args:
        width: Its width, mm.

    Returns:
        Higher than wide, as `Rect.width` and `Rect.height` say.

    Raises:
        PageError: When the width is not over 0.

    Source: no gate, width^2.

    >>> gate(20.0).height
    40.0
    """


def gate(width: float) -> Rect:
    """Stand for a public function; the docstrings under test are put on it."""
    if width <= 0:
        raise no_gate(width)
    return Rect(0, 0, width, 2 * width)


def no_gate(width: float) -> PageError:
    """A helper that makes the error, as modules of the package have."""
    return PageError(f"a gate {width} mm wide is none")


def told_of(function: Callable[..., object], text: str) -> list[str]:
    """The faults that are found when a function has that docstring."""
    function.__doc__ = text
    return docstrings.faults("gate", function, docstrings.PUBLIC | {"gate": function})


def test_a_good_docstring_has_no_fault() -> None:
    """The one that the faults below are planted in."""
    assert told_of(gate, GOOD) == []


@pytest.mark.parametrize(
    ("pattern", "planted", "found"),
    [
        (r"(?s).*", "", "has no docstring"),
        (r"gate\.\n", "gate\n", "its first sentence does not end"),
        (r"width: Its width, mm\.", "height: mm.", "says nothing of width"),
        (r"width: Its width, mm\.", "height: mm.", "tells of height, which it does not take"),
        (r"Its width, mm\.", "", "names width and says nothing"),
        (r", mm\.", ".", "gives no unit for width"),
        (r"    Returns:\n.*\n", "", "does not say what it returns"),
        (r"PageError: When", "FontError: When", "does not say that it raises PageError"),
        (r"PageError: When", "PageFault: When", "raises PageFault, which is no error"),
        (r"    Source: .*\n", "    It is width^2.\n", "has a formula without a source"),
        (r"`Rect.height`", "`Rect.hight`", "speaks of `Rect.hight`, which there is not"),
        (r"`Rect.height`", "`letterfit.place.cells`", "speaks of `letterfit.place.cells`"),
        (r">>> gate.*\n *40.0\n", "", "has no example that shows an answer"),
        (r">>> gate.*\n *40.0\n", ">>> tall = gate(20.0)\n", "has no example that shows an answer"),
        (r">>> gate", ">>> door", "its example takes door from nowhere"),
        (
            r">>> gate",
            ">>> from letterfit.place.cells import Cells\n    >>> gate",
            "its example imports from the inside: from letterfit.place.cells import Cells",
        ),
    ],
)
def test_planted_faults_are_found(pattern: str, planted: str, found: str) -> None:
    """Each thing that is asked of a docstring is missed when it is not there."""
    text = re.sub(pattern, lambda _: planted, GOOD, count=1)
    assert text != GOOD
    assert any(fault.startswith(f"gate: {found}") for fault in told_of(gate, text))


def test_a_class_is_asked_for_its_fields_and_its_methods() -> None:
    """A docstring that `dataclass` made is none; a method names its arguments and its source."""

    @dataclass(frozen=True)
    class Lock:
        width: float

        def filled(self, level: float) -> float:
            """Width^2."""
            return level * self.width**2

    found = docstrings.faults("Lock", Lock, docstrings.PUBLIC | {"Lock": Lock})
    assert "Lock: has no docstring" in found
    assert "Lock: says nothing of width" in found
    assert "Lock.filled: says nothing of level" in found
    assert "Lock.filled: has a formula without a source" in found


def test_measures_have_units_and_arrays_have_shapes() -> None:
    """Of what comes in and of what comes out."""

    @dataclass(frozen=True)
    class Basin:
        """A basin.

        Args:
            floor: Where its floor is, mm.
        """

        floor: npt.NDArray[np.float64]

        def depth(self) -> float:
            """How deep it is."""
            return float(self.floor.max())

    found = docstrings.faults("Basin", Basin, docstrings.PUBLIC | {"Basin": Basin})
    assert "Basin: gives no shape for floor" in found
    assert "Basin.depth: gives no unit for what it returns" in found


def test_constants_have_the_docstring_below_them() -> None:
    """Through every import on the way, and none where there is none."""
    assert reading.constant_docstring("MM_PER_PT").startswith("One point in millimetres")
    assert reading.constant_docstring("NO_SUCH_CONSTANT") == ""
    assert docstrings.faults("NO_SUCH_CONSTANT", 1.0) == ["NO_SUCH_CONSTANT: has no docstring"]
