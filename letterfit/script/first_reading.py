"""The first reading of a script: its names, and the language of its headings, nothing else."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from letterfit.script.alone import name_alone
from letterfit.script.blocks import Block, Row
from letterfit.script.cast import EMPTY_CAST, Cast, cast_of
from letterfit.script.headings import heading_of
from letterfit.script.heads import Head, split_head, split_index, take_brackets
from letterfit.script.headwords import leading_language
from letterfit.script.markup import peel
from letterfit.script.names import look_of
from letterfit.script.spoken import from_head, label_of


def gather_cast(blocks: Sequence[Block]) -> Cast:
    """The cast and language of a script, from its names and headings."""
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
            if (name := name_alone(blocks, at)) is not None:
                alone.append(name)
    language = leading_language(votes)
    return cast_of(
        _names(heads, language), alone, dashed=_names(dashed, language), language=language
    )


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
