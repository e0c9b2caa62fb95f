"""Verdict colours stay apart for every kind of colour vision, and in grey.

Colour blindness is simulated with the matrices of Machado, Oliveira and Fernandes, "A
Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15(6), 2009,
severity 1.0 (from memory), applied to linear sRGB (IEC 61966-2-1).
"""

from itertools import combinations

import numpy as np
import pytest

from letterfit.outline import Floats
from letterfit.output.svg import style

VISION = {
    "full": np.eye(3),
    "protan": np.array(
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ]
    ),
    "deutan": np.array(
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ]
    ),
    "tritan": np.array(
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ]
    ),
    "none": np.array([[0.2126, 0.7152, 0.0722]] * 3),
}
APART = 15.0
"""CIE 1976 difference; 2.3 is just noticeable (Sharma, Digital Color Imaging Handbook, 2003)."""


def linear(colour: str) -> Floats:
    """A #rrggbb colour in linear light."""
    values = np.array([int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)])
    result: Floats = np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)
    return result


def lab(rgb: Floats) -> Floats:
    """CIE L*a*b* (D65) of linear sRGB."""
    matrix = np.array(
        [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
    )
    xyz = matrix @ np.clip(rgb, 0, 1) / np.array([0.9505, 1.0, 1.089])
    f = np.where(xyz > (6 / 29) ** 3, np.cbrt(xyz), xyz / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def difference(one: str, other: str, *, vision: str) -> float:
    """How far two colours are apart for an eye."""
    matrix = VISION[vision]
    return float(np.linalg.norm(lab(matrix @ linear(one)) - lab(matrix @ linear(other))))


@pytest.mark.parametrize("vision", VISION)
def test_verdicts_are_told_apart_by_every_eye(vision: str) -> None:
    """Each pair of verdict colours differs clearly, also in grey."""
    for one, other in combinations(style.COLOURS.values(), 2):
        assert difference(one, other, vision=vision) >= APART


def test_red_and_green_of_equal_lightness_would_be_caught() -> None:
    """The check can fail: a classic pair is the same to a deutan eye."""
    assert difference("#b05030", "#787830", vision="deutan") < APART
