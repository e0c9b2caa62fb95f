"""Events: what one line or table row says, before anybody knows where it belongs."""

from dataclasses import dataclass

from letterfit.script.headings import PageHeading, PanelHeading
from letterfit.script.model import Kind


@dataclass(frozen=True, slots=True)
class Blank:
    """Nothing; it ends a speech."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A line drawn across the page (---); it ends a speech, and a repeated table header does."""


@dataclass(frozen=True, slots=True)
class Prose:
    """Words that belong to whatever stands before them.

    Args:
        text: As typed.
        indent: Columns of white space before it.
        described: Whether it is surely description (a table's picture column).
    """

    text: str
    indent: int = 0
    described: bool = False


@dataclass(frozen=True, slots=True)
class Bracketed:
    """A whole line in brackets: a direction to the speaker, a beat, or description.

    Args:
        text: As typed, brackets included.
        inner: Without the brackets.
    """

    text: str
    inner: str


@dataclass(frozen=True, slots=True)
class Silence:
    """A note that the panel has no lettering.

    Args:
        text: As typed.
    """

    text: str


@dataclass(frozen=True, slots=True)
class PlanLine:
    """The page's plan in our own notation.

    Args:
        plan: What follows the keyword.
        text: The line as typed.
    """

    plan: str
    text: str


@dataclass(frozen=True, slots=True)
class Numbered:
    """A line that opens with a bare number: a panel where one is due, else prose.

    Args:
        prose: The line as it is kept if it is prose.
        number: The panel's number, or the part behind the dot.
        page: The part before the dot of "4.1"; None without a dot.
        rest: What follows the number.
    """

    prose: Prose
    number: int
    page: int | None
    rest: str

    @property
    def typed(self) -> int | str:
        """The panel's number as typed."""
        return self.number if self.page is None else f"{self.page}.{self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """A speaker's or a label's line.

    Args:
        kind: What the element is.
        speaker: Who speaks, if anybody is named.
        modifiers: What stands in brackets behind the name.
        index: A balloon number typed before it.
        words: The words on the same line; may be empty.
        indent: Columns of white space before the name.
        typed: The head as typed, for messages.
        quoted: Whether Japanese quotes stand round the words in the place of a colon.
    """

    kind: Kind
    speaker: str | None = None
    modifiers: tuple[str, ...] = ()
    index: int | None = None
    words: str = ""
    indent: int = 0
    typed: str = ""
    quoted: bool = False


@dataclass(frozen=True, slots=True)
class Unnamed:
    """Words in a table without a speaker beside them: one more balloon of the last one.

    Args:
        words: As typed.
        index: A balloon number typed beside them.
    """

    words: str
    index: int | None = None


Event = (
    Blank
    | Rule
    | Prose
    | Bracketed
    | Silence
    | PlanLine
    | Numbered
    | Spoken
    | Unnamed
    | PageHeading
    | PanelHeading
)
