"""Who speaks: the one rule that tells a speaker's line from a description with a colon in it.

A line is ``head: words``; a tab or a wide gap may stand for the colon, in Japanese quotes
(``head「words」``), and a dash in a script that types all its speakers so. The head is a name,
perhaps with brackets behind it. The line is lettered when the first of these holds, in this
order; otherwise the colon belongs to the description:

1. The head is a label (CAPTION, BRUITAGE): see `letterfit.script.labels` for which count in
   small letters.
2. The head is a direction (NOTE, CLOSE ON ..., GROS PLAN): never a speaker. A side or a time of
   day (LEFT, NIGHT) is one, too, unless it opens at least OFTEN lines.
3. The head is no name at all: longer than six words or forty letters, ending
   in a sentence, or with small words in it ("From behind her"): never a speaker.
4. It stands in capitals: a speaker. Behind a panel heading on the same line only if the name
   also opens a line of its own somewhere, because descriptions begin with names in capitals.
5. Its name is known, in another case, from lines in capitals ("Odile (pense) :" after "ODILE :").
6. It is emphasised (``**Wenna:**``), or a bracket behind it says how it is spoken ("(softly)");
   behind a term of the trade ("Man's voice (off):") even small words may stand in it.
7. It begins with capital letters ("Barge Pilot") and the script is typed that way: no name stands
   in capitals anywhere, and the head comes back or the words do not go on in small letters;
   or, in a script with names in capitals, it comes back at least OFTEN times.
8. It is in a script without capital letters (Japanese), short, and no phrase with a particle.

A name alone on a line, as in screenplays, is judged by `is_alone_name`.
"""

from letterfit.script.cast import Cast
from letterfit.script.folding import fold
from letterfit.script.heads import Head, split_head
from letterfit.script.labels import LABELS, SIDES, is_direction
from letterfit.script.names import is_short, look_of

OFTEN = 3
"""Times a mixed-case head must open a line where other names stand in capitals."""


def is_speaker(head: Head, *, cast: Cast, marked: bool, known_modifier: bool) -> bool:
    """Rules 2 to 8 for a line of its own.

    Args:
        head: What stands before the colon.
        cast: The names of the script.
        marked: Whether the head was emphasised, or a bracket behind it is a term of the trade.
        known_modifier: Whether one of its brackets says how the words are spoken.
    """
    look = look_of(head.name)
    key = fold(head.name)
    if look == "title" and key in LABELS and key not in cast.capitals:
        return False  # "Sign: ..." where labels stand in capitals
    if key in SIDES and cast.capitals.get(key, 0) < OFTEN:
        return False
    if is_direction(head.name) or (look == "other" and not (marked and is_short(head.name))):
        return False
    if look in {"capitals", "uncased"} or marked or known_modifier:
        return True
    return bool(cast.capitals.get(key) or cast.alone.get(key)) or _is_often(head, cast)


def _is_often(head: Head, cast: Cast) -> bool:
    """Rule 7, for names with capital initials."""
    if head.parted_by == "tab":
        return False
    times = cast.titles.get(fold(head.name), 0)
    if not cast.is_mixed:
        return times >= OFTEN
    return times > 1 or not head.words[:1].islower()


def is_known_speaker(head: Head, *, cast: Cast) -> bool:
    """Rule 4 behind a panel heading: the name opens a line of its own somewhere."""
    return look_of(head.name) in {"capitals", "uncased"} and fold(head.name) in cast.spellings


def perhaps_speaker(text: str, *, cast: Cast) -> str | None:
    """The known speaker before the only dash of a line, where speakers are typed with colons.

    Whether "WENNA - Shut it!" is lettered or describes nobody can tell; "WENNA - tired, wet - on
    the beam" describes, as do words that go on in small letters.
    """
    head = split_head(text, dashes=True)
    if cast.dashes or head is None or head.parted_by != "dash" or look_of(head.name) != "capitals":
        return None
    words = head.words.lstrip("\"'“‘«„¡¿….* ")
    if split_head(head.words, dashes=True) is not None or not words[:1].isupper():
        return None
    return cast.spelling(head.name) if cast.capitals.get(fold(head.name)) else None


def is_alone_name(name: str, *, cast: Cast, opens: bool, indent: int, known_modifier: bool) -> bool:
    """Whether a name alone on a line, over words, is a speaker as in a screenplay.

    A name known from other lines is. A new one must open a paragraph, in capitals, and be
    indented, or have a bracket that says how it is spoken, or the script must be typed that way
    (no colons behind names in capitals, and a name alone that comes back).

    Args:
        name: The line, without brackets; in capitals or emphasised.
        cast: The names of the script.
        opens: Whether it opens a paragraph.
        indent: Columns of white space before it.
        known_modifier: Whether one of its brackets says how the words are spoken.
    """
    if is_direction(name):
        return False
    key = fold(name)
    if cast.capitals.get(key) or cast.alone.get(key, 0) > 1:
        return True
    if not opens or look_of(name) != "capitals":
        return False
    screenplay = not cast.capitals and (indent > 0 or max(cast.alone.values(), default=0) > 1)
    return known_modifier or (screenplay and key in cast.alone)
