"""Which outline a manner of speaking takes: thoughts clouds, shouts bursts, whispers dashes."""

from dataclasses import dataclass

from letterfit.families import family, whispered
from letterfit.script.delivery import is_machine, is_shout, is_whisper
from letterfit.script.model import Dialogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlines:
    r"""The family of outlines for each manner of speaking (common practice, no source).

    Args:
        speech: For dialogue.
        thought: For thoughts.
        shout: For dialogue that the script says is shouted.
        whisper: For what it says is whispered; None takes the speech outline, dashed.
        machine: For a voice that it says comes from a machine.
        caption: For captions.

    Raises:
        OutlineError: When there is no family of such a name.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The gate.\nWENNA: Shut it!\n")
    >>> report = lf.preflight(script, outline=Outlines(speech="rounded"))
    >>> report.pages[0].panels[0].balloons[0].fitted.outline.kind
    'rounded'
    """

    speech: str = "ellipse"
    thought: str = "cloud"
    shout: str = "burst"
    whisper: str | None = None
    machine: str = "squared"
    caption: str = "caption"

    def __post_init__(self) -> None:
        for name in (self.speech, self.thought, self.shout, self.machine, self.caption):
            family(name)
        if self.whisper is not None:
            family(self.whisper)

    def of(self, element: Dialogue) -> str:
        """The family for one element.

        >>> shout = Dialogue(kind="dialogue", text="Shut it!", line=1, modifiers=("SHOUTING",))
        >>> Outlines().of(shout), Outlines(shout="ellipse").of(shout)
        ('burst', 'ellipse')
        """
        if element.kind == "caption":
            return self.caption
        if element.kind == "thought":
            return self.thought
        if is_whisper(element.modifiers):
            return whispered(self.speech) if self.whisper is None else self.whisper
        if is_shout(element.modifiers):
            return self.shout
        return self.machine if is_machine(element.modifiers) else self.speech
