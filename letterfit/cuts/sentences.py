"""Sentences of a text: where each begins and ends, as its marks tell."""

from collections.abc import Iterator, Sequence

from letterfit.cuts.tokens import Token


def sentence_starts(tokens: Sequence[Token]) -> tuple[bool, ...]:
    """Whether each token opens a sentence, or a quote.

    >>> from letterfit.cuts.tokens import tokens_of
    >>> sentence_starts(tokens_of("Stop. Who goes?"))
    (True, True, False)
    """
    return tuple(
        not k or tokens[k - 1].ends_sentence or token.opens or tokens[k - 1].ending[-1:] in "—–:"
        if k and tokens[k - 1].ending
        else not k or token.opens
        for k, token in enumerate(tokens)
    )


def sentence_ranges(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """The first token of each sentence, and one past its last.

    >>> from letterfit.cuts.tokens import tokens_of
    >>> list(sentence_ranges(tokens_of("Stop. Who goes?")))
    [(0, 1), (1, 3)]
    """
    first = 0
    for k, token in enumerate(tokens):
        if token.ends_sentence or k + 1 == len(tokens):
            yield first, k + 1
            first = k + 1
