"""Mixed ways of typing: found, counted, and not imagined."""

import pytest

from letterfit.report.lint import lint_script
from letterfit.script.model import Dialogue, Script, ScriptPage, ScriptPanel


def script(*texts: str) -> Script:
    """A script of one panel, one element per text, on lines 1, 2, 3."""
    said = tuple(Dialogue(kind="dialogue", text=t, line=n) for n, t in enumerate(texts, start=1))
    panel = ScriptPanel(number=1, line=1, elements=said)
    return Script(pages=(ScriptPage(numbers=(1,), line=1, panels=(panel,)),))


@pytest.mark.parametrize(
    ("texts", "code", "line"),
    [
        (("No -- wait", "No -- no", "No \u2014 wait"), "mixed-dashes", 3),
        (("No \u2013 wait", "No--", "Go--"), "mixed-dashes", 1),
        (('"Shut"', "\u201cOpen\u201d"), "mixed-quotes", 1),
        (("\u00abFerm\u00e9\u00bb", '"Ouvert"', '"Non"'), "mixed-quotes", 1),
        (("Don't", "Don't", "I don\u2019t"), "mixed-apostrophes", 3),
        (("Well...", "Well\u2026", "So..."), "mixed-ellipses", 2),
    ],
)
def test_a_mixed_policy_is_one_note(texts: tuple[str, ...], code: str, line: int) -> None:
    """Two ways of typing one thing give one note, at the first line of the rarer way."""
    (note,) = lint_script(script(*texts))
    assert (note.code, note.severity, note.line) == (code, "note", line)


@pytest.mark.parametrize(
    "texts",
    [
        (),
        ("No -- wait", "No--"),
        # A range of numbers and a hyphen are no breaks in speech; four stops are no ellipsis.
        ("Locks 3\u20139 -- shut", "well-worn"),
        ("\u201cDon't\u201d",),
        ("'Tis shut", "the keepers\u2019 gate"),
        ("Wait....", "Wait\u2026"),
        ("-----", "No \u2014 wait"),
    ],
)
def test_one_policy_gives_no_note(texts: tuple[str, ...]) -> None:
    """A script that keeps to one way of typing is left in peace."""
    assert lint_script(script(*texts)) == ()
