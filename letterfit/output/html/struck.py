"""A text with the words struck that a cut takes out of it."""

from collections.abc import Sequence
from itertools import groupby

from letterfit.cuts.tokens import Token, joined, tokens_of
from letterfit.output.html.markup import element, words


def struck(text: str, removed: Sequence[str], *, left: str) -> str | None:
    """A typed text as content, what goes from it marked as deleted.

    Args:
        text: As typed.
        removed: What is taken out, as the cut names it, in the order of the text.
        left: What the text reads then.

    Returns:
        None where the cut cannot be found in the text.

    >>> struck("Well, hold the gate.", ["Well,"], left="Hold the gate.")
    '<del>Well,</del> hold the gate.'
    """
    tokens = tokens_of(text)
    kept = [token.bare for token in tokens_of(left)]
    gone = runs_gone(tokens, removed, kept)
    if gone is None:
        gone = all_but(tokens, kept)
    if gone is None:
        return None
    parts = []
    for lost, run in groupby(range(len(tokens)), key=lambda k: k in gone):
        told = words(joined(tokens[k] for k in run))
        parts.append(element("del", told) if lost else told)
    return " ".join(parts)


def runs_gone(
    tokens: Sequence[Token], removed: Sequence[str], kept: Sequence[str]
) -> set[int] | None:
    """The tokens that go, when the runs that are removed go in order and all else is kept.

    A table over how many tokens and how many runs are left: whether that end of the text can be.
    """
    runs = [tokens_of(run) for run in removed]
    texts = [[token.text for token in run] for run in runs]
    before = [sum(map(len, texts[:k])) for k in range(len(texts) + 1)]
    end = len(tokens)
    if end - before[-1] != len(kept) or not all(texts):
        return None

    def goes(at: int, run: int) -> bool:
        own = texts[run] if run < len(texts) else []
        return bool(own) and [token.text for token in tokens[at : at + len(own)]] == own

    def stays(at: int, run: int) -> bool:
        place = at - before[run]
        return at < end and 0 <= place < len(kept) and tokens[at].bare == kept[place]

    sound = [[False] * (len(texts) + 1) for _ in range(end + 1)]
    sound[end][len(texts)] = True
    for at in range(end - 1, -1, -1):
        for run in range(len(texts), -1, -1):
            sound[at][run] = (stays(at, run) and sound[at + 1][run]) or (
                goes(at, run) and sound[at + len(texts[run])][run + 1]
            )
    if not sound[0][0]:
        return None
    gone: set[int] = set()
    at = run = 0
    while at < end:
        if goes(at, run) and sound[at + len(texts[run])][run + 1]:
            gone.update(range(at, at + len(texts[run])))
            at, run = at + len(texts[run]), run + 1
        else:
            at += 1
    return gone


def all_but(tokens: Sequence[Token], kept: Sequence[str]) -> set[int] | None:
    """The tokens that go when those that stay are the first that are found, in order."""
    left = list(reversed(kept))
    gone = set()
    for k, token in enumerate(tokens):
        if left and token.bare == left[-1]:
            left.pop()
        else:
            gone.add(k)
    return None if left else gone
