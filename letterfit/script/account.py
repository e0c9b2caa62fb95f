"""The account: where each line of a script went, so that nothing can be lost unseen."""

from dataclasses import dataclass
from typing import Literal

Place = Literal[
    "blank",  # nothing is typed
    "rule",  # a line drawn across the page, or a table's header
    "heading",  # of a page or panel, with what stands behind it
    "front matter",
    "page",  # typed on a page outside any panel: its note or its only panel
    "description",
    "lettering",  # a name, a label, or words
    "note",  # NO DIALOGUE
    "plan",
    "finding",  # nowhere; a finding names the line
]


@dataclass(frozen=True, slots=True)
class Placed:
    """One line or row of a script, and where it went.

    Args:
        number: Its number in the source.
        text: What is typed there.
        place: Where it went.
    """

    number: int
    text: str
    place: Place
