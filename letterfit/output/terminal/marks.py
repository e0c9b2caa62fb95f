"""A finding in a line: how grave it is as one sign with its tone, and what is told of it."""

from letterfit.findings import Finding, Severity
from letterfit.output.plain import one_line
from letterfit.output.terminal.sheet import Cell, Tone

MARKS: dict[Severity, tuple[str, Tone]] = {
    "error": ("✗", "fails"),
    "warning": ("!", "doubt"),
    "note": ("·", "quiet"),
}


def finding_mark(finding: Finding, *, before: str = "") -> Cell:
    """The sign of a finding, with what stands before it."""
    mark, tone = MARKS[finding.severity]
    return Cell(f"{before}{mark}", tone)


def finding_told(finding: Finding) -> str:
    """What was found, and what to do about it."""
    return " → ".join(filter(None, map(one_line, (finding.message, finding.advice))))


def finding_line(finding: Finding) -> tuple[Cell, str]:
    """A finding as a line of its own."""
    told = finding_told(finding)
    return finding_mark(finding), f" {told[:1].upper()}{told[1:]}"
