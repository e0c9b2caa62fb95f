"""Edits: changed text, unmoved styles."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.fonts.bundled import STYLES
from letterfit.lettering.style.edits import Edit, edited
from letterfit.lettering.style.emphasis import Span

spans = st.lists(
    st.builds(Span, st.text("abc-", min_size=1, max_size=5), st.sampled_from(STYLES)), max_size=4
)


@given(spans, st.data())
def test_the_whole_text_is_edited_as_if_it_had_no_styles(
    cut: list[Span], data: st.DataObject
) -> None:
    """The joined spans are the joined text, edited; neighbours differ, none is empty."""
    text = "".join(span.text for span in cut)
    bounds = sorted(data.draw(st.sets(st.integers(0, len(text)), max_size=6)))
    words = st.text("xy", max_size=3)
    edits = [Edit(a, b, data.draw(words)) for a, b in list(pairwise(bounds))[::2]]
    expected = text
    for edit in reversed(edits):
        expected = expected[: edit.start] + edit.text + expected[edit.end :]
    found = edited(cut, edits)
    assert "".join(span.text for span in found) == expected
    assert all(span.text for span in found)
    assert all(a.style != b.style for a, b in pairwise(found))


def test_what_reaches_over_a_change_of_style_goes_with_the_style_before() -> None:
    """Nothing of the edit is set twice, and a span used up by it is gone."""
    cut = [Span("NO-", "bold"), Span("-", "italic"), Span("- GO", "regular")]
    found = edited(cut, [Edit(2, 5, "—")])
    assert found == (Span("NO—", "bold"), Span(" GO", "regular"))
