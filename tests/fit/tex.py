"""TeX as an outside breaker of lines: paragraphs of boxes set by LuaTeX, asked once for them all.

LuaTeX's line breaker is TeX's (The TeXbook, chapter 14); Lua only reads back which boxes stand in
which line. It runs bare (`--ini`): no format, no fonts, no files but those written here.
"""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

NAMES = ("luahbtex", "luatex")

TEX = next(filter(None, map(shutil.which, NAMES)), None)
"""The program, where it is installed (Debian: texlive-binaries)."""

_HEAD = r"""\catcode`\{=1 \catcode`\}=2
\hbadness=10000 \vbadness=10000 \hfuzz=16383pt \pretolerance=-1
\def\show{\directlua{
  local counts, lines = {}, 0
  for line in node.traverse_id(node.id("hlist"), tex.box[0].head) do
    local boxes = 0
    for _ in node.traverse_id(node.id("hlist"), line.head) do boxes = boxes + 1 end
    lines = lines + 1
    counts[lines] = boxes
  end
  texio.write_nl("LINES " .. table.concat(counts, " "))
  texio.write_nl("")
}}
"""


AWFUL = 10_000
"""The badness of a line that cannot be stretched so far."""


def badness(excess: int, stretch: int) -> int:
    """TeX's badness of a line that is stretched by `excess` (tex.web, section 108)."""
    if excess == 0:
        return 0
    if stretch <= 0:
        return AWFUL
    if excess <= 7230584:
        ratio = excess * 297 // stretch
    elif stretch >= 1663497:
        ratio = excess // (stretch // 297)
    else:
        ratio = excess
    return AWFUL if ratio > 1290 else (ratio**3 + 0o400000) // 0o1000000


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Words as TeX sets them; all lengths in scaled points, whole numbers.

    Args:
        words: The width of each word.
        space: The space between two words, its stretch and its shrink.
        widths: The length of each line; the last is used again.
        rag: Stretch at the end of each line (`rightskip`).
        penalties: The penalty of a break after each word, from 0 to 9,999; the last is not used.
        line_penalty: What is added to each line's badness.
        tolerance: The greatest badness of a line.
    """

    words: tuple[int, ...]
    space: tuple[int, int, int]
    widths: tuple[int, ...]
    rag: int
    penalties: tuple[int, ...]
    line_penalty: int
    tolerance: int


def tex_lines(paragraphs: Sequence[Paragraph]) -> list[list[int]]:
    """How many words TeX sets in each line of each paragraph."""
    with tempfile.TemporaryDirectory() as folder:
        source = "\n".join([_HEAD, *map(_source, paragraphs), r"\end"])
        Path(folder, "lines.tex").write_text(source, encoding="ascii")
        Path(folder, "texmf.cnf").write_text("TEXINPUTS=.\n", encoding="ascii")
        done = subprocess.run(  # noqa: S603 - the program found on PATH, with a file made here
            [str(TEX), "--ini", "--interaction=batchmode", "lines.tex"],
            cwd=folder,
            env={**os.environ, "TEXMFCNF": folder},
            capture_output=True,
            text=True,
            check=True,
            timeout=120,
        )
        log = Path(folder, "lines.log").read_text(encoding="utf-8", errors="replace")
    found = [line.split()[1:] for line in log.splitlines() if line.startswith("LINES ")]
    if len(found) != len(paragraphs):
        raise RuntimeError(f"TeX set {len(found)} of {len(paragraphs)} paragraphs: {done.stdout}")
    return [[int(count) for count in line] for line in found]


def _source(paragraph: Paragraph) -> str:
    space, stretch, shrink = paragraph.space
    glue = rf"\hskip{space}sp plus{stretch}sp minus{shrink}sp\relax"
    words = []
    for width, penalty in zip(paragraph.words, paragraph.penalties, strict=True):
        words += [rf"\hbox to{width}sp{{}}", rf"\penalty{penalty} {glue}"]
    shape = " ".join(f"0sp {width}sp" for width in paragraph.widths)
    return "\n".join(
        [
            rf"\tolerance={paragraph.tolerance} \linepenalty={paragraph.line_penalty}",
            rf"\rightskip=0sp plus{paragraph.rag}sp\relax \setbox0=\vbox{{\noindent",
            *_folded(words[:-1]),
            rf"\parshape={len(paragraph.widths)} {shape}\relax\par}}\show",
        ]
    )


def _folded(words: Iterable[str]) -> Iterable[str]:
    """Each on a line whose end TeX does not read as a space."""
    return (f"{word}%" if word.endswith("}") else word for word in words)
