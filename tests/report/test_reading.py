"""Pages read the way their balloons do."""

import pytest

import letterfit as lf
from letterfit.report.reading import reading_of
from letterfit.script.parse import parse_script

HEBREW = "השער סגור כבר שעה."
ARABIC = "البوابة مغلقة منذ ساعة."
ENGLISH = "The gate has been shut for an hour."


def script_of(*texts: str) -> lf.Script:
    """A script of one panel with these balloons."""
    spoken = "\n\n".join(f"WENNA: {text}" for text in texts)
    return parse_script(f"PAGE 1\n\nPanel 1. Lock Nine at dawn.\n\n{spoken}\n")


@pytest.mark.parametrize(
    ("texts", "reading"),
    [
        ([ENGLISH], "ltr"),
        ([HEBREW], "rtl"),
        ([ARABIC], "rtl"),
        ([HEBREW, HEBREW, ENGLISH], "rtl"),
        ([HEBREW, ENGLISH], "ltr"),
        (["Lock Nine נעול", ENGLISH], "ltr"),
        ([f"{HEBREW} Lock Nine!"], "rtl"),
        ([HEBREW, "?!", "...", "1234"], "rtl"),
        (["?!"], "ltr"),
        (["閘門已經關了。"], "ltr"),
    ],
)
def test_pages_read_as_most_balloons_do(texts: list[str], reading: str) -> None:
    """A foreign phrase turns no balloon, one foreign balloon no page; signs alone do not count."""
    assert reading_of(script_of(*texts)) == reading


def test_vertical_pages_read_from_right_to_left() -> None:
    """Columns run from right to left, and so do panels."""
    assert (
        reading_of(script_of("閘門已經關了。"), lettering=lf.Lettering(writing="vertical")) == "rtl"
    )


def test_a_script_without_words_reads_from_left_to_right() -> None:
    """No balloon at all leaves the pages as they are."""
    assert reading_of(lf.Script(pages=())) == "ltr"


def test_the_report_says_which_way_and_is_told_otherwise() -> None:
    """Preflight decides by the text unless asked for a way; terminal and JSON state it."""
    script = script_of(HEBREW)
    found = lf.preflight(script)
    told = lf.preflight(script, reading="ltr")
    assert (found.reading, told.reading) == ("rtl", "ltr")
    assert "read right to left" in lf.to_text(found)
    assert "read right to left" not in lf.to_text(told)
    assert '"reading": "rtl"' in lf.to_json(found)
