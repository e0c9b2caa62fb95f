"""The numbers of WOFF2 in fewer bytes than they have bits (W3C, "WOFF File Format 2.0", 4.1, 5.2).

Reading past the end raises IndexError or struct.error; whoever unpacks a font calls that damage.
"""

import numpy as np
import numpy.typing as npt

Bytes = npt.NDArray[np.uint8]
Ints = npt.NDArray[np.int64]

ONE_MORE, TWO_MORE, WORD = 255, 254, 253
"""Codes of 255UInt16 that are followed by more bytes."""

LOWEST = 253
"""What a further byte counts from."""


def base_128(data: bytes, at: int) -> tuple[int, int]:
    r"""A UIntBase128 and where it ends: seven bits a byte, the high bit says that more come.

    >>> base_128(b"\x3f", 0), base_128(b"\x81\x00", 0)
    ((63, 1), (128, 2))
    """
    value = 0
    for end in range(at + 1, at + 6):
        byte = data[end - 1]
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, end
    raise IndexError


def short_number(data: bytes, at: int) -> tuple[int, int]:
    r"""A 255UInt16 and where it ends.

    >>> [short_number(code, 0)[0] for code in (b"\xfc", b"\xff\x00", b"\xfe\x00", b"\xfd\x02\x00")]
    [252, 253, 506, 512]
    """
    code = data[at]
    if code < WORD:
        return code, at + 1
    if code == WORD:
        return data[at + 1] << 8 | data[at + 2], at + 3
    return data[at + 1] + (LOWEST if code == ONE_MORE else 2 * LOWEST), at + 2


def triplet_sizes(flags: Bytes) -> Ints:
    """How many bytes of the glyph stream each point takes besides its flag."""
    kind = flags & 0x7F
    return np.select([kind < 84, kind < 120, kind < 124], [1, 2, 3], default=4).astype(np.int64)


def triplet_moves(flags: Bytes, stream: Bytes, starts: Ints) -> tuple[Ints, Ints]:
    """The move to each point from the one before, in x and in y (table of section 5.2).

    Args:
        flags: Shape (n,), one for each point.
        stream: The glyph stream.
        starts: Shape (n,), where the point's bytes begin there.

    >>> moves = triplet_moves(np.array([11], np.uint8), np.array([7], np.uint8), np.array([0]))
    >>> [int(move[0]) for move in moves]
    [7, 0]
    """
    if len(starts) and int((starts + triplet_sizes(flags)).max()) > len(stream):
        raise IndexError
    kind = (flags & 0x7F).astype(np.int64)
    padded = np.append(stream, np.zeros(4, np.uint8)).astype(np.int64)
    b0, b1, b2, b3 = (padded[starts + k] for k in range(4))
    near, far = kind - 20, kind - 84
    cases = [kind < 10, kind < 20, kind < 84, kind < 120, kind < 124]
    zero = np.zeros_like(kind)
    x = np.select(
        cases,
        [
            zero,
            ((kind - 10 & 14) << 7) + b0,
            1 + (near & 0x30) + (b0 >> 4),
            1 + (far // 12 << 8) + b0,
            (b0 << 4) + (b1 >> 4),
        ],
        default=(b0 << 8) + b1,
    )
    y = np.select(
        cases,
        [
            ((kind & 14) << 7) + b0,
            zero,
            1 + ((near & 0x0C) << 2) + (b0 & 0x0F),
            1 + (far % 12 >> 2 << 8) + b1,
            ((b1 & 0x0F) << 8) + b2,
        ],
        default=(b2 << 8) + b3,
    )
    # A move along one axis has one sign; else the lowest bit is that of x, the next that of y.
    y_sign = np.where(kind < 20, kind, kind >> 1)
    return np.where(kind & 1, x, -x), np.where(y_sign & 1, y, -y)
