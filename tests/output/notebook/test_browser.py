"""Shown values in a real browser, on a narrow dark page: they load, keep inside, fetch nothing."""

from pathlib import Path

import pytest

from tests.lettering.browser import CHROMIUM
from tests.output.html.devtools import tab
from tests.output.notebook.shown_values import bundle

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no Chromium on PATH (Debian: chromium): no value is opened"
)

WIDE = 500
"""CSS pixels: less than a page's own width, more than a balloon's."""

LOOK = """(async () => {
  await Promise.all([...document.images].map((image) => image.decode()));
  return [...document.images].map((image) => {
    const box = image.getBoundingClientRect();
    return [image.naturalWidth / image.naturalHeight, box.width / box.height, box.right];
  });
})()"""


def test_images_load_shrink_in_shape_and_fetch_nothing(tmp_path: Path) -> None:
    """Every image is drawn in its own proportions inside the page; requests are none but data."""
    shown = "".join(bundle(name)["text/html"] for name in ("balloon", "page", "report", "advice"))
    file = tmp_path / "notebook.html"
    style = f"width:{WIDE}px;margin:0;background:#111;color:#eee"
    head = '<!doctype html><meta charset="utf-8"><link rel="icon" href="data:,">'
    file.write_text(f'{head}<body style="{style}">{shown}', encoding="utf-8")
    with tab(tmp_path / "profile") as browser:
        browser.open(file.as_uri())
        seen = browser.run(LOOK)
        asked = [
            one["params"]["request"]["url"]
            for one in browser.reported
            if one["method"] == "Network.requestWillBeSent"
        ]
    assert len(seen) == 1 + 1 + 2 + 2
    for own, drawn, right in seen:
        assert drawn == pytest.approx(own, rel=0.02)
        assert right <= WIDE + 0.5
    assert {url.split(":", 1)[0] for url in asked} <= {"file", "data"}
    assert [url for url in asked if url.startswith("file:")] == [file.as_uri()]
