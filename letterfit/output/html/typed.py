"""The script's lines beside a panel: who says what, as typed, with the number of each line."""

from collections.abc import Iterator
from dataclasses import dataclass

from letterfit.report.menus import elements
from letterfit.report.model import PageReport, PanelReport
from letterfit.script.model import ScriptPanel


@dataclass(frozen=True, slots=True, kw_only=True)
class Speech:
    """One line of lettering of a panel.

    Args:
        id: As in the report: "1.3.2", or "1.3.e1" for an effect.
        line: Its line in the script.
        kind: Dialogue, thought, caption, sfx or sign.
        who: Who speaks, if named.
        manner: What stands in brackets after the name: OFF, WHISPER.
        text: The words as typed; as set where the script is not at hand.
    """

    id: str
    line: int
    kind: str
    who: str | None
    manner: tuple[str, ...]
    text: str


def typed_panels(page: PageReport) -> tuple[ScriptPanel | None, ...]:
    """The panels of the script, one for each of the report; None where it has no script."""
    if page.typed is None:
        return (None,) * len(page.panels)
    return page.typed.panels


def speeches(panel: PanelReport, typed: ScriptPanel | None) -> tuple[Speech, ...]:
    """What is lettered in a panel, in script order.

    Args:
        panel: The panel.
        typed: As the script has it; None takes what the report has, balloons before effects.
    """
    return tuple(_set(panel) if typed is None else _typed(panel, typed))


def _typed(panel: PanelReport, typed: ScriptPanel) -> Iterator[Speech]:
    # The report counts what is placed and what belongs to the picture each by itself.
    placed = {id(e): str(n) for n, e in enumerate(elements(typed, placed=True), start=1)}
    drawn = {id(e): f"e{n}" for n, e in enumerate(elements(typed, placed=False), start=1)}
    for one in typed.elements:
        number = placed.get(id(one)) or drawn[id(one)]
        yield Speech(
            id=f"{panel.id}.{number}",
            line=one.line,
            kind=one.kind,
            who=one.speaker,
            manner=one.modifiers,
            text=one.text,
        )


def _set(panel: PanelReport) -> Iterator[Speech]:
    for balloon in panel.balloons:
        yield Speech(
            id=balloon.id,
            line=balloon.line,
            kind=balloon.kind,
            who=balloon.speaker,
            manner=balloon.modifiers,
            text=balloon.fitted.text,
        )
    for effect in panel.effects:
        yield Speech(
            id=effect.id,
            line=effect.line,
            kind=effect.kind,
            who=None,
            manner=(),
            text=effect.text,
        )
