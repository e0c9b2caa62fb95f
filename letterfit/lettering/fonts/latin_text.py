"""Latin text on its way to the shaper."""

import uharfbuzz as hb


def latin_buffer(text: str, *, language: str = "en") -> hb.Buffer:
    """Text from left to right in Latin letters, in a buffer to be shaped.

    >>> latin_buffer("Ahoy!").script
    'Latn'
    """
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.direction, buffer.script, buffer.language = "ltr", "Latn", language
    return buffer
