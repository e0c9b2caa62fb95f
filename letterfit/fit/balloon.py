"""The balloon for a text: the best-looking stack whose outline is nearly the smallest there is."""

import math
from collections.abc import Sequence

import numpy as np

from letterfit.errors import OutlineError
from letterfit.fit import looks
from letterfit.fit.aspects import Cells, aspect_range, cells, few_cells, shortened
from letterfit.fit.batch import fast_fits, is_plain
from letterfit.fit.fast_smallest import fast_smallest
from letterfit.fit.flush import Blocks
from letterfit.fit.handsome import handsome
from letterfit.fit.ink import Ink, begins_together
from letterfit.fit.lines import Ints
from letterfit.fit.lone import without_lone_word
from letterfit.fit.model import FittedBalloon
from letterfit.fit.profiles import Profiles
from letterfit.fit.setting import Setter
from letterfit.fit.smallest import NEAR, SAME, Small, in_cell, smallest, thorough_survey
from letterfit.fit.survey import Survey
from letterfit.fit.turned import on_page, turned_aspect
from letterfit.lettering.words import Words

MOST_WORDS = 1000
"""Longer texts are no balloon: they are refused, so that no input takes long."""


FEWEST, FINER = 9, 2
"""Pieces from which the fast search finds the least area nearly enough, and into how many parts it
cuts the cells for that."""


def fit_words(
    words: Words,
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
) -> FittedBalloon:
    """Set a text in the smallest outline of a family, or a slightly larger one that looks better.

    Args:
        words: The measured text.
        outline: The family's name, a key of `letterfit.families.FAMILIES`.
        air_mm: The least distance from ink to outline.
        aspect: Least and greatest width over height; None for the family's own, which for vertical
            text is that of height over width.
        slack: By what share the area may exceed the least for the sake of looks; 0 asks for the
            least area itself. To be rid of a lone short word it may be three times as much.

    Returns:
        With slack 0 the least area over all breaks and all aspects of the range, to a share of
        1e-6. Else the stack of about the least cost of looks (`letterfit.fit.looks`) among those
        that fit, at the middle of some cell of aspect 4 % or 8 % wide, an outline of at most
        1 + slack times the least area (found to 0.3 %), in the smallest outline round it in that
        cell. Texts of more than 300 pieces are set in fewer aspects and with less slack, and their
        area is not proved least; nor is that of lines that begin together (`letterfit.fit.flush`).

    Raises:
        OutlineError: When the text is empty or over 1,000 words, the family is unknown, or a number
            is not finite or out of its range.
    """
    (found,) = fit_texts([words], outline=outline, air_mm=air_mm, aspect=aspect, slack=slack)
    return found


def fit_texts(
    texts: Sequence[Words],
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
) -> tuple[FittedBalloon, ...]:
    """Set many texts, each as `fit_words` does, together and so sooner.

    Args:
        texts: The measured texts.
        outline: The family's name.
        air_mm: The least distance from ink to outline.
        aspect: As in `fit_words`.
        slack: As in `fit_words`.

    Raises:
        OutlineError: As `fit_words`, for any of them.
    """
    for words in texts:
        check_words(words, air_mm=air_mm)
    check_slack(slack)
    ranges = [aspect_range(outline, turned_aspect(words, aspect)) for words in texts]
    grids = [
        cells(outline, *own, pieces=len(words)) for words, own in zip(texts, ranges, strict=True)
    ]
    fast = _fast(texts, grids, air=air_mm, slack=slack) if slack else {}
    return tuple(
        on_page(words, fast.get(k) or _thorough(words, grid, air=air_mm, slack=slack))
        for k, (words, grid) in enumerate(zip(texts, grids, strict=True))
    )


def _fast(
    texts: Sequence[Words], grids: Sequence[Cells], *, air: float, slack: float
) -> dict[int, FittedBalloon]:
    """The texts that the fast search can set, by their numbers."""
    kinds: dict[int, list[int]] = {}
    for k, (words, grid) in enumerate(zip(texts, grids, strict=True)):
        if grid.proves and len(words) >= FEWEST and is_plain(words):
            kinds.setdefault(id(grid), []).append(k)
    done = {}
    for same in kinds.values():
        profiles = Profiles.of([texts[k] for k in same], air=air)
        grid = grids[same[0]]
        fine = few_cells(grid.name, *grid.ends(), FINER * len(grid.shapes.outlines))
        smalls = fast_fits(profiles, fine, slack=slack)
        for k, ink, small in zip(same, profiles.inks, smalls, strict=True):
            if small is not None:
                done[k] = Setter(ink, air=air).balloon(small.stack, small.safe)
    return done


