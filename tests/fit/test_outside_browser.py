"""First fit as a browser does it: Chromium between two floats, where there is a Chromium.

The floats' `shape-outside` is what an outline leaves of its box, to the left and to the right, as
a polygon of many corners; `shape-margin` is the air (CSS Shapes 1). The browser reads the bundled
font itself and breaks, places and moves the lines by its own lights (CSS 2.1, section 9.5). Words
are the browser's break opportunities, so texts are words and spaces only. It counts in 64ths of a
pixel and moves a line without room down by whole pixels: texts whose lines would be others in an
outline some pixels larger or smaller are close calls, and left out.
"""

import base64
import json
import math
import re
from dataclasses import dataclass
from functools import cache
from itertools import accumulate, chain
from typing import Any

import numpy as np
import pytest

from letterfit import Ellipse, Lettering, RoundedRect, Superellipse, open_typeface
from letterfit.fit.dressing import first_fit_into, fit_words_into
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.fonts.bundled import fonts_folder
from letterfit.lettering.measuring import measure
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline
from tests.lettering.browser import CHROMIUM, printed
from tests.plays import play_names, speeches

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no Chromium on PATH (Debian: chromium): lines are not compared"
)

FONT = (fonts_folder() / "Grandstander" / "Grandstander-Regular.ttf").read_bytes()
LETTERING = Lettering(typeface=open_typeface(FONT), case="upper")

TEXTS = 122
PX = 200.0
"""px to the em: 1 px is a two-hundredth of an em."""

CLOSE = 2.0
"""px by which an outline is made larger and smaller to find close calls."""

CORNERS = 360

PLAIN = re.compile(r"[A-Za-z,.;:?! ]+")

_PAGE = """<!doctype html><meta charset="utf-8"><style>
@font-face { font-family: own; src: url(data:font/ttf;base64,FONT); }
body { margin: 0; font: SIZEpx/LEADINGpx own; text-rendering: geometricPrecision; }
div { text-align: center; overflow: hidden; }
b { float: left; } i { float: right; }
</style><pre id="out"></pre><script>
const cases = CASES;
(async () => {
  await document.fonts.load("SIZEpx own");
  const lines = cases.map((one) => {
    const room = document.createElement("div");
    room.style.cssText = `width: ${2 * one.half_width}px; height: ${2 * one.height}px`;
    for (const [side, corners] of [["b", one.left], ["i", one.right]]) {
      const float = document.createElement(side);
      float.style.cssText = `width: ${one.half_width}px; height: ${one.height}px;`
        + `shape-outside: polygon(${corners}); shape-margin: ${one.air}px`;
      room.append(float);
    }
    const words = one.words.map((word) => {
      const span = document.createElement("span");
      span.textContent = word;
      room.append(span, " ");
      return span;
    });
    document.body.append(room);
    const top = room.getBoundingClientRect().top;
    const tops = words.map((word) => word.getBoundingClientRect().top - top);
    room.remove();
    return tops;
  });
  document.getElementById("out").textContent = JSON.stringify(lines);
})();
</script>"""


@dataclass(frozen=True, slots=True)
class Case:
    """A text in an outline, the air to keep, and the px to the mm of the browser's page."""

    words: Words
    outline: Outline
    air: float

    @property
    def scale(self) -> float:
        """Pixels to the mm."""
        return PX / (self.words.leading_mm / LETTERING.leading)

    def set(self, *, larger: float = 0.0) -> FittedBalloon:
        """First fit in the outline, larger by some px."""
        least = min(self.outline.half_width, self.outline.half_height)
        grown = self.outline.scaled(1 + larger / (least * self.scale))
        return first_fit_into(self.words, grown, air_mm=self.air)

    def asked(self) -> dict[str, Any]:
        """The case as the browser is asked."""
        half_width, half_height = self.outline.half_width, self.outline.half_height
        turn = np.linspace(-math.pi / 2, math.pi / 2, CORNERS + 1)
        normals = np.arctan2(half_width * np.sin(turn), half_height * np.cos(turn))
        edge = self.outline.boundary(normals)
        y = edge[:, 1] + half_height + 2 * self.air  # a top to keep air from, too
        return {
            "half_width": half_width * self.scale,
            "height": (2 * half_height + 4 * self.air) * self.scale,
            "air": self.air * self.scale,
            "words": self.words.text.split(),
            "left": self._corners(0.0, half_width - edge[:, 0], y),
            "right": self._corners(half_width, edge[:, 0], y),
        }

    def _corners(self, side: float, across: Floats, down: Floats) -> str:
        """A float's half of the box without the outline's: its outer side at x = `side`."""
        middle, bottom = self.outline.half_width - side, float(down[0] + down[-1])
        xs, ys = [middle, *across.tolist(), middle], [down[0], *down.tolist(), down[-1]]
        edge = zip(xs, ys, strict=True)
        corners = [(side, 0.0), (middle, 0.0), *edge, (middle, bottom), (side, bottom)]
        return ", ".join(f"{x * self.scale:.4f}px {y * self.scale:.4f}px" for x, y in corners)


