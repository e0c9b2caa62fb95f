"""Many texts laid out in lines of one width by other libraries: Skia's Paragraph, Qt and TeX.

`python -m tests.benchmarks.laying NAME FILE` does it in a process of its own, for a file of texts,
one a line. They break lines at one width and no more: no balloons, no panels, no order of reading.
Nothing of the library is imported here.
"""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from tests.benchmarks import paragraphs, qt_layout, tex_layout
from tests.benchmarks.beside import Prepared, Timed, timed
from tests.benchmarks.floors import FONT

SIZE, WIDTH = 10, 100.0
"""px, or points: about nine words of dialogue go into a line."""

LINES = 600
"""More lines than any text here takes."""

SKIA, QT, TEX = "Skia Paragraph", "Qt QTextLayout", "LuaHBTeX"


def layouts(width: float = WIDTH) -> dict[str, Timed[Sequence[str]]]:
    """The seconds in which each library that is installed lays out texts in capitals, by its name.

    Args:
        width: The length of all lines, px or points at a type size of SIZE.
    """
    found: dict[str, Timed[Sequence[str]]] = {}
    if paragraphs.is_installed():
        found[SKIA] = timed(skia(width))
    if qt_layout.is_installed():
        found[QT] = timed(qt(width))
    if tex_layout.LUAHBTEX is not None:
        found[TEX] = lambda texts: sum(tex(texts, width, warm=len(texts)))
    return found


def skia(width: float = WIDTH) -> Callable[[Sequence[str]], Prepared]:
    """Skia's paragraphs, built and laid out."""
    ready = paragraphs.Paragraphs(FONT)
    return lambda texts: lambda: [ready.build(text.upper(), width=width) for text in texts]


def qt(width: float = WIDTH) -> Callable[[Sequence[str]], Prepared]:
    """Qt's lines, filled one after the other."""
    ready, widths = qt_layout.TextLayouts(FONT, size=SIZE), [width] * LINES
    return lambda texts: lambda: [ready.hung(text.upper(), widths) for text in texts]


def tex(texts: Sequence[str], width: float = WIDTH, *, warm: int) -> list[float]:
    """Seconds of TeX's total fit for each text, timed inside it."""
    capitals = [text.upper() for text in texts]
    return tex_layout.seconds_in_tex(
        capitals, font=FONT, size_pt=SIZE, widths_pt=[width], warm=warm
    )


def commands(file: Path) -> dict[str, tuple[str, ...]]:
    """A process for each library that is installed, laying out a file of texts."""
    there = {
        SKIA: paragraphs.is_installed(),
        QT: qt_layout.is_installed(),
        TEX: tex_layout.LUAHBTEX is not None,
    }
    python = (sys.executable, "-m", "tests.benchmarks.laying")
    return {name: (*python, name, str(file)) for name in there if there[name]}


def main(name: str, file: Path) -> None:
    """Lay out the texts of a file, once."""
    texts = file.read_text(encoding="utf-8").splitlines()
    if name == TEX:
        tex(texts, warm=0)
    else:
        {SKIA: skia, QT: qt}[name]()(texts)()


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]))
