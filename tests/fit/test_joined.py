"""Two parts of one speech in joined balloons: ink by true distance, no word lost, one below."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate

from letterfit.errors import OutlineError
from letterfit.families import FAMILIES
from letterfit.fit.joined import JoinedBalloon, fit_words_joined, height_for
from letterfit.joined_outline import Joined
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse
from letterfit.separation import gap
from tests.fit.texts import ink_polygons, polygon, texts
from tests.words import box_words

RIGHT = 1e-3
"""mm: what a distance may be off."""

kinds = st.sampled_from(["ellipse", "superellipse"])
room = st.sampled_from([0.4, 1.2, 3.0])


def drawn(
    upper: Words, lower: Words, pair: JoinedBalloon
) -> tuple[list[shapely.Polygon], list[shapely.MultiPolygon]]:
    """The two balloons, and the ink of the two, as shapely's, in the union's frame."""
    shapes, inks = [], []
    for words, (balloon, centre) in zip((upper, lower), pair.parts, strict=True):
        shapes.append(translate(polygon(balloon.outline), centre.x, centre.y))
        inks.append(translate(ink_polygons(words, balloon), centre.x, centre.y))
    return shapes, inks


def ink_faults(upper: Words, lower: Words, pair: JoinedBalloon, *, air: float) -> list[str]:
    """What shapely finds wrong with where the ink stands."""
    shapes, inks = drawn(upper, lower, pair)
    border = (shapes[0] | shapes[1]).boundary
    faults = []
    for number in (0, 1):
        if not shapes[number].buffer(RIGHT).contains(inks[number]):
            faults.append(f"ink of {number} leaves its balloon")
        if border.distance(inks[number]) < air - RIGHT:
            faults.append(f"ink of {number} is near the outline")
        if shapes[1 - number].intersects(inks[number].buffer(-RIGHT)):
            faults.append(f"ink of {number} stands in the other balloon")
    return faults


@settings(max_examples=25)
@given(texts(most=6), texts(most=6), kinds, room, st.sampled_from(["ltr", "rtl"]))
def test_ink_keeps_its_air_and_its_own_balloon(
    upper: Words, lower: Words, kind: str, air: float, reading: str
) -> None:
    """By shapely: inside, air from the union's outline, never in the other part's balloon."""
    pair = fit_words_joined(upper, lower, outline=kind, air_mm=air, rtl=reading == "rtl")
    _, inks = drawn(upper, lower, pair)
    assert ink_faults(upper, lower, pair, air=air) == []
    assert inks[0].distance(inks[1]) >= 2 * air - 0.8 * air - RIGHT
    assert (pair.outline.dx < 0) == (reading == "rtl")


@settings(max_examples=15)
@given(texts(most=5), texts(most=5), kinds, room)
def test_the_clearance_is_the_true_distance(
    upper: Words, lower: Words, kind: str, air: float
) -> None:
    """Of all ink to the union's outline, by shapely."""
    pair = fit_words_joined(upper, lower, outline=kind, air_mm=air)
    shapes, inks = drawn(upper, lower, pair)
    border = (shapes[0] | shapes[1]).boundary
    expected = min(border.distance(ink) for ink in inks)
    assert air - 1e-9 <= pair.clearance_mm <= expected + RIGHT
    assert pair.clearance_mm == pytest.approx(expected, abs=5e-3)  # a polygon's own error


def test_ink_that_is_too_deep_is_caught() -> None:
    """The check above can fail: balloons pushed together by hand put ink in each other."""
    upper, lower = (measure(text, Lettering()) for text in ("Hold a little longer.", "Not now!"))
    pair = fit_words_joined(upper, lower)
    close = Joined(
        upper=pair.upper.outline,
        lower=pair.lower.outline,
        dx=pair.outline.dx * 0.6,
        dy=pair.outline.dy * 0.6,
    )
    planted = JoinedBalloon(
        upper=pair.upper, lower=pair.lower, outline=close, clearance_mm=pair.clearance_mm
    )
    assert "ink of 1 stands in the other balloon" in ink_faults(upper, lower, planted, air=1.2)


@settings(max_examples=20)
@given(texts(most=6), texts(most=6))
def test_no_word_is_lost_and_the_second_part_reads_second(upper: Words, lower: Words) -> None:
    """All words of both; the lower begins a line below where the upper ends."""
    pair = fit_words_joined(upper, lower)
    ends = pair.outline.upper_centre.y + pair.upper.lines[-1].baseline_mm
    begins = pair.outline.lower_centre.y + pair.lower.lines[0].baseline_mm
    assert pair.words == upper.count + lower.count
    assert " ".join(line.text for line in pair.upper.lines) == upper.text
    assert " ".join(line.text for line in pair.lower.lines) == lower.text
    assert begins - ends > 0


@settings(max_examples=25)
@given(texts(most=12, least=3), texts(most=12, least=3))
def test_the_second_part_stands_as_far_aside_as_reads_second(upper: Words, lower: Words) -> None:
    """Half of both half-widths; less, down to a tenth, while it would not begin a line lower."""
    check_aside(fit_words_joined(upper, lower), leading=upper.leading_mm, air=1.2)


