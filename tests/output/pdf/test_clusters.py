"""Clusters: every glyph once, from left to right, and characters in the order of the text."""

from hypothesis import given
from hypothesis import strategies as st

from letterfit.output.pdf.clusters import Cluster, clusters_of
from letterfit.output.pdf.runs import Run, Spot

ADVANCE = 500


def advance(_: Spot) -> float:
    """Every glyph is half an em wide."""
    return float(ADVANCE)


def spot(at: int, x: int) -> Spot:
    """A glyph that begins with a character, at a place in half ems."""
    return Spot(face="F", glyph_id=at + 1, x=x * ADVANCE, y=0, em=1000.0, turned=False, at=at)


def told(run: Run) -> list[tuple[str, bool]]:
    """What the clusters of a line read, and whether a space stands left of each."""
    return [(one.text, one.space) for one in clusters_of(run, advance=advance)]


def test_a_ligature_reads_all_its_characters() -> None:
    """Three letters of one glyph; what is set without ink belongs to nobody."""
    run = Run("office so", (spot(0, 0), spot(1, 1), spot(4, 2), spot(5, 3), spot(7, 5), spot(8, 6)))
    read = [("o", False), ("ffi", False), ("c", False), ("e", False), ("s", True), ("o", False)]
    assert told(run) == read


def test_letters_that_read_leftwards_come_the_leftmost_first() -> None:
    """As browsers write them (Chromium's own PDF has them so): two words of Hebrew, one space."""
    run = Run("אב גד", (spot(0, 4), spot(1, 3), spot(3, 1), spot(4, 0)))
    assert told(run) == [("ד", False), ("ג", False), ("ב", True), ("א", False)]


def test_neighbours_that_are_none_in_the_text_are_parted_by_what_they_leave() -> None:
    """English in a line of Hebrew: a space where there is room for one, none at a hyphen."""
    run = Run("ל-AB מ", (spot(0, 5), spot(1, 4), spot(2, 2), spot(3, 3), spot(5, 0)))
    read = [("מ", False), ("A", True), ("B", False), ("-", False), ("ל", False)]
    assert told(run) == read


def test_marks_stay_with_their_letter() -> None:
    """Glyphs of one cluster keep their order, wherever the mark stands."""
    run = Run("שָל", (spot(0, 2), spot(0, 1), spot(2, 0)))
    found = clusters_of(run, advance=advance)
    assert found == (
        Cluster("ל", (spot(2, 0),)),
        Cluster("שָ", (spot(0, 2), spot(0, 1))),
    )


def test_columns_keep_the_order_of_the_text() -> None:
    """From top to bottom, whatever is in them."""
    run = Run("門א", (spot(0, 0), spot(1, 0)), vertical=True)
    assert told(run) == [("門", False), ("א", False)]


def test_what_nobody_knows_has_no_clusters() -> None:
    """Lines of which some glyphs are drawn, and glyphs of no known character."""
    own = (spot(0, 0),)
    assert clusters_of(Run("A", own), advance=advance)
    assert clusters_of(Run("A", own, whole=False), advance=advance) == ()
    assert clusters_of(Run("A", (spot(-1, 0),)), advance=advance) == ()
    assert clusters_of(Run("A", (spot(1, 0),)), advance=advance) == ()


@given(st.lists(st.text(alphabet="ABé,(אבל)", min_size=1, max_size=5), min_size=1, max_size=4))
def test_no_glyph_and_no_letter_is_lost(words: list[str]) -> None:
    """Whatever the words, set leftwards or not: each letter once, in the order of the page."""
    text = " ".join(words)
    leftwards = any(char in "אבל" for char in text)
    inked = [at for at, char in enumerate(text) if char != " "]
    spots = tuple(spot(at, len(text) - at if leftwards else at) for at in inked)
    found = clusters_of(Run(text, spots), advance=advance)
    assert [one.spots[0].x for one in found] == sorted(one.x for one in spots)
    assert sorted("".join(one.text for one in found)) == sorted("".join(words))
    assert sum(one.space for one in found) == len(words) - 1
