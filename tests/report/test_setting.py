"""The setting: what is refused, and how captions and whispers are set."""

import math

import pytest

from letterfit.errors import FontError
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.report.limits import Limits
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue
from tests.box_font import box_font

BOX = Lettering(typeface=open_typeface(box_font()), size_pt=8)
WHISPER = Dialogue(kind="dialogue", text="Hold.", line=1, modifiers=("WHISPER",))
CAPTION = Dialogue(kind="caption", text="Dawn.", line=2)
SPEECH = Dialogue(kind="dialogue", text="Hold!", line=3)


def test_captions_and_whispers_are_half_a_point_smaller() -> None:
    """Common practice, no source; speech keeps the size, and all else is the same."""
    setting = Setting(lettering=BOX, effects=BOX)
    sizes = [setting.lettering_of(element).size_pt for element in (WHISPER, CAPTION, SPEECH)]
    assert sizes == [7.5, 7.5, 8]
    assert setting.lettering_of(WHISPER).habits == BOX.habits


def test_they_never_go_under_the_least_legible_size() -> None:
    """As far as the least size allows, and no larger than the dialogue itself."""
    tight = Setting(lettering=BOX, effects=BOX, limits=Limits(least_size_pt=7.8))
    assert tight.lettering_of(CAPTION).size_pt == 7.8
    under = Setting(lettering=BOX, effects=BOX, limits=Limits(least_size_pt=9))
    assert under.lettering_of(CAPTION).size_pt == 8


@pytest.mark.parametrize("aside", [-0.1, 8, math.nan, math.inf])
def test_a_difference_that_leaves_no_size_is_refused(aside: float) -> None:
    """With the range that will do."""
    with pytest.raises(FontError, match="under 8"):
        Setting(lettering=BOX, effects=BOX, aside_pt=aside)


def test_captions_alone_can_be_set_flush_left() -> None:
    """Lines of speech and whispers stay centred."""
    setting = Setting(lettering=BOX, effects=BOX, caption_align="start")
    aligns = [setting.lettering_of(element).align for element in (WHISPER, CAPTION, SPEECH)]
    assert aligns == ["centre", "start", "centre"]


def test_an_unknown_alignment_of_captions_is_refused() -> None:
    """With those there are."""
    with pytest.raises(FontError, match="centre, start"):
        Setting(lettering=BOX, effects=BOX, caption_align="left")  # type: ignore[arg-type]
