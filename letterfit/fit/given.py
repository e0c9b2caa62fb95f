"""A text in a given outline: whether it fits, and if not, by how much it is over.

With the outline as the unit shape, the least scale that any stack asks for is at most 1 when the
text fits; when it does not, it gives the smallest outline of the same family and aspect that does.
The largest type comes from the same table: with the air m unchanged, type grown by f fits when
f p . u(t) <= h(t) - m for every corner p of its ink, so the largest f is 1 over the least scale
that the ink, without air, asks of the shape of support h - m. Nothing is bisected.
"""

import math
from dataclasses import replace

import numpy as np

from letterfit.errors import OutlineError
from letterfit.fit.aspects import shortened
from letterfit.fit.balloon import check_words
from letterfit.fit.batch import is_plain
from letterfit.fit.exact import Tight, least_stack
from letterfit.fit.flush import Blocks
from letterfit.fit.handsome import handsome
from letterfit.fit.ink import Stack, begins_together, stack_points
from letterfit.fit.judge import looks_cost
from letterfit.fit.lines import Shapes
from letterfit.fit.model import FittedBalloon, Overflow
from letterfit.fit.most_words import most_words
from letterfit.fit.nearest import ink_clearance
from letterfit.fit.profiles import Profiles
from letterfit.fit.room import Room
from letterfit.fit.scales import line_scales
from letterfit.fit.setting import LineSetter, fitted
from letterfit.fit.survey import Goal, Survey, survey
from letterfit.fit.tight import tightest
from letterfit.fit.turned import on_page, turned_outline
from letterfit.fit.within import roomy_stack, tight_stack
from letterfit.lettering.words import Words
from letterfit.outline import Outline

LEAST_SIDE, MOST_SIDE = 1e-3, 1e5
"""Half-sides in mm of outlines that words are set in: from a micrometre to a hundred metres."""

LEAST_ROOM = 1e-6
"""mm: the half-sides of a room in which no type is set, however small."""

SLACK = 0.06
"""By what share of the area the stack may fill more than the tightest one, for the looks."""

ROUNDING = 1e-12
"""A scale over 1 by this share is 1; a promise to fit has this much to spare."""


def fit_words_into(words: Words, outline: Outline, *, air_mm: float = 1.2) -> FittedBalloon:
    """Set a text in a given outline.

    Args:
        words: The measured text.
        outline: The outline.
        air_mm: The least distance from ink to outline.

    Returns:
        When all words fit: the best-looking stack among those that keep together in the outline's
        form (`letterfit.fit.within`). When not: as many words as possible from the front, and the
        overflow: words left over, the largest type size at which all fit (None when no size does),
        and the smallest outline of the same family and aspect that holds all words. Lines that are
        to begin together are centred where they do not go in otherwise.

    Raises:
        OutlineError: When the text is empty or over 1,000 words, or a number is unusable.
    """
    check_words(words, air_mm=air_mm)
    check_outline(outline)
    return on_page(words, _fit(words, turned_outline(words, outline), air=air_mm))


def _fit(words: Words, outline: Outline, *, air: float) -> FittedBalloon:
    """The same in the text's frame."""
    if begins_together(words):
        block = Blocks.of(words, aspects=(outline.aspect, outline.aspect)).into(outline, air=air)
        if block is not None:
            return _judged(words, block, outline, air=air)
        words = replace(words, flush=False)
    if is_plain(words):
        roomy = roomy_stack(words, outline, air=air)
        if roomy is not None:
            return _judged(words, roomy.stack, outline, air=air, clearance_mm=roomy.clearance_mm)
        texts = Profiles.of([words], air=air)
        stack = tight_stack(texts, outline)
        if stack is not None:
            return _judged(words, stack, outline, air=air)
        tight = tightest(texts, outline)
        if tight is not None and tight.scale > 1 + ROUNDING:
            return _over(words, outline, tight=tight, air=air)
    slack = shortened(SLACK, pieces=len(words))
    found = survey(words, Shapes.of((outline,)), goal=Goal(slack), air=air)
    tight = least_stack(words, outline, air=air, found=found)
    if tight.scale <= 1 + ROUNDING:
        stack = _handsome_within(words, outline, found, tight=tight, slack=slack)
        return _judged(words, stack, outline, air=air)
    return _over(words, outline, tight=tight, air=air)


def _over(words: Words, outline: Outline, *, tight: Tight, air: float) -> FittedBalloon:
    """As many words as go in, and by how much the text is over."""
    stack = most_words(words, outline, air=air)
    overflow = Overflow(
        words=int(words.word_counts[stack[-1] :].sum()),
        size_pt=_largest_size(words, outline, air=air),
        outline=outline.scaled(tight.scale * (1 + ROUNDING)),
    )
    lines = LineSetter(words).lines(stack)
    room = ink_clearance(outline, stack_points(words, stack)) if lines else math.inf
    return fitted(words, lines=lines, outline=outline, clearance_mm=room, overflow=overflow)


def check_outline(outline: Outline) -> None:
    """Refuse what no page could hold or show.

    Raises:
        OutlineError: When a half-side is out of the range of LEAST_SIDE to MOST_SIDE.
    """
    for side in (outline.half_width, outline.half_height):
        if not LEAST_SIDE <= side <= MOST_SIDE:
            raise OutlineError(
                f"an outline with a half-side of {side:g} mm is no balloon",
                advice=f"give lengths from {LEAST_SIDE:g} to {MOST_SIDE:g} mm",
            )


def _judged(
    words: Words, stack: Stack, outline: Outline, *, air: float, clearance_mm: float | None = None
) -> FittedBalloon:
    """The lines of a stack that goes in, and what its looks cost there."""
    if clearance_mm is None:
        clearance_mm = ink_clearance(outline, stack_points(words, stack))
    lines = LineSetter(words).lines(stack)
    cost = looks_cost(words, stack, outline, air=air)
    return fitted(words, lines=lines, outline=outline, clearance_mm=clearance_mm, looks=cost)


def _handsome_within(
    words: Words, outline: Outline, found: Survey, *, tight: Tight, slack: float
) -> Stack:
    """The best-looking stack that asks for little more than the tightest, and for 1 at most."""
    limit = min(1.0, tight.scale * math.sqrt(1 + slack))
    pairs = np.flatnonzero(found.scales <= limit)
    if not len(pairs):
        return tight.stack
    looking = handsome(words, found, pairs, limits=np.full(len(pairs), limit))
    for place in np.argsort(looking.costs, kind="stable").tolist():
        stack = looking.stack(place)
        asked = line_scales(found.candidates.boxes, outline, stack, air=found.candidates.air)
        if asked.max() <= max(limit, tight.scale):
            return stack
    return tight.stack


def _largest_size(words: Words, outline: Outline, *, air: float) -> float | None:
    """The largest type size at which all words fit, the air unchanged; None when none does."""
    room = Room.inside(outline, air=air)
    if room is None or min(room.half_width, room.half_height) < LEAST_ROOM:
        return None
    tight = tightest(Profiles.of([words], air=0.0), room) if is_plain(words) else None
    scale = (tight or least_stack(words, room, air=0.0)).scale
    return words.size_pt / (scale * (1 + ROUNDING))
