"""Which way the pages of a script read, by what is lettered on them."""

from letterfit.lettering.bidi.levels import leaning
from letterfit.lettering.settings import Lettering
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
    elements = (e for page in script.pages for panel in page.panels for e in panel.elements)
    return "rtl" if sum(map(_lean, (element.text for element in elements))) > 0 else "ltr"


def _lean(text: str) -> int:
    """1 for a text of more right-to-left letters than others, -1 for fewer, 0 for none or even."""
    found = leaning(text)
    return (found > 0) - (found < 0)
