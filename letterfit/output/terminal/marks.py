"""How grave a finding is, as one sign with its tone."""

from letterfit.findings import Severity
from letterfit.output.terminal.sheet import Tone

MARKS: dict[Severity, tuple[str, Tone]] = {
    "error": ("✗", "fails"),
    "warning": ("!", "doubt"),
    "note": ("·", "quiet"),
}
