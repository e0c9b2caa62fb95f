"""The words under a small page: what it holds in one line, then each panel that holds less."""

from dataclasses import dataclass

from letterfit.counting import does
from letterfit.geometry import MM_PER_PT, Point
from letterfit.output.panel_state import State
from letterfit.output.svg import style
from letterfit.output.svg.elements import tag, title
from letterfit.output.svg.figures_labels import MARK_MM
from letterfit.output.svg.figures_panel import steadiness
from letterfit.output.svg.figures_view import Drawing
from letterfit.output.svg.panel_label import mark, ways_out
from letterfit.output.svg.small_text import RISE, TextBlock, wrapped
from letterfit.report.model import PageReport, PanelReport
from letterfit.report.page import figure_ways
from letterfit.report.panel_findings import one_of

HEAD_PT = 5.2
NOTE_PT = 4.6
BETWEEN_MM = 0.55
INDENT_MM = 2 * MARK_MM + 0.45
MOST_NOTES = 12
"""Of a page with more panels that hold less, the rest are only counted."""


@dataclass(frozen=True, slots=True)
class Note:
    """Some words with perhaps a mark before them.

    Args:
        text: The words, as they are wrapped.
        state: Whose mark stands before them; None for none.
    """

    text: TextBlock
    state: State | None = None


def notes_of(page: PageReport, *, width_mm: float) -> list[Note]:
    """What stands under a page, wrapped to a width."""
    head = Note(wrapped(page_line(page), size_pt=HEAD_PT, most_mm=width_mm))
    told = [(panel, steadiness(panel)) for panel in page.panels]
    wanting = [(panel, state) for panel, state in told if state != "fits"]
    room = width_mm - INDENT_MM
    notes = [
        Note(wrapped(panel_line(panel, page), size_pt=NOTE_PT, most_mm=room), state)
        for panel, state in wanting[:MOST_NOTES]
    ]
    if len(wanting) > MOST_NOTES:
        more = f"and {len(wanting) - MOST_NOTES} more panels"
        notes.append(Note(wrapped(more, size_pt=NOTE_PT, most_mm=room)))
    return [head, *notes]


def notes_height(notes: list[Note]) -> float:
    """How deep they run, in mm."""
    return sum(note.text.height_mm + BETWEEN_MM for note in notes)


def page_line(page: PageReport) -> str:
    """The page in one line: what every panel of it holds, and its steady height."""
    if not page.panels:
        return f"Page {page.label} · no panels"
    failing = sum(panel.verdict != "placed" for panel in page.panels)
    if failing == len(page.panels):
        return f"Page {page.label} · no panel fits"
    steady = f"steady {page.steady_height_mm:.0f} mm"
    if failing:
        over = f"{failing} of {len(page.panels)} {does(failing)} not fit"
        return f"Page {page.label} · {over} · {steady}"
    return f"Page {page.label} · all hold {page.figure_height_mm:.0f} mm · {steady}"


def panel_line(panel: PanelReport, page: PageReport) -> str:
    """What a panel holds instead, and what it would take."""
    if panel.verdict != "placed":
        ways = [] if panel.overflow is None else ways_out(panel.overflow)
        return f"{panel.id} does not fit" + (f": {' or '.join(ways)}" if ways else "")
    held, wanted = rounded_apart(panel.figure_height_mm, page.steady_height_mm)
    ways = [] if panel.steadied is None else figure_ways(panel.steadied)
    todo = one_of(ways) if ways else "Let the view move closer"
    return f"{panel.id} holds {held} mm, not {wanted}: {todo[0].lower()}{todo[1:]}"


def rounded_apart(less: float, more: float) -> tuple[str, str]:
    """Two heights in whole mm; with as many decimals more as it takes to tell them apart.

    >>> rounded_apart(31.2, 49), rounded_apart(48.6, 49.1)
    (('31', '49'), ('48.6', '49.1'))
    """
    for digits in range(4):
        one, other = f"{less:.{digits}f}", f"{more:.{digits}f}"
        if one != other:
            break
    return one, other


def drawn_notes(notes: list[Note], spot: Point, *, drawing: Drawing) -> str:
    """The notes from a point downwards."""
    parts, top = [], spot.y
    for note in notes:
        indent = 0.0 if note.state is None else INDENT_MM
        colour = style.INK if note is notes[0] else style.LABEL
        room = note.text.box(spot.x + indent, top)
        words = note.text.drawn(room, colour=colour, glyphs=drawing.glyphs)
        shape = []
        if note.state is not None:
            middle = top + MM_PER_PT * note.text.size_pt * (RISE / 2)
            at = Point(spot.x + MARK_MM, middle)
            shape = [mark(note.state, at, half_mm=MARK_MM)]
        said = title(" ".join(note.text.lines))
        parts.append(tag("g", {"class": "label note"}, [said, *shape, *words]))
        top += note.text.height_mm + BETWEEN_MM
    return tag("g", {"class": "notes"}, parts)
