"""Which faces are embedded: those that may be, each font program once."""

from collections.abc import Callable
from dataclasses import dataclass, field

from letterfit.lettering.fonts.face import Face
from letterfit.output.pdf.subset import why_not

Program = tuple[str, int, tuple[tuple[str, float], ...]]
"""A font file, the face's number in it, and its place on the axes."""


@dataclass(slots=True)
class Permits:
    """Which faces are embedded, and why others are not.

    Args:
        faces: Finds a face by its name.
        refused: Why faces are not embedded, by name, in the order in which that was found.
    """

    faces: Callable[[str], Face]
    refused: dict[str, str] = field(default_factory=dict)
    _known: dict[str, bool] = field(default_factory=dict)
    _first: dict[Program, str] = field(default_factory=dict)

    def named(self, name: str) -> str:
        """The name of the first face asked for that has the same font program."""
        face = self.faces(name)
        return self._first.setdefault((face.file.key, face.index, face.variations), name)

    def embeds(self, name: str) -> bool:
        """Whether the face of that name is embedded."""
        if name not in self._known:
            reason = why_not(self.faces(name))
            if reason:
                self.refused[name] = reason
            self._known[name] = not reason
        return self._known[name]
