"""What a name says of a thing: panel, balloon, caption, tail, lettering, or nothing of the page.

The words of an element's id, label and class, told apart by anything that is no letter and by a
capital after a small letter: "panel-1.3", "SpeechBalloons" and "captions_2" say what they are.
"""

import re
from collections.abc import Mapping
from typing import Literal

Kind = Literal["label", "tail", "lettering", "caption", "balloon", "panel"]

WORDS: dict[Kind, frozenset[str]] = {
    "label": frozenset(("label", "labels", "guide", "guides", "figure", "figures")),
    "tail": frozenset(("tail", "tails")),
    "lettering": frozenset(("lettering", "text", "texts")),
    "caption": frozenset(("caption", "captions")),
    "balloon": frozenset(("balloon", "balloons")),
    "panel": frozenset(("panel", "panels")),
}
"""Words by what they say, the first that is found decides; a label is no part of the page."""

NAMES = ("id", "label", "data-name", "class")
"""Attributes that name: the id, a layer's label as programs write it, classes."""

_WORD = re.compile(r"[A-Z]?[a-z]+|[A-Z]+(?![a-z])")
LONGEST = 200


def kind_of(attributes: Mapping[str, str]) -> Kind | None:
    """What the names of an element say that it is.

    Args:
        attributes: Its attributes by local name.

    >>> kind_of({"id": "panel-1.3"}), kind_of({"label": "SpeechBalloons"}), kind_of({"id": "g12"})
    ('panel', 'balloon', None)
    >>> kind_of({"class": "balloon caption"}), kind_of({"id": "panelling"})
    ('caption', None)
    """
    said = {
        word.lower()
        for name in NAMES
        if name in attributes
        for word in _WORD.findall(attributes[name][:LONGEST])
    }
    if not said:
        return None
    return next((kind for kind, words in WORDS.items() if not words.isdisjoint(said)), None)


def name_of(attributes: Mapping[str, str], tag: str, line: int) -> str:
    """A name to show: the label, the id, or what it is and where.

    >>> name_of({}, "path", 12)
    'path, line 12'
    """
    own = next((attributes[key] for key in ("label", "data-name", "id") if attributes.get(key)), "")
    return own[:60] or f"{tag}, line {line}"
