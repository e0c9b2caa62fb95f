r"""LuaHBTeX's total fit by `\parshape`, timed inside LuaHBTeX (Debian: texlive-binaries)."""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

LUAHBTEX = shutil.which("luahbtex")

SP_PER_PT = 65781.76
"""TeX's scaled points to the point of 1/72 inch (The TeXbook, chapter 10)."""

_SOURCE = r"""\catcode`\{=1 \catcode`\}=2 \hbadness=10000 \vbadness=10000 \hfuzz=16383pt
\directlua{dofile("tex_layout.lua")}
\end
"""


def seconds_in_tex(
    texts: Sequence[str], *, font: Path, size_pt: float, widths_pt: Sequence[float], warm: int
) -> list[float]:
    """Processor seconds of each text, its shaping included, after some that are not counted.

    Args:
        texts: The texts, no line breaks in them.
        font: The font's file.
        size_pt: The type size.
        widths_pt: The length of each line; the last is used again.
        warm: Of how many of the first texts the time is left out: they run a second time.
    """
    widths = " ".join(str(round(width * SP_PER_PT)) for width in widths_pt)
    head = [str(font), str(round(size_pt * SP_PER_PT)), widths]
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "layout.txt").write_text(
            "\n".join([*head, *texts[:warm], *texts]) + "\n", encoding="utf-8"
        )
        Path(folder, "layout.tex").write_text(_SOURCE, encoding="ascii")
        Path(folder, "texmf.cnf").write_text("TEXINPUTS=.\n", encoding="ascii")
        shutil.copy(Path(__file__).with_name("tex_layout.lua"), folder)
        done = subprocess.run(  # noqa: S603 - the program found on PATH, with files made here
            [str(LUAHBTEX), "--ini", "--interaction=batchmode", "layout.tex"],
            cwd=folder,
            env={**os.environ, "TEXMFCNF": folder},
            capture_output=True,
            text=True,
            check=True,
            timeout=120,
        )
    took = [float(line.split()[1]) for line in done.stdout.splitlines() if line.startswith("TOOK")]
    return [microseconds / 1e6 for microseconds in took[warm:]]
