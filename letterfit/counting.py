"""A number with its noun, and with its verb."""


def counted(number: int, noun: str) -> str:
    """A number with its noun in the singular or the plural.

    >>> counted(1, "word"), counted(0, "panel")
    ('1 word', '0 panels')
    """
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def does(number: int) -> str:
    """The verb of so many things that do not: "does" of one, "do" of others.

    >>> f"1 panel {does(1)} not fit", f"3 panels {does(3)} not fit"
    ('1 panel does not fit', '3 panels do not fit')
    """
    return "does" if number == 1 else "do"
