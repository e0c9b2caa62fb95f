"""The text that is left when words go: its marks and capitals mended, and a checker beside it."""

import re
from collections.abc import Collection, Sequence
from dataclasses import replace

from letterfit.cuts.names import name_runs, sentence_starts
from letterfit.cuts.tables import CutTable
from letterfit.cuts.tokens import SENTENCE_ENDS, Token, joined, tokens_of

_PAIRS = {"“": "”", "«": "»", "(": ")", "[": "]", "{": "}", "„": "“"}
_DANGLING = re.compile(r"^[\s.,;:!?]*[,;:]|[,;]\s*[.,;:!?]|\s[,;:.!?](?!\.)(?=\s|$)|[,;]$|\(\s*\)")
_TAIL = re.compile(r"[.,;:!?…—–-]+(?=[\"'”’»)\]]*$)|\s(?:--|—|–|\.\.\.|…)$")


def mended(tokens: Sequence[Token], gone: Collection[int], *, table: CutTable) -> str:
    """The text without some of its tokens.

    A mark that ended what goes moves to the word before it; a comma gives way to a stronger mark;
    a sentence begins with a capital again.

    >>> from letterfit.cuts.tables import cut_table
    >>> mended(tokens_of("Go on, old thing! Well, it is shut."), {2, 3, 4}, table=cut_table("en"))
    'Go on! It is shut.'
    """
    starts = sentence_starts(tokens)
    kept: list[Token] = []
    opens = False  # whether the next kept token begins a sentence that it did not begin before
    for k, token in enumerate(tokens):
        if k not in gone:
            kept.append(_capital(token) if opens and not starts[k] else token)
            opens = False
            continue
        opens = opens or starts[k]
        if k + 1 < len(tokens) and k + 1 in gone:
            if token.ends_sentence:
                opens = True
                if kept and not kept[-1].ends_sentence:
                    kept[-1] = _ended(kept[-1], token.ending)
            continue
        if kept and not (opens and kept[-1].ends_sentence):
            kept[-1] = _joined_mark(kept[-1], token, tokens[k + 1 :], table)
            opens = False
        elif token.ends_sentence:
            opens = False
    return joined(kept)


def _joined_mark(last: Token, token: Token, after: Sequence[Token], table: CutTable) -> Token:
    """The word before a cut with the mark that it wants now."""
    mark, own = token.ending, last.ending
    if not mark:
        return last
    if own == "," and mark == ",":
        goes_on = bool(after) and (after[0].bare in table.verbs or last.bare in table.joints)
        return _ended(last, "") if goes_on else last
    if own and own[-1] in SENTENCE_ENDS:
        return last
    stronger = mark[-1] in ".!?…—–-;:"
    return _ended(last, mark) if stronger or not own else last


def _ended(token: Token, mark: str) -> Token:
    """A token with another mark at its end, quotes that close it kept."""
    text = _TAIL.sub("", token.text)
    closing = re.search(r"[\"'”’»)\]]*$", text)
    at = closing.start() if closing else len(text)
    return replace(token, text=f"{text[:at]}{mark}{text[at:]}")


def forms(token: Token) -> tuple[Token, Token, Token, Token]:
    """What may become of a word whose neighbours go: it, without its mark, and both in capitals.

    A mark that takes the place of another makes it no narrower than none does.

    >>> [form.text for form in forms(Token("gate,"))]
    ['gate,', 'gate', 'Gate,', 'Gate']
    """
    bare = _ended(token, "")
    return token, bare, _capital(token), _capital(bare)


def _capital(token: Token) -> Token:
    for at, char in enumerate(token.text):
        if char.isalpha():
            return replace(token, text=token.text[:at] + char.upper() + token.text[at + 1 :])
    return token


def faults(before: str, after: str, *, names: Sequence[str] = ()) -> tuple[str, ...]:
    """What a checker holds against a cut; nothing, one hopes. It trusts nothing of the proposal.

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
