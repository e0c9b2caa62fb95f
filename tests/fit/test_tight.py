"""The tightest stack by the fast search: that of the thorough one, and of brute force."""

import pytest
from hypothesis import given, settings

from letterfit.fit.aspects import few_cells
from letterfit.fit.batch import is_plain
from letterfit.fit.exact import least_stack
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import line_scales
from letterfit.fit.tight import tightest
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.fit.texts import airs, all_stacks, names, texts
from tests.plays import play_names, speeches


@settings(max_examples=40)
@given(texts().filter(is_plain), names, airs)
def test_no_stack_asks_for_less(words: Words, name: str, air: float) -> None:
    """Against every breaking, by exact scales."""
    profiles = Profiles.of([words], air=air)
    for shape in few_cells(name, 1.0, 2.6, 2).shapes.outlines:
        found = tightest(profiles, shape)
        assert found is not None
        ink = profiles.inks[0]
        every = [line_scales(ink, shape, stack, air=air).max() for stack in all_stacks(words)]
        assert found.scale == pytest.approx(min(every), rel=1e-9)
        asked = line_scales(ink, shape, found.stack, air=air).max()
        assert asked == pytest.approx(found.scale, rel=1e-9)


def test_speech_is_as_tight_as_by_the_thorough_search() -> None:
    """Play speeches in ellipses and boxes."""
    spoken = [s.text for s in speeches(play_names()[7]) if 10 <= len(s.text.split()) <= 60][:12]
    for text in spoken:
        words = measure(text, Lettering())
        if not is_plain(words):
            continue
        for name in ("ellipse", "rounded"):
            (shape,) = few_cells(name, 1.4, 1.6, 1).shapes.outlines
            found = tightest(Profiles.of([words], air=1.2), shape)
            assert found is not None
            exact = least_stack(words, shape, air=1.2).scale
            assert found.scale == pytest.approx(exact, rel=1e-9)
