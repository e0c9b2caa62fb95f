"""Classify: what each line of a script says, judged by itself, its neighbours and the cast."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from letterfit.script import delivery
from letterfit.script.cast import EMPTY_CAST, Cast, cast_of
from letterfit.script.events import (
    Blank,
    Block,
    Bracketed,
    Event,
    Numbered,
    PlanLine,
    Prose,
    Row,
    Rule,
    Silence,
    Spoken,
)
from letterfit.script.folding import fold
from letterfit.script.headings import (
    PageHeading,
    PanelHeading,
    may_be_heading,
    page_heading,
    panel_heading,
)
from letterfit.script.heads import QUOTES, Head, split_head, split_index, take_brackets
from letterfit.script.headwords import LANGUAGES
from letterfit.script.labels import DIRECTIONS, PLAN_WORDS, is_direction, is_silence
from letterfit.script.lines import Line
from letterfit.script.markup import is_rule, peel, unframed
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
_LONGEST_ALONE = 60


@lru_cache(maxsize=4096)
def heading_of(text: str) -> PageHeading | PanelHeading | None:
    """The page or panel heading that a line is, Markdown and frames taken off.

    >>> heading_of("## **Page 1**").numbers, heading_of("=== PAGE 2 ===").numbers
    ((1,), (2,))
    """
    if not may_be_heading(text):
        return None
    peeled = peel(text).text
    heading = page_heading(peeled) or panel_heading(peeled)
    if heading is None and (plain := unframed(text)) != text:
        heading = page_heading(plain) or panel_heading(plain)
    return heading


def gather_cast(blocks: Sequence[Block]) -> Cast:
    """The cast and language of a script: first reading, names and headings only."""
    heads: list[str] = []
    alone: list[str] = []
    dashed: list[str] = []
    votes: Counter[str] = Counter()
    for at, block in enumerate(blocks):
        if isinstance(block, Row):
            heads += _row_speakers(block)
        elif (heading := heading_of(block.text)) is not None:
            votes.update(heading.languages)
        elif block.text:
            for head in _heads(block.text):
                (dashed if head.parted_by == "dash" else heads).append(head.name)
            if (name := _alone(blocks, at)) is not None:
                alone.append(name)
    language = leading_language(votes)
    return cast_of(
        _names(heads, language), alone, dashed=_names(dashed, language), language=language
    )


def leading_language(votes: Mapping[str, int]) -> str:
    """The language with most votes; the first of LANGUAGES on a tie.

    >>> leading_language({"fr": 3, "en": 2})
    'fr'
    """
    return max(LANGUAGES, key=lambda language: votes.get(language, 0))


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
    name = _alone(blocks, at)
    if name is None or not isinstance(line, Line):
        return None
    index, whole = split_index(peel(line.text).text)
    _, brackets = take_brackets(whole)
    if look_of(name) == "uncased":  # words in Japanese quotes follow: that is how names are typed
        head = Head(name, brackets, "", parted_by="quotes")
        return _indented(from_head(head, cast=cast, index=index), line.indent)
    head = Head(name, brackets, "")
    known = any(map(delivery.is_known, modifiers_of(brackets)))
    opens = _opens_paragraph(blocks, at)
    labelled = opens and label_of(name, language=cast.language) is not None
    if not labelled and not is_alone_name(
        name, cast=cast, opens=opens, indent=line.indent, known_modifier=known
    ):
        return None
    return _indented(from_head(head, cast=cast, index=index), line.indent)


def _alone(blocks: Sequence[Block], at: int) -> str | None:
    """The name, without brackets, alone on a line: in capitals, emphasised, or over 「words」."""
    line = blocks[at]
    if not isinstance(line, Line) or len(line.text) > _LONGEST_ALONE:
        return None
    peeled = peel(line.text)
    _, whole = split_index(peeled.text)
    name, _ = take_brackets(whole)
    look = look_of(name)
    quoted = look == "uncased" and _quotes_follow(blocks, at)
    if look != "capitals" and not (look == "title" and peeled.marked) and not quoted:
        return None
    if split_head(whole) is not None or not _words_follow(blocks, at, marked=peeled.marked):
        return None
    return name


def _opens_paragraph(blocks: Sequence[Block], at: int) -> bool:
    """Whether a line stands apart: after a blank or a heading, or by its indentation.

    It stands apart where it is deeper than the line before, or the next one is deeper than it.
    """
    before = blocks[at - 1] if at else None
    if not isinstance(before, Line) or not before.text:
        return True
    steps = _is_deeper(blocks, at, than=at - 1) or _is_deeper(blocks, at + 1, than=at)
    return steps or heading_of(before.text) is not None


def _is_deeper(blocks: Sequence[Block], at: int, *, than: int) -> bool:
    line, other = blocks[at] if at < len(blocks) else None, blocks[than]
    if not isinstance(line, Line) or not isinstance(other, Line):
        return False
    return bool(line.text) and line.indent > other.indent


def _quotes_follow(blocks: Sequence[Block], at: int) -> bool:
    """Whether the next line opens with Japanese quotes."""
    following = blocks[at + 1] if at + 1 < len(blocks) else None
    return isinstance(following, Line) and following.text[:1] in QUOTES


def _words_follow(blocks: Sequence[Block], at: int, *, marked: bool) -> bool:
    """Whether prose comes next; under a marked name a blank line may part them."""
    for block in blocks[at + 1 : at + (3 if marked else 2)]:
        if not isinstance(block, Line):
            return False
        if block.text:
            head = split_head(peel(block.text).text)
            return (
                heading_of(block.text) is None
                and not is_rule(block.text)
                and (head is None or look_of(head.name) != "capitals")
            )
    return False


def _heads(text: str) -> Iterator[Head]:
    """What stands before the colon of a line, or else before a dash; a number before it is cut."""
    peeled = peel(text).text
    index, element = split_index(peeled)
    opened = peel(element).text if index is not None else element
    head = split_head(opened)
    if head is None or look_of(head.name) == "other":
        head = split_head(opened, dashes=True) or head
    if head is not None:
        yield head


def _names(heads: Iterable[str], language: str) -> Iterator[str]:
    """The heads that are no labels, without how they speak."""
    language_only = replace(EMPTY_CAST, language=language)
    for head in heads:
        if label_of(head, language=language) is None:
            yield from_head(Head(head, (), ""), cast=language_only).speaker or head


def _row_speakers(row: Row) -> Iterator[str]:
    for cell, column in zip(row.cells, row.columns, strict=False):
        if column == "speaker" and cell:
            yield take_brackets(cell)[0]
