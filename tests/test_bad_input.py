"""Bad input at every public entry of the fit: an error in one line, or an honest overflow.

The entries are `fit_balloon`, `fit_into` by either way of breaking, `balloon_front`, and
`letterfit fit`. What no one means is refused with advice; what is merely too much is a misfit.
"""

import math
import tracemalloc
from collections.abc import Callable

import pytest

import letterfit as lf
from letterfit.cli_status import MISFIT, UNUSABLE
from tests.command import Run, runner

TEXT = "The tide turned an hour ago and still nobody has come to ask."
ROOMY = lf.Ellipse(half_width=30, half_height=20)

Entry = Callable[[str, lf.Lettering | None], object]

ENTRIES: dict[str, Entry] = {
    "fit_balloon": lf.fit_balloon,
    "fit_into, total fit": lambda text, how: lf.fit_into(text, how, outline=ROOMY),
    "fit_into, first fit": lambda text, how: lf.fit_into(
        text, how, outline=ROOMY, breaks="first-fit"
    ),
    "balloon_front": lf.balloon_front,
}

GIVEN: tuple[lf.Breaks, ...] = ("total-fit", "first-fit")

entries = pytest.mark.parametrize("entry", ENTRIES.values(), ids=ENTRIES.keys())
ways = pytest.mark.parametrize("breaks", GIVEN)

MUCH = 400e6
"""Bytes: no text may take more than this at once."""