def _thorough(words: Words, grid: Cells, *, air: float, slack: float) -> FittedBalloon:
    """A text set by the thorough search, in its own frame."""
    slack = shortened(slack, pieces=len(words))
    if begins_together(words):
        blocks = Blocks.of(words, aspects=grid.ends())
        block = blocks.smallest(grid.name, aspects=grid.ends(), air=air, slack=slack)
        return Setter(blocks.ink, air=air).balloon(block.stack, block.safe)
    if slack == 0 and grid.proves and is_plain(words):
        proved = fast_smallest(words, grid, air=air)
        if proved is not None:
            return Setter(Ink.of(words), air=air).balloon(proved.stack, proved.safe)
    found, start = thorough_survey(words, grid, air=air, slack=slack)
    if slack == 0:
        chosen = smallest(words, grid, found, start=start)
    else:
        least = smallest(words, grid, found, start=start, tolerance=NEAR)
        chosen = _best_looking(words, grid, found, least=least, slack=slack)
    return Setter(found.candidates.boxes, air=air).balloon(chosen.stack, chosen.safe)


def _best_looking(words: Words, grid: Cells, found: Survey, *, least: Small, slack: float) -> Small:
    """The stack of least cost of looks within the slack, with its own outline."""
    most = least.area * (1 + slack)
    limits = np.sqrt(most / grid.shapes.areas)[found.which]
    pairs = np.flatnonzero(found.scales <= limits)
    chosen, cost = least, math.inf
    if len(pairs):
        chosen, cost = _first_that_fits(words, grid, found, pairs=pairs, most=most) or (least, cost)
    if cost < looks.LOST or not grid.proves:
        return chosen
    air = found.candidates.air
    more = least.area * (1 + looks.LONE_SLACK * slack)
    for allowed in (most, more):
        better = without_lone_word(words, grid, most=allowed, air=air)
        if better is not None:
            return better
    return chosen


def _first_that_fits(
    words: Words, grid: Cells, found: Survey, *, pairs: Ints, most: float
) -> tuple[Small, float] | None:
    """The best looking of the pairs' stacks whose outline has at most the given area."""
    which = found.which[pairs]
    limits = np.sqrt(most / grid.shapes.areas)[which]
    looking = handsome(words, found, pairs, limits=limits)
    costs = looking.costs + looks.aspect_departure(grid.aspects, grid.name)[which]
    for place in np.argsort(costs, kind="stable").tolist():
        stack, cell = looking.stack(place), int(which[place])
        ink, air = found.candidates.boxes, found.candidates.air
        small = in_cell(grid, ink, stack, cell=cell, air=air)
        if small.area <= most * (1 + SAME):
            return small, float(costs[place])
    return None


def check_slack(slack: float) -> None:
    """Refuse a slack that is no share.

    Raises:
        OutlineError: When it is not finite or under 0.
    """
    if not (math.isfinite(slack) and slack >= 0):
        raise OutlineError(f"a slack of {slack} is no share", advice="give 0 or a little more")


def check_words(words: Words, *, air_mm: float) -> None:
    """Refuse a text that is no balloon, and air that is no distance.

    Raises:
        OutlineError: When the text is empty or over 1,000 words or the air is not 0 or more.
    """
    if not len(words):
        raise OutlineError("there is no text to fit", advice="give at least one visible character")
    if len(words) > MOST_WORDS:
        raise OutlineError(
            f"{len(words)} words are too many for one balloon",
            advice=f"give at most {MOST_WORDS}, or split the text",
        )
    if not (math.isfinite(air_mm) and air_mm >= 0):
        raise OutlineError(f"air of {air_mm} mm is no distance", advice="give 0 mm or more")
    sizes = (words.size_pt, words.leading_mm, words.cap_height_mm, float(words.starts[-1]))
    if not all(map(math.isfinite, sizes)) or min(sizes[:3]) <= 0:
        raise OutlineError(
            f"type of {words.size_pt} pt cannot be set", advice="give a size and leading over 0"
        )
