"""A script as values: pages, panels, and what is lettered in them, each with its source line."""

from dataclasses import dataclass
from typing import Literal

from letterfit.findings import Finding
from letterfit.script import delivery

Kind = Literal["dialogue", "thought", "caption", "sfx", "sign"]
"""What an element is; "sign" is lettering that belongs to the picture."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dialogue:
    r"""One element that is lettered: a balloon, a caption, a sound effect or a sign.

    Args:
        kind: What it is.
        text: The words as typed, emphasis marks included.
        line: Where it starts in the source, counted from 1 (for a .docx, the paragraph or row).
        speaker: Who speaks, or the voice of a caption, where one is named.
        modifiers: What stands in brackets after the name, without the brackets.
        index: The balloon number typed before the element, if any; no part of the text.

    >>> import letterfit as lf
    >>> text = "PAGE 1\n\nPanel 1. The lock.\nBARGE PILOT (OFF): Ahoy, the lock!\n"
    >>> (line,) = lf.parse_script(text).pages[0].panels[0].elements
    >>> line.kind, line.speaker, line.modifiers, line.text, line.line
    ('dialogue', 'BARGE PILOT', ('OFF',), 'Ahoy, the lock!', 4)
    """

    kind: Kind
    text: str
    line: int
    speaker: str | None = None
    modifiers: tuple[str, ...] = ()
    index: int | None = None

    @property
    def off_panel(self) -> bool:
        """Whether the speaker is out of the picture.

        >>> Dialogue(kind="dialogue", text="Ahoy!", line=1, modifiers=("OFF",)).off_panel
        True
        """
        return delivery.is_off_panel(self.modifiers)

    @property
    def whisper(self) -> bool:
        """Whether the words are whispered."""
        return delivery.is_whisper(self.modifiers)

    @property
    def shout(self) -> bool:
        """Whether the words are shouted."""
        return delivery.is_shout(self.modifiers)

    @property
    def continued(self) -> bool:
        """Whether the speech goes on from an earlier balloon."""
        return delivery.is_continued(self.modifiers)


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptPanel:
    r"""One panel of a script.

    Args:
        number: As typed: 3, or "4.1"; unnumbered panels count from 1.
        line: Where its heading stands in the source.
        description: What the picture shows; may be empty.
        elements: What is lettered, in script order.
        note: A note that it has no lettering, such as "NO DIALOGUE.", if one is typed.

    >>> import letterfit as lf
    >>> (panel,) = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n").pages[0].panels
    >>> panel.number, panel.line, panel.description, len(panel.elements)
    (1, 3, 'The lock.', 1)
    """

    number: int | str
    line: int
    description: str = ""
    elements: tuple[Dialogue, ...] = ()
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptPage:
    r"""One page, or one spread of two pages.

    Args:
        numbers: The page's number; two for a spread.
        line: Where its heading stands in the source.
        panels: Its panels, in script order.
        spread: Whether it is a double-page spread.
        stated_panel_count: The number of panels the heading states, if any.
        note: What was typed on the page outside any panel, or what was supposed of it.
        plan: The page's plan in letterfit's own notation, if a line of the page states one.
        plan_line: The line where it is stated.

    >>> import letterfit as lf
    >>> (page,) = lf.parse_script("PAGES 4-5\n\nPanel 1. The lock.\n").pages
    >>> page.label, page.numbers, page.spread, len(page.panels)
    ('4-5', (4, 5), True, 1)
    """

    numbers: tuple[int, ...]
    line: int
    panels: tuple[ScriptPanel, ...] = ()
    spread: bool = False
    stated_panel_count: int | None = None
    note: str | None = None
    plan: str | None = None
    plan_line: int | None = None

    @property
    def label(self) -> str:
        """The page as named in reports: "3", or "4-5" for a spread."""
        return "-".join(map(str, self.numbers))


@dataclass(frozen=True, slots=True, kw_only=True)
class Script:
    r"""A whole script.

    Args:
        pages: Its pages, in script order.
        language: The language its headings are typed in, a BCP 47 code such as "en".
        title: The first line of the title block, if there is one.
        front_matter: The lines before the first page heading, title included.
        findings: Lines that could not be placed, and what else a reader should know.
        source: The file's name, or empty.

    >>> import letterfit as lf
    >>> script = lf.parse_script("SLACK TIDE\n\nPAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> script.title, script.language, len(script.pages), script.findings
    ('SLACK TIDE', 'en', 1, ())
    """

    pages: tuple[ScriptPage, ...]
    language: str = "en"
    title: str | None = None
    front_matter: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    source: str = ""
