"""Where a speech parts, and that both parts read as the whole did."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.balloons import fit_balloon
from letterfit.errors import OutlineError
from letterfit.joining import best_partings, fit_joined, wants_two
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.habits import Habits
from tests.plays import play_names, speeches

LONG = [
    speech.text
    for play in play_names()[::6]
    for speech in speeches(play, max_words=70)[:300]
    if len(speech.text.split()) > 45
][::9][:12]
"""Real speeches too long for a balloon, some from each of some plays."""


@pytest.mark.parametrize("text", LONG, ids=lambda text: text[:20])
def test_no_word_of_a_long_speech_is_lost(text: str) -> None:
    """Both parts together are the speech as it would be set in one balloon."""
    pair = fit_joined(text)
    lines = "".join(line.text for part, _ in pair.parts for line in part.lines)
    assert pair.text == measure(text, Lettering()).text
    assert lines.replace(" ", "") == pair.text.replace(" ", "")  # some end inside "OVER-CANOPIED"
    assert pair.clearance_mm >= 1.2 - 1e-9


def test_a_speech_parts_at_the_end_of_a_sentence() -> None:
    """Not at a comma, though that would be more even."""
    pair = fit_joined("Hold a little longer, old thing, hold. Nobody has come to ask for you yet.")
    assert pair.upper.text.endswith("HOLD.")


def test_a_sentence_parts_at_a_pause() -> None:
    """Not between two words of a phrase."""
    pair = fit_joined("The tide turned an hour ago, and nobody has come to ask why.")
    assert pair.upper.text == "THE TIDE TURNED AN HOUR AGO,"


def test_a_title_is_no_end_of_a_sentence() -> None:
    """MR. and its name stay in one balloon: what the breaks dislike is priced here too."""
    first = fit_joined("You have to tell Mr. Pilot that the lock stays shut tonight").upper.text
    assert not first.endswith("MR.")


@pytest.mark.parametrize(
    "text", ["*Not one barge. Not one boat.*", "He said *open it. Now* and went away. Then rain."]
)
def test_emphasis_is_never_torn(text: str) -> None:
    """A place inside emphasis is no place: the marks would be left over."""
    try:
        pair = fit_joined(text)
    except OutlineError:
        return
    assert "*" not in pair.text
    assert pair.text == measure(text, Lettering()).text


def test_quotes_are_never_torn() -> None:
    """Curled quotes of each part alone are those of the whole."""
    lettering = Lettering(habits=Habits(quotes="curly"))
    text = 'He said "shut it. Now." Then he went up the hill.'
    assert fit_joined(text, lettering).text == measure(text, lettering).text


@settings(max_examples=25)
@given(st.text(alphabet="ab ,.!*_\"'\u3002\u3042-", min_size=1, max_size=30))
def test_any_text_is_parted_whole_or_refused(text: str) -> None:
    """Marks in any order: the parts join to the whole, or there is an error."""
    whole = measure(text, Lettering())
    try:
        places = best_partings(text, Lettering())
    except OutlineError:
        return
    assert 1 <= len(places) <= 6
    for place in places:
        parts = [measure(part, Lettering()).text for part in (place.first, place.second)]
        assert whole.text in (" ".join(parts), "".join(parts))


def test_japanese_parts_after_its_marks() -> None:
    """Where no spaces are, after a full stop."""
    places = best_partings(
        "\u6f6e\u304c\u5f15\u3044\u305f\u3002\u9580\u306f\u9589\u3058\u3066\u3044\u308b\u3002",
        Lettering(),
        language="ja",
    )
    assert places[0].first.endswith("\u3002")


def test_two_parts_are_taken_as_they_are() -> None:
    """A beat between them is the writer's: nothing is parted anew."""
    pair = fit_joined(("Shut. It. All.", "Now."))
    assert (pair.upper.text, pair.lower.text) == ("SHUT. IT. ALL.", "NOW.")


def test_hebrew_goes_to_the_left_and_a_page_may_overrule_it() -> None:
    """The second part stands where the text goes on, unless the page reads otherwise."""
    text = "\u05e9\u05dc\u05d5\u05dd \u05dc\u05da. \u05d1\u05d5\u05d0 \u05d4\u05e0\u05d4."
    assert fit_joined(text, language="he").outline.dx < 0
    assert fit_joined(text, language="he", reading="ltr").outline.dx > 0
    assert fit_joined("Come here. Go there.", reading="rtl").outline.dx < 0


@pytest.mark.parametrize("text", ["", "Wenna!", "   ", "Lock\u00a0Nine"])
def test_what_cannot_be_parted_is_refused(text: str) -> None:
    """A single word is no two balloons."""
    with pytest.raises(OutlineError):
        fit_joined(text)


def test_an_unknown_reading_is_refused() -> None:
    """The message names both."""
    with pytest.raises(OutlineError, match="choose ltr or rtl"):
        fit_joined("Go. Now.", reading="up")  # type: ignore[arg-type]


def test_too_many_words_are_refused_in_bounded_work() -> None:
    """Thousands of words are no balloons, joined or not."""
    with pytest.raises(OutlineError):
        fit_joined("word and, so on. " * 2000)


def test_a_long_text_wants_two() -> None:
    """Past eight lines or forty words (common practice, no source)."""
    assert wants_two(fit_balloon("gate " * 41))
    assert wants_two(fit_balloon("lock " * 18, aspect=(0.25, 0.3)))
    assert not wants_two(fit_balloon("gate " * 12))
