"""What a notebook asks of a value, where nobody draws it and where somebody does."""

from dataclasses import dataclass

import letterfit as lf
import letterfit.output.notebook
from letterfit.shown import Shown, SideBySide, as_html, as_text


@dataclass(frozen=True, slots=True)
class Gate(Shown):
    """A value that nobody draws."""

    shut: bool


def test_a_value_that_nobody_draws_is_its_own_text() -> None:
    """No HTML, the repr as text; nothing else is offered."""
    gate = Gate(shut=True)
    assert gate._repr_mimebundle_() == {"text/plain": repr(gate)}
    assert gate._repr_html_() is None


def test_a_value_without_a_drawing_stands_beside_others_as_text() -> None:
    """In a row its text is set as it stands, escaped."""
    row = as_html(SideBySide([Gate(shut=True), lf.fit_balloon("Hold.")]))
    assert row is not None
    assert "Gate(shut=True)</pre>" in row
    assert row.count("<img") == 1


def test_the_text_of_a_row_is_that_of_its_values() -> None:
    """One after the other, a line left free between them."""
    gate, balloon = Gate(shut=False), lf.fit_balloon("Hold.")
    assert as_text(SideBySide([gate, balloon])) == f"{gate!r}\n\n{as_text(balloon)}"


def test_being_shown_leaves_a_value_as_it_is() -> None:
    """Still slotted, frozen, and equal by its fields; its repr is the dataclass's own."""
    one, other = lf.fit_balloon("Hold."), lf.fit_balloon("Hold.")
    assert one == other
    assert not hasattr(one, "__dict__")
    assert repr(one).startswith("FittedBalloon(text='HOLD.'")
