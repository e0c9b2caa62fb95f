"""Qt's `QTextLayout`, which fills given lines in turn, through PyPI `PySide6-Essentials`."""

import os
from collections.abc import Callable, Sequence
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any


def is_installed() -> bool:
    """Whether PySide6 is there: pip install '.[bench]'."""
    return find_spec("PySide6") is not None


class TextLayouts:
    """Lays texts out in one font, in lines of given lengths.

    Args:
        font: The font's file.
        size: Pixels to the em, a whole number.
    """

    def __init__(self, font: Path, *, size: int) -> None:
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        self._gui: Any = import_module("PySide6.QtGui")
        # Kept for as long as anything of Qt's is.
        self._application = self._gui.QGuiApplication.instance() or self._gui.QGuiApplication([])
        number = self._gui.QFontDatabase.addApplicationFont(str(font))
        (family,) = self._gui.QFontDatabase.applicationFontFamilies(number)
        self._font = self._gui.QFont(family)
        self._font.setPixelSize(size)
        self._font.setHintingPreference(self._gui.QFont.HintingPreference.PreferNoHinting)

    def hung(self, text: str, widths: Sequence[float]) -> Any:  # noqa: ANN401 - no types
        """The text in lines from the top, once, whether it goes in or not.

        Args:
            text: The text.
            widths: The length of each line, px.
        """
        layout = self._gui.QTextLayout(text, self._font)
        _goes_in(layout, widths)
        return layout

    def centred(self, text: str, widths: Callable[[int], Sequence[float]], *, most: int) -> Any:  # noqa: ANN401 - no types
        """The text in the fewest lines of a centred stack that take it.

        Args:
            text: The text.
            widths: The lengths of the lines of a stack of so many lines, px.
            most: The most lines of a stack.
        """
        layout = self._gui.QTextLayout(text, self._font)
        layout.beginLayout()
        line = layout.createLine()
        line.setLineWidth(1e6)
        layout.endLayout()
        whole = line.naturalTextWidth()
        for count in range(1, most + 1):
            lengths = widths(count)
            if sum(lengths) >= whole and _goes_in(layout, lengths):
                break
        return layout


def lines_read(layout: Any, text: str) -> list[tuple[str, float, list[tuple[Any, Any]]]]:  # noqa: ANN401 - no types
    """Each line's text, its advance, and the numbers and places of its glyphs."""
    found = []
    for number in range(layout.lineCount()):
        line = layout.lineAt(number)
        start = line.textStart()
        glyphs = [(run.glyphIndexes(), run.positions()) for run in line.glyphRuns()]
        found.append((text[start : start + line.textLength()], line.naturalTextWidth(), glyphs))
    return found


def _goes_in(layout: Any, widths: Sequence[float]) -> bool:  # noqa: ANN401 - no types
    """Lay the text out in the lines, and say whether they take it all."""
    layout.beginLayout()
    for width in widths:
        line = layout.createLine()
        if not line.isValid():
            break
        line.setLineWidth(width)
    whole = not layout.createLine().isValid()
    layout.endLayout()
    return whole
