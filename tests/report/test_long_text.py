"""Long text: measured in part, told in full."""

import pytest

from letterfit.fit.balloon import MOST_WORDS
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.report.long_text import LONGEST, MEASURED, measured
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue
from tests.box_font import box_font

BOX = Lettering(typeface=open_typeface(box_font()))
SETTING = Setting(lettering=BOX, effects=BOX, language="en")


@pytest.mark.parametrize(("length", "kept"), [(LONGEST, LONGEST), (LONGEST + 1, MEASURED)])
def test_a_text_is_cut_only_when_no_balloon_holds_it(length: int, kept: int) -> None:
    """The longest is whole; of a longer one the beginning is measured, and an error says so."""
    element = Dialogue(kind="dialogue", text="o" * length, line=4)
    words = measured(element, BOX, id="2.1.3", setting=SETTING)
    assert len(words.text) == kept
    told = [(f.severity, f.where, f.line) for f in words.findings if f.code == "long-text"]
    assert told == ([("error", "2.1.3", 4)] if kept < length else [])


@pytest.mark.parametrize("count", [MOST_WORDS, MOST_WORDS + 1])
def test_words_of_a_letter_are_counted_too(count: int) -> None:
    """A short text may have more words than any fit takes: it is begun, and the rest goes on."""
    element = Dialogue(kind="dialogue", text="o " * count, line=4)
    words = measured(element, BOX, id="2.1.3", setting=SETTING)
    told = [f.message for f in words.findings if f.code == "long-text"]
    assert words.count == (count if count == MOST_WORDS else MEASURED / 2)
    assert [message.split(":")[0] for message in told] == (
        [] if count == MOST_WORDS else ["A text of 1,001 words is no balloon"]
    )