@pytest.fixture(name="run")
def _run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs the command line: status, output, errors."""
    return runner(capsys)


def refusal(call: Callable[[], object]) -> str:
    """The one line in which a call is refused; what and advice are both in it."""
    with pytest.raises(lf.LetterfitError) as refused:
        call()
    told = str(refused.value)
    assert "\n" not in told
    assert refused.value.what
    assert refused.value.advice
    return told


def peak(call: Callable[[], object]) -> int:
    """The most bytes that a call holds at once."""
    tracemalloc.start()
    try:
        call()
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


# --- numbers


@entries
@pytest.mark.parametrize("size", [0.0, -7.5, math.nan, math.inf, 1e300])
def test_sizes_that_are_none_are_refused(entry: Entry, size: float) -> None:
    """A type size of zero or less, of no number, or past all measure."""
    assert "type size" in refusal(lambda: entry(TEXT, lf.Lettering(size_pt=size)))


@entries
@pytest.mark.parametrize("air", [-0.1, math.nan, math.inf, 1e300])
def test_air_that_is_no_distance_is_refused(entry: Entry, air: float) -> None:
    """Air under 0, of no number, or past all measure."""
    assert "air" in refusal(lambda: entry(TEXT, lf.Lettering(air_mm=air)))


@entries
@pytest.mark.parametrize("leading", [0.0, 1e-320, -1.0, math.nan, math.inf])
def test_leading_that_is_none_is_refused(entry: Entry, leading: float) -> None:
    """Leading of zero or less, or of no number."""
    assert "leading" in refusal(lambda: entry(TEXT, lf.Lettering(leading=leading)))


@pytest.mark.parametrize(
    "aspect",
    [
        *((2.0, 1.0), (0.0, 2.0), (-1.0, 2.0), (math.nan, 2.0), (1.0, math.nan), (1, math.inf)),
        *((1e-300, 1e300), (5e-324, 2.0), (1.0,), (1.0, 2.0, 3.0), 2.0, ("wide", "tall")),
    ],
)
def test_ranges_that_are_none_are_refused(aspect: tuple[float, float]) -> None:
    """A range of aspects reversed, from nothing, of no numbers, or of what no balloon has."""
    assert "is no range" in refusal(lambda: lf.fit_balloon(TEXT, aspect=aspect))


@pytest.mark.parametrize("slack", [-0.01, math.nan, math.inf])
def test_slack_that_is_no_share_is_refused(slack: float) -> None:
    """Slack under 0, or of no number."""
    assert "slack" in refusal(lambda: lf.fit_balloon(TEXT, slack=slack))


@pytest.mark.parametrize("side", [0.0, -3.0, math.nan, math.inf])
def test_outlines_of_no_size_are_refused(side: float) -> None:
    """Before they are outlines."""
    assert "half_width" in refusal(lambda: lf.Ellipse(half_width=side, half_height=3))
    assert "half_height" in refusal(lambda: lf.CaptionBox(half_width=3, half_height=side))


@ways
@pytest.mark.parametrize("side", [1e-300, 1e-4, 1e6, 1e300])
def test_outlines_past_all_measure_are_refused(breaks: lf.Breaks, side: float) -> None:
    """A tenth of a micrometre, a kilometre, and beyond."""
    outline = lf.Ellipse(half_width=side, half_height=3)
    assert "is no balloon" in refusal(lambda: lf.fit_into(TEXT, outline=outline, breaks=breaks))


def test_families_nobody_knows_are_refused() -> None:
    """With the names of those there are."""
    assert "ellipse" in refusal(lambda: lf.fit_balloon(TEXT, outline="star"))
    assert "ellipse" in refusal(lambda: lf.balloon_front(TEXT, outline="star"))


# --- outlines too small


@ways
@pytest.mark.parametrize(
    ("half_width", "half_height", "shrinks"),
    [
        (1.0, 1.0, False),  # less than the air
        (1.2, 1.2, False),  # as much as the air
        (0.001, 0.001, False),
        (1e5, 0.001, False),
        (0.001, 1e5, False),
        (1.5, 1.5, True),  # a letter does not go in, a smaller one does
        (1e5, 1.5, True),
        (1.5, 1e5, True),
    ],
)
def test_an_outline_too_small_for_a_letter_overflows(
    breaks: lf.Breaks, half_width: float, half_height: float, *, shrinks: bool
) -> None:
    """All words are left over; the outline that would do is told, and the size, if there is one."""
    outline = lf.Ellipse(half_width=half_width, half_height=half_height)
    found = lf.fit_into(TEXT, outline=outline, breaks=breaks)
    assert (found.fits, found.lines, found.outline) == (False, (), outline)
    assert found.overflow is not None
    assert found.overflow.words == found.words == len(TEXT.split())
    assert (found.overflow.size_pt is not None) == shrinks
    assert found.overflow.outline.aspect == pytest.approx(outline.aspect)
    if max(half_width, half_height) < 1e4:
        assert lf.fit_into(TEXT, outline=found.overflow.outline, breaks=breaks).fits


@ways
def test_type_too_large_for_its_outline_overflows(breaks: lf.Breaks) -> None:
    """Letters of metres in a balloon: the size that would do is told."""
    found = lf.fit_into(TEXT, lf.Lettering(size_pt=10_000), outline=ROOMY, breaks=breaks)
    assert found.overflow is not None
    assert found.overflow.size_pt is not None
    smaller = lf.Lettering(size_pt=found.overflow.size_pt * (1 - 1e-6))
    assert lf.fit_into(TEXT, smaller, outline=ROOMY, breaks=breaks).fits


@ways
def test_air_that_leaves_no_room_overflows(breaks: lf.Breaks) -> None:
    """No type is small enough, and the outline that would do is as wide as the air."""
    found = lf.fit_into(TEXT, lf.Lettering(air_mm=9000), outline=ROOMY, breaks=breaks)
    assert found.overflow is not None
    assert found.overflow.size_pt is None
    assert found.overflow.outline.half_height > 9000


# --- too much text


@entries
@pytest.mark.parametrize("text", ["", "   ", "\n\n", "\u200b", "\u00ad"])
def test_no_text_is_refused(entry: Entry, text: str) -> None:
    """Nothing, spaces, and characters that nobody sees."""
    assert "no text" in refusal(lambda: entry(text, None))


@entries
def test_ten_thousand_words_are_refused(entry: Entry) -> None:
    """At once, and without taking memory for them."""
    flood = "tide " * 10_000
    assert "goes into no balloon" in refusal(lambda: entry(flood, None))
    assert peak(lambda: refusal(lambda: entry(flood, None))) < 10e6


@entries
def test_a_thousand_words_are_the_most(entry: Entry) -> None:
    """A thousand short words are fitted, in bounded memory; one more is refused."""
    assert peak(lambda: entry("ebb " * 1000, None)) < MUCH
    assert "1001 words" in refusal(lambda: entry("ebb " * 1001, None))


HURTFUL = ("A", "A\u00ad", "水", "A\n", "T-", "....", "*a* ", "\U0001f469\u200d")


@entries
@pytest.mark.parametrize("unit", HURTFUL)
def test_texts_made_to_hurt_are_fitted_or_refused(entry: Entry, unit: str) -> None:
    """Three hundred characters of one kind: an answer, or an error in one line."""
    try:
        entry((unit * 300)[:300], None)
    except lf.LetterfitError as error:
        told = str(error)
    else:
        told = "fitted"
    assert told
    assert "\n" not in told


# --- the command line


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--size", "0"), "size"),
        (("--size", "nan"), "size"),
        (("--size", "-3"), "size"),
        (("--air", "-1"), "air"),
        (("--air", "nan"), "air"),
        (("--width", "0", "--height", "9"), "--width"),
        (("--width", "nan", "--height", "9"), "half_width of nan"),
        (("--width", "9", "--height", "-9"), "--height"),
        (("--width", "9", "--height", "9", "--breaks", "best-fit"), "--breaks"),
        (("--outline", "star"), "--outline"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_the_command_line_refuses_bad_numbers(
    run: Run, arguments: tuple[str, ...], said: str
) -> None:
    """Status 2, and one line on standard error that names what is wrong."""
    status, out, errors = run("fit", TEXT, *arguments)
    assert (status, out, errors.count("\n")) == (UNUSABLE, "", 1)
    assert said in errors


@ways
def test_the_command_line_tells_of_an_outline_too_small(run: Run, breaks: lf.Breaks) -> None:
    """Status 1: a misfit, not an error."""
    given = ("--width", "2", "--height", "2", "--breaks", breaks)
    status, out, errors = run("fit", TEXT, *given)
    assert (status, errors) == (MISFIT, "")
    assert "13" in out


@ways
def test_the_command_line_refuses_ten_thousand_words(run: Run, breaks: lf.Breaks) -> None:
    """Status 2, with or without an outline."""
    for given in ((), ("--width", "50", "--height", "30", "--breaks", breaks)):
        status, out, errors = run("fit", "tide " * 10_000, *given)
        assert (status, out, errors.count("\n")) == (UNUSABLE, "", 1)


def test_an_outline_with_next_to_no_room_is_an_overflow() -> None:
    """A circle wider than its air by one rounding: all words are over, and no size is promised."""
    half = math.nextafter(1.2, 9.0)
    over = lf.fit_into(TEXT, outline=lf.Ellipse(half_width=half, half_height=half)).overflow
    assert over is not None
    assert over.size_pt is None
