"""Names alone on a line, over their words, as screenplays have them."""

from collections.abc import Sequence

from letterfit.script.blocks import Block
from letterfit.script.headings import heading_of
from letterfit.script.heads import QUOTES, split_head, split_index, take_brackets
from letterfit.script.lines import Line
from letterfit.script.markup import is_rule, peel
from letterfit.script.names import look_of

_LONGEST_ALONE = 60


def name_alone(blocks: Sequence[Block], at: int) -> str | None:
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


def opens_paragraph(blocks: Sequence[Block], at: int) -> bool:
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
