"""Sound effects and signs: lettering that belongs to the picture, measured by its ink."""

from dataclasses import replace

import numpy as np

from letterfit.findings import Finding
from letterfit.lettering.words import Words
from letterfit.report.long_text import measured
from letterfit.report.model import EffectReport
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue


def report_effect(
    element: Dialogue,
    *,
    id: str,  # noqa: A002 - the word of the report's format
    setting: Setting,
) -> tuple[EffectReport | None, tuple[Finding, ...]]:
    """One effect set on one line, and the box of its ink.

    Returns:
        The measure, None when nothing of it leaves ink; and what the lettering stage found of its
        text. It is not placed: the artist draws it.
    """
    # A sound effect belongs to the picture: in vertical text too its box is that of one line.
    lettering = replace(setting.effects, writing="horizontal")
    words = measured(element, lettering, id=id, setting=setting)
    # The artist draws emphasis in an effect: that the typeface has no style for it says nothing.
    findings = tuple(f for f in words.findings if f.code != "missing-style")
    width, height = ink_size(words)
    if not width or not height:
        return None, findings
    effect = EffectReport(
        id=id,
        line=element.line,
        kind=element.kind,
        text=words.text,
        size_pt=words.size_pt,
        width_mm=width,
        height_mm=height,
    )
    return effect, findings


def ink_size(words: Words) -> tuple[float, float]:
    """Width and height in mm of the ink of a text broken only where it must be, lines centred.

    >>> from tests.words import box_words
    >>> ink_size(box_words([3, 5, 4], space=1, forced=[1], leading=3, cap_height=2))
    (9.0, 5.0)
    """
    if not len(words):
        return 0.0, 0.0
    ends = np.flatnonzero(words.forced).tolist()
    corners, first = [], 0
    for row, last in enumerate(ends):
        line = words.line(first, last)
        if len(line.ink):
            shift = np.array([-line.width_mm / 2, row * words.leading_mm])
            corners.append(line.corners() + shift)
        first = last + 1
    if not corners:
        return 0.0, 0.0
    width, height = np.ptp(np.concatenate(corners), axis=0)
    return float(width), float(height)
