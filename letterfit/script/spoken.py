"""From a head (NAME, brackets) to what the element is: kind, speaker and modifiers."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from letterfit.script import delivery
from letterfit.script.cast import Cast
from letterfit.script.events import Spoken
from letterfit.script.folding import fold
from letterfit.script.heads import Head, split_head, split_index
from letterfit.script.labels import Label, find_label
from letterfit.script.markup import Peeled, peel
from letterfit.script.names import look_of
from letterfit.script.speech import is_known_speaker, is_speaker

if TYPE_CHECKING:
    from letterfit.script.model import Kind

_LIST = re.compile(r"\s*[,;/+、・]\s*|\s+[-–—]\s+")
_NAME_PARTS = re.compile(r"\s*[,/]\s*|\s+[-–—]\s+")
_SPACED_DASH = re.compile(r"\s+[-–—]\s+")
_WORD_BREAK = re.compile(r"\s+(?:[-–—/]\s+)?|(?<=\w)/(?=\w)")
_POSSESSIVE = re.compile(r"['’]S?$", re.IGNORECASE)
_LONGEST_LABEL_WORDS = 4


def spoken_line(
    text: str, *, cast: Cast, marked: bool = False, behind_heading: bool = False
) -> Spoken | None:
    """What a line says if it is lettered; None if its colon, if any, belongs to a description.

    Args:
        text: The line without Markdown shells.
        cast: The names of the script.
        marked: Whether its head was emphasised.
        behind_heading: Whether it stands behind a panel heading on the same line.
    """
    index, element = split_index(text)
    opened = Peeled(element, marked) if index is None else peel(element)
    strong = marked or opened.marked
    for head in _possible_heads(opened.text, cast=cast):
        if _is_lettered(head, cast=cast, marked=strong, behind_heading=behind_heading):
            return from_head(head, cast=cast, index=index)
    return None


def from_head(head: Head, *, cast: Cast, index: int | None = None) -> Spoken:
    """The element that a head begins; the head is known to be a name or a label."""
    label, voice = _label(head.name, cast.language, mixed=cast.is_mixed)
    if label is not None:
        return _labelled(head, label, voice, cast=cast, index=index)
    name, said = _name_and_delivery(head.name)
    modifiers = said + modifiers_of(head.brackets)
    kind: Kind = "dialogue"
    if delivery.is_thought(modifiers):
        kind = "thought"
    elif delivery.is_caption(modifiers):
        kind = "caption"
    return Spoken(
        kind=kind,
        speaker=cast.spelling(name),
        modifiers=modifiers,
        index=index,
        words=head.words,
        typed=head.name,
        quoted=head.parted_by == "quotes",
    )


def modifiers_of(brackets: tuple[str, ...]) -> tuple[str, ...]:
    """What brackets say; a list of known modifiers counts as several, anything else as one.

    >>> modifiers_of(("OFF, WHISPER", "to the pilot, smiling"))
    ('OFF', 'WHISPER', 'to the pilot, smiling')
    """
    found: list[str] = []
    for bracket in brackets:
        parts = _LIST.split(bracket)
        found += parts if all(map(delivery.is_known, parts)) else [bracket]
    return tuple(found)


def label_of(name: str, *, language: str, mixed: bool = False) -> Label | None:
    """The label that a head is or holds, if any.

    Args:
        name: The head, without brackets.
        language: The language of the script's headings.
        mixed: Whether no name of the script stands in capitals; labels then need not either.

    >>> label_of("Récitatif", language="en").kind
    'caption'
    >>> label_of("Sign", language="en") is None
    True
    """
    label, _ = _label(name, language, mixed=mixed)
    return label


def _possible_heads(text: str, *, cast: Cast) -> Iterator[Head]:
    """The ways to cut a line into head and words, the surest first."""
    dashed = split_head(text, dashes=True)
    if dashed is None or dashed.parted_by != "dash" or look_of(dashed.name) != "capitals":
        dashed = None
    if dashed is not None and any(map(delivery.is_technical, modifiers_of(dashed.brackets))):
        yield dashed  # WENNA (OFF) - Hold
    head = split_head(text, dashes=cast.dashes)
    if head is not None:
        yield head
    if dashed is not None:
        label = label_of(dashed.name, language=cast.language)
        if label is not None and label.sure:
            yield dashed  # SFX - KRRAK


def _is_lettered(head: Head, *, cast: Cast, marked: bool, behind_heading: bool) -> bool:
    if label_of(head.name, language=cast.language, mixed=cast.is_mixed) is not None:
        return True
    name, said = _name_and_delivery(head.name)
    judged = replace(head, name=name)
    if behind_heading:
        return is_known_speaker(judged, cast=cast)
    modifiers = said + modifiers_of(head.brackets)
    if any(map(delivery.is_technical, modifiers)):
        marked = True
    known = any(map(delivery.is_known, modifiers))
    return is_speaker(judged, cast=cast, marked=marked, known_modifier=known)


def _labelled(head: Head, label: Label, voice: str, *, cast: Cast, index: int | None) -> Spoken:
    """An element that a label begins; brackets behind CAPTION may name the voice."""
    modifiers = modifiers_of(head.brackets)
    speaker: str | None = None
    if label.voice:
        speaker = head.name
    elif label.kind in {"caption", "thought"}:
        if voice and not voice.isdecimal():
            speaker, voice = cast.spelling(voice), ""
        elif head.brackets:
            first, *said = _LIST.split(head.brackets[0])
            if all(map(delivery.is_known, said)) and _names_voice(first, label, cast):
                speaker = cast.spelling(first)
                modifiers = (*said, *modifiers_of(head.brackets[1:]))
    if voice:
        modifiers = (voice, *modifiers)
    return Spoken(
        kind=label.kind,
        speaker=speaker,
        modifiers=modifiers,
        index=index,
        words=head.words,
        typed=head.name,
        quoted=head.parted_by == "quotes",
    )


def _names_voice(modifier: str, label: Label, cast: Cast) -> bool:
    if delivery.names_nobody(modifier):
        return False
    return label.kind == "thought" or fold(modifier) in cast.spellings


@lru_cache(maxsize=2048)
def _label(name: str, language: str, *, mixed: bool) -> tuple[Label | None, str]:
    """The label in a head, and what else stands there: CAPTION, SFX GATE, WENNA - CAPTION."""
    look = look_of(name)
    capitals = look in {"capitals", "uncased"} or (mixed and look == "title")
    label = find_label(name, capitals=capitals, language=language)
    if label is not None:
        return label, ""
    first, *others = _SPACED_DASH.split(name, maxsplit=1)
    if others and look_of(first) == "capitals":
        label = find_label(first, capitals=True, language=language)
        if label is not None and label.sure:
            return label, others[0]  # SFX - the gate
    if not capitals:
        return None, ""
    words = _WORD_BREAK.split(name)
    for length in range(1, min(len(words), _LONGEST_LABEL_WORDS)):
        for piece, others in (
            (words[:length], words[length:]),
            (words[-length:], words[:-length]),
        ):
            label = find_label(" ".join(piece), capitals=True, language=language)
            if label is not None and label.voice:
                return label, ""  # WENNA'S DIARY
            if label is not None and label.sure:
                return label, _POSSESSIVE.sub("", " ".join(others))
    return None, ""


@lru_cache(maxsize=2048)
def _name_and_delivery(name: str) -> tuple[str, tuple[str, ...]]:
    """A name, and how it speaks where that is typed without brackets (WENNA, OFF:)."""
    first, *others = _NAME_PARTS.split(name)
    if first and others and all(map(delivery.names_nobody, others)):
        return first, tuple(others)
    words = name.split()
    if len(words) > 1 and look_of(name) == "capitals" and delivery.names_nobody(words[-1]):
        return " ".join(words[:-1]), (words[-1],)
    return name, ()
