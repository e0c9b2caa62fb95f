"""UTF-16 offsets, in which ICU counts, as offsets of characters, in which Python counts."""

from itertools import accumulate


def index_of_units(text: str) -> dict[int, int] | None:
    """The offset of the character that begins at each UTF-16 offset.

    Returns:
        None where the two never differ: a text without characters beyond U+FFFF.

    >>> index_of_units("a😀b")
    {0: 0, 1: 1, 3: 2, 4: 3}
    """
    if not text or max(text) <= "\uffff":
        return None
    units = accumulate((1 + (char > "\uffff") for char in text), initial=0)
    return dict(zip(units, range(len(text) + 1), strict=True))
