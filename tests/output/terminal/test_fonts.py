"""The bundled typefaces in text."""

import io
from string import ascii_uppercase

import pytest
from fontTools.ttLib import TTFont
from rich.cells import cell_len

from letterfit.lettering.fonts.bundled import BUNDLED, SYMBOLS, read_bundled
from letterfit.output.terminal.fonts import fonts_to_text

FAMILIES = [name for name in BUNDLED if name != SYMBOLS]


@pytest.mark.parametrize("family", FAMILIES)
def test_every_family_is_listed_with_its_mean_capital(family: str) -> None:
    """The mean advance of A to Z is what fontTools reads from the font's own table."""
    font = TTFont(io.BytesIO(read_bundled(BUNDLED[family].path_of("regular"))))
    cmap, advances = font.getBestCmap(), font["hmtx"]
    mean = sum(advances[cmap[ord(c)]][0] for c in ascii_uppercase) / 26 / font["head"].unitsPerEm
    row = next(line for line in fonts_to_text().splitlines() if line.strip().startswith(family))
    assert f" {mean:.3f} " in row


def test_the_default_is_marked_and_the_licence_named() -> None:
    """One family carries the star; the licence is said."""
    text = fonts_to_text()
    assert text.count(" * ") == 1
    assert "SIL Open Font License" in " ".join(text.split())


@pytest.mark.parametrize("width", [60, 80, 120])
def test_no_line_is_wider_than_asked(width: int) -> None:
    """The table folds its languages."""
    assert max(map(cell_len, fonts_to_text(width=width).splitlines())) <= width