@pytest.mark.parametrize(
    ("kind", "aspect", "counts", "share"),
    [
        ("ellipse", (0.4, 0.5), (40, 40), 0.15),
        ("ellipse", (2.0, 2.5), (40, 40), 0.25),
        ("superellipse", (1.0, 1.2), (40, 40), 0.2),
        ("superellipse", (3.0, 4.0), (4, 40), 0.1),
        ("superellipse", (3.0, 4.0), (40, 4), 0.1),
    ],
)
def test_long_parts_stand_more_below_each_other(
    kind: str, aspect: tuple[float, float], counts: tuple[int, int], share: float
) -> None:
    """Long texts with little air: farther aside, the second would begin before the first ends."""
    upper, lower = (box_words([5.0] * count) for count in counts)
    pair = fit_words_joined(upper, lower, outline=kind, aspect=aspect, air_mm=0.4)
    assert check_aside(pair, leading=upper.leading_mm, air=0.4) == pytest.approx(share)


def check_aside(pair: JoinedBalloon, *, leading: float, air: float) -> float:
    """Hold where the second part stands against the rule, and say how far aside."""
    one, other = pair.upper.outline, pair.lower.outline
    widths = one.half_width + other.half_width
    share = abs(pair.outline.dx) / widths
    first, last = pair.lower.lines[0].baseline_mm, pair.upper.lines[-1].baseline_mm
    assert 0.1 - 1e-9 <= share <= 0.5 + 1e-9
    if share > 0.1 + 1e-9:
        assert pair.outline.dy + first - last >= leading - 1e-9
    if share < 0.5 - 1e-9:
        down = height_for(one, other, dx=(share + 0.05) * widths, deep=0.8 * air)
        assert down + first - last < leading
    return share


@settings(max_examples=15)
@given(texts(most=5), texts(most=5), kinds)
def test_the_same_texts_give_the_same_pair(upper: Words, lower: Words, kind: str) -> None:
    """Twice the same input, the same path to the byte."""
    one, other = (fit_words_joined(upper, lower, outline=kind) for _ in range(2))
    assert one == other
    assert one.outline.svg_path() == other.outline.svg_path()


@settings(max_examples=15)
@given(texts(most=5), texts(most=5), st.floats(0.3, 3))
def test_scaling_keeps_breaks_and_scales_the_union(
    upper: Words, lower: Words, factor: float
) -> None:
    """Type, air and all grown together: the same lines in a union grown as much."""
    small = fit_words_joined(upper, lower, air_mm=1.0)
    large = fit_words_joined(upper.scaled(factor), lower.scaled(factor), air_mm=factor)
    assert [line.text for line in large.lower.lines] == [line.text for line in small.lower.lines]
    assert large.area_mm2 == pytest.approx(small.area_mm2 * factor**2, rel=1e-5)


@settings(max_examples=40)
@given(
    st.lists(st.floats(4, 30), min_size=4, max_size=4), st.floats(-0.7, 0.7), st.floats(0, 2), kinds
)
def test_the_depth_is_the_one_asked_for(
    sides: list[float], share: float, deep: float, kind: str
) -> None:
    """At the height found, the gap between both outlines is minus the depth."""
    a, b, c, d = sides
    one = Ellipse(half_width=a, half_height=b)
    lower = FAMILIES[kind].make(c, d)
    dx = share * (a + c)
    dy = height_for(one, lower, dx=dx, deep=deep)
    assert gap(one, lower, dx=dx, dy=dy) == pytest.approx(-deep, abs=1e-6)


def test_columns_are_joined_from_the_right() -> None:
    """In the frame of columns the second part stands lower; on the page, to the left."""
    lettering = Lettering(writing="vertical")
    upper, lower = (measure(text, lettering) for text in ("HOLD ON", "NOT NOW OLD THING"))
    pair = fit_words_joined(upper, lower)
    assert pair.outline.dx < 0 < pair.outline.dy
    assert pair.clearance_mm >= 1.2 - 1e-9


@pytest.mark.parametrize("air", [0.0, -1.0, math.nan, math.inf])
def test_air_that_leaves_no_room_is_refused(air: float) -> None:
    """Without air there is nothing that two balloons could share."""
    words = measure("Not now", Lettering())
    with pytest.raises(OutlineError, match="air"):
        fit_words_joined(words, words, air_mm=air)


@pytest.mark.parametrize("overlap", [0.0, -0.5, 1.3, math.nan])
def test_an_overlap_deeper_than_the_air_is_refused(overlap: float) -> None:
    """It could reach the letters; one of nothing joins nothing."""
    words = measure("Not now", Lettering())
    with pytest.raises(OutlineError, match="overlap"):
        fit_words_joined(words, words, overlap_mm=overlap)


def test_families_that_cannot_be_joined_are_refused() -> None:
    """Captions have no outline in common here; the message says what would do."""
    words = measure("Not now", Lettering())
    with pytest.raises(OutlineError, match="ellipses"):
        fit_words_joined(words, words, outline="caption")


def test_rows_and_columns_are_not_joined() -> None:
    """One part in rows, the other in columns, read no way."""
    row, column = (measure("NOT NOW", Lettering(writing=way)) for way in ("horizontal", "vertical"))
    with pytest.raises(OutlineError, match="columns"):
        fit_words_joined(row, column)