@cache
def cases() -> tuple[Case, ...]:
    """Speeches of plays, each in an outline somewhat larger than it needs."""
    said = (speeches(play)[40:50] for play in play_names())
    texts = [s.text for s in chain.from_iterable(said) if PLAIN.fullmatch(s.text)]
    measured = [
        measure(text, LETTERING) for text in texts if not re.search(r"\bI\b", text, re.IGNORECASE)
    ]
    long = [words for words in measured if len(words) >= 6]
    return tuple(case_of(words, k) for k, words in enumerate(long[:TEXTS]))


def case_of(words: Words, k: int) -> Case:
    """A text in an outline whose kind, aspect and size go by turns.

    Rounded boxes go without air: their chord grows at once under the flat top, so that the part of
    a pixel by which the browser rounds the top of the room would make other lines.
    """
    aspect = 1.0 + 0.35 * (k % 5)
    kinds: tuple[tuple[Outline, float], ...] = (
        (Ellipse(half_width=aspect, half_height=1.0), 0.0),
        (Ellipse(half_width=aspect, half_height=1.0), 1.2),
        (Superellipse(half_width=aspect, half_height=1.0, exponent=2.5), 0.0),
        (Superellipse(half_width=aspect, half_height=1.0, exponent=2.5), 1.2),
        (RoundedRect(half_width=aspect, half_height=1.0, radius=0.6), 0.0),
        (Ellipse(half_width=1.0, half_height=aspect), 0.0),
        (Ellipse(half_width=1.0, half_height=aspect), 1.2),
    )
    unit, air = kinds[k % len(kinds)]
    tight = fit_words_into(words, unit, air_mm=air).overflow
    assert tight is not None
    return Case(words, tight.outline.scaled(1.12 + 0.05 * (k % 3)), air)


def last_words(balloon: FittedBalloon) -> list[int]:
    """How many words stand up to the end of each line."""
    return list(accumulate(len(line.text.split()) for line in balloon.lines))


@cache
def compared() -> tuple[tuple[Case, FittedBalloon, list[float]], ...]:
    """The cases that fit and are no close calls: our balloon, and the tops of words by Chromium."""
    found = ((case, case.set(), tops) for case, tops in zip(cases(), asked(), strict=True))
    return tuple(one for one in found if one[1].fits and not is_close_call(one[0]))


def is_close_call(case: Case) -> bool:
    """Whether some pixels more or less make other lines."""
    return last_words(case.set(larger=CLOSE)) != last_words(case.set(larger=-CLOSE))


def by_browser(tops: list[float]) -> list[int]:
    """How many words stand up to the end of each line, from the tops of all words."""
    return [*(np.flatnonzero(np.diff(tops) > 1) + 1).tolist(), len(tops)]


@cache
def asked() -> tuple[list[float], ...]:
    """The top of every word of every case, px, the browser asked once."""
    page = _PAGE.replace("FONT", base64.b64encode(FONT).decode("ascii"), 1)
    page = page.replace("SIZE", f"{PX:g}").replace("LEADING", f"{PX * LETTERING.leading:g}")
    page = page.replace("CASES", json.dumps([case.asked() for case in cases()]))
    return tuple(printed(page))


def test_lines_end_where_the_browser_ends_them() -> None:
    """Speeches in ellipses, superellipses and rounded boxes, with air and without."""
    assert len(compared()) >= 100
    for case, found, tops in compared():
        assert last_words(found) == by_browser(tops), case.words.text


def test_lines_stand_where_the_browser_puts_them() -> None:
    """Bands begin at the same height, to the pixels by which the browser moves lines down."""
    for case, found, tops in compared():
        theirs = np.array(tops)[[0, *last_words(found)[:-1]]]
        ours = np.array([line.baseline_mm for line in found.lines]) * case.scale
        assert np.ptp(theirs - ours) < CLOSE


def test_total_fit_is_another_thing() -> None:
    """Most of the stacks are not those of total fit: the comparison can fail."""
    differ = [
        last_words(fit_words_into(case.words, case.outline, air_mm=case.air)) != by_browser(tops)
        for case, _, tops in compared()[::4]
    ]
    assert np.mean(differ) > 0.5
