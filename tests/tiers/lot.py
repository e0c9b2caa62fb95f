"""Pages by lot for tier advice: small grids with a few words in most panels, one figure to hold."""

from dataclasses import dataclass
from typing import Self

import numpy as np

import letterfit as lf
from letterfit.report.model import PageReport

PLANS = ("2 / 2", "3 / 3", "1 / 2 / 2", "2 / 2 / 2", "2 / 3 / 2", "3 / 2 / 3", "2 / 2 / 2 / 2")
SAID = (
    "the tide turned an hour ago and nobody came to ask why this gate is still shut so we keep it "
    "closed until somebody does"
)
WORDS = SAID.split()
PAPER = lf.Paper.named("a5")


@dataclass(frozen=True, slots=True)
class Drawn:
    """A page, and the height of the figure asked of its panels, mm."""

    report: PageReport
    figure_mm: float

    @classmethod
    def of(cls, seed: int) -> Self:
        """The page of a seed."""
        lot = np.random.default_rng(seed)
        plan = PLANS[int(lot.integers(len(PLANS)))]
        count = sum(int(tier) for tier in plan.split("/"))
        panels = []
        for number in range(1, count + 1):
            words = int(lot.choice([0, 2, 4, 8, 12, 16], p=[0.2, 0.2, 0.2, 0.2, 0.1, 0.1]))
            first = int(lot.integers(len(WORDS)))
            said = " ".join(WORDS[(first + k) % len(WORDS)] for k in range(words))
            panels.append(f"Panel {number}.\n" + (f"WENNA: {said}.\n" if said else ""))
        text = f"PAGE 1\nTIERS: {plan}\n\n" + "\n".join(panels)
        report = lf.preflight(lf.parse_script(text), paper=PAPER).pages[0]
        return cls(report, round(report.figure_height_mm + float(lot.uniform(1, 5)), 1))
