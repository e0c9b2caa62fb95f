"""What a checker holds against a cut, from the text before and after alone."""

import re
from collections.abc import Sequence

from letterfit.cuts.names import name_runs
from letterfit.cuts.tokens import Token, tokens_of

_PAIRS = {"“": "”", "«": "»", "(": ")", "[": "]", "{": "}", "„": "“"}
_DANGLING = re.compile(r"^[\s.,;:!?]*[,;:]|[,;]\s*[.,;:!?]|\s[,;:.!?](?!\.)(?=\s|$)|[,;]$|\(\s*\)")


def faults(before: str, after: str, *, names: Sequence[str] = ()) -> tuple[str, ...]:
    """What speaks against a cut; nothing, one hopes. It trusts nothing of the proposal.

    Args:
        before: The text as typed.
        after: What is left.
        names: The speakers of the script.

    >>> faults('He said "stop now" twice.', 'He said "stop twice.')
    ('a quote or bracket is left open',)
    """
    found = []
    old, new = tokens_of(before), tokens_of(after)
    if not new:
        return ("no word is left",)
    flow = iter(token.bare for token in old)
    if not all(any(word.bare == other for other in flow) for word in new):
        found.append("words were changed or moved")
    if _open_pairs(after) and not _open_pairs(before):
        found.append("a quote or bracket is left open")
    if _marks(after) and not _marks(before):
        found.append("a mark of emphasis is left alone")
    if _DANGLING.search(after) and not _DANGLING.search(before):
        found.append("a mark is left dangling")
    if after[-1:].isalnum() and not before[-1:].isalnum():
        found.append("the end has lost its mark")
    if _torn_name(old, new, names):
        found.append("a name is changed")
    return tuple(found)


def _open_pairs(text: str) -> bool:
    """Whether quotes or brackets do not pair; apostrophes are no quotes."""
    waiting: list[str] = []
    for char in text:
        if waiting and char == waiting[-1]:
            waiting.pop()
        elif char in _PAIRS:
            waiting.append(_PAIRS[char])
        elif char in _PAIRS.values():
            return True
    singles = re.findall(r"(?<!\w)['‘](?=\w)|(?<=[\w.,!?])['’](?!\w)", text)
    return bool(waiting) or text.count('"') % 2 == 1 or ("‘" in text and len(singles) % 2 == 1)


def _marks(text: str) -> bool:
    return text.count("*") % 2 == 1 or len(re.findall(r"(?<!\w)_|_(?!\w)", text)) % 2 == 1


def _torn_name(old: Sequence[Token], new: Sequence[Token], names: Sequence[str]) -> bool:
    """Whether a name of several words is left in part: each of its words is counted."""
    left = [token.bare for token in new]
    for run in name_runs(old, names=names):
        words = [old[k].bare for k in run]
        kept = [_count(left, word) - _count([t.bare for t in old], word) for word in words]
        if len(words) > 1 and min(kept) < 0 and max(kept) == 0 and not _has_run(left, words):
            return True
    return False


def _count(words: Sequence[str], word: str) -> int:
    return sum(one == word for one in words)


def _has_run(words: Sequence[str], run: Sequence[str]) -> bool:
    return any(list(words[k : k + len(run)]) == list(run) for k in range(len(words)))
