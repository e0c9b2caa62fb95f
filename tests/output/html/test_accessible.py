"""axe-core, a library that looks for what keeps people out, finds nothing in a report.

It holds a page against the rules of WCAG 2.2 that a program can tell, and against good practice.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.lettering.browser import CHROMIUM
from tests.output.html.check import axe_core, faults, opened
from tests.output.html.devtools import Tab, tab
from tests.output.html.made import document

AXE = axe_core()

pytestmark = [
    pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on PATH (Debian: chromium)"),
    pytest.mark.skipif(AXE is None, reason="no axe-core (pip install axe-core-python)"),
]

PLANTED = {
    "color-contrast": "main.style.color = '#aaaaaa'",
    "svg-img-alt": "document.querySelector('.picture title').remove()",
    "heading-order": "document.querySelector('h2').outerHTML = '<h4>What to do</h4>'",
    "html-has-lang": "document.documentElement.removeAttribute('lang')",
    "link-name": "document.querySelector('table a').textContent = ''",
}
"""What breaks a rule."""


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tab]:
    """A tab."""
    with tab(tmp_path_factory.mktemp("profile")) as own:
        yield own


def show(browser: Tab, name: str, folder: Path) -> None:
    """Open a document."""
    assert AXE is not None
    file = folder / f"{name}.html"
    file.write_text(document(name), encoding="utf-8")
    opened(browser, file, AXE)


@pytest.mark.parametrize("name", ["lettered", "nasty"])
def test_nothing_is_found_on_a_phone_in_light_and_on_a_desk_in_dark(
    browser: Tab, name: str, tmp_path: Path
) -> None:
    """A report with cuts, and one with everything nasty in it."""
    show(browser, name, tmp_path)
    assert faults(browser, width=390, dark=False) == []
    assert faults(browser, width=1440, dark=True) == []


def test_what_is_planted_is_found(browser: Tab, tmp_path: Path) -> None:
    """Negative control: pale text, a nameless picture, a heading too deep and the like."""
    show(browser, "small", tmp_path)
    browser.run(f"const main = document.querySelector('main'); {'; '.join(PLANTED.values())}")
    found = faults(browser, width=1440, dark=False)
    assert {rule for rule, _, _ in found} >= set(PLANTED)
