"""Runs of equal numbers in a sorted row: where each begins, and how long it is.

`numpy.unique` would sort once more, and import masked arrays the first time.
"""

import numpy as np
import numpy.typing as npt

Ints = npt.NDArray[np.intp]


def starts(keys: Ints) -> Ints:
    """Where each run of equal numbers begins.

    >>> starts(np.array([2, 2, 5, 7, 7, 7])).tolist()
    [0, 2, 3]
    """
    new = np.ones(len(keys), dtype=np.bool_)
    np.not_equal(keys[1:], keys[:-1], out=new[1:])
    return new.nonzero()[0]


def lengths(first: Ints, count: int) -> Ints:
    """How long each run is, by where they begin and where the last one ends.

    >>> lengths(np.array([0, 2, 3]), 6).tolist()
    [2, 1, 3]
    """
    ends = np.empty_like(first)
    ends[:-1] = first[1:]
    ends[-1:] = count
    ends -= first
    return ends
