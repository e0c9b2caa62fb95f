"""Lettering as live text: one text element a line, in fonts asked for by their own names.

The font is not in the file: whoever opens it needs the same one installed. A line starts at the
start of its advance, on its baseline, in mm; kerning is the reader's. A line that reads from right
to left is set about its middle, which is the same place whichever way it is read. Emphasis, letters
of another face and the I with crossbars are spans with their own font (SVG 2, section 11; CSS Fonts
4). Columns stay outlines: few vector programs set vertical text as we do.
"""

import re
from collections.abc import Mapping, Sequence
from html import escape

from letterfit.fit.model import Line
from letterfit.geometry import Point
from letterfit.lettering.bidi.levels import balloon_levels
from letterfit.lettering.fonts.asking import font_request
from letterfit.lettering.fonts.face import Face
from letterfit.lettering.live_runs import LiveRun, live_runs
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping.run_glyphs import CURSIVE
from letterfit.lettering.shaping.runs import script_of
from letterfit.lettering.style.crossbar import crossbar_feature
from letterfit.output.plain import plain
from letterfit.output.svg.elements import Attributes, tag
from letterfit.output.svg.faces import face_source, glyph_source
from letterfit.output.svg.glyphs import NAMELESS, Glyphs

OUTLINED = "drawn as outlines: live text cannot stand so"
"""What a file says of columns, and of lines whose letters nobody can tell."""

SAME_SIZE = 1e-6
"""In mm: glyphs of one line whose sizes differ by less are of one size."""

_IDENTIFIERS = re.compile(r"[A-Za-z_][A-Za-z0-9_-]*(?: [A-Za-z_][A-Za-z0-9_-]*)*")
"""A family's name that needs no quotes (CSS Fonts 4, section 2.1.1)."""


class LiveText(Glyphs):
    """Draws lines of lettering as text; everything else, such as labels, as outlines.

    Args:
        lettering: How the text was lettered; None finds the bundled faces by name.
        language: The text's language, a BCP 47 tag.
    """

    def __init__(self, lettering: Lettering | None, *, language: str = "en") -> None:
        super().__init__(glyph_source(lettering))
        self._face_of = face_source(lettering)
        self._lettering = lettering
        self._language = language

    def stack(
        self,
        lines: Sequence[Line],
        centre: Point,
        *,
        colour: str,
        names: Mapping[str, str] = NAMELESS,
    ) -> str:
        """A group with a text for each line of a stack, about its outline's centre in mm.

        Args:
            lines: The lines; columns are drawn as outlines.
            centre: The outline's centre, mm.
            colour: Of the letters.
            names: The group's id and label.
        """
        runs = [self._runs(line) for line in lines]
        if not any(runs) or any(
            line.glyphs and not own for line, own in zip(lines, runs, strict=True)
        ):
            return _told(super().stack(lines, centre, colour=colour, names=names))
        base = _most(runs)
        together = " ".join(line.text for line in lines)
        rtl = balloon_levels(together, language=self._language).rtl
        texts = [
            self._text(line, own, centre, base=base, rtl=rtl)
            for line, own in zip(lines, runs, strict=True)
            if own
        ]
        group: dict[str, str | float] = {
            **names,
            "class": "lettering",
            "fill": colour,
            **_own(base),
            "font-size": _size(lines),
            "xml:space": "preserve",
        }
        return tag("g", group, texts)

    def _runs(self, line: Line) -> tuple[LiveRun, ...]:
        """The line's runs; none where it can only be drawn."""
        glyphs = tuple(line.glyphs)
        if line.vertical or any(glyph.turned for glyph in glyphs):
            return ()
        if glyphs and max(g.em_mm for g in glyphs) - min(g.em_mm for g in glyphs) > SAME_SIZE:
            return ()
        return live_runs(
            line.text, glyphs, face_of=self._face_of, crossbar_of=self._crossbar_feature
        )

    def _crossbar_feature(self, face: Face) -> str | None:
        if self._lettering is None:
            return crossbar_feature(face.family, own=face.family, crossbar="auto")
        own, habits = self._lettering.typeface.family, self._lettering.habits
        return crossbar_feature(face.family, own=own, crossbar=habits.crossbar)

    def _text(
        self, line: Line, runs: Sequence[LiveRun], centre: Point, *, base: Face, rtl: bool
    ) -> str:
        """One line; where it is all of one face, that face is the text's own."""
        own = runs[0].face if len({run.face for run in runs}) == 1 else base
        attributes: Attributes = {
            "x": centre.x + line.x_mm + (line.width_mm / 2 if rtl else 0.0),
            "y": centre.y + line.baseline_mm,
        }
        if rtl:
            attributes |= {"direction": "rtl", "text-anchor": "middle"}
        if own != base:
            attributes |= _differing(own, base)
        if spacing := self._spacing(line):
            attributes["letter-spacing"] = spacing
        inside = "".join(_span(run, own) for run in runs)
        # Written by hand: white space between a text and its spans would be set.
        empty = tag("text", attributes)
        return f"{empty.removesuffix('/>')}>{inside}</text>"

    def _spacing(self, line: Line) -> str:
        """The letter-spacing in mm; letters that join have none (CSS Text 3, section 8.2)."""
        tracking = 0.0 if self._lettering is None else self._lettering.tracking
        if not tracking or any(script_of(char) in CURSIVE for char in line.text):
            return ""
        return f"{tracking * line.glyphs[0].em_mm:.5f}"


def _told(drawn: str) -> str:
    """A group of outlines that says why it is no text (SVG 2, section 5.8, desc)."""
    head, end, rest = drawn.partition(">")
    return f"{head}{end}\n<desc>{OUTLINED}</desc>{rest}" if drawn else ""


def _most(runs: Sequence[Sequence[LiveRun]]) -> Face:
    """The face that most characters are of; of two with as many, the first."""
    counts: dict[Face, int] = {}
    for run in (run for own in runs for run in own):
        counts[run.face] = counts.get(run.face, 0) + len(run.text)
    return max(counts, key=counts.__getitem__)


def _span(run: LiveRun, base: Face) -> str:
    said = escape(plain(run.text), quote=False)
    attributes = _differing(run.face, base)
    if run.feature:
        attributes["style"] = f"font-feature-settings:'{run.feature}'"
    if not attributes:
        return said
    return f"{tag('tspan', attributes).removesuffix('/>')}>{said}</tspan>"


def _differing(face: Face, base: Face) -> Attributes:
    """What a face asks for that its surroundings do not."""
    around = _font(base)
    return {name: value for name, value in _font(face).items() if value != around[name]}


def _own(face: Face) -> Attributes:
    """What a face asks for, a usual width left unsaid."""
    found = _font(face)
    return {name: value for name, value in found.items() if value != "100%"}


def _font(face: Face) -> Attributes:
    asked = font_request(face)
    found: Attributes = {
        "font-family": _family(asked.family),
        "font-weight": f"{asked.weight}",
        "font-style": "italic" if asked.italic else "normal",
        "font-stretch": f"{asked.width:g}%",
    }
    return found


def _family(name: str) -> str:
    """A family's name as CSS takes it: in quotes where it is more than plain words."""
    if _IDENTIFIERS.fullmatch(name):
        return name
    marked = name.replace("\\", "\\\\").replace("'", "\\'")
    return f"'{marked}'"


def _size(lines: Sequence[Line]) -> str:
    """The size in mm that prints at the size in points: 1 pt is 25.4 / 72 mm."""
    return f"{next(glyph.em_mm for line in lines for glyph in line.glyphs):.5f}"
