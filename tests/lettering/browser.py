"""A browser that measures and breaks lines: Chromium without a window, asked once for all lines.

Fonts go into the page as data, so nothing is fetched; the widths come back in the printed page.
"""

import base64
import html
import json
import re
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from tests.lettering.outside import font_bytes

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
"""What the program is called on one system or another."""

CHROMIUM = next(filter(None, map(shutil.which, NAMES)), None)

PX = 100.0
"""The size in px that lines are measured at."""

_PAGE = """<!doctype html><meta charset="utf-8"><pre id="out"></pre><script>
const fonts = FONTS, lines = LINES;
(async () => {
  for (const [path, data] of Object.entries(fonts)) {
    const face = new FontFace(path.replace(/[^A-Za-z]/g, ""), `url(data:font/ttf;base64,${data})`);
    document.fonts.add(await face.load());
  }
  const canvas = document.createElement("canvas");
  document.body.append(canvas);
  const pen = canvas.getContext("2d");
  const widths = lines.map((line) => {
    canvas.lang = line.language;
    pen.font = `SIZEpx ${line.font.replace(/[^A-Za-z]/g, "")}`;
    pen.fontKerning = "normal";
    pen.textRendering = "geometricPrecision";
    pen.direction = line.direction;
    pen.letterSpacing = `${line.spacing * SIZE}px`;
    return pen.measureText(line.text).width;
  });
  document.getElementById("out").textContent = JSON.stringify(widths);
})();
</script>"""


@dataclass(frozen=True, slots=True)
class BrowserLine:
    """A line to measure: its text, its font's path, and how it is set; spacing in em."""

    text: str
    font: str
    language: str = "en"
    direction: str = "ltr"
    spacing: float = 0.0


def browser_widths_em(lines: Sequence[BrowserLine]) -> list[float]:
    """The advances of lines in em, as `measureText` of the HTML canvas gives them."""
    paths = dict.fromkeys(line.font for line in lines)
    fonts = {path: base64.b64encode(font_bytes(path)).decode("ascii") for path in paths}
    asked = json.dumps([asdict(line) for line in lines]).replace("</", "<\\/")
    page = _PAGE.replace("SIZE", f"{PX:g}").replace("LINES", asked)
    page = page.replace("FONTS", json.dumps(fonts))
    widths: list[float] = printed(page)
    return [width / PX for width in widths]


def printed(page: str, *, scale: float = 1) -> Any:  # noqa: ANN401 - whatever JSON the page prints
    """What the script of a page of HTML writes as JSON into its `<pre id="out">`.

    Args:
        page: The page.
        scale: Dots to a px.
    """
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        file = Path(folder) / "page.html"
        file.write_text(page, encoding="utf-8")
        command = [str(CHROMIUM), "--headless", "--no-sandbox", "--disable-gpu"]
        command += ["--disable-dev-shm-usage", "--disable-background-networking", "--no-first-run"]
        command += ["--font-render-hinting=none", f"--user-data-dir={folder}/profile"]
        command += [f"--force-device-scale-factor={scale:g}"] if scale != 1 else []
        command += ["--virtual-time-budget=60000", "--dump-dom", file.as_uri()]
        done = subprocess.run(  # noqa: S603 - the program found on PATH, with a file made here
            command, capture_output=True, text=True, check=True, timeout=120
        )
    found = re.search(r'<pre id="out">(.*?)</pre>', done.stdout, re.DOTALL)
    if not found or not found[1]:
        raise RuntimeError(f"the browser printed nothing: {done.stderr[-500:]}")
    return json.loads(html.unescape(found[1]))
