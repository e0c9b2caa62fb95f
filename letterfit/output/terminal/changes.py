"""What a fresh check says in a few lines: the verdict, and what changed since the last one."""

from collections.abc import Iterator, Sequence

from letterfit.counting import counted
from letterfit.output.panel_state import State, findings_of, states_of
from letterfit.output.terminal.report import headline
from letterfit.output.terminal.sheet import Sheet
from letterfit.output.terminal.todo import items
from letterfit.report.model import ScriptReport

MOST_WORDED = 4
"""So many panels are told with their words; the rest are counted."""

MOST_NAMED = 12
"""So many panels are named in each kind of change; the rest are counted."""

KINDS: dict[tuple[State, State], str] = {
    ("fits", "fails"): "newly failing",
    ("doubt", "fails"): "newly failing",
    ("fails", "fits"): "mended",
    ("fails", "doubt"): "mended, but against advice",
    ("fits", "doubt"): "newly against advice",
    ("doubt", "fits"): "no longer against advice",
}
"""What became of a panel, by how it stood and how it stands; the gravest first."""


def write_checked(
    sheet: Sheet,
    report: ScriptReport,
    *,
    before: ScriptReport | None = None,
    since: str = "",
    lead: str = "",
) -> None:
    """The verdict in one line, and if there was a check before, what changed since.

    Args:
        sheet: What is written to.
        report: The report of this check.
        before: That of the last one.
        since: When that was.
        lead: What stands before the verdict; other lines are indented as far.
    """
    sheet.line(lead, *headline(report, items(report)), indent=len(lead))
    if before is not None:
        told = changes_told(before, report)
        sheet.line(f"{' ' * len(lead)}Since {since}: {told}", indent=len(lead))


def changes_told(before: ScriptReport, after: ScriptReport) -> str:
    """Which panels became better or worse, in a few words; panels are told by their names.

    Where none did, the words that came or went say whether it goes the right way.
    """
    told = "; ".join(_changes(_states(before), _states(after)))
    if told:
        return f"{told}."
    words = "; ".join(_words_changed(before, after))
    return f"no panel's verdict changed{f'; {words}' if words else ''}."


def _states(report: ScriptReport) -> dict[str, State]:
    """How each panel stands; one whose lettering cannot all be set fails, though it is placed."""
    states = {name: state for page in report.pages for name, state in states_of(page).items()}
    for page in report.pages:
        for panel in page.panels:
            if any(f.severity == "error" for f in findings_of(panel, page.findings)):
                states[panel.id] = "fails"
    return states


def _changes(before: dict[str, State], after: dict[str, State]) -> Iterator[str]:
    kinds: dict[str, list[str]] = {kind: [] for kind in KINDS.values()}
    for name, state in after.items():
        kind = KINDS.get((before.get(name, "fits"), state))
        if kind is not None:
            kinds[kind].append(name)
    yield from (f"{kind}: {_named(names)}" for kind, names in kinds.items() if names)
    more, fewer = len(after.keys() - before.keys()), len(before.keys() - after.keys())
    if more or fewer:
        yield " and ".join(
            f"{counted(count, 'panel')} {way}"
            for count, way in ((more, "more"), (fewer, "fewer"))
            if count
        )


def _words_changed(before: ScriptReport, after: ScriptReport) -> Iterator[str]:
    """The panels that hold more words or fewer than before, with both numbers."""
    were = {panel.id: panel.words for page in before.pages for panel in page.panels}
    changed = [
        f"{panel.id} has {counted(panel.words, 'word')} (before {were[panel.id]})"
        for page in after.pages
        for panel in page.panels
        if panel.words != were.get(panel.id, panel.words)
    ]
    yield from changed[:MOST_WORDED]
    if len(changed) > MOST_WORDED:
        yield f"{counted(len(changed) - MOST_WORDED, 'panel')} more changed"


def _named(names: Sequence[str]) -> str:
    rest = len(names) - MOST_NAMED
    more = f" and {rest} more" if rest > 0 else ""
    return f"{', '.join(names[:MOST_NAMED])}{more}"
