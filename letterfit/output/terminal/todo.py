"""What needs doing, most pressing first: one item for each place, with numbers to act on.

First the panels that do not fit (the most to cut at the head), then lines of the script that were
not understood or lost, then what fits against advice. Notes are counted, not listed.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from letterfit.counting import counted
from letterfit.findings import Finding
from letterfit.output.panel_state import findings_of, own_findings
from letterfit.output.terminal.telling import READING, REMEDIES, heading, place, tell
from letterfit.report.limits import Limits
from letterfit.report.model import PageReport, PanelReport, ScriptReport

MOST_DOUBTFUL = 5
"""When more panels than this fit against advice, they are gathered by what speaks against them."""

PACE = ("tier-words", "panel-balloons", "tier-panels", "page-panels")
"""What is said of a page's pace alone: the panels it is about have findings of their own."""

SMALL_WORDS = ("A", "An", "Another", "No", "The")
"""First words of a finding that lose their capital within a sentence."""

MOST_PLACES = 12
"""So many places are named in a gathered item; the rest are counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something to do.

    Args:
        where: The place: "1.3", "page 2" or "script".
        line: Line of the script, if known.
        grave: Whether it keeps lettering from fitting, or lost some.
        what: What is wrong.
        todo: What to do.
        weight: How pressing, among items as grave: larger is more.
    """

    where: str
    line: int | None
    grave: bool
    what: str
    todo: str
    weight: float = 0.0


def items(report: ScriptReport) -> tuple[Item, ...]:
    """All there is to do, most pressing first; equals stay in script order."""
    doubtful = [item for page in report.pages for item in _doubtful(page, report.limits)]
    if len(doubtful) > MOST_DOUBTFUL:
        doubtful = list(by_kind(report))
    found = [
        *(item for page in report.pages for item in _failing(page)),
        *_elsewhere(report),
        *doubtful,
    ]
    return tuple(sorted(found, key=lambda item: (not item.grave, -item.weight)))


def page_items(page: PageReport, limits: Limits) -> tuple[Item, ...]:
    """All there is to do on one page, most pressing first."""
    own = (item for f in _own(page) for item in _plain_item(f, f"page {page.label}"))
    found = [*_failing(page), *own, *_doubtful(page, limits)]
    return tuple(sorted(found, key=lambda item: (not item.grave, -item.weight)))


def notes(report: ScriptReport) -> tuple[Finding, ...]:
    """What is only worth knowing; what breaks the steady distance has a table of its own."""
    return tuple(
        f for f in report.all_findings if f.severity == "note" and f.code != "uneven-figures"
    )


def _failing(page: PageReport) -> Iterator[Item]:
    for panel in page.panels:
        if panel.verdict != "placed":
            yield Item(
                where=panel.id,
                line=panel.line,
                grave=True,
                what=f"{why(panel)}.",
                todo=remedy(panel),
                weight=_weight(panel),
            )


def _weight(panel: PanelReport) -> float:
    """The most words to cut first; before them, what no cut of words mends."""
    words = panel.overflow.words if panel.overflow else None
    return 1e6 if words is None else 10.0 + words + min(panel.coverage, 0.9)


def why(panel: PanelReport) -> str:
    """Why a panel is not placed, in a few words and figures.

    The proof's own name is in the JSON.
    """
    over = panel.overflow
    load = f"{counted(panel.words, 'word')} in {counted(len(panel.balloons), 'balloon')}"
    if panel.verdict == "not found":
        return f"No place found for {load}, though none is proved impossible"
    if over is not None and over.area_mm2 > 0:
        return f"{load}: {over.area_mm2:.0f} mm² more than the panel holds"
    return f"{load} do not go in, in any of the shapes tried"


def remedy(panel: PanelReport) -> str:
    """What would make a panel fit, the gentlest way first."""
    over = panel.overflow
    ways = []
    if over is not None and over.words is not None:
        ways.append(f"cut {counted(over.words, 'word')}")
    if over is not None and over.height_mm is not None:
        ways.append(f"make the tier {over.height_mm:.0f} mm high (now {panel.rect.height:.0f})")
    if over is not None and over.size_pt is not None:
        ways.append(f"set it at {over.size_pt:g} pt (last resort)")
    if not ways and len(panel.balloons) == 1:
        return "Make its words fewer or shorter, or share them out over more panels."
    if not ways:
        return "Share its balloons out over more panels."
    return _sentence(", or ".join(ways))


def _elsewhere(report: ScriptReport) -> Iterator[Item]:
    """Findings that are on no panel: the script's, the paper's, each page's own."""
    for finding in report.findings:
        yield from _plain_item(finding, named(finding.where))
    own = {page.label: _own(page) for page in report.pages}
    several = sum(map(bool, own.values())) > MOST_DOUBTFUL
    for label, findings in own.items():
        for finding in findings:
            if not several or finding.severity == "error":
                yield from _plain_item(finding, f"page {label}")
    if several:
        yield from _by_kind_of_page(own, report.limits)


def _own(page: PageReport) -> list[Finding]:
    """What a page as a whole was found to have, but for notes."""
    return [finding for finding in own_findings(page) if finding.severity != "note"]


