"""Marks: a shape and a word for each way a panel or a finding stands, besides its colour.

The shapes are those of the drawings' labels: a disc, a triangle, a cross; a note has a small dot.
"""

from typing import Literal

from letterfit.findings import Severity
from letterfit.output.html.markup import classed, element, words
from letterfit.output.panel_state import State
from letterfit.output.svg import style

Tone = Literal["fits", "doubt", "fails", "quiet"]

SHAPES: dict[Tone, str] = {
    "fits": '<circle cx="6" cy="6" r="5"/>',
    "doubt": '<path d="M6 0L12 11H0Z"/>',
    "fails": '<path d="M1 1L11 11M1 11L11 1" class="cross"/>',
    "quiet": '<circle cx="6" cy="6" r="2"/>',
}
TONES: dict[Severity, Tone] = {"error": "fails", "warning": "doubt", "note": "quiet"}
WORDS: dict[Severity, str] = {"error": "Fault", "warning": "Look again", "note": "Note"}


def mark(tone: Tone) -> str:
    """The shape alone, for a place where the word stands beside it."""
    return f'<svg class="mark {tone}" viewBox="0 0 12 12" aria-hidden="true">{SHAPES[tone]}</svg>'


def state_told(state: State) -> str:
    """Shape and word for how a panel stands."""
    return classed(f"span.state {state}", [mark(state), " ", words(style.WORDS[state])])


def finding_told(severity: Severity, what: str, *, todo: str = "") -> str:
    """A finding as an item of a list: its shape, its word, what was found and what to do.

    Args:
        severity: How grave it is.
        what: What was found.
        todo: What to do; may be empty.
    """
    tone = TONES[severity]
    head = classed(f"strong.{tone}", [mark(tone), " ", words(WORDS[severity])])
    told = [head, " ", element("bdi", words(what))]
    if todo:
        told += [" ", classed("span.todo", words(f"→ {todo}"))]
    return element("li", told)
