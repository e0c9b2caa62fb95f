"""What a page says apart from how it looks: its parts, for whoever has it read aloud (tagged PDF).

The parts are those of the drawing: a page has a heading and panels, a panel a heading and what is
lettered in it, in the order of the script. All else that is drawn is an artifact (ISO 32000-1,
14.8.2.2).
"""

from dataclasses import dataclass, field
from typing import Literal
from xml.etree import ElementTree as ET

Role = Literal["Document", "Sect", "H1", "H2", "P"]
"""Standard structure types (ISO 32000-1, 14.8.4)."""

MARKS = "marks"
"""The class of groups whose letters are no text to be read: figures of a ruler."""


HEADING = "heading"
"""The class of the group that heads a page of words."""


@dataclass(slots=True)
class Part:
    """A part of a page.

    Args:
        role: What it is.
        title: What it is called.
        text: What it reads, where that is more than its lines.
        lines: The numbers of its lines in the page's content.
        parts: What it holds.
        spoken: Whether it is in the script's language.
    """

    role: Role
    title: str = ""
    text: str = ""
    lines: list[int] = field(default_factory=list)
    parts: list["Part"] = field(default_factory=list)
    spoken: bool = False

    def heading_first(self) -> None:
        """Put headings before all else, as a reader wants them; they are drawn last."""
        self.parts.sort(key=lambda part: part.role not in ("H1", "H2"))


def part_of(element: ET.Element, *, label: Role) -> Part | None:
    """The part that a group of the drawing is; None where it is none of its own.

    Args:
        element: The group.
        label: What lines of a label are here.

    >>> lettering = ET.fromstring('<g class="lettering" aria-label="HOLD THE GATE!"/>')
    >>> part = part_of(lettering, label="P")
    >>> part.role, part.text
    ('P', 'HOLD THE GATE!')
    """
    classes = element.get("class", "").split()
    if "panel" in classes:
        return Part("Sect", title=_title(element))
    if "lettering" in classes:
        return Part("P", text=element.get("aria-label", ""), spoken=True)
    if HEADING in classes:
        return Part("H1")
    return Part(label) if "words" in classes else None


def _title(element: ET.Element) -> str:
    return next((child.text or "" for child in element if child.tag.endswith("title")), "")
