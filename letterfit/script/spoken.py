"""From a head (NAME, brackets) to what the element is: kind, speaker and modifiers."""

import re
from dataclasses import replace

from letterfit.script import delivery
from letterfit.script.events import Spoken
from letterfit.script.folding import fold
from letterfit.script.labels import LABELS, Label
from letterfit.script.model import Kind
from letterfit.script.speech import (
    Cast,
    Head,
    is_known_speaker,
    is_speaker,
    look_of,
    split_head,
    split_index,
)

_LIST = re.compile(r"\s*[,;/+、・]\s*|\s+[-–—]\s+")
_NAME_PARTS = re.compile(r"\s*[,/]\s*|\s+[-–—]\s+")
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
    for number, candidate in ((None, text), (index, element)):
        head = split_head(candidate)
        if head is None:
            continue
        if _is_lettered(head, cast=cast, marked=marked, behind_heading=behind_heading):
            return from_head(head, cast=cast, index=number)
    return None


def from_head(head: Head, *, cast: Cast, index: int | None = None) -> Spoken:
    """The element that a head begins; the head is known to be a name or a label."""
    label, voice = _label(head.name)
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


def label_of(head: Head) -> Label | None:
    """The label that a head is or holds, if any.

    >>> label_of(split_head("Récitatif : Plus tard.")).kind
    'caption'
    >>> label_of(split_head("Sign: in small letters")) is None
    True
    """
    label, _ = _label(head.name)
    return label


def _is_lettered(head: Head, *, cast: Cast, marked: bool, behind_heading: bool) -> bool:
    if label_of(head) is not None:
        return True
    name, said = _name_and_delivery(head.name)
    judged = replace(head, name=name)
    if behind_heading:
        return is_known_speaker(judged, cast=cast)
    known = bool(said) or any(map(delivery.is_known, modifiers_of(head.brackets)))
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
        elif len(modifiers) == 1 and _names_voice(modifiers[0], label, cast):
            speaker, modifiers = cast.spelling(modifiers[0]), ()
    if voice:
        modifiers = (voice, *modifiers)
    return Spoken(
        kind=label.kind,
        speaker=speaker,
        modifiers=modifiers,
        index=index,
        words=head.words,
        typed=head.name,
    )


def _names_voice(modifier: str, label: Label, cast: Cast) -> bool:
    if delivery.is_known(modifier):
        return False
    return label.kind == "thought" or fold(modifier) in cast.spellings


def _label(name: str) -> tuple[Label | None, str]:
    """The label in a head, and what else stands there: CAPTION, SFX GATE, WENNA - CAPTION."""
    label = LABELS.get(fold(name).strip(". "))
    capitals = look_of(name) in {"capitals", "uncased"}
    if label is not None:
        return (label, "") if label.sure or capitals else (None, "")
    if not capitals:
        return None, ""
    words = re.split(r"\s+(?:[-–—/]\s+)?|(?<=\w)/(?=\w)", name)
    for length in range(1, min(len(words), _LONGEST_LABEL_WORDS)):
        for piece, others in (
            (words[:length], words[length:]),
            (words[-length:], words[:-length]),
        ):
            label = LABELS.get(fold(" ".join(piece)))
            if label is not None and label.sure:
                return label, _POSSESSIVE.sub("", " ".join(others))
    return None, ""


def _name_and_delivery(name: str) -> tuple[str, tuple[str, ...]]:
    """A name, and how it speaks where that is typed without brackets: "WENNA, OFF", "WENNA O.S."."""
    first, *others = _NAME_PARTS.split(name)
    if first and others and all(map(delivery.is_known, others)):
        return first, tuple(others)
    words = name.split()
    if len(words) > 1 and delivery.is_known(words[-1]):
        return " ".join(words[:-1]), (words[-1],)
    return name, ()
