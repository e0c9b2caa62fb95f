"""Names in a text: words that must not be changed, only left out whole."""

from collections.abc import Sequence

from letterfit.cuts.sentences import sentence_starts
from letterfit.cuts.tokens import TITLES, Token

PRONOUNS = frozenset(("i", "i'm", "i'll", "i've", "i'd", "o", "oh"))
"""Capitals that name nobody (English)."""


def name_runs(tokens: Sequence[Token], *, names: Sequence[str] = ()) -> tuple[range, ...]:
    """The runs of tokens that are names: words with capitals inside a sentence, known speakers.

    Args:
        tokens: The text.
        names: The speakers of the script; their words count in any case.

    >>> from letterfit.cuts.tokens import tokens_of
    >>> name_runs(tokens_of("Ask Mr. Smith at Lock Nine."))
    (range(1, 3), range(4, 6))
    """
    known = {word for name in names for word in name.casefold().split()} - {"the", "of", "a"}
    mixed = any(char.islower() for token in tokens for char in token.text)
    starts = sentence_starts(tokens)

    def is_name(k: int) -> bool:
        token = tokens[k]
        stem = token.bare.removesuffix("'s")
        if stem in known or (token.bare in TITLES and token.ending == "."):
            return True
        head = token.text.lstrip("\"'“‘«([")[:1]
        shouted = len(stem) > 1 and token.text.upper() == token.text
        return mixed and head.isupper() and not starts[k] and not shouted and stem not in PRONOUNS

    runs: list[range] = []
    for k in range(len(tokens)):
        if not is_name(k):
            continue
        goes_on = runs and runs[-1].stop == k
        same = goes_on and (not tokens[k - 1].ending or tokens[k - 1].bare in TITLES)
        if same:
            runs[-1] = range(runs[-1].start, k + 1)
        else:
            # A capital at the head of a sentence may belong to the name after it.
            runs.append(range(k, k + 1))
    return tuple(runs)
