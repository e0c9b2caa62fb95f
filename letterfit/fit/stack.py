"""Where the lines of a stack stand: baselines one leading apart, capitals centred on the outline.

The cap height of the first line and the baseline of the last are equally far from the centre. So
the *middle* of line k of L (half a cap height over its baseline) stands (2 k - L + 1) half leadings
under the centre: stacks of all heights share the same few places, each with one whole number.
"""

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats


def half_leadings(count: int) -> npt.NDArray[np.int64]:
    """How many half leadings the middle of each of `count` lines stands under the centre.

    >>> half_leadings(3).tolist(), half_leadings(4).tolist()
    ([-2, 0, 2], [-3, -1, 1, 3])
    """
    return 2 * np.arange(count, dtype=np.int64) - (count - 1)


def baselines(count: int, *, leading_mm: float, cap_height_mm: float) -> Floats:
    """The baselines of `count` lines in mm under the outline's centre, top to bottom.

    >>> baselines(3, leading_mm=3.0, cap_height_mm=2.0).tolist()
    [-2.0, 1.0, 4.0]
    """
    middles: Floats = half_leadings(count).astype(np.float64) * (leading_mm / 2)
    return middles + cap_height_mm / 2
