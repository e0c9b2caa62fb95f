"""UTF-16 offsets as offsets of characters."""

from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.breaks.units import index_of_units


@given(st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=12))
def test_each_character_is_found_by_the_units_before_it(text: str) -> None:
    """Counted by the encoder of Python itself; where the two never differ there is no table."""
    found = index_of_units(text)
    if all(char <= "\uffff" for char in text):
        assert found is None
    else:
        starts = [len(text[:k].encode("utf-16-le")) // 2 for k in range(len(text) + 1)]
        assert found == dict(zip(starts, range(len(text) + 1), strict=True))
