"""Edits: changes to a text that is cut into spans, made without moving a change of style."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from letterfit.lettering.style.emphasis import Span


class Edit(NamedTuple):
    """Characters start .. end of a text become others."""

    start: int
    end: int
    text: str


def edited(spans: Sequence[Span], edits: Sequence[Edit]) -> tuple[Span, ...]:
    """The spans with the edits made.

    Args:
        spans: A text, cut where its style changes.
        edits: In order, none overlapping another. What reaches over a change of style is set in the
            style before it.

    Returns:
        Spans in order, none empty; neighbours differ in style.

    >>> edited((Span("NO-", "bold"), Span("- WAIT", "regular")), [Edit(2, 4, "—")])
    (Span(text='NO—', style='bold'), Span(text=' WAIT', style='regular'))
    """
    return tuple(_joined(_edited(spans, edits)))


def _edited(spans: Sequence[Span], edits: Sequence[Edit]) -> Iterator[Span]:
    start, at, waiting = 0, 0, iter(edits)
    edit = next(waiting, None)
    for span in spans:
        end = start + len(span.text)
        parts: list[str] = []
        at = max(at, start)
        while edit is not None and edit.start < end:
            parts += [span.text[at - start : edit.start - start], edit.text]
            at = edit.end
            edit = next(waiting, None)
        parts.append(span.text[at - start :])
        yield Span("".join(parts), span.style)
        start = end


def _joined(spans: Iterator[Span]) -> Iterator[Span]:
    """The spans that hold text, neighbours of one style as one."""
    last: Span | None = None
    for span in spans:
        if not span.text:
            continue
        if last is None:
            last = span
        elif last.style == span.style:
            last = Span(last.text + span.text, last.style)
        else:
            yield last
            last = span
    if last is not None:
        yield last
