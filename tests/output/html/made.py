"""Documents that tests share: reports made by hand, and two scripts that are really lettered."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache

from letterfit.output.html.document import to_html
from letterfit.report.model import ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output import reports

HOSTILE = "<script>document.title = 'run'</script> & \"<img src=x onerror=alert(1)>\" \x1b[31m \x07"

SCRIPT = f"""\
SLACK TIDE

PAGE ONE
TIERS: 2 @0.4 / 1

Panel 1. Wenna has the pilot by the sleeve. {HOSTILE}

WENNA (WHISPER): Listen to me, I really think that when that sill goes it goes all at once, and it
takes the gate, the cottage, the towpath and every boat between here and the weir, yours first.
PILOT: Well, you've said *that* every spring since before the boy was born, and every spring the
gate has held, and every spring I've paid you for the waiting, and I will pay you again.

Panel 2. The crack, the water through it.

SFX: SKREEE
CAPTION: {HOSTILE}

Panel 3. The gate shudders.

NO DIALOGUE.

PAGE TWO AND THREE (SPREAD)

Panel 1. Three figures on a gate that stands.

PILOT: Is it over?
WENNA (THOUGHT): Ask me at noon.
"""


@cache
def lettered() -> ScriptReport:
    """The script above, with cuts."""
    return preflight(parse_script(SCRIPT, source="slack <tide>.txt"), cuts=True)


REPORTS: Mapping[str, Callable[[], ScriptReport]] = {
    "small": reports.small,
    "nasty": lambda: replace(reports.nasty(), title=f"</title>{HOSTILE}", source=HOSTILE),
    "long": reports.long,
    "empty": reports.report,
    "lettered": lettered,
}
"""Reports by name."""


@cache
def document(name: str) -> str:
    """The document of a report."""
    return to_html(REPORTS[name]())
