"""A number with its noun."""


def counted(number: int, noun: str) -> str:
    """A number with its noun in the singular or the plural.

    >>> counted(1, "word"), counted(0, "panel")
    ('1 word', '0 panels')
    """
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