def _by_kind_of_page(own: Mapping[str, list[Finding]], limits: Limits) -> Iterator[Item]:
    """What speaks against many pages, one item for each kind, naming the pages."""
    kinds: dict[str, list[tuple[str, Finding]]] = {}
    for label, findings in own.items():
        for finding in findings:
            if finding.severity != "error":
                kinds.setdefault(finding.code, []).append((label, finding))
    for code, told in kinds.items():
        label, first = told[0]
        if len(told) == 1:
            yield from _plain_item(first, f"page {label}")
            continue
        rest = len(told) - MOST_PLACES
        pages = ", ".join(label for label, _ in told[:MOST_PLACES])
        yield Item(
            where=f"{len(told)} pages",
            line=None,
            grave=False,
            what=f"{heading(code, limits)}: {pages}{f' and {rest} more' if rest > 0 else ''}.",
            todo=first.advice,
            weight=_page_weight(first),
        )


def named(where: str) -> str:
    """A finding's place in words: "script", "page 2"; a panel or balloon by its number.

    >>> named(""), named("2"), named("2.3")
    ('script', 'page 2', '2.3')
    """
    if not where:
        return "script"
    return where if "." in where else f"page {where}"


def _plain_item(finding: Finding, where: str) -> Iterator[Item]:
    if finding.severity != "note":
        yield Item(
            where=where,
            line=finding.line,
            grave=finding.severity == "error",
            what=finding.message,
            todo=finding.advice,
            weight=_page_weight(finding),
        )


def _page_weight(finding: Finding) -> float:
    """Lost lines and wordy pages come before panels that fit against advice, mere pace after."""
    return 0.0 if finding.code in PACE else 5.0


def _doubtful(page: PageReport, limits: Limits) -> Iterator[Item]:
    """Panels that are placed, but against advice: all that was found on one, in one item."""
    for panel in page.panels:
        own = [f for f in findings_of(panel, page.findings) if f.severity != "note"]
        if panel.verdict != "placed" or not own:
            continue
        told = sorted((tell(f, panel, limits) for f in own), key=lambda one: one[2])
        whats = dict.fromkeys(_unstopped(what) for what, _, _ in told)
        yield Item(
            where=panel.id,
            line=panel.line,
            grave=any(f.severity == "error" for f in own),
            what=_sentence("; ".join(map(_within, [*whats, *_short_figure(panel, limits)]))),
            todo=_sentence("; ".join(_remedies([todo for _, todo, _ in told]))),
            weight=(2.0 if not panel.reading_certain else 0.0) + panel.coverage,
        )


def _short_figure(panel: PanelReport, limits: Limits) -> Iterator[str]:
    """That no layout leaves room for a whole figure, where that is proved."""
    if panel.bound_share < limits.whole_figure:
        yield (
            f"a figure of {panel.figure_height_mm:.0f} mm, at most {panel.figure_bound_mm:.0f} mm "
            "in any layout"
        )


def by_kind(report: ScriptReport) -> Iterator[Item]:
    """What speaks against panels that fit, one item for each kind, naming the panels."""
    kinds: dict[str, list[tuple[Finding, PanelReport]]] = {}
    for page in report.pages:
        for panel in page.panels:
            for finding in findings_of(panel, page.findings):
                if panel.verdict == "placed" and finding.severity != "note":
                    kinds.setdefault(finding.code, []).append((finding, panel))
    for code, told in kinds.items():
        grave = any(finding.severity == "error" for finding, _ in told)
        weight = float(code in READING) + len(told) / 1e6
        if len(told) == 1:
            ((finding, panel),) = told
            what, todo, _ = tell(finding, panel, report.limits)
            where, line = finding.where, finding.line
        else:
            what = f"{heading(code, report.limits)}: {_places(told)}"
            todo = REMEDIES.get(code, told[0][0].advice)
            where, line = f"{len(told)} places", None
        yield Item(
            where=where,
            line=line,
            grave=grave,
            what=_sentence(what),
            todo=_sentence(todo),
            weight=weight,
        )


def _places(told: list[tuple[Finding, PanelReport]]) -> str:
    """Where findings are, the first dozen by name."""
    rest = len(told) - MOST_PLACES
    more = f" and {rest} more" if rest > 0 else ""
    return ", ".join(place(finding, panel) for finding, panel in told[:MOST_PLACES]) + more


def _within(what: str) -> str:
    """What was found, as it stands within a sentence: a name keeps its capital.

    >>> _within("Another balloon is in the way"), _within("WENNA has no place")
    ('another balloon is in the way', 'WENNA has no place')
    """
    first, _, rest = what.partition(" ")
    return f"{first.lower()} {rest}" if first in SMALL_WORDS else what


def _remedies(told: list[str]) -> list[str]:
    """The remedies without what another one says already: fewer words cure a crowded panel."""
    remedies = list(dict.fromkeys(_unstopped(remedy) for remedy in told if remedy))
    cut = [remedy for remedy in remedies if remedy.startswith("cut ")]
    return [remedy for remedy in remedies if remedy not in cut[1:]]


def tally(found: tuple[Finding, ...]) -> str:
    """Codes counted, most frequent first: "mixed dashes (3), long word (1)"."""
    codes = Counter(f.code.replace("-", " ") for f in found)
    ordered = sorted(codes.items(), key=lambda entry: (-entry[1], entry[0]))
    return ", ".join(f"{code} ({times})" for code, times in ordered)


def _unstopped(text: str) -> str:
    text = text.strip()
    return text[:-1] if text.endswith(".") and not text.endswith("..") else text


def _sentence(text: str) -> str:
    kept = _unstopped(text)
    return f"{kept[:1].upper()}{kept[1:]}." if kept else ""
