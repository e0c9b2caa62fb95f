"""Text made safe to print: what a script may hold but a terminal, XML or UTF-8 may not.

A script can carry control characters (an escape sequence would repaint the reader's terminal),
half surrogates (no UTF-8) and noncharacters (no XML). Each becomes one U+FFFD, so that nothing is
lost silently. Layout characters (no-break spaces, joiners, bidi marks) stay.
"""

import re

REPLACEMENT = "\ufffd"
"""The replacement character (Unicode 17, section 23.8)."""

# XML 1.0, 5th ed., production [2] Char, less C1 controls and DEL (2.2, note: discouraged).
_UNSAFE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")


def plain(text: str) -> str:
    r"""The text with every unprintable character replaced by U+FFFD.

    >>> plain("stop\x1b[31m") == "stop\ufffd[31m"
    True
    """
    return _UNSAFE.sub(REPLACEMENT, text)


def one_line(text: str) -> str:
    r"""The text on one line: runs of white space become one space; no-break spaces stay.

    >>> one_line("  HOLD\n\tTHE GATE ")
    'HOLD THE GATE'
    """
    return re.sub("[ \\t\\r\\n\\u2028\\u2029]+", " ", plain(text)).strip(" ")
