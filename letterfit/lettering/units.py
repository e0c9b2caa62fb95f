"""UTF-16 offsets, in which ICU counts, as offsets of characters, in which Python counts."""


def index_of_units(text: str) -> dict[int, int] | None:
    """The offset of the character that begins at each UTF-16 offset.

    Returns:
        None where the two never differ: a text without characters beyond U+FFFF.

    >>> index_of_units("a😀b")
    {0: 0, 1: 1, 3: 2, 4: 3}
    """
    if not text or max(text) <= "\uffff":
        return None
    found = {}
    units = 0
    for index, char in enumerate(text):
        found[units] = index
        units += 1 + (char > "\uffff")
    found[units] = len(text)
    return found
