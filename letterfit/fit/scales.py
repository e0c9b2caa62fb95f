"""The exact scales that many stacks ask of their shapes, all at once.

As `letterfit.fit.bound` for one stack: the least scale that keeps the air m is the maximum over ink
points p and directions t of (p . u(t) + m) / h(t), u(t) = (cos t, sin t), found on samples and then
closer and closer round the best (`letterfit.separation.least_near`).
"""

from collections.abc import Sequence
from itertools import groupby
from operator import itemgetter

import numpy as np

from letterfit.fit.bound import SAMPLES, least_scale
from letterfit.fit.ink import Ink, Stack
from letterfit.fit.lanes import Bools
from letterfit.fit.lines import Ints, Shapes
from letterfit.fit.profiles import Profiles
from letterfit.outline import Floats, Outline
from letterfit.separation import least_near, supports

COARSE: Floats = SAMPLES[::2]
_COS, _SIN = np.cos(COARSE), np.sin(COARSE)
_COS[-1] = 0.0

TINY = 1e-9
"""mm: ink is wider and higher, or as good as none."""

CONTENDERS = 5e-3
"""How far, as a share, a point's sampled scale may lie under the best and still win in the end."""


def exact_scales(
    texts: Profiles, stacks: Sequence[tuple[int, Stack]], shapes: Sequence[Outline]
) -> Floats:
    """The least scale of a shape that keeps the air round each stack.

    Args:
        texts: The texts.
        stacks: The number of a text, and a stack of it.
        shapes: The unit shape of each.

    Returns:
        Shape (stacks,).
    """
    found = np.empty(len(stacks))
    sliced = []
    for place, ((text, stack), shape) in enumerate(zip(stacks, shapes, strict=True)):
        if texts.words[text].reshaped or not len(texts.inks[text].boxes):
            points = texts.inks[text].points(stack)
            found[place] = least_scale(points, shape, air=texts.air).scale
        else:
            sliced.append(place)
    if sliced:
        points, begin = _points(texts, [stacks[place] for place in sliced])
        own = [shapes[place] for place in sliced]
        found[sliced] = _least(points, begin, own, air=texts.air)
    return found


def stack_areas(texts: Profiles, stacks: Sequence[tuple[int, Stack]], shapes: Shapes) -> Floats:
    """The area that each of some shapes takes round each stack, a lower bound.

    Args:
        texts: The texts.
        stacks: The number of a text, and a stack of it.
        shapes: The unit shapes.

    Returns:
        Shape (stacks, S), mm2: by 33 directions, so low by up to 0.1 %.
    """
    points, begin = _points(texts, stacks)
    reach = points[0][:, None] * _COS + points[1][:, None] * _SIN
    support = np.maximum.reduceat(reach, begin[:-1], axis=0) + texts.air
    scales = np.stack([(row * shapes.inverse).max(axis=1) for row in support])
    result: Floats = scales**2 * shapes.areas
    return result


def line_scales(ink: Ink, shape: Outline, stack: Stack, *, air: float) -> Floats:
    """The scale that each line of a stack asks for, centred, exact: shape (L,).

    Args:
        ink: The text's ink.
        shape: The unit shape.
        stack: The stack.
        air: mm.
    """
    lines = range(len(stack) - 1)
    sizes = np.diff(ink.begin[list(stack)])
    if ink.words.reshaped or not sizes.all():
        points = [ink.line_points(stack, line) for line in lines]
        return np.array([least_scale(line, shape, air=air).scale for line in points])
    return _least(*_foremost(_corners(ink, [stack]), sizes), [shape] * len(sizes), air=air)


def _points(texts: Profiles, stacks: Sequence[tuple[int, Stack]]) -> tuple[Floats, Ints]:
    """Corners of the stacks' ink, folded into one quadrant: (2, points); where each's begin."""
    parts, sizes = [], []
    for text, own in groupby(stacks, key=itemgetter(0)):
        ink = texts.inks[text]
        same = [stack for _, stack in own]
        parts.append(_corners(ink, same))
        sizes += [len(ink.boxes)] * len(same)
    points = parts[0] if len(parts) == 1 else np.concatenate(parts, axis=1)
    return _foremost(points, np.array(sizes))


