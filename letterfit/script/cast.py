"""The cast: which names a script uses and how it is typed, gathered before it is read."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from letterfit.script.folding import fold
from letterfit.script.labels import is_direction
from letterfit.script.names import look_of


@dataclass(frozen=True, slots=True)
class Cast:
    """The names a script uses, and how it is typed.

    Args:
        spellings: For each folded name the spelling to show: the one in capitals if there is one.
        capitals: How often each folded name opens a line in capitals.
        titles: How often each folded name opens a line with capital initials.
        alone: How often each folded name stands alone on a line, in capitals, over words.
        language: The language its headings are typed in.
        dashes: Whether dashes stand behind names ("WENNA - Hold."): no name has a colon, and one
            comes back with a dash.
    """

    spellings: Mapping[str, str]
    capitals: Mapping[str, int]
    titles: Mapping[str, int]
    alone: Mapping[str, int]
    language: str = "en"
    dashes: bool = False

    @property
    def is_mixed(self) -> bool:
        """Whether no name stands in capitals anywhere."""
        return not self.capitals and not self.alone

    def spelling(self, name: str) -> str:
        """The one spelling of a name throughout the script."""
        return self.spellings.get(fold(name), name)


def cast_of(
    heads: Iterable[str],
    alone: Iterable[str],
    *,
    dashed: Iterable[str] = (),
    language: str = "en",
) -> Cast:
    """The cast of a script.

    Args:
        heads: The heads before colons of all lines, without brackets.
        alone: The lines in capitals that stand alone over words.
        dashed: What stands before a dash in lines without a colon.
        language: The language its headings are typed in.
    """
    names: dict[str, dict[str, str]] = {"capitals": {}, "uncased": {}, "title": {}}
    counts: dict[str, Counter[str]] = {look: Counter() for look in names}
    heads = tuple(heads)
    before_dashes = [name for name in dashed if look_of(name) == "capitals"]
    dashes = len(set(before_dashes)) < len(before_dashes) and not any(
        look_of(name) == "capitals" for name in heads
    )
    for name in (*heads, *(before_dashes if dashes else ())):
        look = look_of(name)
        if look != "other" and not is_direction(name):
            counts[look][fold(name)] += 1
            names[look].setdefault(fold(name), name)
    alone_names = [name for name in alone if not is_direction(name)]
    spellings = names["title"] | {fold(name): name for name in reversed(alone_names)}
    return Cast(
        spellings=spellings | names["uncased"] | names["capitals"],
        capitals=counts["capitals"],
        titles=counts["title"],
        alone=Counter(fold(name) for name in alone_names),
        language=language,
        dashes=dashes,
    )


EMPTY_CAST = Cast({}, {}, {}, {})
