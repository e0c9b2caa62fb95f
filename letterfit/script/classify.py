"""Classify: what a line of a script says, judged by itself, its neighbours and the cast."""

import re
from collections.abc import Sequence
from dataclasses import replace

from letterfit.script import delivery
from letterfit.script.alone import name_alone, opens_paragraph
from letterfit.script.blocks import Block
from letterfit.script.cast import Cast
from letterfit.script.events import (
    Blank,
    Bracketed,
    Event,
    Numbered,
    PlanLine,
    Prose,
    Rule,
    Silence,
    Spoken,
)
from letterfit.script.folding import fold
from letterfit.script.headings import heading_of
from letterfit.script.heads import Head, split_head, split_index, take_brackets
from letterfit.script.labels import DIRECTIONS, PLAN_WORDS, is_direction, is_silence
from letterfit.script.lines import Line
from letterfit.script.markup import is_rule, peel
from letterfit.script.names import look_of
from letterfit.script.numbers import number_of
from letterfit.script.speech import is_alone_name
from letterfit.script.spoken import from_head, label_of, modifiers_of, spoken_line

_BARE = re.compile(
    r"[\[(]?#?(?:(?P<page>\d{1,3})\.(?P<part>\d{1,2})(?:[.):]|\s+[-–—]|(?=\s|$))"
    r"|(?P<number>\d{1,2})(?:[.):\]]|\s*[-–—](?=\s)|$)|(?P<circled>[①-⑳]))\)?\s*(?P<rest>.*)",
    re.DOTALL,
)
_BRACKETS = {"(": ")", "[": "]", "（": "）", "［": "］"}


def classify(blocks: Sequence[Block], at: int, *, cast: Cast) -> Event:
    """What the line at a place says.

    Args:
        blocks: The whole script.
        at: Which of its blocks; it is a Line.
        cast: The script's names.
    """
    line = blocks[at]
    if not isinstance(line, Line) or not line.text:
        return Blank()
    if is_rule(line.text):
        return Rule()
    peeled = peel(line.text)
    return (
        _plan(line.text, peeled.text)
        or heading_of(line.text)
        or (Silence(line.text) if is_silence(peeled.text) else None)
        or _spoken(line, cast=cast)
        or _screenplay(blocks, at, cast=cast)
        or _numbered(line, peeled.text)
        or _bracketed(line.text)
        or Prose(_untabbed(line.text), line.indent, described=_is_note(peeled.text))
    )


def opens_dotted(block: Block) -> bool:
    """Whether a line is the first panel of a page typed as page.panel ("2.1 The lock.")."""
    if not isinstance(block, Line) or not block.text:
        return False
    numbered = _numbered(block, peel(block.text).text)
    return numbered is not None and numbered.page is not None and numbered.number == 1


def _spoken(line: Line, *, cast: Cast) -> Spoken | None:
    peeled = peel(line.text)
    text = _lettered_in_brackets(peeled.text, cast=cast) or peeled.text
    spoken = spoken_line(text, cast=cast, marked=peeled.marked)
    return _indented(spoken, line.indent) if spoken else None


def _lettered_in_brackets(text: str, *, cast: Cast) -> str | None:
    """What brackets round a whole line hold, if a label opens it: "[SFX: KRRAK]"."""
    inner = _inside(text)
    head = split_head(inner) if inner else None
    label = label_of(head.name, language=cast.language) if head else None
    return inner if label is not None and label.sure else None


def _indented(spoken: Spoken, indent: int) -> Spoken:
    return replace(spoken, words=_untabbed(spoken.words), indent=indent)


def _is_note(text: str) -> bool:
    """Whether a line opens with NOTE: or CLOSE ON WENNA: and so is no part of a speech."""
    head = split_head(text)
    if head is None:
        return False
    if look_of(head.name) in {"capitals", "uncased"}:
        return is_direction(head.name)
    return head.name[:1].isupper() and fold(head.name) in DIRECTIONS


def _untabbed(text: str) -> str:
    return text.replace("\t", " ")


def _plan(text: str, peeled: str) -> PlanLine | None:
    """TIERS: 3 / 2:1 @1.5 / 4, perhaps in brackets."""
    inner = _inside(peeled) or peeled
    keyword, colon, plan = inner.replace("：", ":").partition(":")
    if colon and len(keyword) < 20 and fold(keyword).strip("*_ ") in PLAN_WORDS:
        return PlanLine(plan.strip("*_ \t"), text)
    return None


def _numbered(line: Line, peeled: str) -> Numbered | None:
    bare = _BARE.match(peeled)
    if bare is None:
        return None
    prose = Prose(_untabbed(line.text), line.indent)
    number = number_of(bare["number"] or bare["circled"] or "")
    if number is not None:
        return Numbered(prose, number, None, bare["rest"])
    if bare["page"] is None:
        return None
    return Numbered(prose, int(bare["part"]), int(bare["page"]), bare["rest"])


def _bracketed(text: str) -> Bracketed | None:
    inner = _inside(text.strip("*_"))
    return Bracketed(text, inner) if inner is not None else None


def _inside(text: str) -> str | None:
    """What one pair of brackets round the whole of a text holds."""
    close = _BRACKETS.get(text[:1])
    if close is None or not text.endswith(close) or text[0] in text[1:] or close in text[:-1]:
        return None
    return text[1:-1].strip()


def _screenplay(blocks: Sequence[Block], at: int, *, cast: Cast) -> Spoken | None:
    """A name or label alone on a line, over its words."""
    line = blocks[at]
    name = name_alone(blocks, at)
    if name is None or not isinstance(line, Line):
        return None
    index, whole = split_index(peel(line.text).text)
    _, brackets = take_brackets(whole)
    if look_of(name) == "uncased":  # words in Japanese quotes follow: that is how names are typed
        head = Head(name, brackets, "", parted_by="quotes")
        return _indented(from_head(head, cast=cast, index=index), line.indent)
    head = Head(name, brackets, "")
    known = any(map(delivery.is_known, modifiers_of(brackets)))
    opens = opens_paragraph(blocks, at)
    labelled = opens and label_of(name, language=cast.language) is not None
    if not labelled and not is_alone_name(
        name, cast=cast, opens=opens, indent=line.indent, known_modifier=known
    ):
        return None
    return _indented(from_head(head, cast=cast, index=index), line.indent)
