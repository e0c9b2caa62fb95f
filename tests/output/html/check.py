"""Run axe-core, a library that looks for what keeps people out, over a report.

`python -m tests.output.html.check FILE [axe.min.js]` prints what is wrong, width by width, in light
and dark; ends with 1 if anything is. The library is npm's `axe-core`, whose file AXE_CORE may name,
or the copy in PyPI's `axe-core-python`.
"""

import json
import os
import sys
import tempfile
from importlib.util import find_spec
from itertools import product
from pathlib import Path

from tests.output.html.devtools import Tab, tab

RUN = """axe.run(document, {rules: Object.fromEntries(axe.getRules()
    .filter((one) => one.ruleId === "target-size").map((one) => [one.ruleId, {enabled: true}]))})
  .then((found) => [...found.violations,
      ...found.incomplete.filter((one) => one.id !== "color-contrast")]
    .map((one) => [one.id, one.nodes.length, one.help]))"""
"""All rules, where it is known the one for the size of links (WCAG 2.2, 2.5.8) too.

What the library cannot tell counts as well, but for contrasts: `test_browser.py` measures them all.
"""

PAINT = (
    "document.querySelectorAll('.picture > :not(title, desc), .shapes').forEach(e => e.remove())"
)
"""Takes out what drawings paint, nine tenths of a document: nobody hears it or reaches it.

It stands in images, whose content is for the eye alone (WAI-ARIA 1.2, role img).
"""

Fault = tuple[str, int, str]
"""The name of a rule, at how many places it is broken, and what it asks for."""


def axe_core() -> Path | None:
    """The library's file; None where it is not installed."""
    if "AXE_CORE" in os.environ:
        return Path(os.environ["AXE_CORE"])
    spec = find_spec("axe_core_python")
    if spec is None or spec.origin is None:
        return None
    return Path(spec.origin).with_name("axe.min.js")


def opened(browser: Tab, report: Path, axe: Path) -> None:
    """Open a report with the library in it, which its policy would not let in."""
    browser.call("Page.setBypassCSP", enabled=True)
    browser.open(report.resolve().as_uri())
    assert not browser.run("document.querySelectorAll('.picture a, .picture [tabindex]').length")
    browser.run(PAINT)
    browser.run(axe.read_text(encoding="utf-8"))


def faults(browser: Tab, *, width: int, dark: bool) -> list[Fault]:
    """What is wrong with the report that is open."""
    browser.show(width=width, dark=dark)
    return [tuple(one) for one in browser.run(RUN)]


def main(report: Path, axe: Path) -> int:
    """Check one report; the status."""
    wrong = 0
    with (
        tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder,
        tab(Path(folder)) as browser,
    ):
        opened(browser, report, axe)
        for width, dark in product((390, 1440), (False, True)):
            found = faults(browser, width=width, dark=dark)
            wrong += len(found)
            print(width, "dark" if dark else "light", json.dumps(found))  # noqa: T201
    return int(wrong > 0)


if __name__ == "__main__":
    given = Path(sys.argv[2]) if len(sys.argv) > 2 else axe_core()
    if given is None:
        sys.exit("axe-core is not installed: pip install axe-core-python")
    sys.exit(main(Path(sys.argv[1]), given))
