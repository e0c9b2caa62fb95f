"""Which way the pages of a script read, and in which language, by what is lettered on them."""

from collections.abc import Iterator

from letterfit.lettering.bidi.classes import bidi_letters
from letterfit.lettering.bidi.levels import FROM_THE_RIGHT, leaning
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.casing import base_language
from letterfit.place.model import Reading
from letterfit.script.model import Script


def reading_of(script: Script, *, lettering: Lettering | None = None) -> Reading:
    r"""The way the pages read when nobody says so: as most of their balloons do.

    A balloon reads as most of its letters do (strong characters, UAX #9, table 4); one without
    letters does not count. Pages with vertical lettering read from right to left, as their columns
    do. Common practice, no source.

    Args:
        script: The script.
        lettering: How it is lettered; None is the bundled default, in lines.

    >>> from letterfit.script.parse import parse_script
    >>> reading_of(parse_script("PAGE 1\n\nPanel 1. The gate.\n\nWENNA: השער סגור.\n"))
    'rtl'
    """
    if lettering and lettering.writing == "vertical":
        return "rtl"
    return "rtl" if sum(map(_lean, _texts(script))) > 0 else "ltr"


def written_language(script: Script) -> str:
    r"""The language that a script's balloons are set by: its own, unless its letters say otherwise.

    Headings are often typed in English round Hebrew or Arabic words. Where most balloons read from
    right to left the language is the one of the two whose letters there are more of.

    Args:
        script: The script.

    >>> from letterfit.script.parse import parse_script
    >>> written_language(parse_script("PAGE 1\n\nPanel 1. The gate.\n\nWENNA: השער סגור.\n"))
    'he'
    """
    texts = list(_texts(script))
    if base_language(script.language) in FROM_THE_RIGHT or sum(map(_lean, texts)) <= 0:
        return script.language
    letters = bidi_letters("".join(texts))
    return "he" if letters.count("R") >= letters.count("A") else "ar"


def _texts(script: Script) -> Iterator[str]:
    """The text of every balloon and caption."""
    for page in script.pages:
        for panel in page.panels:
            for element in panel.elements:
                yield element.text


def _lean(text: str) -> int:
    """1 for a text of more right-to-left letters than others, -1 for fewer, 0 for none or even."""
    found = leaning(text)
    return (found > 0) - (found < 0)
