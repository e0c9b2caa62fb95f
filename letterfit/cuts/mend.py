"""The text that is left when words go, its marks and capitals mended."""

import re
from collections.abc import Collection, Sequence
from dataclasses import replace

from letterfit.cuts.sentences import sentence_starts
from letterfit.cuts.tables import CutTable
from letterfit.cuts.tokens import SENTENCE_ENDS, Token, joined

_TAIL = re.compile(r"[.,;:!?…—–-]+(?=[\"'”’»)\]]*$)|\s(?:--|—|–|\.\.\.|…)$")


def mended(tokens: Sequence[Token], gone: Collection[int], *, table: CutTable) -> str:
    """The text without some of its tokens.

    A mark that ended what goes moves to the word before it; a comma gives way to a stronger mark;
    a sentence begins with a capital again.

    >>> from letterfit.cuts.tables import cut_table
    >>> from letterfit.cuts.tokens import tokens_of
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
