"""Drafts: pages, panels and speeches while they are being read; each becomes its frozen value."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from letterfit.script.events import Bracketed, Spoken
from letterfit.script.heads import QUOTES, take_brackets
from letterfit.script.labels import is_beat, is_silence
from letterfit.script.model import Dialogue, ScriptPage, ScriptPanel
from letterfit.script.spoken import modifiers_of

_LONGEST_DIRECTION = 60
_CJK = (("\u3000", "\u30ff"), ("\u3400", "\u9fff"), ("\uff00", "\uffef"))
_OPEN, _CLOSE = "([（［", ")]）］"
_QUOTE_ENDS = tuple(QUOTES.values())
_BRACKET = re.compile(r"[(\[（［]([^()\[\]（）［］]{1,40})[)\]）］]")


def join_lines(parts: Sequence[str]) -> str:
    """Lines folded into one: a space between them, none between Japanese signs.

    >>> join_lines(["The tide", "turned."]), join_lines(["潮が", "変わった"])
    ('The tide turned.', '潮が変わった')
    """
    kept = [part for part in parts if part]
    pieces = kept[:1]
    for before, after in pairwise(kept):
        pieces.append(after if _is_cjk(before[-1]) and _is_cjk(after[0]) else " " + after)
    return "".join(pieces)


def _is_cjk(sign: str) -> bool:
    return any(first <= sign <= last for first, last in _CJK)


@dataclass(slots=True)
class _Part:
    """What is said between two beats: one balloon."""

    line: int
    modifiers: tuple[str, ...]
    words: list[str] = field(default_factory=list)
    directions: list[str] = field(default_factory=list)  # lines in brackets that modify it


@dataclass(slots=True)
class SpeechDraft:
    """A speech while its lines come in."""

    spoken: Spoken
    line: int
    parts: list[_Part] = field(init=False)
    pending: Bracketed | None = None

    def __post_init__(self) -> None:
        self.parts = [_Part(self.line, self.spoken.modifiers)]
        self.add(self.spoken.words, self.line)

    @property
    def has_words(self) -> bool:
        """Whether any words came in yet."""
        return any(part.words for part in self.parts)

    @property
    def is_quoted_out(self) -> bool:
        """Whether the Japanese quotes that opened the speech are closed."""
        words = self.parts[-1].words
        return self.spoken.quoted and bool(words) and words[-1].endswith(_QUOTE_ENDS)

    def add(self, text: str, line: int) -> None:
        """Take in one more line of words; a beat inside it begins a new balloon."""
        if not text:
            return
        self._settle(line)
        for at, piece in enumerate(_between_beats(text)):
            if at > 0:
                self.parts.append(_Part(line, self.spoken.modifiers))
            part = self.parts[-1]
            words = piece if part.words else self._lead(piece, part)
            if words:
                part.words.append(words)

    def hold(self, bracketed: Bracketed) -> bool:
        """Take in a line in brackets, if it can be one of the speech."""
        if self.pending is not None:
            return False
        self.pending = bracketed
        return True

    def finish(self) -> tuple[tuple[Dialogue, ...], tuple[str, ...]]:
        """The balloons of the speech, and lines in brackets that no words followed."""
        self._letter_lone_bracket()
        left = [text for part in self.parts if not part.words for text in part.directions]
        if self.pending is not None:
            left.append(self.pending.text)
        spoken = self.spoken
        balloons = tuple(
            Dialogue(
                kind=spoken.kind,
                text=_unquoted(join_lines(part.words)) if spoken.quoted else join_lines(part.words),
                line=part.line,
                speaker=spoken.speaker,
                modifiers=part.modifiers,
                index=spoken.index if at == 0 else None,
            )
            for at, part in enumerate(part for part in self.parts if part.words)
        )
        return balloons, tuple(left)

    def _letter_lone_bracket(self) -> None:
        """If a bracket is all that stands under a name, it is what is said: "(sighs)"."""
        held = self.pending
        if held is None or self.has_words or is_beat(held.inner) or is_silence(held.inner):
            return
        self.parts[-1].words.append(held.text)
        self.pending = None

    def _settle(self, line: int) -> None:
        """A bracket between the name and words modifies them; between words it is a beat."""
        if self.pending is None:
            return
        held, self.pending = self.pending, None
        if self.has_words:
            self.parts.append(_Part(line, self.spoken.modifiers))
        part = self.parts[-1]
        part.directions.append(held.text)
        if not self.has_words or not is_beat(held.inner):
            part.modifiers += modifiers_of((held.inner,))

    def _lead(self, text: str, part: _Part) -> str:
        """(quietly) Hold: a short bracket before the words says how they are spoken."""
        if text[:1] not in set(_OPEN):
            return text
        head = text[:_LONGEST_DIRECTION]
        ends = [at for at, sign in enumerate(head) if sign in _CLOSE]
        if not ends or not text[ends[0] + 1 :].strip():
            return text
        _, inner = take_brackets(text[: ends[0] + 1])
        if len(inner) != 1:
            return text
        part.modifiers += modifiers_of(inner)
        return text[ends[0] + 1 :].lstrip()


def _unquoted(text: str) -> str:
    """「words」 without the quotes that stood for a colon, if they are one pair round it all."""
    close = QUOTES.get(text[:1], "")
    inner = text[1:-1]
    return inner if close and inner and text.endswith(close) and close not in inner else text


def _between_beats(text: str) -> Iterator[str]:
    """The stretches of a text between the beats in it."""
    start = 0
    for bracket in _BRACKET.finditer(text):
        if is_beat(bracket.group(1)):
            yield text[start : bracket.start()].strip()
            start = bracket.end()
    yield text[start:].strip()


@dataclass(slots=True)
class PanelDraft:
    """A panel while its lines come in."""

    number: int | str
    line: int
    description: list[str] = field(default_factory=list)
    elements: list[Dialogue] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def finish(self) -> ScriptPanel:
        """The panel as a value."""
        return ScriptPanel(
            number=self.number,
            line=self.line,
            description=join_lines(self.description),
            elements=tuple(self.elements),
            note=join_lines(self.notes) or None,
        )


@dataclass(slots=True)
class PageDraft:
    """A page while its lines come in.

    What is typed before its first panel heading is kept in `loose`: it is the only panel of a
    page without panel headings, else a note and what the first panel letters.
    """

    page: ScriptPage
    splash: bool
    loose: PanelDraft
    panels: list[PanelDraft] = field(default_factory=list)
    bare: int | None = None  # the last panel number typed without a keyword

    def state_plan(self, plan: str, line: int) -> None:
        """Note the page's plan in our own notation."""
        self.page = replace(self.page, plan=plan, plan_line=line)

    def finish(self) -> ScriptPage:
        """The page as a value."""
        loose = self.loose
        if self.panels:
            self.panels[0].elements[:0] = loose.elements
            typed = ["splash"] if self.splash and not loose.description else []
            note = join_lines(typed + loose.description + loose.notes) or None
            panels = self.panels
        elif self.splash or loose.description or loose.elements or loose.notes:
            said = "splash: " if self.splash else "spread: " if self.page.spread else ""
            note = said + "one panel without a panel heading"
            panels = [loose]
        else:
            note, panels = None, []
        return replace(self.page, panels=tuple(p.finish() for p in panels), note=note)
