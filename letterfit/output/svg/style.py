"""Line weights and a margin in mm, and colours: everything that decides how a proof looks.

Weights of balloons, captions and borders are common practice, no source. Each verdict has a mark of
its own shape besides its colour; the three verdict colours differ in lightness as well, so that
they stay apart for every kind of colour vision and in grey print.
"""

from letterfit.output.panel_state import State

MARGIN_MM = 1.0
"""Round what stands in a file of its own, so that its line is drawn whole."""

BALLOON_LINE = 0.35
CAPTION_LINE = 0.3
SHOUT_LINE = 0.55
BORDER_LINE = 0.5
GUIDE_LINE = 0.15
WHISPER_DASHES = "1.1 0.8"

INK = "#161616"
PAPER = "#ffffff"
ROOM = "#eceff0"
"""The panel's own ground: what is left for the picture."""
FIGURE = "#dde3e5"
FIGURE_LINE = "#9eabb1"
GUIDE = "#8fc7e6"
"""Pale blue, as on boards whose guides must not print (common practice, no source)."""
GHOST = "#6b6b6b"
"""Balloons that have no place yet."""
LABEL = "#4a5357"

COLOURS: dict[State, str] = {"fits": "#76c2b6", "doubt": "#b8740a", "fails": "#8c1d50"}
WORDS: dict[State, str] = {"fits": "fits", "doubt": "look again", "fails": "does not fit"}
