"""The report in a real browser: Chromium without a window, where there is one.

Nothing is reported or requested, the layout holds from a phone to a wide screen, and every text is
readable in light and dark as the browser itself colours it.
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.lettering.browser import CHROMIUM
from tests.output.html.contrast import TEXT, contrast
from tests.output.html.devtools import Tab, tab
from tests.output.html.made import document
from tests.output.html.parsed import parse

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no Chromium on PATH (Debian: chromium): the report is not opened"
)

SAID = ("Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded")

WIDTHS = (320, 390, 1440)
"""CSS pixels: what WCAG 2.2, 1.4.10 asks to hold without scrolling across; a phone; a desk."""

COLOURS = """(() => {
  const seen = {};
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const own = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || own.closest("svg")) continue;
    let under = own;
    const ground = () => getComputedStyle(under).backgroundColor;
    while (ground() === "rgba(0, 0, 0, 0)") under = under.parentElement;
    seen[getComputedStyle(own).color + "/" + ground()] = 1;
  }
  return Object.keys(seen);
})()"""
"""The colours of all text, each with the ground it stands on."""


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tab]:
    """A tab that has the report open."""
    folder = tmp_path_factory.mktemp("browser")
    file = folder / "report.html"
    file.write_text(document("lettered"), encoding="utf-8")
    with tab(folder / "profile") as own:
        own.open(file.as_uri())
        yield own


def reported(browser: Tab, *methods: str) -> list[dict[str, Any]]:
    """What the browser reported of some kinds."""
    return [one["params"] for one in browser.reported if one["method"] in methods]


def test_nothing_is_said_and_nothing_requested(browser: Tab) -> None:
    """No message on the console; no request but for the file itself."""
    assert reported(browser, *SAID) == []
    asked = [one["request"]["url"] for one in reported(browser, "Network.requestWillBeSent")]
    assert [re.sub(".*/", "", url) for url in asked] == ["report.html"]


def test_the_browser_reads_what_our_parser_reads(browser: Tab) -> None:
    """The same ids in the same order, and every link lands."""
    ids = browser.run("[...document.querySelectorAll('[id]')].map((one) => one.id)")
    root = parse(document("lettered"))
    assert ids == [n.attributes["id"] for n in root.walk() if "id" in n.attributes]
    lost = browser.run(
        "[...document.querySelectorAll('[href^=\"#\"]')].map((one) => one.getAttribute('href'))"
        ".filter((href) => !document.getElementById(href.slice(1)))"
    )
    assert lost == []
    assert browser.run("document.title").startswith("SLACK TIDE")


@pytest.mark.parametrize("width", WIDTHS)
def test_the_layout_holds(browser: Tab, width: int) -> None:
    """Nothing makes the page scroll across."""
    browser.show(width=width)
    assert browser.run("innerWidth") == width
    assert browser.run("document.documentElement.scrollWidth") == width


def test_tables_are_read_whole_on_a_phone(browser: Tab) -> None:
    """No table is wider than its box at 390 px: nothing has to be pushed aside to be seen."""
    browser.show(width=390)
    wide = "[...document.querySelectorAll('.scroll')].filter((one) => one.scrollWidth > {})"
    assert browser.run(f"{wide.format('one.clientWidth')}.length") == 0
    assert browser.run(f"{wide.format(0)}.length") == 4


def test_drawing_and_text_stand_side_by_side_where_there_is_room(browser: Tab) -> None:
    """On a wide screen the drawing stays in sight beside its panels; on a phone above them."""
    place = "JSON.stringify(document.querySelector('.page {}').getBoundingClientRect())"
    for width, beside in ((1440, True), (390, False)):
        browser.show(width=width)
        sheet, told = (json.loads(browser.run(place.format(n))) for n in (".sheet", ".told"))
        assert (told["left"] >= sheet["right"]) is beside
        assert (told["top"] >= sheet["bottom"]) is not beside


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_every_text_is_readable(browser: Tab, *, dark: bool) -> None:
    """The colours that the browser gives text and ground are 4.5:1 or more apart."""
    browser.show(width=1440, dark=dark)
    pairs = [pair.split("/") for pair in browser.run(COLOURS)]
    assert len(pairs) >= 6
    for ink, ground in pairs:
        assert contrast(as_hex(ink), as_hex(ground)) >= TEXT, (ink, ground)
    grounds = {as_hex(ground) for _, ground in pairs}
    assert ("#ffffff" in grounds) is not dark


def as_hex(colour: str) -> str:
    """rgb(1, 2, 3) as #010203."""
    values = re.findall(r"\d+", colour)
    assert len(values) == 3, colour
    return "#" + "".join(f"{int(value):02x}" for value in values)


def test_panels_are_reached_by_keyboard(browser: Tab) -> None:
    """The first stop skips to the report; every panel of a drawing can have the focus."""
    browser.show(width=1440)
    first = browser.run("document.querySelector('a').getAttribute('href')")
    assert first == "#report"
    reached = browser.run(
        "[...document.querySelectorAll('.links a')].map((one) => {"
        " one.focus(); return document.activeElement === one; })"
    )
    assert reached == [True] * 4


def test_the_keyboard_leads_to_the_report_and_shows_where_it_is(browser: Tab) -> None:
    """The first stop comes into sight and skips to the report; the next are framed."""
    browser.show(width=1440)
    browser.run("document.body.tabIndex = -1; document.body.focus(); scrollTo(0, 0)")
    browser.press("Tab")
    where = "document.activeElement.getBoundingClientRect().left"
    assert browser.run("document.activeElement.className") == "skip"
    assert browser.run(where) >= 0
    browser.press("Enter")
    assert browser.run("document.activeElement.id") == "report"
    assert browser.run("document.querySelector('.skip').getBoundingClientRect().right") < 0
    browser.press("Tab")
    assert browser.run("document.activeElement.localName") == "a"
    assert browser.run("parseFloat(getComputedStyle(document.activeElement).outlineWidth)") >= 2


def test_each_page_is_printed_on_its_own_sheet(browser: Tab) -> None:
    """On paper every drawing starts a sheet and ends it; links to and over drawings are gone."""
    browser.call("Emulation.setEmulatedMedia", media="print")
    rules = "[...document.querySelectorAll('{}')].map((one) => getComputedStyle(one)['{}'])"
    assert browser.run(rules.format(".page", "breakBefore")) == ["page", "page"]
    assert browser.run(rules.format(".sheet", "breakAfter")) == ["page", "page"]
    assert browser.run(rules.format(".links", "display")) == ["none", "none"]
    assert set(browser.run(rules.format(".back", "display"))) == {"none"}
    browser.call("Emulation.setEmulatedMedia", media="")


def test_what_the_policy_forbids_would_be_reported(tmp_path: Path) -> None:
    """A script and a picture from elsewhere, planted, do not run or load, and are complained of."""
    planted = "<script>document.title = 'run'</script><img src='https://example.invalid/x.png'>"
    file = tmp_path / "planted.html"
    file.write_text(document("small").replace("</main>", f"{planted}</main>"), encoding="utf-8")
    with tab(tmp_path / "profile") as own:
        own.open(file.as_uri())
        assert own.run("document.title") != "run"
        assert len(reported(own, *SAID)) >= 2