def _corners(ink: Ink, stacks: Sequence[Stack]) -> Floats:
    """Corners of stacks of the same pieces, folded: (2, stacks * boxes)."""
    words = ink.words
    counts = np.array([len(stack) - 1 for stack in stacks])
    first = np.array([piece for stack in stacks for piece in stack[:-1]])
    end = np.array([piece for stack in stacks for piece in stack[1:]])
    number = np.arange(len(first)) - (counts.cumsum() - counts).repeat(counts)
    drop = (2 * number + 1 - counts.repeat(counts)) * (words.leading_mm / 2)
    drop += words.cap_height_mm / 2
    middle = (words.starts.take(first) + words.ends.take(end - 1)) * (ink.way / 2)
    many = ink.begin.take(end) - ink.begin.take(first)
    across, along = middle.repeat(many), drop.repeat(many)
    own = ink.boxes[ink.begin[first[0]] : ink.begin[end[-1]]]
    left, top, right, bottom = np.tile(own.T, len(stacks))
    x = np.maximum(np.abs(left - across), np.abs(right - across))
    y = np.maximum(np.abs(top + along), np.abs(bottom + along))
    return np.stack([x, y])


def _foremost(points: Floats, sizes: Ints) -> tuple[Floats, Ints]:
    """In each run only the points that no other one of it exceeds in both x and y."""
    run = np.arange(len(sizes)).repeat(sizes)
    (outer,) = _outside(points, sizes).nonzero()
    points, run = points[:, outer], run[outer]
    ranked = np.lexsort((-points[0], -points[1], run))
    x, run = points[0, ranked], run[ranked]
    # Later runs lie wholly to the right of earlier ones, so that one pass serves them all.
    along = x + run * (float(x.max()) + 1.0)
    widest = np.maximum.accumulate(along)
    kept = np.ones(len(x), dtype=np.bool_)
    kept[1:] = along[1:] > widest[:-1]
    begin = np.concatenate([[0], np.bincount(run[kept], minlength=len(sizes)).cumsum()])
    return points[:, ranked[kept]], begin


def _outside(points: Floats, sizes: Ints) -> Bools:
    """Which points are not exceeded, in both x and y, by the one of their run that is farthest out.

    That is the one with the greatest sum of shares of the run's width and height: most are.
    """
    if not sizes.all():
        return np.ones(points.shape[1], dtype=np.bool_)
    begin = sizes.cumsum() - sizes
    widest = np.maximum.reduceat(points, begin, axis=1)
    share = (points / np.maximum(widest, TINY).repeat(sizes, axis=1)).sum(axis=0)
    farthest = share >= np.maximum.reduceat(share, begin).repeat(sizes)
    # Of several that are as far out the corner that none of them falls short of.
    x = np.maximum.reduceat(np.where(farthest, points[0], 0.0), begin)
    y = np.minimum.reduceat(np.where(farthest, points[1], np.inf), begin)
    result: Bools = farthest | (points > np.stack([x, y]).repeat(sizes, axis=1)).any(axis=0)
    return result


def _least(points: Floats, begin: Ints, shapes: Sequence[Outline], *, air: float) -> Floats:
    """The least scale for each run of points."""
    run = np.arange(len(shapes)).repeat(np.diff(begin))
    h = supports(shapes, np.broadcast_to(COARSE, (len(shapes), len(COARSE))))
    asked = points[0][:, None] * _COS + points[1][:, None] * _SIN
    asked += air
    asked /= h[run]
    most = asked.max(axis=1)
    best = np.maximum.reduceat(most, begin[:-1])
    (kept,) = (most >= best[run] * (1 - CONTENDERS)).nonzero()
    run, near = run[kept], COARSE[asked[kept].argmax(axis=1)]
    x, y = points[0, kept, None], points[1, kept, None]
    own = [shapes[k] for k in run.tolist()]

    def short_by(t: Floats) -> Floats:
        result: Floats = -(x * np.cos(t) + y * np.sin(t) + air) / supports(own, t)
        return result

    values, _ = least_near(short_by, near, step=float(COARSE[1]))
    first = np.searchsorted(run, np.arange(len(shapes)))
    result: Floats = np.maximum.reduceat(-values, first)
    return result
