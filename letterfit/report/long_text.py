"""Long text: an element that no balloon holds is a finding in its place; nothing else is lost."""

from dataclasses import replace

from letterfit.fit.balloon import MOST_WORDS
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from letterfit.report.codes import found
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue

LONGEST = 4_000
"""Characters: at 7.5 pt three pages of a comic, more than any element is."""

MEASURED = 1_000
"""How many characters of a longer text are measured: about a page of a comic."""


def measured(
    element: Dialogue,
    lettering: Lettering,
    *,
    id: str,  # noqa: A002 - the word of the report's format
    setting: Setting,
) -> Words:
    """The measured words of one element; of one that is too long, the first.

    Args:
        element: What the script says.
        lettering: How it is set.
        id: "page.panel.balloon", for the findings.
        setting: How the script is lettered.

    Returns:
        The words; an error among their findings says when some are left out.

    >>> setting = Setting(lettering=Lettering(), effects=Lettering())
    >>> flood = Dialogue(kind="dialogue", text="Hold. " * 1000, line=7)
    >>> words = measured(flood, Lettering(), id="1.1.1", setting=setting)
    >>> words.count, words.findings[0].code, words.findings[0].line
    (167, 'long-text', 7)
    """

    def begun(text: str) -> Words:
        return measure(text, lettering, language=setting.language, where=id, line=element.line)

    length = f"{len(element.text):,} characters"
    if len(element.text) <= LONGEST:
        words = begun(element.text)
        if len(words) <= MOST_WORDS:
            return words
        length = f"{len(words):,} words"  # as short as letters: more than any fit takes
    words = begun(element.text[:MEASURED])
    finding = found(
        "long-text",
        f"A text of {length} is no balloon: its first {MEASURED:,} characters are measured.",
        advice="Split it into balloons of a few lines.",
        where=id,
        line=element.line,
    )
    return replace(words, findings=(finding, *words.findings))
