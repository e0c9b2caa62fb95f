"""Run axe-core, which is not part of the tests, over a report: `python -m tests.output.html.check`.

Arguments: the report, and axe-core's `axe.min.js` (npm: axe-core). Prints what is wrong, width by
width, in light and dark; ends with 1 if anything is.
"""

import json
import sys
import tempfile
from itertools import product
from pathlib import Path

from tests.output.html.devtools import tab

RUN = """axe.run(document, {rules: {"target-size": {enabled: true}}}).then((found) =>
  [...found.violations, ...found.incomplete].map((one) => [one.id, one.nodes.length, one.help]))"""


def main(report: Path, axe: Path) -> int:
    """Check one report; the status."""
    wrong = 0
    with (
        tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder,
        tab(Path(folder)) as browser,
    ):
        browser.call("Page.setBypassCSP", enabled=True)
        browser.open(report.resolve().as_uri())
        browser.run(axe.read_text(encoding="utf-8"))
        for width, dark in product((390, 1440), (False, True)):
            browser.show(width=width, dark=dark)
            found = browser.run(RUN)
            wrong += len(found)
            print(width, "dark" if dark else "light", json.dumps(found))  # noqa: T201
    return int(wrong > 0)


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), Path(sys.argv[2])))
