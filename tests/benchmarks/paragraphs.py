"""Skia's Paragraph, the text layout of browsers and phones, through PyPI `skia-python`."""

from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any


def is_installed() -> bool:
    """Whether `skia-python` is there: pip install '.[bench]'."""
    return find_spec("skia") is not None


class Paragraphs:
    """Builds paragraphs in one font at 10 px; lays them out at a width.

    Skia keeps the shapings of texts it has seen, so every text is to be new.
    """

    def __init__(self, font: Path) -> None:
        self._skia: Any = import_module("skia")
        layout = self._skia.textlayout
        provider = layout.TypefaceFontProvider()
        typeface = self._skia.Typeface.MakeFromFile(str(font))
        provider.registerTypeface(typeface)
        self._fonts = layout.FontCollection()
        self._fonts.setDefaultFontManager(provider)
        self._style = layout.TextStyle()
        self._style.setFontFamilies([typeface.getFamilyName()])
        self._style.setFontSize(10)
        self._paragraph = layout.ParagraphStyle()
        self._paragraph.setTextStyle(self._style)
        self._unicode = self._skia.Unicodes.ICU.Make()
        self._builder = layout.ParagraphBuilder

    def build(self, text: str, *, width: float) -> Any:  # noqa: ANN401 - it has no types
        """A paragraph of the text, laid out at a width in px."""
        builder = self._builder.make(self._paragraph, self._fonts, self._unicode)
        builder.pushStyle(self._style)
        builder.addText(text)
        paragraph = builder.Build()
        paragraph.layout(width)
        return paragraph
