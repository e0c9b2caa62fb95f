"""The report's colours by what they are for, in light and in dark.

They go with those of the drawings (`letterfit.output.svg.style`): teal, ochre and wine for what
fits, wants a look, does not fit. Here they colour text, so each keeps a contrast of 4.5:1 or more
with every ground it stands on (WCAG 2.2, success criterion 1.4.3), and stays apart from the others
for every kind of colour vision; in grey a shape and a word beside it tell.
"""

from collections.abc import Mapping
from types import MappingProxyType

from letterfit.output.svg import style

LIGHT: Mapping[str, str] = MappingProxyType(
    {
        "ground": "#ffffff",
        "raised": "#f2f5f6",
        "line": "#c9d1d4",
        "text": style.INK,
        "quiet": style.LABEL,
        "link": "#155e75",
        "fits": "#006a72",
        "doubt": "#8f5600",
        "fails": "#73003f",
    }
)
DARK: Mapping[str, str] = MappingProxyType(
    {
        "ground": "#14181a",
        "raised": "#1f2629",
        "line": "#46525a",
        "text": "#e9edef",
        "quiet": "#b3bdc2",
        "link": "#8fd0e6",
        "fits": "#7fd4d0",
        "doubt": "#e0a030",
        "fails": "#e070a8",
    }
)

GROUNDS = ("ground", "raised")
INKS = ("text", "quiet", "link", "fits", "doubt", "fails")
"""Every ink may stand on every ground."""


def variables(colours: Mapping[str, str]) -> str:
    """The colours as custom properties of a style sheet.

    >>> variables({"ground": "#ffffff"})
    '--ground: #ffffff;'
    """
    return " ".join(f"--{name}: {colour};" for name, colour in colours.items())
