"""What lettering is in an SVG: outlines of letters, or live text that needs the font."""

from typing import Literal, get_args

Text = Literal["outlines", "live"]
TEXTS: tuple[Text, ...] = get_args(Text)
