"""Live text in a browser: with the bundled fonts installed, lines end where our outlines do.

Chromium asks fontconfig for the families that the file names, in a folder that has the bundled
fonts alone; 384 dots to the inch, since on a screen it rounds letters to dots. Skips where there is
no such browser.
"""

import shutil
import sys
from dataclasses import replace
from importlib import resources
from pathlib import Path

import pytest

import letterfit as lf
from tests.lettering.browser import CHROMIUM, printed

pytestmark = pytest.mark.skipif(
    CHROMIUM is None or not sys.platform.startswith("linux"), reason="no Chromium with fontconfig"
)

FONTS = Path(__file__).parents[3] / "fonts_open"
DEMO = resources.files(lf).joinpath("demo", "slack_tide.txt").read_text(encoding="utf-8")
NEAR_MM = 0.1
PAGE = """<!doctype html><meta charset="utf-8"><pre id="out"></pre>SVG<script>
const ends = (text) => [text.getStartPositionOfChar(0),
                        text.getEndPositionOfChar(text.getNumberOfChars() - 1)];
document.fonts.ready.then(() => {
  const found = [...document.querySelectorAll("text")].map((text) => {
    const [start, end] = ends(text);
    return [text.textContent, start.x, start.y, end.x];
  });
  document.getElementById("out").textContent = JSON.stringify(found);
});
</script>"""


@pytest.fixture
def _installed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fontconfig (fonts.conf, its own document type) that knows the bundled fonts alone."""
    for font in sorted(FONTS.rglob("*.ttf")):
        shutil.copy(font, tmp_path)
    conf = tmp_path / "fonts.conf"
    conf.write_text(
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>'
        f"<dir>{tmp_path}</dir><cachedir>{tmp_path}/cache</cachedir></fontconfig>"
    )
    monkeypatch.setenv("FONTCONFIG_FILE", str(conf))


def pages() -> list[tuple[lf.PageReport, lf.Lettering]]:
    """A page in each of two families, one of them with its small letters."""
    script = lf.parse_script(DEMO)
    script = replace(script, pages=script.pages[1:2])
    ways = (lf.Lettering(), lf.Lettering(typeface="Comic Neue", case="as-typed"))
    return [(lf.preflight(script, lettering=way).pages[0], way) for way in ways]


@pytest.mark.usefixtures("_installed")
def test_live_lines_stand_where_the_outlines_do() -> None:
    """Both ends of every line within 0.1 mm, the baseline within a hundredth.

    The planted fault, another family in the place of one, ends lines elsewhere.
    """
    wanted: list[tuple[lf.Line, float, float]] = []
    drawn = ""
    for page, lettering in pages():
        for balloon in (b for panel in page.panels for b in panel.balloons):
            assert balloon.x_mm is not None
            assert balloon.y_mm is not None
            wanted += [(line, balloon.x_mm, balloon.y_mm) for line in balloon.fitted.lines]
        drawn += lf.to_svg(page, lettering=lettering, text="live").partition("?>")[2]
    planted = drawn.replace('font-family="Grandstander"', 'font-family="Bangers"')
    found = printed(PAGE.replace("SVG", drawn + planted), scale=4)
    assert len(found) == 2 * len(wanted) > 160
    for (text, start, baseline, end), (line, x, y) in zip(found, wanted, strict=False):
        assert text == line.text
        assert start == pytest.approx(x + line.x_mm, abs=NEAR_MM)
        assert end == pytest.approx(x + line.x_mm + line.width_mm, abs=NEAR_MM)
        assert baseline == pytest.approx(y + line.baseline_mm, abs=0.01)
    off = [other[3] - one[3] for one, other in zip(found, found[len(wanted) :], strict=False)]
    assert max(map(abs, off)) > 1
